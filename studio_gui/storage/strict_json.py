"""JSON, read strictly and written so that it diffs well.

The rule of this module: a document is read whole or refused with its place; nothing in it is guessed, mended
or dropped. Plain UTF-8 without a byte order mark, at most `LARGEST_FILE_BYTES`, at most `DEEPEST_NESTING`
brackets deep, at most `MOST_SIGNS` texts, brackets and commas, every key once, every number finite and exact,
every text made of whole characters. Size, depth and count are known before anything is made of the text, so
that no file takes long or much memory to be refused.

Codes: ``file-too-large``, ``byte-order-mark``, ``not-utf8``, ``nested-too-deep``, ``too-many-values``,
``file-empty``, ``not-json``, ``key-twice``, ``not-finite``, ``number-too-large``, ``lone-surrogate``.
"""

from __future__ import annotations

import codecs
import json
import math
import re
import unicodedata
from collections.abc import Container, Iterable
from dataclasses import dataclass
from typing import TypeAlias

from studio_gui.domain.errors import FileProblem

Json: TypeAlias = "bool | int | float | str | list[Json] | dict[str, Json] | None"
_Raw: TypeAlias = "bool | str | list[_Raw] | _Members | None"

LARGEST_FILE_BYTES = 8 * 1024 * 1024
DEEPEST_NESTING = 32

#: Texts, brackets and commas in a document; 2,000 sections with as many liquors of five stocks have half.
MOST_SIGNS = 250_000

#: Whole numbers up to here are the same in every program that reads JSON numbers as doubles.
LARGEST_INTEGER = 2**53
_LONGEST_INTEGER = len(str(-LARGEST_INTEGER))

LONGEST_QUOTE = 60
MOST_VALUES_ON_ONE_LINE = 3

#: What a file consists of that was made and never filled; zeros are left by a power cut on some disks.
_NOTHING = b" \t\r\n\0"

# A string is taken whole, closed or not, so that what stands inside it does not count.
_SIGN = re.compile(r'"[^"\\]*+(?:\\.[^"\\]*+)*+"?|[\[\]{},]', re.DOTALL)
_SURROGATE = re.compile("[\ud800-\udfff]")
_ENCODER = json.JSONEncoder(ensure_ascii=False, allow_nan=False)
_PLAIN_KEY = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")


class _Number(str):
    """A number as it stands in the file, not yet judged."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class _Members:
    """The members of an object in file order, not yet judged."""

    pairs: list[tuple[str, _Raw]]


class _Refused(Exception):
    """A value is refused; its place is told from the inside out, so that no other value has one made."""

    def __init__(self, code: str, **params: str) -> None:
        super().__init__(code)
        self.code, self.params = code, params
        self.steps: list[str | int] = []

    def as_problem(self) -> FileProblem:
        place = ""
        for step in reversed(self.steps):
            place = f"{place}[{step}]" if isinstance(step, int) else place_of(place, step)
        return FileProblem(self.code, place=place, **self.params)


def parse(data: bytes) -> Json:
    """Return the value that `data` holds.

    Raises
    ------
    FileProblem
        With ``line`` and ``column`` (both from 1) where the text breaks, or ``place`` (``sections[3].name``;
        empty for the document itself) where a value does. ``not-json`` also tells ``cut_short``: whether the
        file breaks in its last value, with brackets still open.

    >>> parse(b'{"title": "Two Shores"}')
    {'title': 'Two Shores'}
    """
    if len(data) > LARGEST_FILE_BYTES:
        raise FileProblem("file-too-large", most_bytes=LARGEST_FILE_BYTES)
    if not data.strip(_NOTHING):
        raise FileProblem("file-empty")
    text = _decoded(data)
    open_brackets = _checked_signs(text)
    try:
        raw = json.loads(
            text, object_pairs_hook=_Members, parse_int=_Number, parse_float=_Number, parse_constant=_Number
        )
    except json.JSONDecodeError as error:
        is_cut = open_brackets > 0 and _is_in_last_value(error)
        raise FileProblem("not-json", line=error.lineno, column=error.colno, cut_short=is_cut) from error
    try:
        return _judged(raw)
    except _Refused as refused:
        raise refused.as_problem() from refused


def _is_in_last_value(error: json.JSONDecodeError) -> bool:
    """Tell whether nothing comes after what cannot be read."""
    return error.msg.startswith("Unterminated") or not set("[]{}:,") & set(error.doc[error.pos :])


def check_bounds(data: bytes) -> None:
    """Refuse `data`, which is JSON of our own, when `parse` would for its size or count.

    Raises
    ------
    FileProblem
        ``file-too-large``, ``too-many-values``.
    """
    if len(data) > LARGEST_FILE_BYTES:
        raise FileProblem("file-too-large", most_bytes=LARGEST_FILE_BYTES)
    # Signs inside texts count here too: seldom enough, and only then is it worth to look closely.
    if sum(data.count(sign) for sign in b'"[]{},') > MOST_SIGNS:
        _checked_signs(data.decode())


def serialise(document: Json) -> bytes:
    r"""Return `document` as indented UTF-8 with a newline at its end, keys in the order given.

    Objects of at most `MOST_VALUES_ON_ONE_LINE` plain values, and lists of plain values, take one line each.
    Numbers keep their full precision.

    >>> serialise({"gap_m": 0.0})
    b'{"gap_m": 0.0}\n'
    """
    return (_laid_out(document, "\n") + "\n").encode()


def place_of(place: str, key: str) -> str:
    """Return the place of the member `key` of the object at `place`.

    >>> place_of("sections[3]", "liquor_id"), place_of("", "title"), place_of("lay", "a b")
    ('sections[3].liquor_id', 'title', 'lay["a b"]')
    """
    if len(key) > LONGEST_QUOTE or not _PLAIN_KEY.fullmatch(key):
        return f'{place}["{quoted(key)}"]'
    return f"{place}.{key}" if place else key


def quoted(text: str) -> str:
    r"""Return `text` fit to be shown in a message: at most `LONGEST_QUOTE` characters, all of them printable.

    >>> quoted("a" * 100)[-3:], quoted("two\nlines")
    ('aa…', 'two�lines')
    """
    short = text if len(text) <= LONGEST_QUOTE else text[: LONGEST_QUOTE - 1] + "…"
    return "".join("\ufffd" if unicodedata.category(c) in ("Cc", "Cs") else c for c in short)


def kind_of(value: Json) -> str:
    """Return JSON's name for the type of `value`, with whole numbers told apart: ``integer`` or ``number``.

    >>> kind_of(True), kind_of(1), kind_of(1.5), kind_of({})
    ('boolean', 'integer', 'number', 'object')
    """
    if value is None:
        return "null"
    names = {bool: "boolean", int: "integer", float: "number", str: "string", list: "array", dict: "object"}
    return names[type(value)]


def _decoded(data: bytes) -> str:
    if data.startswith(codecs.BOM_UTF8):
        raise FileProblem("byte-order-mark", line=1, column=1)
    try:
        return data.decode()
    except UnicodeDecodeError as error:
        line, column = _line_and_column(data[: error.start].decode())
        raise FileProblem("not-utf8", line=line, column=column) from error


def _line_and_column(before: str) -> tuple[int, int]:
    return before.count("\n") + 1, len(before) - before.rfind("\n")


def _checked_signs(text: str) -> int:
    """Return how many brackets are open at the end, refusing a text that goes too deep or on too long."""
    depth = 0
    for count, match in enumerate(_SIGN.finditer(text), start=1):
        sign = text[match.start()]
        if sign in "[{":
            depth += 1
            if depth > DEEPEST_NESTING:
                line, column = _line_and_column(text[: match.start()])
                raise FileProblem("nested-too-deep", line=line, column=column, deepest=DEEPEST_NESTING)
        elif sign in "]}":
            depth -= 1
        if count > MOST_SIGNS:
            line, column = _line_and_column(text[: match.start()])
            raise FileProblem("too-many-values", line=line, column=column)
    return depth


def _judged(raw: _Raw) -> Json:
    if isinstance(raw, _Number):
        return _judged_number(raw)
    if isinstance(raw, str):
        return _judged_text(raw)
    if isinstance(raw, _Members):
        return _judged_members(raw)
    return _judged_list(raw) if isinstance(raw, list) else raw


def _judged_list(items: list[_Raw]) -> list[Json]:
    judged: list[Json] = []
    try:
        for item in items:
            judged.append(_judged(item))  # noqa: PERF401  (how many came before is the place)
    except _Refused as refused:
        refused.steps.append(len(judged))
        raise
    return judged


def _judged_members(members: _Members) -> dict[str, Json]:
    judged: dict[str, Json] = {}
    key = ""
    try:
        for key, value in members.pairs:
            whole_key = _judged_key(key, judged)
            judged[whole_key] = _judged(value)
    except _Refused as refused:
        refused.steps.append(key)
        raise
    return judged


def _judged_key(key: str, before: Container[str]) -> str:
    if _judged_text(key) in before:
        raise _Refused("key-twice", key=quoted(key))
    return key


def _judged_number(text: str) -> int | float:
    if text in ("NaN", "Infinity", "-Infinity"):
        raise _Refused("not-finite", value=str(text))
    if text.removeprefix("-").isdigit():
        # Counted first: turning very many digits into a number is slow, and Python refuses it.
        if len(text) <= _LONGEST_INTEGER and abs(int(text)) <= LARGEST_INTEGER:
            return int(text)
        raise _Refused("number-too-large", value=quoted(text))
    number = float(text)
    if math.isinf(number):
        raise _Refused("number-too-large", value=quoted(text))
    return number


def _judged_text(text: str) -> str:
    if _SURROGATE.search(text):
        raise _Refused("lone-surrogate")
    return text


def _laid_out(value: Json, newline: str) -> str:
    inner = newline + "  "
    if isinstance(value, dict) and not (_all_plain(value.values()) and len(value) <= MOST_VALUES_ON_ONE_LINE):
        members = (f"{_plain(key)}: {_laid_out(item, inner)}" for key, item in value.items())
        return "{" + inner + ("," + inner).join(members) + newline + "}"
    if isinstance(value, list) and not _all_plain(value):
        items = (_laid_out(item, inner) for item in value)
        return "[" + inner + ("," + inner).join(items) + newline + "]"
    return _plain(value)


def _all_plain(values: Iterable[Json]) -> bool:
    return not any(isinstance(value, (list, dict)) for value in values)


def _plain(value: Json) -> str:
    if isinstance(value, float) and math.isfinite(value):
        return float.__repr__(value)  # as the encoder does, which takes ten times as long to get there
    return _ENCODER.encode(value)
