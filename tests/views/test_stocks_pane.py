"""If these fail, the form is another stock's, or the pane does not fit its room."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QScrollArea, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.liquor_model import Column as LiquorColumn
from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.stock_model import Column
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.views.stocks_pane import StocksPane
from tests.document.settling import preview_and_wait
from tests.views.keys import click_cell, shown, type_into_cell, type_on

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def pane(document: OpenPlan, qtbot: QtBot) -> StocksPane:
    return shown(StocksPane(document), qtbot, 290, 900)


def test_the_form_is_that_of_the_selected_stock(pane: StocksPane) -> None:
    click_cell(pane.shelf.table, 1, Column.NAME)
    assert (pane.form.name.text(), pane.form.role.text()) == ("Red", "dye · C")
    assert pane.form.strength.isVisible()
    click_cell(pane.shelf.table, 2, Column.NAME)
    assert (pane.form.name.text(), pane.form.role.text()) == ("Acid water", "let-down · A, B, C")
    assert not pane.form.strength.isVisible()
    assert not pane.form.swatches.isVisible()
    click_cell(pane.shelf.table, 0, Column.NAME)
    assert pane.form.strength.isVisible()
    assert not pane.form.strength.message.isVisible(), "an empty sentence takes no room"


def test_a_wide_pane_shows_every_column_and_a_narrow_one_what_is_needed_first(pane: StocksPane) -> None:
    table = pane.shelf.table
    hidden = [column for column in Column if table.isColumnHidden(column)]
    assert Column.SWATCHES in hidden
    assert not {Column.NAME, Column.USED, Column.STRENGTH, Column.NEED} & set(hidden)
    assert not pane.list.table.isColumnHidden(LiquorColumn.MADE)
    pane.resize(240, 900)
    assert not table.isColumnHidden(Column.NEED)
    assert table.columnWidth(Column.NAME) >= 80, "names can be read"
    pane.resize(900, 900)
    assert not any(table.isColumnHidden(column) for column in Column)
    assert not any(pane.list.table.isColumnHidden(column) for column in LiquorColumn)
    type_into_cell(table, 0, Column.ACID, "12 g/L")
    assert pane.form.acid.text() == "12.0 g/L"


@pytest.mark.parametrize("width", [240, 290, 330, 420, 560, 900])
def test_columns_fill_the_table_and_never_run_over(pane: StocksPane, width: int) -> None:
    pane.resize(width, 900)
    QApplication.processEvents()
    for table in (pane.shelf.table, pane.list.table):
        assert table.horizontalHeader().length() == table.viewport().width()


@pytest.mark.parametrize(("height", "is_open", "rows"), [(300, False, 6), (300, True, 6), (1400, True, 23)])
def test_lists_grow_with_the_pane_up_to_all_their_rows(
    height: int, is_open: bool, rows: int, document: OpenPlan, qtbot: QtBot
) -> None:
    more = tuple(replace(document.plan.stocks[2], id=f"w{number}") for number in range(20))
    document.edit("", lambda plan: replace(plan, stocks=(*plan.stocks, *more)))
    room = QScrollArea()
    pane = StocksPane(document)
    room.setWidgetResizable(True)
    room.setWidget(pane)
    shown(room, qtbot, 290, height)
    pane.form.open_fields(is_open)
    pane.form.message.say("A sentence that is as high as it is narrow. " * 3)
    QApplication.processEvents()
    table = pane.shelf.table
    seen = (table.viewport().height() + 1) // table.verticalHeader().defaultSectionSize()
    assert seen == rows
    gap = pane.list.table.mapTo(pane.list, table.rect().topLeft()).y()
    assert gap < 60, "a heading stands right above its list"


def test_a_new_stock_opens_the_form_and_its_name(pane: StocksPane, document: OpenPlan) -> None:
    pane.form.toggle.click()
    assert not pane.form.name.isVisible()
    QTest.mouseClick(pane.shelf.add_dye, LEFT)
    QApplication.processEvents()
    type_on("Kelp green")
    assert pane.form.name.isVisible()
    assert pane.form.name.text() == document.plan.stocks[-1].name == "Kelp green"


@pytest.mark.parametrize(("height", "is_open"), [(400, False), (800, True)])
def test_the_form_is_open_at_first_where_there_is_room(
    height: int, is_open: bool, document: OpenPlan, qtbot: QtBot
) -> None:
    room = QScrollArea()
    pane = StocksPane(document)
    room.setWidgetResizable(True)
    room.setWidget(pane)
    shown(room, qtbot, 290, height)
    assert pane.form.name.isVisible() is is_open
    QTest.keyClick(pane.form.toggle, Qt.Key.Key_Space)
    assert pane.form.name.isVisible() is not is_open
    room.hide()
    room.show()
    assert pane.form.name.isVisible() is not is_open, "what was chosen stays"


def test_dragging_moves_jars_and_needs_and_makes_nothing_anew(pane: StocksPane, document: OpenPlan) -> None:
    QTest.mouseClick(pane.form.name, LEFT)
    before = pane.findChildren(QWidget)
    preview_and_wait(document, move_boundary(document.plan, 0, 1.5))
    assert pane.list.table.model().index(1, LiquorColumn.JAR).data() == "32.8"
    assert pane.findChildren(QWidget) == before
    assert QApplication.focusWidget() is pane.form.name


def test_without_a_stock_selected_there_is_no_form(pane: StocksPane) -> None:
    pane.shelf.table.setCurrentIndex(pane.stocks.index(-1, -1))
    assert not pane.form.isVisible()


def test_an_empty_shelf_says_what_to_do(pane: StocksPane, document: OpenPlan) -> None:
    empty = tuple(replace(liquor, parts=()) for liquor in document.plan.liquors)
    document.edit("", lambda plan: replace(plan, liquors=empty, stocks=()))
    assert not pane.shelf.table.isVisible()
    assert pane.shelf.hint.text() == "No stock yet: add a dye, then acid water."
    assert not pane.shelf.remove.isEnabled()
    QTest.mouseClick(pane.shelf.add_dye, LEFT)
    QApplication.processEvents()
    type_on("Red")
    assert pane.shelf.table.isVisible()
    assert pane.shelf.hint.text().startswith("No let-down yet")
    QTest.mouseClick(pane.shelf.add_let_down, LEFT)
    QApplication.processEvents()
    type_on("Water")
    assert not pane.shelf.hint.isVisible()
    document.edit("", lambda plan: replace(plan, stocks=plan.let_downs))
    assert pane.shelf.hint.text().startswith("No dye yet")


def test_what_a_field_at_the_edge_of_the_room_has_to_say_comes_into_sight(
    document: OpenPlan, qtbot: QtBot
) -> None:
    room = QScrollArea()
    pane = StocksPane(document)
    room.setWidgetResizable(True)
    room.setWidget(pane)
    shown(room, qtbot, 290, 380)
    pane.form.open_fields(True)
    QApplication.processEvents()
    field = pane.form.swatches.rows[0].depth_field
    field.setFocus(Qt.FocusReason.TabFocusReason)
    room.ensureWidgetVisible(field, 0, 0)
    type_on("12 + 38")
    message = field.message
    qtbot.waitUntil(lambda: message.visibleRegion().boundingRect().height() == message.height())
    assert message.height() > 0


def test_every_target_of_the_pane_can_be_hit(pane: StocksPane) -> None:
    buttons = [*pane.form.findChildren(QWidget), *pane.shelf.findChildren(QWidget)]
    targets = [w for w in buttons if w.isVisible() and w.focusPolicy() & Qt.FocusPolicy.TabFocus]
    assert len(targets) > 12
    for target in targets:
        tick_box_height = 18  # with its label it is wide enough to be hit
        assert target.height() >= (tick_box_height if target is pane.form.keep else 24), target
        assert target.width() >= 24, target
