"""If these fail, a dyed sample is not what was entered, or a doubtful one passes without a word."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QColorDialog, QDialog, QLineEdit
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.colour.undyed import UNDYED
from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.edits.swatches import add_swatch, change_swatch
from studio_gui.views.swatch_list import SwatchList
from tests.views.dialogs import answering
from tests.views.keys import shown, steps, type_into

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def swatches(document: OpenPlan, qtbot: QtBot) -> Iterator[SwatchList]:
    listed = SwatchList(document, has_window=True)

    def follow() -> None:
        plan = document.sheet.plan
        listed.show_stock(plan.stock("k1"), plan.fibre.undyed_srgb)

    follow()
    document.shown.connect(follow)
    yield shown(listed, qtbot, 276, 400)
    document.shown.disconnect(follow)


def of_blue(document: OpenPlan) -> tuple[Swatch, ...]:
    return document.plan.stock("k1").swatches


def test_a_colour_is_typed_as_a_screen_s_or_as_lab(swatches: SwatchList, document: OpenPlan) -> None:
    field = swatches.rows[0].colour.edit
    type_into(field, "336699")
    assert of_blue(document)[0].srgb == "#336699"
    type_into(field, "52.1 34 -12")
    assert of_blue(document)[0].srgb == field.text() == "#ab6692"
    assert not field.message.isVisible()
    assert "L 52.1" in field.toolTip()
    assert steps(document) == ["Change swatch", "Change swatch"]


def test_a_colour_that_no_screen_shows_is_taken_as_the_nearest_and_said(
    swatches: SwatchList, document: OpenPlan
) -> None:
    field = swatches.rows[0].colour.edit
    type_into(field, "50 -100 0")
    assert field.text() == of_blue(document)[0].srgb
    assert field.text() in field.message.text()
    assert field.message.text().startswith("No screen shows that colour")


def test_a_colour_that_is_none_is_quoted_and_undo_brings_it_back_to_be_mended(
    swatches: SwatchList, document: OpenPlan
) -> None:
    field = swatches.rows[0].colour.edit
    type_into(field, "52.1 34")
    assert field.text() == "#2a5d8f"
    assert "52.1 34" in field.message.text()
    QTest.keyClick(field, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert field.text() == "52.1 34"
    QTest.keyClick(field, Qt.Key.Key_End)
    QTest.keyClicks(field, " -12")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert of_blue(document)[0].srgb == "#ab6692"


@pytest.mark.parametrize(("typed", "depth"), [("1.5", 1.5), ("12 + 38 on 24 g", 0.5), ("12 on 24", 0.5)])
def test_a_depth_is_typed_as_painters_know_it(
    typed: str, depth: float, swatches: SwatchList, document: OpenPlan
) -> None:
    type_into(swatches.rows[0].depth_field, typed)
    assert of_blue(document)[0].depth_pct_owf == pytest.approx(depth)


def test_the_strength_that_a_painted_sample_is_reckoned_with_is_the_stock_s(
    swatches: SwatchList, document: OpenPlan
) -> None:
    document.edit("", partial(change_stock, stock_id="k1", strength_g_per_l=20.0))
    type_into(swatches.rows[0].depth_field, "12 + 38 on 24 g")
    assert of_blue(document)[0].depth_pct_owf == pytest.approx(1.0)


@pytest.mark.parametrize("typed", ["0", "12 + 38", "much", "0 + 50 on 20 g"])
def test_a_depth_that_cannot_be_is_refused_at_its_row(
    typed: str, swatches: SwatchList, document: OpenPlan
) -> None:
    field = swatches.rows[0].depth_field
    type_into(field, typed)
    assert field.message.isVisible()
    assert field.text() == "1.00 %"
    assert steps(document) == []


def test_swatches_come_and_go_by_buttons(swatches: SwatchList, document: OpenPlan) -> None:
    assert not swatches.rows[0].remove.isVisible(), "the last one stays"
    QTest.mouseClick(swatches.add, LEFT)
    QApplication.processEvents()
    assert [row.depth_field.text() for row in swatches.rows] == ["1.00 %", "2.00 %"]
    assert QApplication.focusWidget() is swatches.rows[1].colour.edit
    assert swatches.build_up.isVisible()
    QTest.keyClick(swatches.rows[0].remove, Qt.Key.Key_Space)
    QApplication.processEvents()
    assert [row.depth_field.text() for row in swatches.rows if row.isVisible()] == ["2.00 %"]
    assert steps(document) == ["Add swatch", "Remove swatch"]


def test_too_many_swatches_are_refused_below(swatches: SwatchList, document: OpenPlan) -> None:
    document.edit("", partial(change_stock, stock_id="k1", swatches=of_blue(document) * 50))
    QTest.mouseClick(swatches.add, LEFT)
    assert "50" in swatches.message.text()


def test_the_fibre_is_that_of_the_plan_or_picked(swatches: SwatchList, document: OpenPlan) -> None:
    document.edit("", partial(set_fibre, undyed_srgb="#ccbbaa"))
    row = swatches.rows[0]
    pick(swatches, 0)
    assert of_blue(document)[0].fibre_srgb == "#ccbbaa"
    assert "#ccbbaa" in row.fibre.toolTip()

    def type_colour(dialog: QDialog) -> None:
        assert isinstance(dialog, QColorDialog)
        line = dialog.findChild(QLineEdit)
        assert line is not None
        line.selectAll()
        QTest.keyClicks(line, "#998877")
        dialog.accept()

    with answering(type_colour):
        pick(swatches, -1)
    assert of_blue(document)[0].fibre_srgb == "#998877"
    with answering(lambda dialog: dialog.reject()):
        pick(swatches, -1)
    assert steps(document)[1:] == ["Change swatch", "Change swatch"]


def test_the_fibre_is_one_of_the_kinds_of_undyed_wool(swatches: SwatchList, document: OpenPlan) -> None:
    row = swatches.rows[0]
    assert [entry.text() for entry in row.kinds.entries.values()][:3] == [
        "Bleached white",
        "Natural white",
        "Cream",
    ]
    pick(swatches, row.fibre_menu.actions().index(row.kinds.entries["fawn"]))
    assert of_blue(document)[0].fibre_srgb == UNDYED["fawn"]
    assert "common practice" in row.kinds.entries["fawn"].toolTip()


def pick(swatches: SwatchList, place: int) -> None:
    """Open the menu of the first swatch's fibre and click an entry."""
    menu = swatches.rows[0].fibre_menu
    menu.popup(swatches.rows[0].fibre.mapToGlobal(QPoint(0, 0)))
    QTest.mouseClick(menu, LEFT, pos=menu.actionGeometry(menu.actions()[place]).center())
    QApplication.processEvents()
    swatches.window().activateWindow()


def test_swatches_that_do_not_go_together_are_told(swatches: SwatchList, document: OpenPlan) -> None:
    assert not swatches.rows[0].fit.isVisible(), "quiet when right"
    document.edit("", partial(add_swatch, stock_id="k1"))
    assert not any(row.fit.isVisible() for row in swatches.rows)
    document.edit("", partial(change_swatch, stock_id="k1", place=1, srgb="#c02020"))
    assert any("CIEDE2000" in row.fit.text() for row in swatches.rows if row.fit.isVisible())


def test_a_lone_swatch_on_too_dark_a_fibre_is_told(swatches: SwatchList, document: OpenPlan) -> None:
    document.edit("", partial(change_swatch, stock_id="k1", place=0, srgb="#fff0a0", fibre_srgb="#e8e0d8"))
    assert "fibre" in swatches.rows[0].fit.text()


def test_what_was_typed_for_one_dye_is_not_taken_for_another(
    swatches: SwatchList, document: OpenPlan
) -> None:
    type_into(swatches.rows[0].depth_field, "much")
    plan = document.plan
    swatches.show_stock(plan.stock("k2"), plan.fibre.undyed_srgb)
    assert not swatches.rows[0].depth_field.message.isVisible()
