"""If these fail, stripes cannot be planned by mouse or keys, or the answer is not what comes of them."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.stripe_model import Column
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.sections import set_locked
from studio_gui.domain.edits.stripes import set_knitting, set_stripes
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.yarn import Knitting, Ply, Stripe, Yarn
from studio_gui.views.live import use_units
from studio_gui.views.stripes_panel import StripesPanel
from studio_gui.views.yarn_pane import YarnPane
from tests.drawing.plans import plain_plan
from tests.views.keys import choose, click_cell, shown, steps, type_into, type_into_cell

ALT = Qt.KeyboardModifier.AltModifier
STRIPES = (Stripe("q1", 250.0), Stripe("q3", 150.0), Stripe("q2", 62.5))


@pytest.fixture
def document(qapp: QApplication) -> OpenPlan:  # noqa: ARG001  (its signals need an application)
    """Of 100 g on 4 m, of which 250 rows of 1 m are 1 m; nothing is wanted yet."""
    yarn = Yarn(structure="single", knitting=Knitting(row_m=1.0))
    return OpenPlan(replace(plain_plan(4), yarn=yarn))


@pytest.fixture
def panel(document: OpenPlan, qtbot: QtBot) -> StripesPanel:
    return shown(StripesPanel(document), qtbot, 360, 800)


def click(button: QWidget) -> None:
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    QApplication.processEvents()


def painted(panel: StripesPanel) -> str:
    return panel.painted.text().replace("\u00a0", " ")


def want(document: OpenPlan, *stripes: Stripe) -> None:
    document.edit("Want", partial(set_stripes, stripes=stripes))


# -- the list ----------------------------------------------------------------------------------------------


def test_stripes_are_added_one_after_the_other_in_the_liquors_order(
    panel: StripesPanel, document: OpenPlan
) -> None:
    for _ in range(4):
        click(panel.list.add)
    assert [one.liquor_id for one in document.plan.yarn.stripes] == ["q1", "q2", "q3", "q1"]
    assert {one.amount for one in document.plan.yarn.stripes} == {8.0}
    assert panel.list.row == 3
    assert steps(document) == ["Add stripe"] * 4


def test_a_stripe_goes_after_the_selected_one(panel: StripesPanel, document: OpenPlan) -> None:
    want(document, *STRIPES)
    click_cell(panel.list.table, 0, Column.NUMBER)
    click(panel.list.add)
    assert document.plan.yarn.stripes[1] == Stripe("q2", 250.0)
    panel.list.copy_command.trigger()
    assert document.plan.yarn.stripes[1:3] == (Stripe("q2", 250.0),) * 2
    assert panel.list.row == 2


def test_everything_of_the_list_can_be_done_with_keys(panel: StripesPanel, document: OpenPlan) -> None:
    panel.list.table.setFocus()
    click(panel.list.add)
    panel.list.table.setFocus()
    table = panel.list.table
    QTest.keyClick(table, Qt.Key.Key_Insert)
    QTest.keyClick(table, Qt.Key.Key_Up, ALT)
    assert [one.liquor_id for one in document.plan.yarn.stripes] == ["q2", "q1"]
    assert panel.list.row == 0
    QTest.keyClick(table, Qt.Key.Key_Down, ALT)
    assert [one.liquor_id for one in document.plan.yarn.stripes] == ["q1", "q2"]
    assert panel.list.row == 1
    type_into_cell(table, 1, Column.AMOUNT, "24")
    assert document.plan.yarn.stripes[1].amount == 24.0
    QTest.keyClick(table, Qt.Key.Key_Delete)
    assert [one.liquor_id for one in document.plan.yarn.stripes] == ["q1"]
    QTest.keyClick(table, Qt.Key.Key_Delete)
    QTest.keyClick(table, Qt.Key.Key_Delete)
    assert document.plan.yarn.stripes == ()
    assert panel.list.row == -1
    panel.list.copy_command.trigger()
    panel.list.up_command.trigger()
    assert document.plan.yarn.stripes == ()


@pytest.mark.parametrize(
    ("column", "words", "stripe"),
    [
        (Column.LIQUOR, "C  Red", Stripe("q3", 250.0)),
        (Column.MEASURE, "m", Stripe("q1", 250.0, "metres")),
    ],
)
def test_liquor_and_measure_are_chosen_from_lists(
    column: Column, words: str, stripe: Stripe, panel: StripesPanel, document: OpenPlan
) -> None:
    want(document, *STRIPES)
    click_cell(panel.list.table, 0, column)
    QTest.keyClick(panel.list.table, Qt.Key.Key_F2)
    box = panel.list.table.findChild(QComboBox)
    assert isinstance(box, QComboBox)
    choose(box, words)
    assert document.plan.yarn.stripes[0] == stripe


def test_a_size_that_cannot_be_is_said_under_the_list(panel: StripesPanel, document: OpenPlan) -> None:
    want(document, *STRIPES)
    before = document.plan
    type_into_cell(panel.list.table, 0, Column.AMOUNT, "0")
    assert document.plan is before
    assert "Size of a stripe" in panel.list.message.text()


# -- the answer --------------------------------------------------------------------------------------------


def test_the_answer_follows_what_is_wanted_and_what_there_is(panel: StripesPanel, document: OpenPlan) -> None:
    assert panel.answer.text() == "No stripes yet. Add one, or take them from the sections."
    assert not panel.set_sections.isEnabled()
    want(document, *STRIPES)
    assert panel.answer.text() == (
        "Needs 46.3 g of 100 g; 53.8 g left, which is 537.5 m of yarn or 537.5 rows. The last stripe takes"
        " them."
    )
    document.edit("", partial(set_knitting, row_m=4.0))
    assert panel.answer.text().startswith("85 g too much: needs 185 g, and there are 100 g. Missing: 850 m")
    document.undo_stack.undo()
    assert panel.answer.text().startswith("Needs 46.3 g")


def test_the_answer_is_in_the_units_of_the_user(panel: StripesPanel, document: OpenPlan) -> None:
    want(document, *STRIPES)
    try:
        use_units("us")
        assert panel.answer.text().startswith(
            "Needs 1.63 oz of 3.53 oz; 1.9 oz left, which is 587.8 yd of yarn"
        )
    finally:
        use_units("metric")
    assert panel.answer.text().startswith("Needs 46.3 g")


def test_stripes_too_short_for_the_staple_are_said_before_they_are_set(
    panel: StripesPanel, document: OpenPlan
) -> None:
    want(document, Stripe("q1", 200.0), Stripe("q3", 25.0), Stripe("q1", 200.0))
    words = panel.short.text().split("\n")
    assert words[0].startswith("Too short for the staple: stripe 2 (C, 25 rows). 10 cm on the roving")
    assert words[-1].startswith(
        "Plied as a chain: 31.6 cm for the same rows; all stripes need 134.2 g of 100 g."
    )
    want(document, *STRIPES)
    assert panel.short.isHidden()


def test_what_is_painted_is_told_in_rows_while_a_boundary_moves(
    panel: StripesPanel, document: OpenPlan
) -> None:
    assert painted(panel) == "As painted: A 250 rows, B 250 rows, C 250 rows, A 250 rows"
    document.edit("", partial(move_boundary, index=0, position_m=0.8))
    assert painted(panel).startswith("As painted: A 200 rows, B 300 rows")


# -- the yarn of a row, and the ply ------------------------------------------------------------------------


def test_the_yarn_of_a_row_is_three_times_the_width_or_measured(
    panel: StripesPanel, document: OpenPlan
) -> None:
    choose(panel.measured, "3 × the width")
    assert document.plan.yarn.knitting == Knitting(row_m=None)
    type_into(panel.knitted_width, "60 cm")
    assert document.plan.yarn.knitting.metres_a_row == pytest.approx(1.8)
    assert panel.row_length.text() == "1.80 m"
    choose(panel.measured, "as measured")
    assert document.plan.yarn.knitting.row_m == pytest.approx(1.8)
    assert panel.knitted_width.isVisible()  # what is below it must not move from under the hand
    type_into(panel.row_length, "170 cm")
    assert document.plan.yarn.knitting.row_m == pytest.approx(1.7)
    assert len(steps(document)) == 4


def test_a_width_that_cannot_be_is_said_at_the_field(panel: StripesPanel, document: OpenPlan) -> None:
    type_into(panel.row_length, "900 m")
    assert document.plan.yarn.knitting.row_m == 1.0
    assert "Yarn of one row" in panel.row_length.message.text()


def test_of_a_fractal_it_is_said_which_ply_has_the_stripes(panel: StripesPanel, document: OpenPlan) -> None:
    assert panel.ply.isHidden()
    document.edit("", partial(set_yarn, structure="fractal"))
    want(document, *STRIPES)
    assert not panel.ply.isHidden()
    assert panel.place.isHidden()
    choose(panel.ply, "2, in strips")
    assert document.plan.yarn.stripe_ply == 2
    assert panel.place.text() == (
        "A stripe comes back with each strip, 2 times in all; its rows are of that ply."
    )
    plies = (Ply(to_share=0.5), Ply(from_share=0.5))
    document.edit("", partial(set_yarn, structure="free", plies=plies))
    choose(panel.ply, "1")
    assert panel.place.text() == "Planned on ply 1, as far as its first fold."


# -- onto the lay and back ---------------------------------------------------------------------------------


def test_sections_are_set_from_stripes_in_one_step(panel: StripesPanel, document: OpenPlan) -> None:
    want(document, *STRIPES)
    click(panel.set_sections)
    assert [section.liquor_id for section in document.plan.sections] == ["q1", "q3", "q2"]
    assert document.plan.edges_m == pytest.approx((0.0, 1.0, 1.6, 4.0))
    assert steps(document) == ["Want", "Set sections from stripes"]
    document.undo_stack.undo()
    assert len(document.plan.sections) == 4


def test_stripes_are_taken_from_sections_in_what_they_are_counted_in(
    panel: StripesPanel, document: OpenPlan
) -> None:
    QTest.keyClick(panel.take_stripes, Qt.Key.Key_Space)
    assert document.plan.yarn.stripes == tuple(Stripe(f"q{n}", 250.0) for n in (1, 2, 3, 1))
    want(document, Stripe("q1", 4.0, "metres"))
    click(panel.take_stripes)
    assert {stripe.measure for stripe in document.plan.yarn.stripes} == {"metres"}
    assert steps(document) == ["Take stripes from sections", "Want", "Take stripes from sections"]


def test_what_does_not_fit_or_is_locked_is_refused_with_what_to_do(
    panel: StripesPanel, document: OpenPlan
) -> None:
    want(document, Stripe("q1", 900.0), Stripe("q2", 200.0))
    before = document.plan
    click(panel.set_sections)
    assert document.plan is before
    assert panel.message.text().startswith("The stripes need 110 g of each roving, and there are 100 g: 10 g")
    want(document, *STRIPES)
    document.edit("", partial(set_locked, section_ids=["s2"], locked=True))
    click(panel.set_sections)
    assert panel.message.text() == "B Section 2 is locked. Unlock it first."


def test_the_yarn_has_a_tab_for_its_stripes(document: OpenPlan, qtbot: QtBot) -> None:
    tabs = shown(YarnPane(document), qtbot).tabs
    assert "Stripes" in [tabs.tabText(place) for place in range(tabs.count())]
