"""If these fail, what is typed for the selected section paints something else, or another section."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QHelpEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.inputs import fold_by_weight, set_bench, set_fibre, set_lay, set_passes
from studio_gui.domain.edits.liquors import add_liquor, to_depth_basis
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.edits.stocks import add_stock, change_stock
from studio_gui.domain.edits.swatches import change_swatch
from studio_gui.domain.fibre import MassMark
from studio_gui.domain.plan import AcidLine
from studio_gui.domain.stocks import Stock
from studio_gui.views.fields import QuantityField
from studio_gui.views.section_pane import SectionPane
from tests.scenes.scene_plans import two_shores
from tests.views.keys import ESC, TAB, choose, shown, steps, type_into


@pytest.fixture
def pane(document: OpenPlan, qtbot: QtBot) -> SectionPane:
    return shown(SectionPane(document), qtbot)


def amounts(pane: SectionPane) -> list[str]:
    return [row.amount.text() for row in pane.editor.grid.rows]


def depths(pane: SectionPane) -> list[str]:
    return ["" if row.depth is None else row.depth.text() for row in pane.editor.grid.rows]


def field(widget: object) -> QuantityField:
    assert isinstance(widget, QuantityField)
    return widget


def fixed_ml(document: OpenPlan) -> float | None:
    return document.plan.sections[0].fixed_ml


def figures(pane: SectionPane) -> dict[str, str]:
    """Return the visible figures by name."""
    rows = zip(pane.figures.names, pane.figures.values, strict=True)
    return {name.text(): value.text() for name, value in rows if name.isVisible()}


# -- 12 + 38 -------------------------------------------------------------------------------------------------


def test_the_line_shows_the_sections_ml_in_the_order_of_its_stocks(pane: SectionPane) -> None:
    assert pane.editor.line.text() == "37.5 + 25"
    assert pane.editor.total.text() == "= 62.5 ml"
    assert pane.editor.line_names.text() == "Blue + Acid water"
    assert amounts(pane) == ["37.5 ml", "25.0 ml"]


@pytest.mark.parametrize("text", ["12 + 38", "12 and 38", "12+38 ml"])
def test_twelve_and_thirty_eight(text: str, pane: SectionPane, document: OpenPlan) -> None:
    type_into(pane.editor.line, text)
    parts = {part.stock_id: part.parts for part in document.plan.liquor("q1").parts}
    assert parts == {"k1": 12.0, "k3": 38.0}
    assert fixed_ml(document) == 50.0
    assert document.plan.sections[3].fixed_ml is None, "the other section of the liquor keeps its volume"
    assert steps(document) == ["Paint 12 + 38 ml"]
    assert (pane.editor.line.text(), pane.editor.total.text()) == ("12 + 38", "= 50 ml")
    assert pane.mode.currentText() == "fixed"


@pytest.mark.parametrize("text", ["12", "12 + 30 + 8", "12 + ", "12 + much", "0 + 0", "12 - 38", "12 + -8"])
def test_what_does_not_fit_is_answered_under_the_line(
    text: str, pane: SectionPane, document: OpenPlan
) -> None:
    before = document.plan
    type_into(pane.editor.line, text)
    assert document.plan is before
    assert pane.editor.line.text() == "37.5 + 25"
    assert pane.editor.line.message.isVisible()


def test_a_wrong_number_of_amounts_says_which_stocks_are_expected(pane: SectionPane) -> None:
    type_into(pane.editor.line, "12 + 30 + 8")
    said = pane.editor.line.message.text()
    assert "3" in said
    assert "2" in said
    assert "Blue and Acid water" in said


def test_with_an_acid_line_the_typed_amounts_are_read_back(pane: SectionPane, document: OpenPlan) -> None:
    citric = Stock("k9", "Citric stock", "let-down", acid_g_per_l=200.0)
    document.edit("", partial(add_stock, stock=citric))
    document.edit("", partial(change_stock, stock_id="k3", acid_g_per_l=0.0))
    document.edit("", partial(change_stock, stock_id="k1", acid_g_per_l=0.0))
    document.edit("", lambda plan: replace(plan, acid_line=AcidLine("k9", 10.0)))
    type_into(pane.editor.line, "12 + 38")
    assert pane.editor.line.text() == "12 + 38"
    assert figures(pane)["Acid line"] == "2.5 ml Citric stock"


# -- stock by stock ------------------------------------------------------------------------------------------


def test_one_typed_amount_leaves_the_other_alone(pane: SectionPane, document: OpenPlan) -> None:
    type_into(pane.editor.line, "12 + 38")
    type_into(field(pane.editor.grid.rows[0].amount), "22")
    assert amounts(pane) == ["22.0 ml", "38.0 ml"]
    assert fixed_ml(document) == 60.0


def test_a_stock_is_added_and_taken_out(pane: SectionPane, document: OpenPlan) -> None:
    choose(pane.editor.add, "Add Red")
    assert document.plan.liquor("q1").stock_ids == ("k1", "k2", "k3")
    assert pane.editor.line.text() == "37.5 + 0 + 25"
    assert pane.editor.add.count() == 0
    QTest.mouseClick(pane.editor.grid.rows[2].remove, Qt.MouseButton.LeftButton)
    assert document.plan.liquor("q1").stock_ids == ("k1", "k2")
    assert steps(document) == ["Add Red to the liquor", "Take Acid water out of the liquor"]


def test_an_empty_liquor_asks_for_a_stock_and_is_painted_with_it(
    pane: SectionPane, document: OpenPlan
) -> None:
    document.edit("", lambda plan: add_liquor(plan, "New")[0])
    choose(pane.liquor, "D  New")
    assert not pane.editor.line.isEnabled()
    assert pane.editor.line_names.text() == "Nothing in it yet: add a stock."
    choose(pane.editor.add, "Add Red")
    assert pane.editor.line.text() == "62.5"


# -- parts or depth ------------------------------------------------------------------------------------------


def test_on_depth_the_depths_are_typed_and_the_amounts_follow(pane: SectionPane, document: OpenPlan) -> None:
    choose(pane.editor.basis, "depth (the shade stays)")
    assert document.plan.liquor("q1").basis == "depth"
    assert depths(pane) == ["1.50 %", ""]
    type_into(field(pane.editor.grid.rows[0].depth), "0.8")
    assert amounts(pane) == ["20.0 ml", "42.5 ml"]
    choose(pane.editor.basis, "parts (the jar stays)")
    assert document.plan.liquor("q1").basis == "parts"
    assert amounts(pane) == ["20.0 ml", "42.5 ml"]
    assert steps(document) == ["Keep the depth", "Change depth", "Keep the parts"]


def test_a_depth_out_of_reach_is_refused_at_its_field_with_numbers(
    pane: SectionPane, document: OpenPlan
) -> None:
    document.edit("", partial(to_depth_basis, liquor_id="q1"))
    before = document.plan
    depth = field(pane.editor.grid.rows[0].depth)
    type_into(depth, "3")
    assert document.plan is before
    assert depth.text() == "1.50 %"
    assert "75 ml" in depth.message.text()
    assert "2.50 %" in depth.message.text()


def test_the_last_let_down_of_a_liquor_by_depth_stays(pane: SectionPane, document: OpenPlan) -> None:
    document.edit("", partial(to_depth_basis, liquor_id="q1"))
    before = document.plan
    QTest.mouseClick(pane.editor.grid.rows[1].remove, Qt.MouseButton.LeftButton)
    assert document.plan is before
    assert pane.editor.message.isVisible()


def test_a_refused_basis_shows_what_stands(pane: SectionPane, document: OpenPlan) -> None:
    # neat dye at two wetnesses: the mean depth is more than the drier section can reach
    QTest.mouseClick(pane.editor.grid.rows[1].remove, Qt.MouseButton.LeftButton)
    document.edit("", partial(change_section, section_id="s4", fixed_ml=40.0))
    choose(pane.editor.basis, "depth (the shade stays)")
    assert document.plan.liquor("q1").basis == "parts"
    assert pane.editor.basis.currentText() == "parts (the jar stays)"
    assert "Section 4" in pane.editor.message.text()


def test_figures_that_follow_cannot_be_typed(pane: SectionPane, document: OpenPlan) -> None:
    assert not isinstance(pane.editor.grid.rows[0].depth, QuantityField)
    document.edit("", partial(to_depth_basis, liquor_id="q1"))
    assert not isinstance(pane.editor.grid.rows[0].amount, QuantityField)


# -- by slider -----------------------------------------------------------------------------------------------


def slide(pane: SectionPane, row: int, share: float) -> None:
    """Press the slider of a stock, drag it to a share of its width, and hold it there."""
    slider = pane.editor.grid.rows[row].slider
    middle = slider.height() // 2
    QTest.mousePress(slider, Qt.MouseButton.LeftButton, pos=QPoint(slider.width() // 2, middle))
    QTest.mouseMove(slider, QPoint(round(share * slider.width()), middle))


def release(pane: SectionPane, row: int, share: float) -> None:
    slider = pane.editor.grid.rows[row].slider
    place = QPoint(round(share * slider.width()), slider.height() // 2)
    QTest.mouseRelease(slider, Qt.MouseButton.LeftButton, pos=place)


def test_a_slid_stock_takes_from_the_others_and_is_one_step(pane: SectionPane, document: OpenPlan) -> None:
    before = document.plan
    slide(pane, 0, 1.0)
    assert document.is_previewing
    assert document.plan is before
    assert pane.editor.line.text() == "62.5 + 0"
    release(pane, 0, 1.0)
    assert amounts(pane) == ["62.5 ml", "0.0 ml"]
    assert fixed_ml(document) is None, "the liquid goes on following the fibre"
    assert steps(document) == ["Share the liquid"]


def test_esc_brings_a_slid_stock_back(pane: SectionPane, document: OpenPlan) -> None:
    before = document.sheet.plan
    slide(pane, 0, 0.9)
    QTest.keyClick(pane.editor.grid.rows[0].slider, ESC)
    release(pane, 0, 0.9)
    assert (document.sheet.plan, steps(document)) == (before, [])
    assert amounts(pane) == ["37.5 ml", "25.0 ml"]
    assert pane.editor.grid.rows[0].slider.amount == pytest.approx(37.5)


def test_arrow_keys_slide_by_the_graduation_of_the_bench(pane: SectionPane, document: OpenPlan) -> None:
    document.edit("", partial(set_bench, graduation_ml=0.5))
    slider = pane.editor.grid.rows[1].slider
    slider.setFocus()
    QTest.keyClick(slider, Qt.Key.Key_Right)
    assert amounts(pane) == ["37.0 ml", "25.5 ml"]
    QTest.keyClick(slider, Qt.Key.Key_PageDown)
    assert amounts(pane) == ["42.0 ml", "20.5 ml"]
    assert steps(document)[1:] == ["Share the liquid", "Share the liquid"]


def test_the_slider_of_a_neat_liquor_cannot_be_moved(pane: SectionPane) -> None:
    assert pane.editor.grid.rows[0].slider.isEnabled()
    QTest.mouseClick(pane.editor.grid.rows[1].remove, Qt.MouseButton.LeftButton)
    assert not pane.editor.grid.rows[0].slider.isEnabled()


def test_a_depth_is_slid_within_what_the_jar_reaches(pane: SectionPane, document: OpenPlan) -> None:
    document.edit("", partial(to_depth_basis, liquor_id="q1"))
    row = pane.editor.grid.rows[0]
    assert row.reach.text() == "0 to 2.50 %"
    slide(pane, 0, 1.0)
    assert amounts(pane) == ["62.5 ml", "0.0 ml"]
    release(pane, 0, 1.0)
    assert depths(pane) == ["2.50 %", ""]
    QTest.keyClick(row.slider, Qt.Key.Key_Left)
    QTest.keyClick(row.slider, Qt.Key.Key_PageDown)
    assert depths(pane) == ["2.39 %", ""]
    assert steps(document)[1:] == ["Change depth"] * 3
    assert not pane.editor.grid.rows[1].slider.isVisible(), "let-down fills what is left"


def test_what_a_dye_reaches_leaves_room_for_the_others(pane: SectionPane, document: OpenPlan) -> None:
    document.edit("", partial(to_depth_basis, liquor_id="q1"))
    choose(pane.editor.add, "Add Red")
    assert [row.reach.text() for row in pane.editor.grid.rows[:2]] == ["0 to 2.50 %", "0 to 1.00 %"]


# -- amounts typed over a depth ------------------------------------------------------------------------------


def test_amounts_typed_over_a_depth_say_so_and_can_be_taken_back(
    pane: SectionPane, document: OpenPlan
) -> None:
    document.edit("", partial(to_depth_basis, liquor_id="q1"))
    before = document.plan
    assert "keeps its depth" in pane.editor.line.toolTip()
    type_into(pane.editor.line, "12 + 38")
    note = pane.editor.note
    assert note.isVisible()
    assert note.words.text() == (
        "Liquor A kept its depth. It keeps its parts now, and this section’s liquid no longer"
        " follows the fibre."
    )
    QTest.mouseClick(note.undo, Qt.MouseButton.LeftButton)
    assert document.plan == before
    assert not note.isVisible()


def test_where_the_liquid_was_fixed_already_only_the_basis_is_told(
    pane: SectionPane, document: OpenPlan
) -> None:
    document.edit("", partial(change_section, section_id="s1", fixed_ml=60.0))
    document.edit("", partial(to_depth_basis, liquor_id="q1"))
    type_into(pane.editor.line, "12 + 38")
    assert pane.editor.note.words.text() == "Liquor A kept its depth. It keeps its parts now."
    document.select("s2")
    assert not pane.editor.note.isVisible(), "what was said of one section is not said of the next"


def test_amounts_typed_over_parts_are_what_is_expected(pane: SectionPane) -> None:
    type_into(pane.editor.line, "12 + 38")
    assert not pane.editor.note.isVisible()
    assert "keeps its depth" not in pane.editor.line.toolTip()


# -- the section ---------------------------------------------------------------------------------------------


def test_a_shared_liquor_says_so_and_a_copy_parts_them(pane: SectionPane, document: OpenPlan) -> None:
    assert pane.shared.isVisible()
    assert "2 sections" in pane.shared.text()
    QTest.mouseClick(pane.own, Qt.MouseButton.LeftButton)
    assert document.plan.sections[0].liquor_id != document.plan.sections[3].liquor_id
    assert not pane.own.isVisible()
    assert not pane.shared.isVisible()
    type_into(pane.editor.line, "12 + 38")
    assert document.plan.liquor("q1").parts[0].parts == 30.0, "the other section keeps its liquor"


def test_liquid_is_fixed_and_let_go(pane: SectionPane, document: OpenPlan) -> None:
    choose(pane.mode, "fixed")
    assert fixed_ml(document) == 62.5, "nothing moves by fixing"
    choose(pane.mode, "follows fibre")
    assert fixed_ml(document) is None
    type_into(pane.liquid, "2 US fl oz")
    assert fixed_ml(document) == pytest.approx(59.147, abs=1e-3)
    assert steps(document) == ["Fix liquid", "Let liquid follow the fibre", "Fix liquid"]


def test_name_wipe_second_pass_and_lock(pane: SectionPane, document: OpenPlan) -> None:
    type_into(pane.name, "Tideline")
    type_into(pane.wiped, "5")
    type_into(pane.second, "10 ml")
    QTest.mouseClick(pane.locked, Qt.MouseButton.LeftButton, pos=pane.locked.rect().center() / 4)
    section = document.plan.sections[0]
    assert (section.name, section.wiped_ml, section.second_pass_ml, section.locked) == (
        *("Tideline", 5.0, 10.0, True),
    )
    assert steps(document) == ["Rename section", "Plan a wipe", "Plan a second pass", "Lock section"]


@pytest.mark.parametrize(("text", "gap_m"), [("2 cm", 0.02), ("-3", -0.03), ("-1 in", -0.0254)])
def test_a_gap_or_an_overlap_is_typed(text: str, gap_m: float, pane: SectionPane, document: OpenPlan) -> None:
    type_into(pane.gap, text)
    assert document.plan.boundaries[0].gap_m == pytest.approx(gap_m)
    assert steps(document) == ["Set gap"]


def test_a_gap_that_leaves_nothing_is_refused_at_its_field(pane: SectionPane, document: OpenPlan) -> None:
    document.edit("", partial(move_boundary, index=0, position_m=0.2))
    type_into(pane.gap, "45 cm")
    assert document.plan.boundaries[0].gap_m == 0.0
    assert pane.gap.text() == "0.0 cm"
    assert "Section 1" in pane.gap.message.text()


def test_after_the_last_section_there_is_no_gap(pane: SectionPane, document: OpenPlan) -> None:
    assert pane.gap.isEnabled()
    document.select("s4")
    assert not pane.gap.isEnabled()
    assert pane.gap.toolTip() == "Nothing comes after the last section"


def test_another_section_is_another_page(pane: SectionPane, document: OpenPlan) -> None:
    document.select("s3", "s4")
    assert (pane.letter.text(), pane.name.text()) == ("C", "Section 3")
    assert "first of 2 selected" in pane.place.text()
    type_into(pane.name, "Kelp")
    assert [section.name for section in document.plan.sections[2:]] == ["Kelp", "Section 4"]


def test_typing_does_not_go_over_to_the_next_section(pane: SectionPane, document: OpenPlan) -> None:
    for line, text in ((pane.editor.line, "1 + 2"), (pane.liquid, "9"), (pane.name, "Tide")):
        document.select("s1")
        type_into(line, text, Qt.Key.Key_Shift)
        document.select("s2")
        QTest.keyClick(line, TAB)
    assert steps(document) == []
    type_into(pane.editor.line, "much")
    document.select("s1")
    assert not pane.editor.line.message.isVisible(), "what was said of one section is not said of the next"


def test_figures_are_those_of_the_worksheet(pane: SectionPane, document: OpenPlan) -> None:
    assert figures(pane) == {
        "On the fibre": "2.50 ml/g",
        "Held, of limit": "3.50 of 4.00 ml/g",
        "Wetness": "in range",
        "Depth in all": "1.50 %",
        "Acid": "2.50 %",
    }
    document.edit("", partial(set_fibre, rovings=2))
    document.edit("", partial(set_passes, passes=2))
    assert figures(pane)["Each roving"] == "62.5 ml"
    assert figures(pane)["Each strand"] == "31.3 ml"


def test_unequal_legs_take_unequal_amounts(pane: SectionPane, document: OpenPlan) -> None:
    document.edit("", partial(set_lay, fold_positions_m=(3.0,)))
    document.select("s3")
    assert figures(pane)["Each strand"] == "46.9 · 15.6 ml"


@pytest.mark.parametrize(
    ("fixed_ml", "words"), [(100.0, "25.0 ml over the brim"), (20.0, "core may stay white")]
)
def test_a_wrong_wetness_is_said_in_words(
    fixed_ml: float, words: str, pane: SectionPane, document: OpenPlan
) -> None:
    document.edit("", partial(change_section, section_id="s1", fixed_ml=fixed_ml))
    assert figures(pane)["Wetness"] == words


def test_unknown_acid_is_said(pane: SectionPane, document: OpenPlan) -> None:
    document.edit("", partial(change_stock, stock_id="k1", acid_g_per_l=None))
    assert figures(pane)["Acid"] == "unknown"


def test_dragging_moves_the_figures_and_nothing_else(pane: SectionPane, document: OpenPlan) -> None:
    QTest.mouseClick(pane.editor.line, Qt.MouseButton.LeftButton)
    before = pane.findChildren(QWidget)
    document.preview(move_boundary(document.plan, 0, 1.2))
    assert pane.editor.line.text() == "45 + 30"
    assert QApplication.focusWidget() is pane.editor.line
    assert pane.findChildren(QWidget) == before, "no widget is made anew while something is dragged"
    document.cancel_preview()
    assert pane.editor.line.text() == "37.5 + 25"


def test_esc_keeps_what_was_painted(pane: SectionPane, document: OpenPlan) -> None:
    type_into(pane.editor.line, "12 + 38", ESC)
    assert (pane.editor.line.text(), steps(document)) == ("37.5 + 25", [])


def test_a_section_is_told_on_each_leg_where_legs_are_eased_by_weight(qtbot: QtBot) -> None:
    uneven = set_fibre(two_shores(), mass_marks=(MassMark(0.5, 0.52),))
    document = OpenPlan(fold_by_weight(uneven))
    pane = shown(SectionPane(document), qtbot)
    assert figures(pane)["On each leg"] == "leg 1: 0.0 to 57.7 cm\nleg 2: 0.0 to 62.5 cm"
    document.edit("Even", lambda _: two_shores())
    assert "On each leg" not in figures(pane)


def test_the_swatch_says_that_it_is_indicative_and_marks_what_no_screen_shows(
    pane: SectionPane, document: OpenPlan
) -> None:
    assert pane.swatch.toolTip() == "Predicted, and so indicative."
    plain = pane.swatch.grab().toImage()
    vivid: dict[str, Any] = {"srgb": "#00a0ff", "fibre_srgb": "#ffffff", "depth_pct_owf": 0.5}
    document.edit("", partial(change_swatch, stock_id="k1", place=0, **vivid))
    deep = document.sheet.colours.clipped[document.selected_index]
    assert deep, "the plan's depth of a vivid dye lies outside"
    assert pane.swatch.toolTip().startswith("No screen shows this colour")
    corner = pane.swatch.grab().toImage().pixelColor(pane.swatch.width() - 5, 4)
    assert corner != plain.pixelColor(pane.swatch.width() - 5, 4)
    assert corner.name() in ("#000000", "#ffffff")


def test_what_an_amount_is_of_its_jar_and_its_card_is_told_beside_it(
    pane: SectionPane, document: OpenPlan
) -> None:
    amount = pane.editor.grid.rows[0].amount
    QApplication.sendEvent(
        amount, QHelpEvent(QEvent.Type.ToolTip, QPoint(4, 4), amount.mapToGlobal(QPoint(4, 4)))
    )
    liquor = document.plan.liquor(document.plan.sections[0].liquor_id)
    card = next(card for card in document.sheet.cards if card.jar.liquor_id == liquor.id)
    measured = next(one for one in card.amounts if one.stock_id == liquor.stock_ids[0])
    assert f"card measures {measured.measured_ml:.0f} ml" in amount.toolTip()
    assert f"of the {measured.exact_ml:g} ml" in amount.toolTip()
