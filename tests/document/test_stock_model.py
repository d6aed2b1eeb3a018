"""If these fail, the shelf shows other bottles or needs than the plan has, or typing changes others."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QAbstractItemModelTester

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.stock_model import Column, StockModel, new_dye
from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.stocks import add_stock, change_stock, remove_stock
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import AcidLine
from studio_gui.domain.stocks import Stock
from tests.document.heard import Announced

Role = Qt.ItemDataRole


@pytest.fixture
def model(document: OpenPlan) -> StockModel:
    return StockModel(document)


def shown(model: StockModel, row: int) -> list[str]:
    return [str(model.index(row, column).data()) for column in range(len(Column))]


def typed(model: StockModel, row: int, column: Column, text: str) -> bool:
    return model.setData(model.index(row, column), text)


def editable(model: StockModel, row: int) -> list[Column]:
    return [c for c in Column if model.flags(model.index(row, c)) & Qt.ItemFlag.ItemIsEditable]


def test_a_dye_is_shown_with_users_strength_acid_need_and_depths_of_swatches(model: StockModel) -> None:
    # of blue: two sections with 37.5 ml and one with 6.25 ml, and 5 % spare
    assert shown(model, 0) == [
        *("Blue", "A, B", "dye", "weighed", "1.00", "1.00", "6.00", "10.0", "85.3"),
    ]
    assert model.index(0, Column.NAME).data(Role.DecorationRole) == QColor("#2a5d8f")


def test_a_let_down_shows_nothing_of_dye_and_takes_nothing_of_it(model: StockModel) -> None:
    assert shown(model, 2) == [
        *("Acid water", "A, B, C", "let-down", "", "", "", "", "10.0", "137.8"),
    ]
    assert editable(model, 2) == [Column.NAME, Column.ACID]


def test_only_what_is_entered_is_typed(model: StockModel) -> None:
    assert editable(model, 0) == [
        *(Column.NAME, Column.KNOWN, Column.STRENGTH, Column.TAKE_UP, Column.ACID),
    ]


def test_users_are_told_in_letters_and_the_acid_line_in_words(model: StockModel) -> None:
    model.document.edit("", partial(add_stock, stock=Stock("k9", "Citric", "let-down", acid_g_per_l=200.0)))
    assert model.used_in("k9") == "not used"
    model.document.edit("", lambda plan: replace(plan, acid_line=AcidLine("k9", 10.0)))
    assert model.used_in("k9") == "acid line"
    assert model.used_in("k1") == "A, B"
    assert model.used_in("gone") == ""


def test_tooltips_say_the_whole_of_it(model: StockModel) -> None:
    tip = Role.ToolTipRole
    model.document.edit("", partial(change_stock, stock_id="k1", name="Sea " * 60))
    assert model.index(0, Column.NAME).data(tip) == "Sea " * 60
    assert model.index(0, Column.USED).data(tip) == "A, B"
    assert model.index(0, Column.STRENGTH).data(tip) == "1.00 % = 10.0 g/L"
    assert model.index(0, Column.NEED).data(tip) is None
    assert model.headerData(Column.STRENGTH, Qt.Orientation.Horizontal) == "%"
    assert "Strength" in model.headerData(Column.STRENGTH, Qt.Orientation.Horizontal, tip)
    assert model.headerData(Column.NAME, Qt.Orientation.Horizontal, tip) is None


@pytest.mark.parametrize("text", ["?", "unknown", ""])
def test_acid_may_be_made_unknown_and_known_again(model: StockModel, text: str) -> None:
    assert typed(model, 0, Column.ACID, text)
    assert model.document.plan.stock("k1").acid_g_per_l is None
    assert shown(model, 0)[Column.ACID] == "unknown"
    assert typed(model, 0, Column.ACID, "1 %")
    assert model.document.plan.stock("k1").acid_g_per_l == 10.0


def test_unknown_acid_is_not_none_at_all(model: StockModel) -> None:
    typed(model, 0, Column.ACID, "0")
    assert model.document.plan.stock("k1").acid_g_per_l == 0.0
    assert shown(model, 0)[Column.ACID] == "0.0"


def test_a_new_strength_moves_the_shade_or_the_parts_as_asked(model: StockModel) -> None:
    document = model.document
    depth = section_figures(document.plan).depth_pct_owf[0, 0]
    typed(model, 0, Column.STRENGTH, "1.2 %")
    assert section_figures(document.plan).depth_pct_owf[0, 0] == pytest.approx(1.2 * depth)
    document.undo_stack.undo()
    model.keeps_depths = True
    typed(model, 0, Column.STRENGTH, "12 g/L")
    assert document.plan.stock("k1").strength_g_per_l == 12.0
    assert section_figures(document.plan).depth_pct_owf[0, 0] == pytest.approx(depth)
    assert document.undo_stack.undoText() == "Change strength"


@pytest.mark.parametrize(
    ("column", "text", "field", "value"),
    [
        (Column.NAME, "Sea blue", "name", "Sea blue"),
        (Column.KNOWN, "spoon", "strength_known", "spoon"),
        (Column.TAKE_UP, "4", "take_up_pct_owf", 4.0),
    ],
)
def test_typed_fields_of_a_stock(
    model: StockModel, column: Column, text: str, field: str, value: object
) -> None:
    assert typed(model, 0, column, text)
    assert getattr(model.document.plan.stock("k1"), field) == value


def test_a_dye_shows_the_depth_of_each_swatch(model: StockModel) -> None:
    more = Swatch(2.0, "#123456", "#f3eee2")
    first = model.document.plan.stock("k1").swatches[0]
    model.document.edit("", partial(change_stock, stock_id="k1", swatches=(first, more)))
    assert shown(model, 0)[Column.SWATCHES] == "1.00, 2.00"


@pytest.mark.parametrize(
    ("column", "text", "code"),
    [
        (Column.NAME, "  ", "text-empty"),
        (Column.STRENGTH, "0", "out-of-range"),
        (Column.ACID, "much", "not-a-number"),
        (Column.KNOWN, "guessed", "not-one-of"),
    ],
)
def test_what_is_no_value_is_refused(model: StockModel, column: Column, text: str, code: str) -> None:
    before, announced = model.document.plan, Announced(model)
    assert not typed(model, 0, column, text)
    assert announced.codes == [code]
    assert model.document.plan is before


def test_only_stocks_that_changed_are_announced(model: StockModel) -> None:
    announced = Announced(model)
    model.document.edit("", partial(change_stock, stock_id="k2", name="Rust"))
    assert (announced.rows, announced.layouts) == ([(1, 1)], 0)


def test_stocks_come_and_go(model: StockModel) -> None:
    tester = QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Warning)
    announced = Announced(model)
    model.document.edit("", partial(add_stock, stock=Stock("k9", "Plain water", "let-down")))
    assert (model.rowCount(), announced.layouts) == (4, 1)
    assert shown(model, 3)[Column.NEED] == "0.0"
    model.document.edit("", partial(remove_stock, stock_id="k9"))
    assert model.rowCount() == 3
    assert tester.model() is model


def test_a_new_dye_can_be_painted_at_once() -> None:
    dye = new_dye("k9", "New dye", "#eeeeee")
    assert dye.swatches[0].depth_pct_owf == 1.0
    assert dye.swatches[0].fibre_srgb == "#eeeeee"


def test_a_dragged_boundary_announces_amounts_alone(model: StockModel) -> None:
    announced = Announced(model)
    model.document.edit("", partial(move_boundary, index=1, position_m=2.2))
    assert announced.columns
    assert set(announced.columns) == {(Column.NEED, Column.NEED)}
