"""If these fail, a command of the Section menu does something else than its name says."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.section_commands import SectionCommands
from tests.drawing.plans import plain_plan


class Bench:
    """A document with its section commands."""

    def __init__(self, qtbot: QtBot, count: int = 4, passes: int = 1) -> None:
        self.document = OpenPlan(plain_plan(count, passes=passes))
        self.window = QWidget()
        qtbot.addWidget(self.window)
        self.commands = SectionCommands(self.document, self.window)

    def ids(self) -> list[str]:
        return [section.id for section in self.document.plan.sections]

    def places(self) -> list[float]:
        return [boundary.position_m for boundary in self.document.plan.boundaries]


@pytest.fixture
def bench(qtbot: QtBot) -> Bench:
    return Bench(qtbot)


def test_split_cuts_the_selected_section_in_its_middle(bench: Bench) -> None:
    bench.document.select("s2")
    bench.commands.split_action.trigger()
    assert bench.places() == pytest.approx([1.0, 1.5, 2.0, 3.0])


def test_merge_joins_the_selected_run_or_the_next_section(bench: Bench) -> None:
    bench.document.select("s2", "s3")
    bench.commands.merge_action.trigger()
    assert bench.ids() == ["s1", "s2", "s4"]
    bench.document.select("s4")
    bench.commands.merge_action.trigger()
    assert bench.ids() == ["s1", "s2"], "the last section joins the one before it"


def test_duplicate_puts_a_copy_beside_it(bench: Bench) -> None:
    bench.document.select("s3")
    bench.commands.duplicate_action.trigger()
    assert bench.ids() == ["s1", "s2", "s3", "s5", "s4"]
    assert [one.liquor_id for one in bench.document.plan.sections[2:4]] == ["q3", "q3"]


def test_equalise_evens_the_run_or_the_whole_lay(bench: Bench) -> None:
    bench.document.select("s1")
    bench.commands.split_action.trigger()
    bench.document.select("s1", "s5", "s2")
    bench.commands.equalise_action.trigger()
    assert bench.places() == pytest.approx([2 / 3, 4 / 3, 2.0, 3.0])
    bench.document.select("s1")
    bench.commands.equalise_action.trigger()
    assert bench.places() == pytest.approx([0.8, 1.6, 2.4, 3.2])


def test_lock_toggles_and_shows_the_state_of_the_selection(bench: Bench) -> None:
    bench.document.select("s2", "s3")
    assert not bench.commands.lock_action.isChecked()
    bench.commands.lock_action.trigger()
    assert [section.locked for section in bench.document.plan.sections] == [False, True, True, False]
    assert bench.commands.lock_action.isChecked()
    bench.document.select("s1", "s2")
    assert not bench.commands.lock_action.isChecked()
    bench.document.select("s2")
    bench.commands.lock_action.trigger()
    assert not bench.document.plan.section("s2").locked


def test_reverse_turns_the_lay_round(bench: Bench) -> None:
    bench.commands.reverse_action.trigger()
    assert bench.ids() == ["s4", "s3", "s2", "s1"]


def test_folding_by_weight_wants_a_fold(bench: Bench, qtbot: QtBot) -> None:
    assert not bench.commands.fold_by_weight_action.isEnabled()
    folded = Bench(qtbot, passes=2)
    assert folded.commands.fold_by_weight_action.isEnabled()
    folded.commands.fold_by_weight_action.trigger()
    assert folded.document.plan.lay.matching == "by weight"


def test_one_section_can_only_be_split(qtbot: QtBot) -> None:
    bench = Bench(qtbot, count=1)
    enabled = [action.text() for action in bench.commands.actions if action.isEnabled()]
    assert enabled == [
        "S&plit",
        "&Duplicate",
        "L&adder or crossfade…",
        "Even &fade…",
        "Matc&h a colour…",
        "A l&ittle",
        "&Lock in place",
    ]


def test_while_a_gesture_runs_the_actions_are_left_alone(bench: Bench) -> None:
    bench.document.preview(plain_plan(1))
    assert bench.commands.merge_action.isEnabled()
    bench.document.cancel_preview()
