"""If these fail, the table of stripes shows other stripes than are wanted, or reads a size amiss."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QAbstractItemModelTester

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.stripe_model import Column, StripeModel
from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.edits.stripes import move_stripe, remove_stripe, set_knitting
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.yarn import Knitting, Stripe, Yarn
from studio_gui.wording.translation import install_units
from tests.document.heard import Announced
from tests.drawing.plans import plain_plan


@pytest.fixture
def model(qapp: QCoreApplication) -> StripeModel:  # noqa: ARG001  (its signals need an application)
    """Of 100 g on 4 m, of which 250 rows of 1 m are 1 m."""
    stripes = (Stripe("q1", 250.0), Stripe("q3", 100.0, "metres"), Stripe("q2", 62.5))
    yarn = Yarn(structure="single", knitting=Knitting(row_m=1.0), stripes=stripes)
    return StripeModel(OpenPlan(replace(plain_plan(4), yarn=yarn)))


def shown(model: StripeModel, row: int) -> list[str]:
    return [str(model.index(row, column).data()) for column in range(len(Column))]


def stripes(model: StripeModel) -> tuple[Stripe, ...]:
    return model.document.plan.yarn.stripes


def test_a_stripe_is_shown_with_its_length_on_the_lay(model: StripeModel) -> None:
    assert shown(model, 0) == ["1", "A Blue", "250", "rows", "100.0"]
    assert shown(model, 1) == ["2", "C Red", "100.0", "m", "40.0"]
    assert shown(model, 2) == ["3", "B Pale", "62.5", "rows", "260.0"]  # with what is left
    swatch = model.index(1, Column.LIQUOR).data(Qt.ItemDataRole.DecorationRole)
    assert swatch == QColor(hex_from_srgb(model.document.sheet.liquor_colours.srgb[2]))


def test_a_mirrored_stripe_is_told_with_both_its_places(model: StripeModel) -> None:
    model.document.edit("", partial(set_yarn, structure="both ends"))
    lengths = [float(shown(model, row)[Column.LAY]) for row in range(3)]
    assert sum(lengths) == pytest.approx(100.0 * model.document.plan.lay_length_m, abs=0.2)


def test_a_stripe_without_room_has_no_length(model: StripeModel) -> None:
    model.document.edit("", partial(set_knitting, row_m=5.0))
    assert [shown(model, row)[Column.LAY] for row in range(3)] == ["400.0", "–", "–"]


@pytest.mark.parametrize(
    ("typed", "stripe"),
    [
        ("20", Stripe("q1", 20.0)),
        ("20 rows", Stripe("q1", 20.0)),
        ("12,5", Stripe("q1", 12.5)),
        ("12 m", Stripe("q1", 12.0, "metres")),
        ("10 yd", Stripe("q1", 9.144, "metres")),
    ],
)
def test_a_size_is_typed_in_rows_or_with_a_length(model: StripeModel, typed: str, stripe: Stripe) -> None:
    assert model.setData(model.index(0, Column.AMOUNT), typed)
    assert stripes(model)[0] == stripe
    assert model.document.undo_stack.undoText() == "Size of a stripe"
    model.document.undo_stack.undo()
    assert stripes(model)[0] == Stripe("q1", 250.0)


def test_a_length_is_typed_as_it_is_shown_and_rows_by_their_word(model: StripeModel) -> None:
    assert model.setData(model.index(1, Column.AMOUNT), "80")
    assert stripes(model)[1] == Stripe("q3", 80.0, "metres")
    assert model.setData(model.index(1, Column.AMOUNT), "30 rows")
    assert stripes(model)[1] == Stripe("q3", 30.0, "rows")
    try:
        install_units("us")
        model.retranslate()
        assert model.setData(model.index(1, Column.AMOUNT), "10 yd")
        assert shown(model, 1)[2:4] == ["10.0", "yd"]
        assert model.headerData(Column.LAY, Qt.Orientation.Horizontal) == "lay, in"
    finally:
        install_units("metric")


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        ("", "nothing-typed-in"),
        ("many", "not-a-number"),
        ("0", "out-of-range"),
        ("4 g", "wrong-kind-of-unit"),
    ],
)
def test_what_is_no_size_is_refused(model: StripeModel, typed: str, code: str) -> None:
    announced = Announced(model)
    before = model.document.plan
    assert not model.setData(model.index(0, Column.AMOUNT), typed)
    assert announced.codes == [code]
    assert model.document.plan is before


def test_liquor_and_measure_are_chosen(model: StripeModel) -> None:
    assert ("C  Red", "q3") in model.liquor_choices()
    assert model.measure_choices() == [("rows", "rows"), ("m", "metres")]
    assert model.setData(model.index(0, Column.LIQUOR), "q2")
    assert model.setData(model.index(0, Column.MEASURE), "metres")
    assert stripes(model)[0] == Stripe("q2", 250.0, "metres")
    assert model.setData(model.index(0, Column.MEASURE), "rows")
    assert stripes(model)[0] == Stripe("q2", 250.0)
    assert not model.setData(model.index(0, Column.LIQUOR), "q2"), "it is so already"
    for column in (Column.NUMBER, Column.LAY):
        assert not model.flags(model.index(0, column)) & Qt.ItemFlag.ItemIsEditable


def test_every_heading_says_what_its_column_holds(model: StripeModel) -> None:
    for column in (Column.LIQUOR, Column.AMOUNT, Column.MEASURE, Column.LAY):
        tip = model.headerData(column, Qt.Orientation.Horizontal, Qt.ItemDataRole.ToolTipRole)
        assert tip
    assert model.index(0, Column.LIQUOR).data(Qt.ItemDataRole.ToolTipRole) == "A Blue"


def test_stripes_that_come_go_and_move_keep_the_table_whole(model: StripeModel) -> None:
    QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Fatal)
    model.document.edit("", partial(move_stripe, index=0, by=1))
    assert [shown(model, row)[1] for row in range(3)] == ["C Red", "A Blue", "B Pale"]
    model.document.edit("", partial(remove_stripe, index=0))
    assert model.rowCount() == 2
    model.document.undo_stack.undo()
    assert model.rowCount() == 3
