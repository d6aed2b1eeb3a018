"""If these fail, what differs in a recovered plan is not said, or said wrongly."""

from __future__ import annotations

from dataclasses import fields

from studio_gui.domain.differences import Difference
from studio_gui.domain.plan import Plan
from studio_gui.wording.differences import differences_words
from studio_gui.wording.translation import ENGLISH

IN_GENERAL = "other settings"


def words(*found: Difference) -> str:
    return differences_words(found, ENGLISH)


def test_parts_are_told_in_one_line() -> None:
    assert words() == "nothing"
    assert words(Difference("title"), Difference("boundaries", 3)) == "the title, boundaries: 3"
    assert words(Difference("sections", 2, 1)) == "sections: 2 (1 more)"
    assert words(Difference("stocks", 2, -2)) == "stocks: 2 (2 fewer)"
    assert words(Difference("liquors", 1)) == "liquors: 1"


def test_every_part_of_a_plan_is_told() -> None:
    in_general = {field.name for field in fields(Plan) if words(Difference(field.name)) == IN_GENERAL}
    assert in_general <= {"mixing"}, "a new part of the plan has no words"
