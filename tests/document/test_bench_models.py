"""If these fail, the window says other amounts than the sheets of the bench."""

from __future__ import annotations

from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont
from PySide6.QtWidgets import QApplication

from studio_gui.document.bench_models import BottleColumn, BottleModel, JarColumn, JarModel
from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.row_model import SEVERITY_ROLE, Role
from studio_gui.domain.edits.inputs import set_bench
from studio_gui.domain.errors import RovingLayError
from studio_gui.wording.translation import install_units
from tests.export.plans import sample

pytestmark = pytest.mark.usefixtures("qapp")


@pytest.fixture
def document(qapp: QApplication) -> OpenPlan:  # noqa: ARG001  (its signals need an application)
    return OpenPlan(sample("storm-kettle"))


@pytest.fixture
def jars(document: OpenPlan) -> JarModel:
    return JarModel(document)


@pytest.fixture
def bottles(document: OpenPlan) -> BottleModel:
    return BottleModel(document)


def cells(model: JarModel | BottleModel, row: int) -> list[str]:
    return [str(model.index(row, column).data()).strip() for column in range(model.columnCount())]


def named(model: JarModel | BottleModel, name: str) -> int:
    return next(row for row in range(model.rowCount()) if cells(model, row)[0] == name)


def test_a_jar_is_followed_by_what_goes_into_it(jars: JarModel, document: OpenPlan) -> None:
    assert [cells(jars, row)[:2] for row in range(3)] == [
        ["A Calm blue", "37"],
        ["Harbour blue", "17"],
        ["Acid water", "20"],
    ]
    totals = [card.total_ml for card in document.sheet.cards]
    sums = [sum(amount.measured_ml for amount in card.amounts) for card in document.sheet.cards]
    assert totals == pytest.approx(sums)
    assert jars.rowCount() == sum(1 + len(card.amounts) for card in document.sheet.cards)


def test_jars_are_bold_and_have_their_colour(jars: JarModel) -> None:
    jar, stock = jars.index(0, JarColumn.NAME), jars.index(1, JarColumn.NAME)
    assert isinstance(jar.data(Role.DecorationRole), QColor)
    assert stock.data(Role.DecorationRole) is None
    font = jar.data(Role.FontRole)
    assert isinstance(font, QFont)
    assert font.bold()
    assert "spare" in jar.data(Role.ToolTipRole)


def test_amounts_that_are_amiss_are_marked_and_told(jars: JarModel) -> None:
    brick = named(jars, "Brick red")
    assert jars.index(brick, JarColumn.OFF).data(SEVERITY_ROLE) == "warning"
    assert jars.index(named(jars, "C Ember"), JarColumn.OFF).data(SEVERITY_ROLE) == "warning"
    assert jars.index(0, JarColumn.OFF).data(SEVERITY_ROLE) is None
    first = jars.amiss()[0].replace("\u00a0", " ")
    assert first == "C Ember, Brick red: 52.9 % of the jar, planned 50.0 %: measure finer"


def test_a_finer_graduation_is_seen_in_the_figures(jars: JarModel, document: OpenPlan) -> None:
    document.edit("", partial(set_bench, graduation_ml=0.5))
    assert cells(jars, 0)[1] == "36.5"
    assert jars.plain(1, JarColumn.NAME) == "Harbour blue"
    assert [jars.heading_explained(column) is None for column in range(3)] == [True, False, False]


def test_amounts_stay_millilitres_in_every_system_of_units(document: OpenPlan) -> None:
    install_units("us")
    try:
        assert cells(JarModel(document), 0)[1] == "37"
        bottles = BottleModel(document)
        bottles.setData(bottles.index(0, BottleColumn.MADE), "50", Role.EditRole)
        assert document.sheet.bottles[0].made_ml == 50.0
    finally:
        install_units("metric")


def test_stocks_stand_in_the_order_of_work(bottles: BottleModel) -> None:
    assert cells(bottles, 0) == ["Citric stock", "6", "10", "–", "2.00"]
    assert cells(bottles, bottles.rowCount() - 1)[0] == "Plain water"
    assert bottles.amiss()[-1] == "Kelp green: acid not known: look it up in the recipe of this stock"
    assert all(bottles.heading_explained(column) for column in BottleColumn)


def test_a_volume_is_typed_over_and_given_back(bottles: BottleModel, document: OpenPlan) -> None:
    blue = named(bottles, "Harbour blue")
    made = bottles.index(blue, BottleColumn.MADE)
    font = made.data(Role.FontRole)
    assert isinstance(font, QFont)
    assert font.italic()
    assert bottles.setData(made, "100 ml", Role.EditRole)
    assert (made.data(), made.data(Role.FontRole)) == ("100", None)
    assert "40 ml short" in bottles.amiss()[0]
    assert "40 ml short" in made.data(Role.ToolTipRole)
    assert bottles.setData(made, "", Role.EditRole)
    assert made.data() == "150"
    assert document.plan.stock("blue").made_ml is None
    assert document.undo_stack.count() == 2


def test_only_the_volume_made_can_be_typed(bottles: BottleModel) -> None:
    for column in BottleColumn:
        can = bool(bottles.flags(bottles.index(0, column)) & Qt.ItemFlag.ItemIsEditable)
        assert can == (column == BottleColumn.MADE)


def test_a_volume_that_is_none_is_refused_and_nothing_changes(
    bottles: BottleModel, document: OpenPlan
) -> None:
    refused: list[RovingLayError] = []
    bottles.refused.connect(refused.append)
    made, before = bottles.index(0, BottleColumn.MADE), document.plan
    for typed in ("much", "0", "-4", "5 g"):
        assert not bottles.setData(made, typed, Role.EditRole)
    assert not bottles.setData(made, "10", Role.EditRole), "what it says already is no edit"
    assert [problem.code for problem in refused] == [
        "not-a-number",
        "out-of-range",
        "out-of-range",
        "wrong-kind-of-unit",
    ]
    assert document.plan is before
