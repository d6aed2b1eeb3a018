"""If these fail, a step of the work has no words, or a caution stands where it is not needed."""

from __future__ import annotations

from dataclasses import replace

from studio_gui.domain.edits.inputs import set_liquid
from studio_gui.domain.edits.stocks import set_acid_everywhere
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.timetable import STEPS
from studio_gui.domain.worksheet import worksheet
from studio_gui.wording.translation import ENGLISH
from studio_gui.wording.work_words import safety_words, step_name, step_words, stock_work


def test_every_step_has_a_name_and_sentences_of_its_own() -> None:
    sheet = worksheet(new_plan())
    assert len({step_name(step, ENGLISH) for step in STEPS}) == len(STEPS)
    said = [step_words(sheet, step, ENGLISH) for step in STEPS]
    assert len(set(said)) == len(STEPS)
    assert all(words.endswith(".") for words in (*said, safety_words(ENGLISH)))


def test_the_soak_says_how_wet_and_how_sour_it_is() -> None:
    plain, sour, unknown = (
        step_words(worksheet(set_liquid(new_plan(), soak_acid_g_per_l=acid)), "soak", ENGLISH)
        for acid in (0.0, 10.0, None)
    )
    assert plain == "Lukewarm water, until wet through. Leave 1 ml/g in the wool."
    assert sour.endswith("Citric acid in it: 10 g/L. Keep it out of your eyes.")
    assert unknown.endswith("The acid of this water is not known.")


def test_bottles_without_acid_or_dye_need_no_words_about_it() -> None:
    plan = new_plan()
    names = [piece.name for piece in stock_work(worksheet(plan), ENGLISH)]
    assert names == ["First", "Acid", "Dye", "Fill up", "Last"]
    without = worksheet(set_acid_everywhere(plan, 0.0))
    assert "Acid" not in [piece.name for piece in stock_work(without, ENGLISH)]
    water = replace(plan.liquors[0], parts=plan.liquors[0].parts[1:])
    wet = replace(plan, liquors=(water, replace(water, id="q2", letter="B")))
    assert "Dye" not in [piece.name for piece in stock_work(worksheet(wet), ENGLISH)]
