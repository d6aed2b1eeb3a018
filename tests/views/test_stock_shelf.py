"""If these fail, a bottle is lost, changed unasked, or taken from under a liquor."""

from __future__ import annotations

from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.stock_model import Column, StockModel
from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.edits.liquors import to_depth_basis
from studio_gui.domain.edits.stocks import add_stock, change_stock
from studio_gui.domain.stocks import Stock
from studio_gui.domain.text import NAME_MAX
from studio_gui.views.removal import RemovalQuestion
from studio_gui.views.stock_shelf import StockShelf, copy_name
from tests.views.dialogs import Answer, answering, cancel
from tests.views.keys import ESC, choose, click_cell, shown, steps, type_into_cell, type_on

LEFT, ALT = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.AltModifier
Key = Qt.Key


@pytest.fixture
def shelf(document: OpenPlan, qtbot: QtBot) -> StockShelf:
    return shown(StockShelf(document, StockModel(document)), qtbot, 290, 500)


def click(button: QWidget) -> None:
    QTest.mouseClick(button, LEFT)
    QApplication.processEvents()


def names(document: OpenPlan) -> list[str]:
    return [stock.name for stock in document.plan.stocks]


def answer(way: int, by: str = "", then: Answer | None = None) -> Answer:
    """Return an answer that clicks a way, chooses a stock for it, and accepts."""

    def give(dialog: QDialog) -> None:
        assert isinstance(dialog, RemovalQuestion)
        box = dialog.boxes[way]
        if by:
            assert box is not None
            choose(box, by)
        else:
            QTest.mouseClick(dialog.radios[way], LEFT)
        QTest.mouseClick(dialog.remove, LEFT)
        if then is not None:
            then(dialog)

    return give


# -- adding --------------------------------------------------------------------------------------------------


def test_a_dye_is_added_with_a_swatch_and_its_name_is_typed_at_once(
    shelf: StockShelf, document: OpenPlan
) -> None:
    document.edit("", partial(set_fibre, undyed_srgb="#ddddcc"))
    click(shelf.add_dye)
    type_on("Kelp green")
    dye = document.plan.stocks[-1]
    assert (dye.name, dye.is_dye, dye.swatches[0].fibre_srgb) == ("Kelp green", True, "#ddddcc")
    assert steps(document)[1:] == ["Add dye", "Rename stock"]


def test_a_let_down_is_added_and_may_keep_its_first_name(shelf: StockShelf, document: OpenPlan) -> None:
    click(shelf.add_let_down)
    type_on("x", ESC)
    water = document.plan.stocks[-1]
    assert (water.name, water.is_dye, water.acid_g_per_l) == ("New let-down", False, None)


def test_a_copy_stands_behind_its_original_and_is_named(shelf: StockShelf, document: OpenPlan) -> None:
    click_cell(shelf.table, 0, Column.NAME)
    shelf.copy_command.trigger()
    QApplication.processEvents()
    type_on("Blue again")
    assert names(document) == ["Blue", "Blue again", "Red", "Acid water"]
    assert document.plan.stocks[1].swatches == document.plan.stocks[0].swatches
    assert steps(document) == ["Copy stock", "Rename stock"]


def test_the_name_of_a_copy_fits(shelf: StockShelf, document: OpenPlan) -> None:
    document.edit("", partial(change_stock, stock_id="k1", name="🧶" * NAME_MAX))
    click_cell(shelf.table, 0, Column.NAME)
    shelf.copy_command.trigger()
    QApplication.processEvents()
    type_on("x", ESC)
    assert document.plan.stocks[1].name.endswith("🧶 copy")
    assert copy_name("{0} copy", "Red") == "Red copy"


# -- keys ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", [Key.Key_Return, Key.Key_Enter, Key.Key_F2])
def test_a_key_renames_the_current_stock(key: Qt.Key, shelf: StockShelf, document: OpenPlan) -> None:
    click_cell(shelf.table, 1, Column.NEED)
    QTest.keyClick(shelf.table, key)
    type_on("Rust")
    assert names(document) == ["Blue", "Rust", "Acid water"]


@pytest.mark.parametrize("column", [Column.NAME, Column.NEED])
def test_a_double_click_renames(column: Column, shelf: StockShelf, document: OpenPlan) -> None:
    click_cell(shelf.table, 1, column)
    middle = shelf.table.visualRect(shelf.model.index(1, column)).center()
    QTest.mouseDClick(shelf.table.viewport(), LEFT, pos=middle)
    type_on("Rust")
    assert names(document) == ["Blue", "Rust", "Acid water"]


def test_stocks_change_places_by_keys_and_stay_selected(shelf: StockShelf, document: OpenPlan) -> None:
    click_cell(shelf.table, 0, Column.NAME)
    QTest.keyClick(shelf.table, Key.Key_Down, ALT)
    QTest.keyClick(shelf.table, Key.Key_Down, ALT)
    assert names(document) == ["Red", "Acid water", "Blue"]
    QTest.keyClick(shelf.table, Key.Key_Down, ALT)
    assert steps(document) == ["Move stock", "Move stock"], "at the end nothing moves"
    QTest.keyClick(shelf.table, Key.Key_Up, ALT)
    assert names(document) == ["Red", "Blue", "Acid water"]
    assert shelf.current_id == "k1"


def test_delete_while_a_name_is_typed_deletes_letters_only(shelf: StockShelf, document: OpenPlan) -> None:
    document.edit("", partial(add_stock, stock=Stock("k9", "Spare", "let-down")))
    click_cell(shelf.table, 3, Column.NAME)
    QTest.keyClick(shelf.table, Key.Key_F2)
    editor = QApplication.focusWidget()
    assert editor is not None
    QTest.keyClick(editor, Key.Key_Delete)
    type_on("Rest")
    assert names(document)[-1] == "Rest"


def test_the_menu_has_every_command_with_its_keys(shelf: StockShelf) -> None:
    click_cell(shelf.table, 0, Column.NAME)
    QTest.mouseClick(shelf.table.viewport(), Qt.MouseButton.RightButton)
    labels = [action.text().replace("&", "") for action in shelf.table.menu.actions()]
    assert labels == ["Rename", "Duplicate", "Move up", "Move down", "Take off the shelf…"]
    assert shelf.more.menu() is shelf.table.menu


# -- removing ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("by_key", [False, True])
def test_an_unused_stock_goes_without_a_question(by_key: bool, shelf: StockShelf, document: OpenPlan) -> None:
    document.edit("", partial(add_stock, stock=Stock("k9", "Spare", "let-down")))
    click_cell(shelf.table, 3, Column.NAME)
    if by_key:
        QTest.keyClick(shelf.table, Key.Key_Delete)
    else:
        click(shelf.remove)
    assert [stock.id for stock in document.plan.stocks] == ["k1", "k2", "k3"]
    assert steps(document)[-1] == "Remove stock"


def test_a_used_stock_is_asked_about_with_its_users_and_may_stay(
    shelf: StockShelf, document: OpenPlan
) -> None:
    before = document.plan
    click_cell(shelf.table, 0, Column.NAME)
    with answering(cancel) as said:
        click(shelf.remove)
    assert said == ["Blue is needed by liquors A and B."]
    assert document.plan is before


def test_another_dye_takes_the_place_in_one_step(shelf: StockShelf, document: OpenPlan) -> None:
    click_cell(shelf.table, 0, Column.NAME)
    with answering(answer(0, by="Red")):
        click(shelf.remove)
    assert names(document) == ["Red", "Acid water"]
    assert [part.stock_id for part in document.plan.liquor("q2").parts] == ["k2", "k3"]
    assert steps(document) == ["Replace stock"]
    document.undo_stack.undo()
    assert names(document) == ["Blue", "Red", "Acid water"]


def test_a_stock_is_taken_out_of_its_liquors_in_one_step(shelf: StockShelf, document: OpenPlan) -> None:
    click_cell(shelf.table, 0, Column.NAME)
    with answering(answer(1)):
        click(shelf.remove)
    assert names(document) == ["Red", "Acid water"]
    assert [part.stock_id for part in document.plan.liquor("q2").parts] == ["k3"]
    assert steps(document) == ["Remove stock"]


def test_what_cannot_be_taken_out_says_why_and_lets_another_way_be_chosen(
    shelf: StockShelf, document: OpenPlan
) -> None:
    document.edit("", partial(add_stock, stock=Stock("k9", "Plain water", "let-down")))
    document.edit("", partial(to_depth_basis, liquor_id="q1"))
    seen: list[str] = []

    def look_and_replace(dialog: QDialog) -> None:
        assert isinstance(dialog, RemovalQuestion)
        assert dialog.isVisible()
        seen.append(dialog.message.text())
        answer(0, by="Plain water")(dialog)

    click_cell(shelf.table, 2, Column.NAME)
    with answering(answer(1, then=look_and_replace)):
        click(shelf.remove)
    assert "no let-down" in seen[0]
    assert names(document) == ["Blue", "Red", "Plain water"]


def test_the_last_of_its_kind_can_only_be_taken_out(shelf: StockShelf, document: OpenPlan) -> None:
    click_cell(shelf.table, 2, Column.NAME)
    with answering(answer(0)):
        click(shelf.remove)
    assert names(document) == ["Blue", "Red"]


def test_commands_without_a_stock_do_nothing(shelf: StockShelf, document: OpenPlan) -> None:
    shelf.table.setCurrentIndex(shelf.model.index(-1, -1))
    click(shelf.remove)
    for command in shelf.table.menu.actions():
        command.trigger()
    shelf.show_row("gone")
    assert steps(document) == []


def test_a_cell_that_is_no_value_is_answered_below_the_table(shelf: StockShelf, document: OpenPlan) -> None:
    type_into_cell(shelf.table, 0, Column.STRENGTH, "much")
    assert shelf.message.isVisible()
    assert shelf.table.accessibleDescription() == shelf.message.text()
    assert steps(document) == []
    type_into_cell(shelf.table, 0, Column.STRENGTH, "1.1")
    assert not shelf.message.isVisible()
