"""If these fail, a number of the yarn goes into another place of the plan than its field says."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.plan import Plan
from studio_gui.domain.yarn import STRUCTURES, Strip, Structure
from studio_gui.views.spinning_panel import SpinningPanel
from studio_gui.wording.counts import counts_words
from studio_gui.wording.spinning import structure_explained, structure_name
from tests.scenes.scene_plans import four_gates
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
    choose(panel.structure, structure_name(structure, folded=document.plan.lay.passes > 1))
    assert document.plan.yarn.structure == structure
    assert panel.explained.text() == structure_explained(structure)
    assert len(steps(document)) == 1


def opened(plan: Plan, qtbot: QtBot) -> tuple[SpinningPanel, OpenPlan]:
    document = OpenPlan(plan)
    return shown(SpinningPanel(document), qtbot, 350, 900), document


PARTS = {
    "lengthwise": {"splits", "take_up"},
    "fractal": {"splits", "strips", "take_up"},
    "rovings": {"offsets", "take_up"},
    "free": {"plies", "take_up"},
    "chain": {"loop_m", "take_up"},
    "single": set[str](),
    "both ends": {"take_up"},
    "broken at the fold": {"take_up"},
}


@pytest.mark.parametrize("structure", STRUCTURES)
def test_only_what_a_structure_needs_is_shown(structure: Structure, qtbot: QtBot) -> None:
    panel, _ = opened(set_yarn(four_gates(Strip()), structure=structure), qtbot)
    parts = {name: getattr(panel, name) for name in ("splits", "strips", "offsets", "plies")}
    parts |= {name: panel.fields[name] for name in ("take_up", "loop_m")}
    assert {name for name, part in parts.items() if part.isVisible()} == PARTS[structure]


def test_the_strips_of_a_fractal_are_counted_weighed_and_flipped(qtbot: QtBot) -> None:
    panel, document = opened(four_gates(Strip(), Strip()), qtbot)
    choose(panel.strips.count, "4")
    type_into(panel.strips.fields[3], "11")
    QTest.keyClick(panel.strips.ticks[1], Qt.Key.Key_Space)
    assert document.plan.yarn.strips == (Strip(), Strip(flipped=True), Strip(), Strip(11.0))
    assert len(steps(document)) == 3
    assert panel.strips.notes[3].accessibleName() == "39.3 g · 392.9 m"


def test_a_split_into_too_many_strips_says_what_the_ply_weighs(qtbot: QtBot) -> None:
    plan = set_fibre(four_gates(Strip()), mass_g=10.0)
    panel, document = opened(plan, qtbot)
    choose(panel.strips.count, "6")
    assert document.plan is plan
    assert "5 g" in panel.strips.message.text()
    assert panel.strips.count.value == 1


def test_plies_of_a_split_are_counted_and_weighed(qtbot: QtBot) -> None:
    panel, document = opened(set_yarn(four_gates(Strip()), structure="lengthwise"), qtbot)
    choose(panel.splits.count, "3")
    type_into(panel.splits.fields[0], "2")
    assert document.plan.yarn.splits == (2.0, 1.0, 1.0)
    assert panel.splits.notes[0].accessibleName() == "50.0 g · 500.0 m"


def test_a_fractal_has_two_plies_whatever_was_split_before(qtbot: QtBot) -> None:
    plan = set_yarn(four_gates(Strip()), structure="lengthwise", splits=(1.0, 1.0, 1.0))
    panel, document = opened(plan, qtbot)
    choose(panel.structure, structure_name("fractal"))
    assert [field.isVisible() for field in panel.splits.fields] == [True, True, False]
    assert not panel.splits.count.isVisible()
    assert len(document.plan.yarn.splits) == 3, "kept for a lengthwise split"


def test_rovings_are_plied_as_far_as_there_are_any(qtbot: QtBot) -> None:
    plan = set_fibre(set_yarn(four_gates(Strip()), structure="rovings"), rovings=3)
    panel, document = opened(plan, qtbot)
    assert [panel.offsets.count.itemText(place) for place in range(panel.offsets.count.count())] == [
        "1",
        "2",
        "3",
    ]
    choose(panel.offsets.count, "3")
    type_into(panel.offsets.fields[2], "2.5 m")
    assert document.plan.yarn.offsets_m == (0.0, 0.0, 2.5)


def test_the_grist_is_told_in_all_counts_and_may_be_typed_in_any(
    panel: SpinningPanel, document: OpenPlan
) -> None:
    assert "draft 250 to 1" in panel.fields["singles_m_per_g"].toolTip()
    type_into(panel.fields["singles_m_per_g"], "80 tex")
    assert document.plan.yarn.singles_m_per_g == pytest.approx(12.5)
    assert panel.fields["singles_m_per_g"].toolTip() == f"{counts_words(12.5)} · draft 313 to 1"


def test_figures_of_common_practice_say_so(panel: SpinningPanel) -> None:
    assert "common practice" in panel.fields["take_up"].toolTip()
