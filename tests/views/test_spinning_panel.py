"""If these fail, a number of the yarn goes into another place of the plan than its field says."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.yarn import STRUCTURES, Structure
from studio_gui.views.spinning_panel import SpinningPanel
from studio_gui.wording.spinning import structure_explained, structure_name
from tests.views.keys import choose, shown, steps, type_into


@pytest.fixture
def panel(document: OpenPlan, qtbot: QtBot) -> SpinningPanel:
    return shown(SpinningPanel(document), qtbot, 350, 900)


@pytest.mark.parametrize(
    ("field", "text", "value", "again"),
    [
        ("take_up", "6", 0.06, "6.0 %"),
        ("staple_m", "3 in", 0.0762, "7.6 cm"),
    ],
)
def test_every_number_goes_where_its_field_says(
    field: str, text: str, value: float, again: str, panel: SpinningPanel, document: OpenPlan
) -> None:
    type_into(panel.fields[field], text)
    assert getattr(document.plan.yarn, field) == pytest.approx(value)
    assert panel.fields[field].text() == again
    assert len(steps(document)) == 1


def test_a_number_out_of_range_leaves_the_old_one_and_says_why(
    panel: SpinningPanel, document: OpenPlan
) -> None:
    before = document.plan
    type_into(panel.fields["take_up"], "95")
    assert document.plan is before
    assert panel.fields["take_up"].text() == "5.0 %"
    assert "90" in panel.fields["take_up"].message.text()


@pytest.mark.parametrize("structure", [one for one in STRUCTURES if one != "both ends"])
def test_a_structure_is_chosen_by_name_and_explained(
    structure: Structure, panel: SpinningPanel, document: OpenPlan
) -> None:
    choose(panel.structure, structure_name(structure))
    assert document.plan.yarn.structure == structure
    assert panel.explained.text() == structure_explained(structure)
    assert len(steps(document)) == 1
