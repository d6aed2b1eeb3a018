"""If these fail, a bottle or liquor is lost, changed unasked, or removed from under a section."""

from __future__ import annotations

from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.liquor_model import Column as LiquorColumn
from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.stock_model import Column
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.edits.liquors import add_liquor
from studio_gui.domain.edits.stocks import add_stock
from studio_gui.domain.figures import section_figures
from studio_gui.domain.stocks import Stock
from studio_gui.views.stocks_pane import StocksPane
from tests.views.keys import ESC, choose, click_cell, shown, steps, type_into, type_into_cell, type_on

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def pane(document: OpenPlan, qtbot: QtBot) -> StocksPane:
    return shown(StocksPane(document), qtbot, 290, 900)


def click(button: QWidget) -> None:
    QTest.mouseClick(button, LEFT)
    QApplication.processEvents()


# -- stocks --------------------------------------------------------------------------------------------------


def test_a_dye_is_added_with_a_swatch_and_its_name_is_typed_at_once(
    pane: StocksPane, document: OpenPlan
) -> None:
    document.edit("", partial(set_fibre, undyed_srgb="#ddddcc"))
    click(pane.add_dye)
    type_on("Kelp green")
    dye = document.plan.stocks[-1]
    assert (dye.name, dye.is_dye, dye.swatches[0].fibre_srgb) == ("Kelp green", True, "#ddddcc")
    assert steps(document)[1:] == ["Add dye", "Rename stock"]
    assert pane.form.name.text() == "Kelp green", "the form shows the new one"


def test_a_let_down_is_added_and_may_keep_its_first_name(pane: StocksPane, document: OpenPlan) -> None:
    click(pane.add_let_down)
    type_on("x", ESC)
    water = document.plan.stocks[-1]
    assert (water.name, water.is_dye, water.acid_g_per_l) == ("New let-down", False, None)


def test_a_stock_in_use_stays_and_the_sentence_names_its_liquors(
    pane: StocksPane, document: OpenPlan
) -> None:
    before = document.plan
    click_cell(pane.shelf.table, 0, Column.NAME)
    click(pane.remove_stock)
    assert document.plan is before
    assert pane.shelf.message.isVisible()
    assert "A, B" in pane.shelf.message.text()


def test_an_unused_stock_is_removed(pane: StocksPane, document: OpenPlan) -> None:
    document.edit("", partial(add_stock, stock=Stock("k9", "Spare", "let-down")))
    click_cell(pane.shelf.table, 3, Column.NAME)
    click(pane.remove_stock)
    assert [stock.id for stock in document.plan.stocks] == ["k1", "k2", "k3"]
    assert steps(document)[-1] == "Remove stock"


def test_the_form_is_that_of_the_selected_stock(pane: StocksPane) -> None:
    click_cell(pane.shelf.table, 1, Column.NAME)
    assert (pane.form.name.text(), pane.form.role.text()) == ("Red", "dye")
    assert pane.form.strength.isVisible()
    click_cell(pane.shelf.table, 2, Column.NAME)
    assert (pane.form.name.text(), pane.form.role.text()) == ("Acid water", "let-down")
    assert not pane.form.strength.isVisible()
    assert not pane.form.colour.isVisible()
    click_cell(pane.shelf.table, 0, Column.NAME)
    assert pane.form.strength.isVisible()
    assert not pane.form.strength.message.isVisible(), "an empty sentence takes no room"


def test_every_field_of_the_form_changes_its_stock(pane: StocksPane, document: OpenPlan) -> None:
    form = pane.form
    type_into(form.name, "Sea blue")
    choose(form.known, "by spoon")
    type_into(form.acid, "?")
    type_into(form.take_up, "4")
    type_into(form.colour.edit, "#224466")
    type_into(form.swatch_depth, "1.5")
    stock = document.plan.stock("k1")
    assert (stock.name, stock.strength_known, stock.acid_g_per_l, stock.take_up_pct_owf) == (
        *("Sea blue", "spoon", None, 4.0),
    )
    assert (stock.swatches[0].srgb, stock.swatches[0].depth_pct_owf) == ("#224466", 1.5)
    assert form.acid.text() == "unknown"
    assert document.undo_stack.count() == 6


@pytest.mark.parametrize(("keep", "factor"), [(False, 1.1), (True, 1.0)])
def test_a_new_strength_moves_the_shade_unless_depths_are_kept(
    keep: bool, factor: float, pane: StocksPane, document: OpenPlan
) -> None:
    depth = float(section_figures(document.plan).depth_pct_owf[0, 0])
    if keep:
        pane.form.keep.click()
    type_into(pane.form.strength, "11 g/L")
    assert document.plan.stock("k1").strength_g_per_l == 11.0
    assert section_figures(document.plan).depth_pct_owf[0, 0] == pytest.approx(factor * depth)
    assert steps(document) == ["Change strength"]


def test_a_strength_too_weak_to_keep_depths_is_refused_at_the_field(
    pane: StocksPane, document: OpenPlan
) -> None:
    pane.form.keep.click()
    type_into(pane.form.strength, "0.4")
    assert document.plan.stock("k1").strength_g_per_l == 10.0
    assert pane.form.strength.text() == "1.00 %"
    assert "let-down" in pane.form.strength.message.text()


def test_typing_for_one_stock_does_not_go_over_to_the_next(pane: StocksPane, document: OpenPlan) -> None:
    type_into(pane.form.strength, "much")
    pane.shelf.table.selectRow(1)
    assert not pane.form.strength.message.isVisible()
    type_into(pane.form.strength, "9", Qt.Key.Key_Shift)
    pane.shelf.table.selectRow(0)
    QTest.keyClick(pane.form.strength, Qt.Key.Key_Return)
    assert steps(document) == []


def test_a_wide_pane_shows_every_column(pane: StocksPane) -> None:
    table = pane.shelf.table
    hidden = [column for column in Column if table.isColumnHidden(column)]
    assert Column.SWATCH in hidden
    assert not {Column.NAME, Column.STRENGTH, Column.NEED} & set(hidden)
    pane.resize(900, 900)
    assert not any(table.isColumnHidden(column) for column in Column)
    type_into_cell(table, 0, Column.ACID, "12 g/L")
    assert pane.form.acid.text() == "12.0 g/L"


def test_a_cell_that_is_no_value_is_answered_below_the_table(pane: StocksPane, document: OpenPlan) -> None:
    type_into_cell(pane.shelf.table, 0, Column.STRENGTH, "much")
    assert pane.shelf.message.isVisible()
    assert steps(document) == []
    type_into_cell(pane.shelf.table, 0, Column.STRENGTH, "1.1")
    assert not pane.shelf.message.isVisible()


# -- liquors -------------------------------------------------------------------------------------------------


def test_a_liquor_is_added_with_the_next_letter_and_named(pane: StocksPane, document: OpenPlan) -> None:
    click(pane.add_liquor)
    type_on("Quince")
    liquor = document.plan.liquors[-1]
    assert (liquor.letter, liquor.name, liquor.is_empty) == ("D", "Quince", True)
    assert steps(document) == ["Add liquor", "Rename liquor"]


def test_a_copy_has_the_same_in_it(pane: StocksPane, document: OpenPlan) -> None:
    click_cell(pane.list.table, 1, LiquorColumn.NAME)
    click(pane.duplicate_liquor)
    type_on("x", ESC)
    original, copy = document.plan.liquors[1], document.plan.liquors[-1]
    assert (copy.letter, copy.name, copy.parts) == ("D", "Pale copy", original.parts)


def test_a_painted_liquor_stays_and_an_unused_one_goes(pane: StocksPane, document: OpenPlan) -> None:
    click_cell(pane.list.table, 0, LiquorColumn.NAME)
    click(pane.remove_liquor)
    assert len(document.plan.liquors) == 3
    assert pane.list.message.isVisible()
    document.edit("", lambda plan: add_liquor(plan, "Spare")[0])
    click_cell(pane.list.table, 3, LiquorColumn.NAME)
    click(pane.remove_liquor)
    assert len(document.plan.liquors) == 3
    assert not pane.list.message.isVisible()


def test_letter_and_name_are_typed_in_place(pane: StocksPane, document: OpenPlan) -> None:
    type_into_cell(pane.list.table, 0, LiquorColumn.LETTER, "K")
    type_into_cell(pane.list.table, 0, LiquorColumn.NAME, "Kelp")
    assert (document.plan.liquors[0].letter, document.plan.liquors[0].name) == ("K", "Kelp")


def test_dragging_moves_jars_and_needs_and_makes_nothing_anew(pane: StocksPane, document: OpenPlan) -> None:
    QTest.mouseClick(pane.form.name, LEFT)
    before = pane.findChildren(QWidget)
    document.preview(move_boundary(document.plan, 0, 1.5))
    assert pane.list.table.model().index(1, LiquorColumn.JAR).data() == "32.8"
    assert pane.findChildren(QWidget) == before
    assert QApplication.focusWidget() is pane.form.name


def test_a_plan_without_stocks_or_liquors_left_shows_no_form(pane: StocksPane, document: OpenPlan) -> None:
    click_cell(pane.shelf.table, 2, Column.NAME)
    pane.shelf.table.setCurrentIndex(pane.stocks.index(-1, -1))
    assert not pane.form.isVisible()
    for button in (pane.remove_stock, pane.remove_liquor):
        click(button)
    pane.list.table.setCurrentIndex(pane.liquors.index(-1, -1))
    click(pane.duplicate_liquor)
    assert steps(document) == []
