"""If these fail, a pane shows old figures, or reckons what nobody sees."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QObject
from PySide6.QtTest import QSignalSpy, QTest

from studio_gui.document.follower import Follower
from studio_gui.document.open_plan import LATE_MS, TURN_MS, TURNS, OpenPlan
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.plan import Plan
from tests.document.settling import PATIENCE_MS, preview_and_wait


class View(QObject):
    """Keeps what it showed: the place of the first boundary, and what was selected."""

    def __init__(self, document: OpenPlan, *, turn: int | None = None, selection: bool = False) -> None:
        super().__init__()
        self._document = document
        self.shown: list[tuple[float, tuple[str, ...]]] = []
        self.follower = Follower(document, self.refresh, self, turn=turn, selection=selection)

    def refresh(self) -> None:
        place_m = self._document.sheet.plan.boundaries[0].position_m
        self.shown.append((place_m, self._document.selected_ids))

    @property
    def places(self) -> list[float]:
        return [place for place, _ in self.shown]


def moved(document: OpenPlan, place_m: float) -> Plan:
    return move_boundary(document.plan, 0, place_m)


@pytest.mark.parametrize("turn", [None, *range(TURNS)])
def test_an_edit_is_followed_at_once(document: OpenPlan, turn: int | None) -> None:
    view = View(document, turn=turn)
    document.edit("", lambda plan: move_boundary(plan, 0, 0.7))
    document.undo_stack.undo()
    assert view.places == [0.7, 1.0]


def test_a_preview_is_followed_at_once_by_live_views(document: OpenPlan) -> None:
    view = View(document)
    document.preview(moved(document, 0.7))
    document.preview(moved(document, 0.8))
    assert view.places == [0.7, 0.8]


def test_late_views_follow_many_previews_at_one_time(document: OpenPlan) -> None:
    view = View(document, turn=1)
    document.preview(moved(document, 0.7))
    preview_and_wait(document, moved(document, 0.8))
    assert view.places == [0.8]


@pytest.mark.parametrize("turn", range(TURNS))
def test_a_preview_that_goes_on_is_followed_all_the_time(document: OpenPlan, turn: int) -> None:
    # a timer that every move starts anew would never run out
    view = View(document, turn=turn)
    for step in range(40):
        document.preview(moved(document, 0.5 + 0.01 * step))
        QTest.qWait(TURN_MS // 2)
    assert len(view.places) >= 2


def test_late_views_show_the_end_of_a_gesture_at_once(document: OpenPlan) -> None:
    view = View(document, turn=1)
    document.preview(moved(document, 0.7))
    document.commit_preview("")
    assert view.places == [0.7]
    document.preview(moved(document, 0.8))
    document.cancel_preview()
    assert view.places == [0.7, 0.7]


def test_late_views_take_turns_one_at_a_time(document: OpenPlan) -> None:
    views = [View(document, turn=turn) for turn in range(TURNS)]
    turns = QSignalSpy(document.turn)
    document.preview(moved(document, 0.7))
    for told in range(1, TURNS + 1):
        assert turns.wait(PATIENCE_MS)
        assert sum(len(view.places) for view in views) == told
    assert [view.places for view in views] == [[0.7]] * TURNS


@pytest.mark.parametrize("goes_on", [True, False])
def test_no_more_turns_come_when_all_had_theirs(document: OpenPlan, goes_on: bool) -> None:
    if goes_on:
        preview_and_wait(document, moved(document, 0.7))
    else:
        document.preview(moved(document, 0.7))
        document.commit_preview("")
    turns = QSignalSpy(document.turn)
    assert not turns.wait(3 * LATE_MS)


def test_one_state_is_shown_once(document: OpenPlan) -> None:
    view = View(document, selection=True)
    document.replace(moved(document, 0.7))  # tells of a new plan, and of a new selection
    document.select("s2")
    assert view.shown == [(0.7, ("s1",)), (0.7, ("s2",))]


def test_who_shows_no_selection_does_not_follow_it(document: OpenPlan) -> None:
    view = View(document)
    document.select("s2")
    assert view.shown == []


def test_what_nobody_looks_at_rests_and_catches_up(document: OpenPlan) -> None:
    view = View(document)
    view.follower.is_wanted = lambda: False
    document.preview(moved(document, 0.7))
    document.preview(moved(document, 0.8))
    assert view.places == []
    assert view.follower.catch_up()
    assert not view.follower.catch_up()
    assert view.places == [0.8]
