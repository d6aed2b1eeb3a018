"""Frozen dataclasses as JSON, told by their fields' types.

The rule of this module: keys are the field names, and every field is there except one whose value is not
known (None), which leaves its key out. Nothing else is accepted, so that a slip of the pen is told and never
guessed at.

Codes: ``file-newer``, ``version-unknown``, ``unknown-key``, ``key-missing``, ``wrong-type``, ``not-one-of``,
``list-too-long``.
"""

from __future__ import annotations

import types
from collections.abc import Container, Iterable, Mapping
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

from studio_gui.domain.errors import FileProblem, InvalidPlan
from studio_gui.storage.strict_json import Json, kind_of, place_of, quoted

_JSON_KINDS: dict[object, str] = {float: "number", int: "integer", bool: "boolean", str: "string"}

#: No list of any document has more entries; counted before anything is made of them.
LONGEST_LIST = 5_000

_T = TypeVar("_T")


def take_version(document: dict[str, Json], ours: int, oldest: int | None = None) -> int:
    """Take the version out of `document` and return it.

    Raises
    ------
    FileProblem
        Unless it is from `oldest` (`ours` unless said) to `ours`.
    """
    if "version" not in document:
        raise FileProblem("key-missing", place="version", key="version")
    version = document.pop("version")
    if isinstance(version, bool) or not isinstance(version, int):
        raise _wrong_type("integer", version, "version")
    if version > ours:
        raise FileProblem("file-newer", place="version", version=version, ours=ours)
    if version < (ours if oldest is None else oldest):
        raise FileProblem("version-unknown", place="version", version=version, ours=ours)
    return version


class Shapes:
    """The dataclasses that a document is made of.

    Parameters
    ----------
    owners
        The dataclasses; their fields are of each other, `float`, `int`, `bool`, `str`, literals, tuples of
        these, or any of them or None.
    key_of_field
        What the dataclasses call a value in their refusals, where that is no name of one of their fields.
    """

    def __init__(self, owners: Iterable[type], key_of_field: Mapping[str, str]) -> None:
        self._shapes: dict[type, dict[str, object]] = {owner: get_type_hints(owner) for owner in owners}
        self._key_of_field = key_of_field

    def encoded(self, value: object) -> dict[str, Json]:
        """Return the members of the object that stands for `value`, in the order of its fields."""
        shapes = self._shapes[type(value)]
        members = ((key, _known(shape), getattr(value, key)) for key, shape in shapes.items())
        return {key: self._encoded(shape, member) for key, shape, member in members if member is not None}

    def decoded(self, owner: type[_T], members: dict[str, Json], place: str) -> _T:
        """Return the `owner` that `members` stand for.

        Raises
        ------
        FileProblem
            With the place of what is wrong. A value that no `owner` may hold keeps the code and the
            parameters of its `InvalidPlan`.
        """
        shapes = self._shapes[owner]
        absent = [key for key in shapes if key not in members]
        for key in members:
            if key not in shapes:
                here = place_of(place, key)
                raise FileProblem("unknown-key", place=here, key=quoted(key), absent=", ".join(absent))
        values: dict[str, Any] = {}
        for key, shape in shapes.items():
            known = _known(shape)
            if key in members:
                values[key] = self._decoded(known, members[key], place_of(place, key))
            elif known is not shape:
                values[key] = None
            else:
                raise FileProblem("key-missing", place=place_of(place, key), key=key)
        try:
            return owner(**values)
        except InvalidPlan as problem:
            raise self._refused(problem, shapes, place) from problem

    def _encoded(self, shape: object, value: object) -> Json:
        if isinstance(value, tuple):
            return [self._encoded(get_args(shape)[0], item) for item in value]
        if shape is float and isinstance(value, (int, float)):
            # A plan may hold 150 where 150.0 is meant; the file says one of them only.
            return float(value)
        if isinstance(value, (bool, int, str)):
            return value
        return self.encoded(value)

    def _decoded(self, shape: object, value: Json, place: str) -> object:
        if isinstance(shape, type) and shape in self._shapes:
            if not isinstance(value, dict):
                raise _wrong_type("object", value, place)
            return self.decoded(shape, value, place)
        if get_origin(shape) is tuple:
            if not isinstance(value, list):
                raise _wrong_type("array", value, place)
            if len(value) > LONGEST_LIST:
                raise FileProblem("list-too-long", place=place, count=len(value), most=LONGEST_LIST)
            item_shape = get_args(shape)[0]
            return tuple(self._decoded(item_shape, item, f"{place}[{i}]") for i, item in enumerate(value))
        if get_origin(shape) is Literal:
            return _decoded_choice(get_args(shape), value, place)
        if type(value) is shape:
            return value
        if shape is float and type(value) is int:
            return float(value)
        raise _wrong_type(_JSON_KINDS[shape], value, place)

    def _refused(self, problem: InvalidPlan, keys: Container[str], place: str) -> FileProblem:
        """Return `problem` with its place; texts from the file are cut to a length that can be shown."""
        params = {
            name: quoted(value) if isinstance(value, str) else value for name, value in problem.params.items()
        }
        field = str(problem.params.get("field", ""))
        key = field if field in keys else self._key_of_field.get(field, "")
        where = ".".join(part for part in (place, key) if part)
        return FileProblem(problem.code, **params | {"place": where})


def _known(shape: object) -> object:
    """Return the shape a value has when it is known: ``float`` for ``float | None``."""
    if get_origin(shape) in (Union, types.UnionType):
        return next(option for option in get_args(shape) if option is not types.NoneType)
    return shape


def _decoded_choice(choices: tuple[str, ...], value: Json, place: str) -> str:
    if not isinstance(value, str):
        raise _wrong_type("string", value, place)
    if value not in choices:
        raise FileProblem("not-one-of", place=place, value=quoted(value), allowed=", ".join(choices))
    return value


def _wrong_type(expected: str, value: Json, place: str) -> FileProblem:
    return FileProblem("wrong-type", place=place, expected=expected, found=kind_of(value))
