"""If these fail, two jars go by the same letter, or the sentence names the wrong one."""

from __future__ import annotations

import pytest

from studio_gui.domain.edits.letters import set_letter
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.new_plan import new_plan
from studio_gui.wording.sentences import refusal
from studio_gui.wording.translation import ENGLISH

PLAN = new_plan()


def test_a_letter_is_changed_and_may_be_set_to_itself() -> None:
    assert set_letter(PLAN, "q1", " K ").liquor("q1").letter == "K"
    assert set_letter(PLAN, "q1", "A") == PLAN


def test_a_letter_that_is_taken_is_refused_with_whose_it_is_and_one_that_is_free() -> None:
    with pytest.raises(EditRefused, match="letter-taken") as caught:
        set_letter(PLAN, "q1", "B")
    assert refusal(caught.value, PLAN, ENGLISH) == (
        "The letter B is that of liquor B Pale. Choose another, such as C."
    )
    assert "Pale" in refusal(caught.value, tongue=ENGLISH)


@pytest.mark.parametrize(("letter", "code"), [("  ", "text-empty"), ("WXYZ", "text-too-long")])
def test_what_is_no_letter_is_refused(letter: str, code: str) -> None:
    with pytest.raises(InvalidPlan, match=code):
        set_letter(PLAN, "q1", letter)
    with pytest.raises(InvalidPlan, match="unknown-liquor"):
        set_letter(PLAN, "gone", "Z")
