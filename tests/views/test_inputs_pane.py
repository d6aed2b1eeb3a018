"""If these fail, a measured input goes into another place of the plan than its field says."""

from __future__ import annotations

from functools import partial
from operator import attrgetter

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.colour.undyed import UNDYED
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.inputs import set_passes
from studio_gui.domain.edits.sections import set_locked
from studio_gui.domain.fibre import MassMark
from studio_gui.views.inputs_pane import InputsPane
from tests.views.keys import choose, shown, steps, type_into


@pytest.fixture
def pane(document: OpenPlan, qtbot: QtBot) -> InputsPane:
    return shown(InputsPane(document), qtbot, 290, 1100)


def folds(document: OpenPlan) -> tuple[float, ...]:
    return document.plan.lay.fold_positions_m


def marks(document: OpenPlan) -> tuple[MassMark, ...]:
    return document.plan.fibre.mass_marks


@pytest.mark.parametrize(
    ("field", "text", "place", "value", "again"),
    [
        ("mass_g", "4 oz", "fibre.mass_g", 113.398, "113.4 g"),
        ("length_m", "4,4 yd", "fibre.length_m", 4.02336, "4.02 m"),
        ("rovings", "3", "fibre.rovings", 3, "3"),
        ("overhang_m", "30", "lay.overhang_m", 0.3, "30.0 cm"),
        ("uptake_ml_per_g", "1.4", "liquid.uptake_ml_per_g", 1.4, "1.40 ml/g"),
        ("soak_ml_per_g", "0.5", "liquid.soak_ml_per_g", 0.5, "0.50 ml/g"),
        ("limit_ml_per_g", "3.1", "liquid.limit_ml_per_g", 3.1, "3.10 ml/g"),
        ("penetration_ml_per_g", "1.2", "liquid.penetration_ml_per_g", 1.2, "1.20 ml/g"),
        ("soak_acid_g_per_l", "2", "liquid.soak_acid_g_per_l", 2.0, "2.0 g/L"),
        ("soak_acid_g_per_l", "?", "liquid.soak_acid_g_per_l", None, "unknown"),
        ("wicking_mm", "15", "wicking_mm", 15.0, "15 mm"),
        ("spare_share", "10", "bench.spare_share", 0.1, "10.0 %"),
        ("dead_ml", "2", "bench.dead_ml", 2.0, "2.0 ml"),
        ("graduation_ml", "0.25", "bench.graduation_ml", 0.25, "0.25 ml"),
        ("acid_ratio_limit", "1.5", "acid.ratio", 1.5, "1.50"),
        ("acid_floor_pct_owf", "0.8", "acid.floor_pct_owf", 0.8, "0.80 %"),
    ],
)
def test_every_number_goes_where_its_field_says(
    field: str, text: str, place: str, value: float | None, again: str, pane: InputsPane, document: OpenPlan
) -> None:
    type_into(pane.fields[field], text)
    expected = value if value is None else pytest.approx(value, rel=1e-5)
    assert attrgetter(place)(document.plan) == expected
    assert pane.fields[field].text() == again
    assert len(steps(document)) == 1
    assert steps(document)[0], "the step has a name"


@pytest.mark.parametrize("text", ["0.5", "2.5", "three"])
def test_a_set_has_a_whole_number_of_rovings(text: str, pane: InputsPane, document: OpenPlan) -> None:
    type_into(pane.fields["rovings"], text)
    assert document.plan.fibre.rovings == 1
    assert pane.fields["rovings"].message.isVisible()


def test_the_undyed_fibre_is_one_of_the_kinds_that_its_button_offers(
    pane: InputsPane, document: OpenPlan
) -> None:
    menu = pane.undyed.menu
    menu.popup(pane.undyed.button.mapToGlobal(QPoint(0, 0)))
    grey = pane.undyed.kinds.entries["mid grey"]
    QTest.mouseClick(menu, Qt.MouseButton.LeftButton, pos=menu.actionGeometry(grey).center())
    assert document.plan.fibre.undyed_srgb == UNDYED["mid grey"]
    assert steps(document) == ["Colour of the undyed fibre"]


def test_title_and_undyed_colour(pane: InputsPane, document: OpenPlan) -> None:
    type_into(pane.title, "Two Shores")
    type_into(pane.undyed.edit, "#ddccbb")
    assert (document.plan.title, document.plan.fibre.undyed_srgb) == ("Two Shores", "#ddccbb")


def test_a_length_that_a_locked_section_holds_is_refused_at_its_field(
    pane: InputsPane, document: OpenPlan
) -> None:
    document.edit("", partial(set_locked, section_ids=("s4",), locked=True))
    type_into(pane.fields["length_m"], "5")
    assert document.plan.fibre.length_m == 4.0
    assert pane.fields["length_m"].text() == "4.00 m"
    assert "A Section 4" in pane.fields["length_m"].message.text()


# -- folds and pieces ----------------------------------------------------------------------------------------


def test_folding_shows_the_fields_of_folds(pane: InputsPane, document: OpenPlan) -> None:
    assert not pane.folds.isVisible()
    choose(pane.passes, "2")
    assert folds(document) == (2.0,)
    assert pane.folds.isVisible()
    assert pane.folds.text() == "2.00 m"
    choose(pane.passes, "1: straight")
    assert folds(document) == ()
    assert not pane.folds.isVisible()
    assert steps(document) == ["Folded into", "Folded into"]


def test_unequal_folds_are_typed(pane: InputsPane, document: OpenPlan) -> None:
    document.edit("", partial(set_passes, passes=2))
    type_into(pane.folds, "1.5; 2.9 m")
    assert folds(document) == (1.5, 2.9)
    assert pane.passes.currentText() == "3"
    for text in ("3; 1", "1; 9", "1; far"):
        type_into(pane.folds, text)
        assert pane.folds.message.isVisible()
    assert folds(document) == (1.5, 2.9)


def test_legs_are_matched_by_weight(pane: InputsPane, document: OpenPlan) -> None:
    document.edit("", partial(set_passes, passes=2))
    choose(pane.matching, "by weight")
    assert document.plan.lay.matching == "by weight"


def test_a_refused_fold_shows_what_stands(pane: InputsPane, document: OpenPlan) -> None:
    document.edit("", partial(set_locked, section_ids=("s4",), locked=True))
    choose(pane.passes, "2")
    assert document.plan.lay.passes == 1
    assert pane.passes.currentText() == "1: straight"
    assert "locked" in pane.message.text()


def test_an_uneven_top_is_typed_as_weighed_pieces(pane: InputsPane, document: OpenPlan) -> None:
    type_into(pane.pieces, "78 + 72")
    assert document.plan.fibre.mass_g == pytest.approx(150.0)
    assert marks(document) == (MassMark(0.5, 0.52),)
    assert pane.pieces.text() == "78.0 + 72.0 g"
    assert pane.fields["mass_g"].text() == "150.0 g"
    type_into(pane.pieces, "80, 72")
    assert pane.pieces.message.text() == "A roving weighs 152.0 g now, and weighed 150.0 g."
    type_into(pane.pieces, "78 + 72")
    type_into(pane.pieces, "")
    assert marks(document) == ()
    assert document.plan.fibre.mass_g == pytest.approx(150.0)
    assert pane.pieces.placeholderText() == "the same"


def test_dragging_leaves_the_keyboard_where_it_is(pane: InputsPane, document: OpenPlan) -> None:
    field = pane.fields["uptake_ml_per_g"]
    QTest.mouseClick(field, Qt.MouseButton.LeftButton)
    field.selectAll()
    QTest.keyClicks(field, "1")
    document.preview(move_boundary(document.plan, 0, 1.3))
    assert (QApplication.focusWidget(), field.text()) == (field, "1")
