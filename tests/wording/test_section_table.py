"""If these fail, the section map leaves out what a painter has to know, or says it wrongly."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.edits.inputs import fold_by_weight, set_fibre
from studio_gui.domain.fibre import Lay, MassMark, Roving
from studio_gui.domain.worksheet import worksheet
from studio_gui.wording.section_table import errors_line, section_table, set_line
from studio_gui.wording.translation import ENGLISH, Tongue
from tests.drawing.plans import plain_plan, plan_of_states
from tests.export.plans import sample
from tests.scenes.scene_plans import two_shores


def test_the_matching_set_reads_as_on_the_bench() -> None:
    table = section_table(worksheet(sample("harbour-thaw")), ENGLISH)
    assert table.letters == ("A", "B", "C", "D", "E")
    assert (table.names[1], table.liquors[1]) == ("Thaw", "liquor Slate, quarter")
    assert table.liquors[0] == ""
    assert table.places == ("0", "80", "140", "260", "300", "400")
    assert (table.lengths.cells, table.grams.cells) == (("80", "60", "120", "40", "100"),) * 2
    assert (table.set_ml.cells, table.set_ml.total) == (("120", "90", "180", "60", "150"), "600")
    assert table.each_ml is not None
    assert (table.each_ml.cells, table.each_ml.total) == (("30.0", "22.5", "45.0", "15.0", "37.5"), "150.0")
    assert table.strand_ml is None
    assert table.strands_ml == ()


def test_strands_alike_have_one_column_and_others_one_each() -> None:
    folded = section_table(worksheet(plain_plan(4, rovings=2, passes=2)), ENGLISH)
    assert folded.strand_ml is not None
    assert folded.strand_ml.cells == ("31.3",) * 4
    assert folded.strand_ml.total == ""
    plan = plain_plan(1)
    uneven = replace(plan, lay=Lay((1.0,)))
    table = section_table(worksheet(uneven), ENGLISH)
    assert table.strand_ml is None
    assert [column.cells for column in table.strands_ml] == [("62.5",), ("187.5",)]


def test_one_roving_has_no_column_for_each() -> None:
    assert section_table(worksheet(plain_plan(2)), ENGLISH).each_ml is None


def test_notes_say_what_else_is_done() -> None:
    sheet = worksheet(plan_of_states(7))
    notes = dict(zip(range(7), section_table(sheet, ENGLISH).notes, strict=True))
    assert notes[0] == ("then 14.3 cm left bare",)
    assert "wipe out 7.1 ml" in notes[3]
    assert "14.3 cm painted over the next" in notes[3]
    assert notes[4] == ("twice: 20 ml, heat, press out 7.1 ml, then paint 7.1 ml",)
    assert notes[5][0] == "stays undyed"


def test_legs_eased_by_weight_have_places_of_their_own() -> None:
    """Two Shores, 78 and 72 g: whoever went by the film alone would paint 5 cm beside the mark."""
    uneven = set_fibre(two_shores(), mass_marks=(MassMark(0.5, 0.52),))
    notes = section_table(worksheet(fold_by_weight(uneven)), ENGLISH).notes
    assert notes[0] == ("leg 1: 0.0 to 57.7 cm", "leg 2: 0.0 to 62.5 cm")
    assert notes[4] == ("leg 1: 221.2 to 288.5 cm", "leg 2: 239.6 to 311.5 cm")
    assert section_table(worksheet(uneven), ENGLISH).notes[0] == ()


def test_what_runs_over_or_stays_dry_is_not_printed() -> None:
    notes = section_table(worksheet(plan_of_states(7, uneven=False)), ENGLISH).notes
    assert (notes[1], notes[2]) == ((), ())


def test_a_section_without_a_name_is_called_like_its_liquor() -> None:
    plan = plain_plan(1)
    plan = replace(plan, sections=(replace(plan.sections[0], name=" "),))
    table = section_table(worksheet(plan), ENGLISH)
    assert (table.names, table.liquors) == (("",), ("Blue",))


@pytest.mark.parametrize(
    ("rovings", "passes", "said"),
    [
        (1, 1, "one roving of 100 g and 400 cm"),
        (1, 2, "one roving of 100 g and 400 cm, laid in 2 strands"),
        (4, 1, "4 rovings, each 100 g and 400 cm"),
        (4, 2, "4 rovings, each 100 g and 400 cm, 8 strands side by side"),
    ],
)
def test_the_set_is_told_in_one_line(rovings: int, passes: int, said: str) -> None:
    assert set_line(worksheet(plain_plan(2, rovings=rovings, passes=passes)), ENGLISH) == said


def test_rovings_weighed_one_by_one_are_told_together() -> None:
    plan = plain_plan(2, rovings=2)
    fibre = replace(plan.fibre, measured=(Roving(98.0), Roving(102.0)))
    assert (
        set_line(worksheet(replace(plan, fibre=fibre)), ENGLISH) == "2 rovings, 200 g together, each 400 cm"
    )


def test_one_unit_for_each_kind_of_figure() -> None:
    us = Tongue("us", is_english=True)
    table = section_table(worksheet(plain_plan(3, rovings=2)), us)
    assert (table.lengths.symbol, table.grams.symbol, table.set_ml.symbol) == ("in", "oz", "US fl oz")
    mixed = section_table(worksheet(plain_plan(3)), Tongue("mixed", is_english=True))
    assert (mixed.lengths.symbol, mixed.set_ml.symbol) == ("in", "ml")


def test_errors_that_stand_are_said() -> None:
    assert errors_line(worksheet(sample("harbour-thaw")), ENGLISH) == ""
    assert errors_line(worksheet(sample("storm-kettle")), ENGLISH) == (
        "Not ready to paint: errors stand in the checks (2)"
    )
