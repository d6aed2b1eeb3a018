"""If these fail, a broken or hostile file hangs the program, or opens as something that is not in it."""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.errors import FileProblem, Param
from studio_gui.storage.strict_json import (
    DEEPEST_NESTING,
    LARGEST_FILE_BYTES,
    LARGEST_INTEGER,
    LONGEST_QUOTE,
    Json,
    kind_of,
    parse,
    place_of,
    quoted,
    serialise,
)

_TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=8)
_DOCUMENTS: st.SearchStrategy[Json] = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-LARGEST_INTEGER, LARGEST_INTEGER)
    | st.floats(allow_nan=False, allow_infinity=False)
    | _TEXTS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(_TEXTS, inner, max_size=5),
    max_leaves=20,
)


def refusal(data: bytes) -> tuple[str, dict[str, Param]]:
    with pytest.raises(FileProblem) as caught:
        parse(data)
    return caught.value.code, caught.value.params


@given(_DOCUMENTS)
def test_what_is_written_reads_back_alike(document: Json) -> None:
    data = serialise(document)

    assert parse(data) == document
    assert json.loads(data) == document
    assert serialise(parse(data)) == data
    assert data.endswith(b"\n")


@given(
    st.binary(max_size=60) | st.text(alphabet='[]{}",:\\u0dE+-.1e9 NaInfty\n', max_size=60).map(str.encode)
)
def test_any_bytes_are_read_as_other_readers_read_them_or_refused(data: bytes) -> None:
    try:
        document = parse(data)
    except FileProblem:
        return
    assert document == json.loads(data)


def test_short_rows_take_one_line_and_all_else_is_indented() -> None:
    document: Json = {
        "fold_positions_m": [1.5, 3.0, 4.5, 6.0],
        "mass_marks": [],
        "parts": [{"stock_id": "rust", "parts": 12.0}, {"stock_id": "water", "parts": 38.0}],
        "bench": {"a": 0.1, "b": True, "c": None, "d": "é🐑"},
    }

    assert serialise(document).decode().splitlines() == [
        "{",
        '  "fold_positions_m": [1.5, 3.0, 4.5, 6.0],',
        '  "mass_marks": [],',
        '  "parts": [',
        '    {"stock_id": "rust", "parts": 12.0},',
        '    {"stock_id": "water", "parts": 38.0}',
        "  ],",
        '  "bench": {',
        '    "a": 0.1,',
        '    "b": true,',
        '    "c": null,',
        '    "d": "é🐑"',
        "  }",
        "}",
    ]


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_no_reader_takes_is_never_written(value: float) -> None:
    with pytest.raises(ValueError, match="Out of range float"):
        serialise({"length_m": value})


def test_a_file_of_the_largest_size_is_read_and_one_byte_more_is_not() -> None:
    padding = b" " * (LARGEST_FILE_BYTES - 2)

    assert parse(b"{}" + padding) == {}
    assert refusal(b"{}" + padding + b" ") == ("file-too-large", {"most_bytes": LARGEST_FILE_BYTES})


@pytest.mark.parametrize(
    ("data", "code", "line", "column"),
    [
        (b'\xef\xbb\xbf{"title": ""}', "byte-order-mark", 1, 1),
        ('{"title": ""}'.encode("utf-16"), "not-utf8", 1, 1),
        (b'{\n"title": "\xc3\xa9\xff"}', "not-utf8", 2, 12),
        (b'{"title": "\xed\xa0\x80"}', "not-utf8", 1, 12),
        (b'{"title": "\xc0\xae"}', "not-utf8", 1, 12),
    ],
)
def test_what_is_not_plain_utf8_is_refused_where_it_starts(
    data: bytes, code: str, line: int, column: int
) -> None:
    assert refusal(data) == (code, {"line": line, "column": column})


@pytest.mark.parametrize(
    ("data", "line", "column", "cut_short"),
    [
        (b"garbage{{{", 1, 1, False),
        (b'{"title": "Tw', 1, 11, True),
        (b'{"locked": tr', 1, 12, True),
        (b"{\n  'title': 1\n}", 2, 3, False),
        (b'{"title": "a\nb"}', 1, 13, False),
        (b'{"title": "Two Sh', 1, 11, True),
        (b'{"title": "Two Shores",\n "sections": [', 2, 15, True),
        (b"{} {}", 1, 4, False),
        (b'{"a": 1 "b": 2}', 1, 9, False),
        (b'{"a": +1}', 1, 7, False),
        (b'{"a": 01}', 1, 8, False),
        (b'{"a": .5}', 1, 7, False),
        (b'{"a": nan}', 1, 7, False),
        (b"[1, // thin\n2]", 1, 5, False),
    ],
)
def test_broken_text_is_refused_where_it_breaks(data: bytes, line: int, column: int, cut_short: bool) -> None:
    assert refusal(data) == ("not-json", {"line": line, "column": column, "cut_short": cut_short})


@pytest.mark.parametrize("data", [b"", b" \r\n\t\n", b"\0" * 4_096])
def test_a_file_that_was_never_filled_is_told_as_such(data: bytes) -> None:
    assert refusal(data) == ("file-empty", {})


@pytest.mark.parametrize(("opening", "closing"), [("[", "]"), ('{"a":', "}")])
def test_nesting_is_capped_before_the_parser_recurses(opening: str, closing: str) -> None:
    deepest = opening * DEEPEST_NESTING + "1" + closing * DEEPEST_NESTING
    deeper = opening * (DEEPEST_NESTING + 1) + "1" + closing * (DEEPEST_NESTING + 1)
    column = len(opening) * DEEPEST_NESTING + 1

    assert serialise(parse(deepest.encode())).count(closing.encode()) == DEEPEST_NESTING
    assert refusal(deeper.encode()) == (
        "nested-too-deep",
        {"line": 1, "column": column, "deepest": DEEPEST_NESTING},
    )
    assert refusal((opening * 100_000).encode())[0] == "nested-too-deep"


def test_brackets_in_texts_are_no_nesting() -> None:
    title = '[{"' * 100 + "\\"

    assert parse(json.dumps({"title": title, "next": [title]}).encode()) == {"title": title, "next": [title]}


@pytest.mark.parametrize(
    ("data", "code", "params"),
    [
        ("NaN", "not-finite", {"value": "NaN"}),
        ("Infinity", "not-finite", {"value": "Infinity"}),
        ("-Infinity", "not-finite", {"value": "-Infinity"}),
        ("1e999", "number-too-large", {"value": "1e999"}),
        ("-1e999", "number-too-large", {"value": "-1e999"}),
        (f"{2**53 + 1}", "number-too-large", {"value": "9007199254740993"}),
        (f"-{2**53 + 1}", "number-too-large", {"value": "-9007199254740993"}),
        ("9" * 10_000, "number-too-large", {"value": "9" * (LONGEST_QUOTE - 1) + "…"}),
        (r'"\ud83d"', "lone-surrogate", {}),
        (r'"\ude00\ud83d"', "lone-surrogate", {}),
    ],
)
def test_a_value_that_cannot_be_kept_is_refused_with_its_place(
    data: str, code: str, params: dict[str, Param]
) -> None:
    document = '{"sections": [{}, {"liquor_id": ' + data + "}]}"

    assert refusal(document.encode()) == (code, params | {"place": "sections[1].liquor_id"})


def test_numbers_keep_their_kind_and_every_digit() -> None:
    values = parse(b"[150, 150.0, 0.1, -0.0, 1e-7, 5e-324, 9007199254740992, -3]")

    assert isinstance(values, list)
    assert [repr(value) for value in values] == [
        *("150", "150.0", "0.1", "-0.0", "1e-07", "5e-324", "9007199254740992", "-3")
    ]


def test_a_pair_of_surrogates_is_one_character() -> None:
    assert parse(rb'"\ud83d\udc11"') == "🐑"


def test_a_key_given_twice_is_refused_though_both_say_the_same() -> None:
    data = b'{"lay": {"matching": "by length", "passes": 1, "matching": "by length"}}'

    assert refusal(data) == ("key-twice", {"place": "lay.matching", "key": "matching"})


def test_a_key_in_two_spellings_of_the_same_characters_is_still_twice() -> None:
    assert refusal(rb'{"a": 1, "\u0061": 2}') == ("key-twice", {"place": "a", "key": "a"})


def test_a_key_with_half_a_character_is_refused() -> None:
    assert refusal(rb'{"lay": {"\udead": 1}}') == ("lone-surrogate", {"place": 'lay["\ufffd"]'})


def test_places_of_odd_keys_stay_short_and_printable() -> None:
    assert place_of("", "title") == "title"
    assert place_of("lay", "matching") == "lay.matching"
    assert place_of("", "two\nlines") == '["two\ufffdlines"]'
    assert len(place_of("lay", "a" * 1000)) < LONGEST_QUOTE + 10


def test_quotes_keep_what_a_reader_can_see() -> None:
    assert quoted("👩‍🎨 أزرق") == "👩‍🎨 أزرق"
    assert quoted("x" * LONGEST_QUOTE) == "x" * LONGEST_QUOTE
    assert quoted("x" * (LONGEST_QUOTE + 1)) == "x" * (LONGEST_QUOTE - 1) + "…"


def test_every_kind_has_the_name_the_format_gives_it() -> None:
    values: list[Json] = [None, True, 1, 1.0, "", [], {}]

    assert [kind_of(value) for value in values] == [
        *("null", "boolean", "integer", "number", "string", "array", "object")
    ]
