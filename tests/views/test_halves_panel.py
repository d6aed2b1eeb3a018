"""If these fail, halves that do not match cannot be mended, or a mend is offered that does nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.fibre import Fibre, MassMark, Roving
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.halves import halves
from studio_gui.views.halves_panel import HalvesPanel
from studio_gui.views.live import use_units
from tests.scenes.scene_plans import straight, two_shores
from tests.views.keys import shown, steps


@pytest.fixture
def metric() -> Iterator[None]:
    yield
    use_units("metric")


def uneven() -> Plan:
    return set_fibre(two_shores(), mass_marks=(MassMark(0.5, 0.52),))


def enabled(panel: HalvesPanel) -> list[str]:
    return [name for name, button in panel.mends.items() if button.isEnabled()]


def said(panel: HalvesPanel) -> dict[str, str]:
    return {name: value.text() for name, value in panel.values.items()}


def click(panel: HalvesPanel, name: str) -> None:
    QTest.mouseClick(panel.mends[name], Qt.MouseButton.LeftButton)


def test_halves_of_an_uneven_roving_are_told_and_folded_by_weight_in_one_step(qtbot: QtBot) -> None:
    document = OpenPlan(uneven())
    panel = shown(HalvesPanel(document), qtbot)
    assert said(panel) == {
        "first": "78.0 g · 780.0 m",
        "second": "72.0 g · 720.0 m",
        "difference": "half 1 by 6.0 g (8.0 %)",
        "slide": "up to 60 m, in E E at the break",
    }
    assert enabled(panel) == ["fold", "unfold"]
    click(panel, "fold")
    assert steps(document) == ["Fold by weight"]
    assert said(panel)["first"] == said(panel)["second"] == "75.0 g · 750.0 m"
    assert enabled(panel) == ["unfold"]
    assert panel.colours.table.hasFocus(), "a button that has done its work gives the keyboard to the table"
    assert panel.mends["fold"].toolTip() == "The legs are folded by weight already."
    document.undo_stack.undo()
    assert enabled(panel) == ["fold", "unfold"]


def test_what_does_not_apply_says_why_not(qtbot: QtBot) -> None:
    panel = shown(HalvesPanel(OpenPlan(uneven())), qtbot)
    assert panel.mends["equal"].toolTip().startswith("The lay is folded")
    panel = shown(HalvesPanel(OpenPlan(straight("ABC", (2.0, 4.0)))), qtbot)
    assert enabled(panel) == ["mirror first", "mirror second"]
    assert panel.mends["fold"].toolTip().startswith("The lay is straight")
    assert "Mirror one half first" in panel.mends["equal"].toolTip()
    assert panel.why_not.isVisible()
    for name, reason in (("Fold by weight", "fold"), ("Equal grams", "equal")):
        assert f"{name}: {panel.mends[reason].toolTip()}" in panel.why_not.text()


@pytest.mark.parametrize(
    ("name", "step"),
    [
        ("equal", "Move boundaries to equal grams"),
        ("mirror first", "Mirror half 1"),
        ("mirror second", "Mirror half 2"),
    ],
)
def test_an_unfolded_lay_is_mended_in_one_step(qtbot: QtBot, name: str, step: str) -> None:
    document = OpenPlan(straight("ABA", (0.6, 5.2)))
    panel = shown(HalvesPanel(document), qtbot)
    assert enabled(panel) == ["equal", "mirror first", "mirror second"]
    click(panel, name)
    assert steps(document) == [step]
    assert halves(document.plan).apart_share == pytest.approx(0.0, abs=1e-9)
    assert enabled(panel) == []


def test_a_folded_lay_is_unfolded_as_painted_in_one_step(qtbot: QtBot) -> None:
    document = OpenPlan(two_shores())
    panel = shown(HalvesPanel(document), qtbot)
    click(panel, "unfold")
    assert steps(document) == ["Unfold as painted"]
    assert [section.liquor_id for section in document.plan.sections] == list("ABCDEDCBA")
    assert panel.mends["unfold"].toolTip() == "The lay is straight already."


def test_locked_sections_in_the_way_are_named(qtbot: QtBot) -> None:
    plan = change_section(straight("ABA", (0.6, 5.2)), "s1", locked=True, name="Skerry")
    panel = shown(HalvesPanel(OpenPlan(plan)), qtbot)
    assert enabled(panel) == []
    assert "Skerry" in panel.mends["equal"].toolTip()


def test_colours_without_a_match_are_named(qtbot: QtBot) -> None:
    document = OpenPlan(straight("ABCA", (1.0, 2.0, 5.0)))
    panel = shown(HalvesPanel(document), qtbot)
    assert panel.unmatched.isVisible()
    assert panel.unmatched.text() == "Without a match in half 2: B B."
    click(panel, "mirror second")
    assert not panel.unmatched.isVisible()
    assert "Equal grams" not in panel.why_not.text()


def test_the_roving_is_named_only_where_rovings_differ(qtbot: QtBot) -> None:
    panel = shown(HalvesPanel(OpenPlan(two_shores())), qtbot)
    assert not panel.roving.isVisible()
    measured = (Roving(150.0), Roving(150.0, (MassMark(0.5, 0.52),)))
    plan = replace(two_shores(), fibre=Fibre(150.0, 6.0, 2, measured=measured))
    panel = shown(HalvesPanel(OpenPlan(plan)), qtbot)
    assert panel.roving.isVisible()
    assert panel.roving.text().startswith("Roving 2 of 2")


def test_words_follow_structure_and_units(qtbot: QtBot, metric: None) -> None:  # noqa: ARG001  (puts back)
    document = OpenPlan(uneven())
    panel = shown(HalvesPanel(document), qtbot)
    assert "ply from both ends of the ball" in panel.spin.text()
    document.edit("", lambda plan: set_yarn(plan, structure="broken at the fold"))
    assert "half 2 from the other end" in panel.spin.text()
    use_units("us")
    assert said(panel)["first"] == "2.75 oz · 853.0 yd"
    assert "118.11 in along" in panel.spin.text()
    assert panel.colours.model.headerData(1, Qt.Orientation.Horizontal) == "1, oz"
