"""If these fail, what is said of the lay is not what is drawn."""

from __future__ import annotations

from studio_gui.domain.edits.boundaries import equalise, move_boundary, set_gap
from studio_gui.domain.edits.sections import change_section, set_locked, split
from studio_gui.domain.worksheet import worksheet
from studio_gui.wording.lay_sentences import (
    boundary_words,
    changed_words,
    fold_words,
    section_place_words,
    section_words,
)
from studio_gui.wording.translation import ENGLISH, Tongue
from tests.drawing.plans import plain_plan

US = Tongue("us", is_english=True)


def test_a_section_with_its_figures() -> None:
    sheet = worksheet(plain_plan(4))
    assert section_words(sheet, 1, ENGLISH) == "B Section 2, 100.0 cm, 62.5 ml, in range"
    assert section_words(sheet, 1, US) == "B Section 2, 39.37 in, 2.11 US fl oz, in range"
    assert section_place_words(sheet, 1, ENGLISH) == "Section 2 of 4, 100.0 cm to 200.0 cm, 25.0 g of fibre"


def test_what_is_wrong_or_locked_is_said_last() -> None:
    plan = change_section(plain_plan(4), "s2", fixed_ml=100.0)
    plan = change_section(plan, "s3", fixed_ml=10.0)
    sheet = worksheet(set_locked(plan, ["s2"], locked=True))
    assert section_words(sheet, 1, ENGLISH).endswith("100.0 ml, 25 ml over the brim, locked")
    assert section_words(sheet, 2, ENGLISH).endswith("10.0 ml, core may stay white")
    assert boundary_words(sheet, 0, ENGLISH) == "Boundary A | B, 100.0 cm from the start, locked"
    assert boundary_words(sheet, 2, ENGLISH) == "Boundary C | A, 300.0 cm from the start"


def test_a_fold_with_its_place() -> None:
    assert (
        fold_words(worksheet(plain_plan(2, passes=3)), 0, ENGLISH) == "Fold 1 of 2, 133.3 cm from the start"
    )


def test_a_gap_is_said_with_its_boundary() -> None:
    before = plain_plan(4)
    for gap_m, words in ((0.01, "gap 1.0 cm"), (-0.01, "overlap 1.0 cm")):
        after = worksheet(set_gap(before, 1, gap_m))
        assert boundary_words(after, 1, ENGLISH) == f"Boundary B | C, 200.0 cm from the start, {words}"
        said = changed_words(worksheet(before), after, "Gap", tongue=ENGLISH)
        assert said == f"Gap. Boundary B | C: {words}."
        assert changed_words(after, worksheet(before), "Gap", "undone", ENGLISH).endswith(": no gap.")


def test_one_move_is_told_without_the_name_of_the_step() -> None:
    before = plain_plan(4)
    after = worksheet(move_boundary(before, 2, 3.1))
    assert changed_words(worksheet(before), after, "Move", tongue=ENGLISH) == (
        "Boundary C | A at 310.0 cm. C Section 3: 110.0 cm, 68.8 ml. A Section 4: 90.0 cm, 56.3 ml."
    )


def test_more_than_a_move_is_told_with_the_name_of_the_step() -> None:
    before = move_boundary(plain_plan(4), 0, 1.2, "shift")
    old = worksheet(before)
    assert changed_words(old, worksheet(equalise(before, 0, 3)), "Equalise", tongue=ENGLISH) == (
        "Equalise. Boundaries moved: 3."
    )
    assert changed_words(old, worksheet(split(before, 0, 0.6)), "Split", "redone", ENGLISH) == (
        "Redone: Split. Sections now: 5."
    )
    assert changed_words(old, old, "Nothing", tongue=ENGLISH) == ""


def test_of_many_sections_in_trouble_some_are_named_and_the_rest_counted() -> None:
    before = plain_plan(6)
    after = before
    for section in before.sections:
        after = change_section(after, section.id, fixed_ml=10.0)
    words = changed_words(worksheet(before), worksheet(after), "Set liquid", tongue=ENGLISH)
    assert words.count("core may stay white") == 3
    assert words.endswith("The wetness of 3 more changed.")


def test_a_new_section_in_trouble_is_told() -> None:
    before = change_section(plain_plan(2), "s1", fixed_ml=300.0)
    after = split(before, 0, 1.0)
    words = changed_words(worksheet(before), worksheet(after), "Split", tongue=ENGLISH)
    assert "over the brim" in words
