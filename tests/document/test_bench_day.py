"""If these fail, undo does not bring back what was, a plan called saved is not, or a crash loses an edit.

A state machine searches for the shortest way to that; a short day and a few cycles of the long campaigns
(DEVELOPERS.md lists them) run beside it.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)
from PySide6.QtCore import QCoreApplication

from tests.campaigns import cycles, workday
from tests.campaigns.bench import BenchDay

SHARES = st.floats(0.0, 1.0)


class AnyDay(RuleBasedStateMachine):
    """Edits, drags, merges, undos, redos, saves, reloads, crashes and recoveries in any order."""

    def __init__(self) -> None:
        super().__init__()
        self.place = tempfile.TemporaryDirectory()
        self.day = BenchDay(Path(self.place.name))

    @rule(share=SHARES)
    def move(self, share: float) -> None:
        self.day.move(share)

    @rule(shares=st.lists(SHARES, max_size=5), drop=st.booleans())
    def drag(self, shares: list[float], drop: bool) -> None:
        self.day.drag(shares, drop=drop)

    @rule(share=SHARES)
    def split(self, share: float) -> None:
        self.day.split(share)

    @rule(share=SHARES)
    def merge(self, share: float) -> None:
        self.day.merge(share)

    @rule(title=st.text(max_size=5))
    def rename(self, title: str) -> None:
        self.day.rename(title)

    @rule()
    def reverse(self) -> None:
        self.day.reverse()

    @precondition(lambda self: self.day.at > 0)
    @rule(steps=st.integers(1, 9))
    def undo(self, steps: int) -> None:
        self.day.undo(steps)

    @precondition(lambda self: self.day.at + 1 < len(self.day.history))
    @rule()
    def redo(self) -> None:
        self.day.redo()

    @rule()
    def save(self) -> None:
        self.day.save()

    @rule()
    def reload(self) -> None:
        self.day.reload()

    @rule()
    def crash_and_recover(self) -> None:
        self.day.crash_and_recover()

    @invariant()
    def all_agree(self) -> None:
        self.day.check()

    def teardown(self) -> None:
        self.day.end()
        self.place.cleanup()


def test_any_day_keeps_what_was_done(qapp: QCoreApplication) -> None:  # noqa: ARG001  (timers and threads)
    run_state_machine_as_test(AnyDay, settings=settings(stateful_step_count=20))


def test_a_short_day_with_a_crash_every_hour(qapp: QCoreApplication) -> None:  # noqa: ARG001  (as above)
    assert len(workday.campaign(steps=120, steps_an_hour=40, seed=7)) == 3


def test_a_few_cycles_leave_nothing_open(qapp: QCoreApplication) -> None:  # noqa: ARG001  (as above)
    before = len(list(Path("/proc/self/fd").iterdir()))
    memory = cycles.campaign(12)
    assert len(memory) == 12
    assert len(list(Path("/proc/self/fd").iterdir())) <= before + 1
    assert cycles.slope_kb([10, 12, 14]) == pytest.approx(2.0)
