"""Saved ladders: a name, the typed line, and how it is laid.

The rule of this module: a template says nothing of stocks, which are taken by their place in the line, so
that it serves with any. Names are unique. What stands in the file is strict and versioned, as plans are.

Codes, besides those of `strict_json` and `shapes`: ``not-ladders``, ``name-taken``, ``ladder-not-there``.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from studio_gui.domain.edits.ladders import Lengths
from studio_gui.domain.errors import FileProblem, InvalidPlan
from studio_gui.domain.sections import LiquidMode
from studio_gui.domain.text import NAME_MAX, checked_text
from studio_gui.storage.shapes import Shapes, take_version
from studio_gui.storage.strict_json import Json, kind_of, parse, quoted, serialise

DOCUMENT = "roving-lay-ladders"
VERSION = 1
MOST_LADDERS = 200
LINE_MAX = 2_000


@dataclass(frozen=True, slots=True)
class LadderTemplate:
    """A ladder to be used again: its line, such as "12+36, 24+24", and its options."""

    name: str
    line: str
    lengths: Lengths = "equal"
    liquid: LiquidMode = "fixed"

    def __post_init__(self) -> None:
        checked_text("ladder_name", self.name, NAME_MAX, may_be_empty=False)
        checked_text("ladder_line", self.line, LINE_MAX, may_be_empty=False)


@dataclass(frozen=True, slots=True)
class LadderTemplates:
    """All saved ladders, in the order they were saved."""

    ladders: tuple[LadderTemplate, ...] = ()

    def __post_init__(self) -> None:
        if len(self.ladders) > MOST_LADDERS:
            raise InvalidPlan("too-many", field="ladders", count=len(self.ladders), most=MOST_LADDERS)
        seen: set[str] = set()
        for ladder in self.ladders:
            if ladder.name in seen:
                raise InvalidPlan("name-taken", field="ladders", value=ladder.name)
            seen.add(ladder.name)

    def find(self, name: str) -> LadderTemplate:
        """Return the ladder of that name; `InvalidPlan` ``ladder-not-there`` when there is none."""
        for ladder in self.ladders:
            if ladder.name == name:
                return ladder
        raise InvalidPlan("ladder-not-there", value=name)

    def plus(self, ladder: LadderTemplate) -> LadderTemplates:
        """Return these and one more; `InvalidPlan` ``name-taken`` when there is one of its name."""
        return LadderTemplates((*self.ladders, ladder))

    def renamed(self, name: str, new_name: str) -> LadderTemplates:
        """Return these with one called otherwise; `InvalidPlan` as `plus` and `find`."""
        found = self.find(name)
        renamed = replace(found, name=new_name)
        return LadderTemplates(tuple(renamed if ladder is found else ladder for ladder in self.ladders))

    def without(self, name: str) -> LadderTemplates:
        """Return these without the one of that name; `InvalidPlan` as `find`."""
        found = self.find(name)
        return LadderTemplates(tuple(ladder for ladder in self.ladders if ladder is not found))


_SHAPES = Shapes((LadderTemplates, LadderTemplate), {"ladder_name": "name", "ladder_line": "line"})


def ladders_to_json(templates: LadderTemplates) -> bytes:
    """Return the file's content for `templates`; the same ladders always give the same bytes."""
    head: dict[str, Json] = {"document": DOCUMENT, "version": VERSION}
    return serialise(head | _SHAPES.encoded(templates))


def ladders_from_json(data: bytes) -> LadderTemplates:
    """Return the ladders that `data` holds; `FileProblem` with the place of what is wrong.

    >>> halving = LadderTemplates((LadderTemplate("Halving", "48+0, 24+24"),))
    >>> ladders_from_json(ladders_to_json(halving)) == halving
    True
    """
    document = parse(data)
    if not isinstance(document, dict):
        raise FileProblem("not-ladders", place="", found=kind_of(document))
    name = document.pop("document", "")
    if name != DOCUMENT:
        found = quoted(name) if isinstance(name, str) else kind_of(name)
        raise FileProblem("not-ladders", place="document", found=found)
    take_version(document, VERSION)
    return _SHAPES.decoded(LadderTemplates, document, "")
