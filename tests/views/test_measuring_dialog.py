"""If these fail, something measured goes into the plan unseen, or a slip at the scale goes in at all."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.inputs_pane import InputsPane
from studio_gui.views.lots_panel import MOST_LOTS, LotRow, LotsPanel
from studio_gui.views.measuring_dialog import MeasuringDialog
from studio_gui.views.weighings_panel import WeighingsPanel
from tests.views.keys import TAB, choose, shown, steps, type_into, type_on

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def pane(document: OpenPlan, qtbot: QtBot) -> InputsPane:
    return shown(InputsPane(document), qtbot, 290, 1100)


@pytest.fixture
def dialog(pane: InputsPane) -> MeasuringDialog:
    QTest.mouseClick(pane.measure["soak_ml_per_g"], LEFT)
    QApplication.processEvents()
    assert pane.measuring.isVisible()
    return pane.measuring


@pytest.fixture
def weighings(dialog: MeasuringDialog) -> WeighingsPanel:
    return dialog.weighings


@pytest.fixture
def lots(pane: InputsPane) -> LotsPanel:
    QTest.mouseClick(pane.measure["penetration_ml_per_g"], LEFT)
    QApplication.processEvents()
    return pane.measuring.lots


def weigh(panel: WeighingsPanel, *weights: str) -> None:
    for field, text in zip(panel.fields.values(), weights, strict=False):
        type_into(field, text)


def enter(row: LotRow, fibre: str, liquid: str, seen: str) -> None:
    type_into(row.fibre, fibre)
    type_into(row.liquid, liquid)
    choose(row.seen, seen)


def offered(panel: WeighingsPanel | LotsPanel) -> list[str]:
    return [tick.text() for tick in panel.proposals.ticks.values() if tick.isVisible()]


def use(panel: WeighingsPanel | LotsPanel) -> None:
    QTest.mouseClick(panel.proposals.use, LEFT)
    QApplication.processEvents()


# -- a tuft --------------------------------------------------------------------------------------------------


def test_three_weighings_are_shown_first_and_go_in_as_one_step(
    weighings: WeighingsPanel, document: OpenPlan
) -> None:
    weigh(weighings, "10", "19.5 g", "1.6 oz")
    assert offered(weighings) == [
        "Soak: 0.95 ml/g instead of 1.00 ml/g",
        "Holding limit: 3.54 ml/g instead of 4.00 ml/g",
    ]
    assert steps(document) == []
    use(weighings)
    assert steps(document) == ["Use measured figures"]
    liquid = document.plan.liquid
    assert (liquid.soak_ml_per_g, liquid.limit_ml_per_g) == pytest.approx((0.95, 3.536), abs=1e-3)


def test_only_what_is_ticked_goes_in(weighings: WeighingsPanel, document: OpenPlan) -> None:
    weigh(weighings, "10", "19.5", "45")
    QTest.keyClick(weighings.proposals.ticks["soak_ml_per_g"], Qt.Key.Key_Space)
    use(weighings)
    assert (document.plan.liquid.soak_ml_per_g, document.plan.liquid.limit_ml_per_g) == (1.0, 3.5)
    QTest.keyClick(weighings.proposals.ticks["limit_ml_per_g"], Qt.Key.Key_Space)
    assert not weighings.proposals.use.isEnabled()


def test_wet_lighter_than_dry_is_refused_with_the_weights(
    weighings: WeighingsPanel, document: OpenPlan
) -> None:
    weigh(weighings, "10.25", "9.75", "45")
    assert weighings.message.text() == (
        "The tuft weighs 10.25 g dry, 9.75 g squeezed and 45 g soaked; each has to be more than the one"
        " before. Weigh again."
    )
    assert offered(weighings) == []
    weigh(weighings, "9")
    assert not weighings.message.isVisible()
    assert offered(weighings)
    assert steps(document) == []


def test_a_limit_that_no_plan_may_hold_is_refused_where_it_is_offered(
    weighings: WeighingsPanel, document: OpenPlan
) -> None:
    weigh(weighings, "1", "2", "60")
    use(weighings)
    assert "Holding limit: 59 ml/g is not possible" in weighings.proposals.message.text()
    assert steps(document) == []


def test_what_is_no_weight_is_said_at_its_field_and_deleting_takes_the_offer_back(
    weighings: WeighingsPanel,
) -> None:
    weigh(weighings, "10", "20", "heavy")
    assert "“heavy”" in weighings.fields["soaked"].message.text()
    weigh(weighings, "10", "20", "45")
    assert offered(weighings)
    type_into(weighings.fields["squeezed"], "")
    assert weighings.fields["squeezed"].text() == ""
    assert offered(weighings) == []


def test_the_room_between_the_fibres_is_a_hint(weighings: WeighingsPanel) -> None:
    weigh(weighings, "10", "20", "45", "52 ml")
    assert "room for 4.44 ml/g" in weighings.hint.text()
    weigh(weighings, "10", "20", "45", "30 ml")
    assert weighings.hint.text().endswith("Weigh again.")
    weigh(weighings, "10", "20", "45", "5 ml")
    assert "bulk density" in weighings.message.text()


# -- lots ----------------------------------------------------------------------------------------------------


def test_lots_narrow_what_is_offered(lots: LotsPanel, document: OpenPlan) -> None:
    enter(lots.rows[0], "50 g", "100", "white core")
    assert lots.told.text() == "The core takes more than 2.00 ml/g to wet."
    assert offered(lots) == []
    QTest.mouseClick(lots.add, LEFT)
    enter(lots.rows[1], "50", "120", "right")
    assert offered(lots)[0] == "Penetration limit: 2.40 ml/g instead of 1.50 ml/g"
    use(lots)
    assert document.plan.liquid.penetration_ml_per_g == pytest.approx(2.4)
    assert document.plan.liquid.uptake_ml_per_g == 2.5, "it is offered, and not ticked"
    assert steps(document) == ["Use measured figures"]


def test_lots_that_clash_offer_nothing(lots: LotsPanel) -> None:
    enter(lots.rows[0], "50", "100", "right")
    QTest.mouseClick(lots.add, LEFT)
    enter(lots.rows[1], "50", "110", "white core")
    assert lots.told.text().startswith("Lot 2 had a white core with 2.20 ml/g, and lot 1 came out right")
    assert not any(words.startswith("Penetration") for words in offered(lots))


def test_a_lot_is_taken_off_the_list(lots: LotsPanel) -> None:
    QTest.mouseClick(lots.add, LEFT)
    enter(lots.rows[1], "50", "100", "pooled")
    QTest.mouseClick(lots.rows[0].drop, LEFT)
    QApplication.processEvents()
    assert [row.number.text() for row in lots.rows] == ["1"]
    assert lots.told.text() == "The fibre holds less than 3.00 ml/g, soak and liquor together."
    QTest.mouseClick(lots.rows[0].drop, LEFT)
    assert lots.told.text().startswith("Enter a lot")


def test_lots_are_entered_by_keys_alone(lots: LotsPanel, document: OpenPlan) -> None:
    assert QApplication.focusWidget() is lots.rows[0].fibre
    type_on("50", TAB)
    type_on("100", TAB)
    type_on("1", TAB)
    assert QApplication.focusWidget() is lots.rows[0].seen
    QTest.keyClicks(lots.rows[0].seen, "w")
    assert lots.told.text() == "The core takes more than 2.00 ml/g to wet."
    for wanted in (lots.rows[0].drop, lots.add):
        QTest.keyClick(focused(), TAB)
        assert QApplication.focusWidget() is wanted
    QTest.keyClick(lots.add, Qt.Key.Key_Space)
    assert QApplication.focusWidget() is lots.rows[1].fibre
    assert steps(document) == []


def focused() -> QWidget:
    widget = QApplication.focusWidget()
    assert widget is not None
    return widget


def test_there_is_an_end_to_lots(lots: LotsPanel) -> None:
    for _ in range(MOST_LOTS - 1):
        QTest.mouseClick(lots.add, LEFT)
    assert len(lots.rows) == MOST_LOTS
    assert not lots.add.isEnabled()


# -- where figures are from ----------------------------------------------------------------------------------


def test_a_figure_says_whether_it_is_common_practice_measured_or_somebody_s_own(
    weighings: WeighingsPanel, pane: InputsPane
) -> None:
    soak, limit = pane.fields["soak_ml_per_g"], pane.fields["limit_ml_per_g"]
    assert "1 ml/g is common practice, without a source" in soak.toolTip()
    weigh(weighings, "10", "19.5", "45")
    use(weighings)
    assert "Measured" in soak.toolTip()
    assert "Measured" in limit.toolTip()
    pane.activateWindow()
    type_into(limit, "3.8")
    assert "Your own" in limit.toolTip()
    type_into(limit, "3.5")
    assert "Measured" in limit.toolTip()


def test_what_was_entered_is_still_there_when_the_window_comes_again(
    dialog: MeasuringDialog, pane: InputsPane
) -> None:
    weigh(dialog.weighings, "10", "20", "45")
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()
    QTest.mouseClick(pane.measure["limit_ml_per_g"], LEFT)
    QApplication.processEvents()
    assert dialog.weighings.fields["soaked"].text() == "45.00 g"
    assert dialog.weighings.fields["dry"].hasFocus()
