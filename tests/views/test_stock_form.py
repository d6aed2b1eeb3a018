"""If these fail, a stock is not what was typed for it, or a shade moves unasked."""

from __future__ import annotations

from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.stock_model import StockModel
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.figures import section_figures
from studio_gui.views.stock_form import StockForm
from tests.views.keys import choose, shown, steps, type_into

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def form(document: OpenPlan, qtbot: QtBot) -> StockForm:
    form = StockForm(document, StockModel(document))
    form.show_stock("k1")
    form.open_fields(True)
    return shown(form, qtbot, 290, 600)


def test_every_field_of_the_form_changes_its_stock(form: StockForm, document: OpenPlan) -> None:
    type_into(form.name, "Sea blue")
    choose(form.known, "by spoon")
    type_into(form.acid, "?")
    type_into(form.take_up, "4")
    stock = document.plan.stock("k1")
    assert (stock.name, stock.strength_known, stock.acid_g_per_l, stock.take_up_pct_owf) == (
        *("Sea blue", "spoon", None, 4.0),
    )
    assert form.acid.text() == "unknown"
    assert document.undo_stack.count() == 4


@pytest.mark.parametrize("typed", ["1.5", "1.5 %", "15 g/L", "1,5 g/100 ml"])
def test_strength_is_typed_either_way(typed: str, form: StockForm, document: OpenPlan) -> None:
    type_into(form.strength, typed)
    assert document.plan.stock("k1").strength_g_per_l == pytest.approx(15.0)
    assert form.strength.text() == "1.50 %"
    assert "15.0 g/L" in form.strength.toolTip()


@pytest.mark.parametrize(("keep", "factor"), [(False, 1.1), (True, 1.0)])
def test_a_new_strength_moves_the_shade_unless_depths_are_kept(
    keep: bool, factor: float, form: StockForm, document: OpenPlan
) -> None:
    depth = float(section_figures(document.plan).depth_pct_owf[0, 0])
    if keep:
        QTest.keyClick(form.keep, Qt.Key.Key_Space)
    type_into(form.strength, "11 g/L")
    assert document.plan.stock("k1").strength_g_per_l == 11.0
    assert section_figures(document.plan).depth_pct_owf[0, 0] == pytest.approx(factor * depth)
    assert steps(document) == ["Change strength"]


def test_a_strength_too_weak_to_keep_depths_is_refused_at_the_field(
    form: StockForm, document: OpenPlan
) -> None:
    form.keep.click()
    type_into(form.strength, "0.4")
    assert document.plan.stock("k1").strength_g_per_l == 10.0
    assert form.strength.text() == "1.00 %"
    assert "let-down" in form.strength.message.text()
    assert "You typed “0.4”." in form.strength.message.text()


def test_unknown_acid_is_answered_by_a_button_at_the_field(form: StockForm, document: OpenPlan) -> None:
    assert not form.same_acid.isVisible(), "nothing to answer while it is known"
    type_into(form.acid, "unknown")
    QApplication.processEvents()
    assert form.same_acid.isVisible()
    assert form.same_acid.toolTip() == "10.0 g/L, as Acid water"
    QTest.mouseClick(form.same_acid, LEFT)
    assert document.plan.stock("k1").acid_g_per_l == 10.0
    assert not form.same_acid.isVisible()
    assert QApplication.focusWidget() is form.acid
    assert steps(document) == ["Change acid", "Same acid as acid water"]


def test_without_any_acid_water_there_is_nothing_to_be_the_same_as(
    form: StockForm, document: OpenPlan
) -> None:
    for stock in ("k1", "k3"):
        document.edit("", partial(change_stock, stock_id=stock, acid_g_per_l=None))
    assert not form.same_acid.isVisible()


def test_typing_for_one_stock_does_not_go_over_to_the_next(form: StockForm, document: OpenPlan) -> None:
    type_into(form.strength, "much")
    assert "much" in form.strength.message.text()
    form.show_stock("k2")
    assert not form.strength.message.isVisible()
    type_into(form.strength, "9", Qt.Key.Key_Shift)
    form.show_stock("k1")
    QTest.keyClick(form.strength, Qt.Key.Key_Return)
    assert steps(document) == []


def test_the_button_of_the_form_says_whose_it_is_and_who_uses_it(form: StockForm) -> None:
    assert form.role.text() == "dye · A, B"
    QTest.mouseClick(form.toggle, LEFT)
    assert not form.fields.isVisible()
    assert form.role.isVisible()
