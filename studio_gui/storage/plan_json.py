"""Plans as JSON: what stands in `NAME.roving.json`.

The rule of this module: the file's keys are the field names of the dataclasses, and every field of theirs is
there except one whose value is not known (None), which leaves its key out. Nothing else is accepted, so that
a slip of the pen is told and never guessed at. Saving what was loaded gives the same bytes.

Codes, besides those of `strict_json` and of the plan itself: ``not-a-plan``, ``file-newer``,
``version-unknown``, ``unknown-key``, ``key-missing``, ``wrong-type``, ``not-one-of``.
"""

from __future__ import annotations

import types
from collections.abc import Container
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.errors import FileProblem, InvalidPlan
from studio_gui.domain.fibre import Fibre, Lay, MassMark
from studio_gui.domain.liquors import DyeDepth, Liquor, Part
from studio_gui.domain.plan import AcidLimits, AcidLine, Bench, Liquid, Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.stocks import Stock
from studio_gui.storage.strict_json import (
    LARGEST_FILE_BYTES,
    Json,
    kind_of,
    parse,
    place_of,
    quoted,
    serialise,
)

DOCUMENT = "roving-lay-plan"
VERSION = 1

_KEYS = (
    "title",
    "fibre",
    "lay",
    "liquid",
    "acid",
    "wicking_mm",
    "mixing",
    "bench",
    "acid_line",
    "stocks",
    "liquors",
    "sections",
    "boundaries",
)

#: What the dataclasses call a value in their refusals, where that is not the name of one of their own fields.
_KEY_OF_FIELD = {
    "fold_position_m": "fold_positions_m",
    "acid_ratio_limit": "ratio",
    "acid_floor_pct_owf": "floor_pct_owf",
    "acid_g_per_l": "jar_g_per_l",
    "stock_id": "id",
    "stock_name": "name",
    "liquor_id": "id",
    "liquor_name": "name",
    "section_id": "id",
    "section_name": "name",
    "boundary_m": "position_m",
    "fold_positions_m": "lay.fold_positions_m",
    "letter": "liquors",
    "depths": "liquors",
    "parts": "liquors",
}

#: The fields of every dataclass a plan is made of, in their order, each with its type.
_SHAPES: dict[type, dict[str, object]] = {
    owner: get_type_hints(owner)
    for owner in (
        Plan,
        Fibre,
        MassMark,
        Lay,
        Liquid,
        AcidLimits,
        AcidLine,
        Bench,
        Stock,
        Swatch,
        Liquor,
        Part,
        DyeDepth,
        Section,
        Boundary,
    )
}

_JSON_KINDS: dict[object, str] = {float: "number", int: "integer", bool: "boolean", str: "string"}

_T = TypeVar("_T")


def plan_to_json(plan: Plan) -> bytes:
    """Return the file's content for `plan`; the same plan always gives the same bytes.

    Raises
    ------
    FileProblem
        ``file-too-large`` for a plan that could not be read again.
    """
    members = _encoded_members(Plan, plan)
    document: dict[str, Json] = {"document": DOCUMENT, "version": VERSION}
    data = serialise(document | {key: members[key] for key in _KEYS if key in members})
    if len(data) > LARGEST_FILE_BYTES:
        raise FileProblem("file-too-large", most_bytes=LARGEST_FILE_BYTES)
    return data


def plan_from_json(data: bytes) -> Plan:
    """Return the plan that `data` holds.

    Raises
    ------
    FileProblem
        With the place, ``place`` (JSON path) or ``line`` and ``column``, unless the whole is too large. A
        value that no plan may hold keeps the code and the parameters of its `InvalidPlan`.
    """
    document = parse(data)
    if not isinstance(document, dict):
        raise FileProblem("not-a-plan", place="", found=kind_of(document))
    name = document.pop("document", "")
    if name != DOCUMENT:
        found = quoted(name) if isinstance(name, str) else kind_of(name)
        raise FileProblem("not-a-plan", place="document", found=found)
    if "version" not in document:
        raise FileProblem("key-missing", place="version", key="version")
    version = document.pop("version")
    if isinstance(version, bool) or not isinstance(version, int):
        raise _wrong_type("integer", version, "version")
    if version > VERSION:
        raise FileProblem("file-newer", place="version", version=version, ours=VERSION)
    if version < VERSION:
        raise FileProblem("version-unknown", place="version", version=version, ours=VERSION)
    return _decoded_object(Plan, document, "")


def _known(shape: object) -> object:
    """Return the shape a value has when it is known: ``float`` for ``float | None``."""
    if get_origin(shape) in (Union, types.UnionType):
        return next(option for option in get_args(shape) if option is not types.NoneType)
    return shape


def _encoded_members(owner: type, value: object) -> dict[str, Json]:
    members = ((key, _known(shape), getattr(value, key)) for key, shape in _SHAPES[owner].items())
    return {key: _encoded(shape, member) for key, shape, member in members if member is not None}


def _encoded(shape: object, value: object) -> Json:
    if isinstance(value, tuple):
        return [_encoded(get_args(shape)[0], item) for item in value]
    if shape is float and isinstance(value, (int, float)):
        # A plan may hold 150 where 150.0 is meant; the file says one of them only.
        return float(value)
    if isinstance(value, (bool, int, str)):
        return value
    return _encoded_members(type(value), value)


def _decoded(shape: object, value: Json, place: str) -> object:
    if isinstance(shape, type) and shape in _SHAPES:
        if not isinstance(value, dict):
            raise _wrong_type("object", value, place)
        return _decoded_object(shape, value, place)
    if get_origin(shape) is tuple:
        if not isinstance(value, list):
            raise _wrong_type("array", value, place)
        return tuple(_decoded(get_args(shape)[0], item, f"{place}[{i}]") for i, item in enumerate(value))
    if get_origin(shape) is Literal:
        return _decoded_choice(get_args(shape), value, place)
    if type(value) is shape:
        return value
    if shape is float and type(value) is int:
        return float(value)
    raise _wrong_type(_JSON_KINDS[shape], value, place)


def _decoded_choice(choices: tuple[str, ...], value: Json, place: str) -> str:
    if not isinstance(value, str):
        raise _wrong_type("string", value, place)
    if value not in choices:
        raise FileProblem("not-one-of", place=place, value=quoted(value), allowed=", ".join(choices))
    return value


def _decoded_object(owner: type[_T], members: dict[str, Json], place: str) -> _T:
    shapes = _SHAPES[owner]
    absent = [key for key in shapes if key not in members]
    for key in members:
        if key not in shapes:
            here = place_of(place, key)
            raise FileProblem("unknown-key", place=here, key=quoted(key), absent=", ".join(absent))
    values: dict[str, Any] = {}
    for key, shape in shapes.items():
        known = _known(shape)
        if key in members:
            values[key] = _decoded(known, members[key], place_of(place, key))
        elif known is not shape:
            values[key] = None
        else:
            raise FileProblem("key-missing", place=place_of(place, key), key=key)
    try:
        return owner(**values)
    except InvalidPlan as problem:
        raise _refused(problem, shapes, place) from problem


def _refused(problem: InvalidPlan, keys: Container[str], place: str) -> FileProblem:
    """Return `problem` with its place; texts from the file are cut to a length that can be shown."""
    params = {
        name: quoted(value) if isinstance(value, str) else value for name, value in problem.params.items()
    }
    field = str(problem.params.get("field", ""))
    key = field if field in keys else _KEY_OF_FIELD.get(field, "")
    where = ".".join(part for part in (place, key) if part)
    return FileProblem(problem.code, **params | {"place": where})


def _wrong_type(expected: str, value: Json, place: str) -> FileProblem:
    return FileProblem("wrong-type", place=place, expected=expected, found=kind_of(value))
