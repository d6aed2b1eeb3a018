"""If these fail, somebody who does not see the canvas is told nothing of what happens on it, or too much."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QAccessibleEvent,
    QAccessibleValueChangeEvent,
)
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.boundaries import equalise, move_boundary
from studio_gui.domain.edits.sections import change_section, merge, set_locked, split
from studio_gui.domain.worksheet import Worksheet
from studio_gui.views import lay_voice
from studio_gui.views.lay_accessible import Key
from studio_gui.views.lay_canvas import LayCanvas
from tests.drawing.plans import plain_plan

Event = QAccessible.Event


class Ear:
    """Somebody who hears what a canvas sends."""

    def __init__(self, canvas: LayCanvas) -> None:
        self.canvas = canvas
        self.events: list[tuple[QAccessible.Event, str]] = []
        self.values: list[float] = []
        self.sentences: list[str] = []
        canvas.voice.send = self._take

    def _take(self, event: QAccessibleEvent) -> None:
        if isinstance(event, QAccessibleAnnouncementEvent):
            assert event.politeness() == QAccessible.AnnouncementPoliteness.Polite
            self.sentences.append(event.message())
            return
        if isinstance(event, QAccessibleValueChangeEvent):
            self.values.append(event.value())
        name = event.accessibleInterface().text(QAccessible.Text.Name)
        self.events.append((event.type(), name.split(",")[0]))

    def hear(self) -> str:
        """Let everything be told, and return the sentences said since the last time."""
        QCoreApplication.processEvents()
        said, self.sentences = " / ".join(self.sentences), []
        return said

    def of(self, kind: QAccessible.Event) -> list[str]:
        """Return whom events of a kind were about."""
        return [name for event, name in self.events if event == kind]

    def walk(self) -> None:
        """Ask for every item, as a screen reader does on its way, and forget what that was."""
        root = QAccessible.queryAccessibleInterface(self.canvas)
        for place in range(root.childCount()):
            root.child(place).text(QAccessible.Text.Name)
        self.hear()
        self.events.clear()


@pytest.fixture
def canvas(qtbot: QtBot, document: OpenPlan) -> Iterator[LayCanvas]:
    QAccessible.setActive(True)
    canvas = LayCanvas(document)
    qtbot.addWidget(canvas)
    canvas.resize(1100, 620)
    with qtbot.waitExposed(canvas):
        canvas.show()
    canvas.setFocus()
    QCoreApplication.processEvents()
    yield canvas
    QAccessible.setActive(False)


@pytest.fixture
def ear(canvas: LayCanvas) -> Ear:
    ear = Ear(canvas)
    ear.walk()
    return ear


def test_a_boundary_moved_by_keys_is_told_with_its_neighbours(ear: Ear) -> None:
    ear.canvas.focus_item("boundary", 0)
    QTest.keyClick(ear.canvas, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert ear.hear() == (
        "Boundary A | B at 101.0 cm. A Section 1: 101.0 cm, 63.1 ml. B Section 2: 99.0 cm, 61.9 ml."
    )
    assert ear.values == [pytest.approx(101.0)]
    assert ear.of(Event.ValueChanged) == ["Boundary A | B"]
    assert "A Section 1" in ear.of(Event.NameChanged)
    assert "C Section 3" not in ear.of(Event.NameChanged), "nothing changed there"


def test_a_drag_is_told_at_its_end_only(ear: Ear, document: OpenPlan) -> None:
    for place_m in (1.1, 1.2, 1.3):
        document.preview(move_boundary(document.plan, 0, place_m))
        assert ear.hear() == ""
    assert ear.events == []
    document.commit_preview("Move boundary A | B")
    assert ear.hear().startswith("Boundary A | B at 130.0 cm.")
    assert ear.of(Event.ValueChanged) == ["Boundary A | B"]


def test_a_drag_given_up_is_not_told(ear: Ear, document: OpenPlan) -> None:
    document.preview(move_boundary(document.plan, 0, 1.2))
    document.cancel_preview()
    assert ear.hear() == ""


def test_sections_that_come_and_go_are_told(ear: Ear, document: OpenPlan) -> None:
    document.edit("Split section", lambda plan: split(plan, 1, 1.5))
    assert ear.hear() == "Split section. Sections now: 5."
    assert ear.of(Event.ObjectCreated) == ["Boundary C | A", "A Section 4"]
    document.undo_stack.undo()
    assert ear.hear() == "Undone: Split section. Sections now: 4."
    document.undo_stack.redo()
    assert ear.hear() == "Redone: Split section. Sections now: 5."
    document.edit("Merge sections", lambda plan: merge(plan, first=0, last=4))
    assert ear.hear().startswith("Merge sections. Sections now: 1.")
    assert QAccessible.queryAccessibleInterface(ear.canvas).childCount() == 1


def test_undo_of_a_move_tells_the_old_place(ear: Ear, document: OpenPlan) -> None:
    document.edit("Move boundary A | B", lambda plan: move_boundary(plan, 0, 1.2))
    ear.hear()
    document.undo_stack.undo()
    assert ear.hear().startswith(
        "Undone: Move boundary A | B. Boundary A | B at 100.0 cm. A Section 1: 100.0"
    )


def test_a_step_done_anew_is_not_called_redone(ear: Ear, document: OpenPlan) -> None:
    document.edit("Split section", lambda plan: split(plan, 1, 1.5))
    document.undo_stack.undo()
    ear.hear()
    document.edit("Split section", lambda plan: split(plan, 1, 1.6))
    assert ear.hear() == "Split section. Sections now: 5."


def test_many_boundaries_are_counted(ear: Ear, document: OpenPlan) -> None:
    document.edit("Move", lambda plan: move_boundary(plan, 0, 1.2, "shift"))
    assert ear.hear() == "Move. Boundaries moved: 3."
    document.edit("Equalise sections", lambda plan: equalise(plan, 0, 3))
    assert ear.hear() == "Equalise sections. Boundaries moved: 3."


def test_a_section_that_becomes_too_wet_or_dry_is_told(ear: Ear, document: OpenPlan) -> None:
    document.edit("Set liquid", lambda plan: change_section(plan, "s2", fixed_ml=100.0))
    assert ear.hear() == "Set liquid. B Section 2: 25 ml over the brim."
    document.edit("Set liquid", lambda plan: change_section(plan, "s2", fixed_ml=20.0))
    assert ear.hear() == "Set liquid. B Section 2: core may stay white."
    document.undo_stack.undo()
    document.undo_stack.undo()
    assert ear.hear() == "Undone: Set liquid. B Section 2: in range."


def test_what_changes_nothing_on_the_lay_is_told_only_when_undone(ear: Ear, document: OpenPlan) -> None:
    document.edit("Set title", lambda plan: replace(plan, title="Other"))
    assert ear.hear() == ""
    document.undo_stack.undo()
    assert ear.hear() == "Undone: Set title."


def test_the_focus_is_told_as_tab_walks(ear: Ear) -> None:
    QTest.keyClick(ear.canvas, Qt.Key.Key_Tab)
    ear.hear()
    QTest.keyClick(ear.canvas, Qt.Key.Key_Tab)
    ear.hear()
    assert ear.of(Event.Focus) == ["Boundary A | B", "B Section 2"]
    assert ear.of(Event.StateChanged) == ["A Section 1", "B Section 2"], "one deselected, one selected"
    assert ear.of(Event.SelectionWithin) == ["Lay"]


def test_the_focus_is_told_when_it_comes_back(ear: Ear) -> None:
    other = QWidget()
    other.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    other.setParent(ear.canvas)
    other.show()
    other.setFocus()
    ear.hear()
    ear.events.clear()
    ear.canvas.setFocus()
    ear.hear()
    assert ear.of(Event.Focus) == ["A Section 1"]


def test_a_refusal_is_told_where_the_keys_are(ear: Ear, document: OpenPlan) -> None:
    document.replace(set_locked(plain_plan(4), ["s1"], locked=True))
    ear.hear()
    ear.canvas.focus_item("boundary", 0)
    QTest.keyClick(ear.canvas, Qt.Key.Key_Right)
    assert "locked" in ear.hear()
    ear.canvas.clearFocus()
    document.edit("Move", lambda plan: move_boundary(plan, 0, 1.2))
    assert ear.hear() == "", "the field that it was typed into says it"


def test_another_plan_is_not_told_as_an_edit(ear: Ear, document: OpenPlan) -> None:
    document.edit("Split section", lambda plan: split(plan, 1, 1.5))
    ear.hear()
    document.replace(plain_plan(6))
    assert ear.hear() == ""
    assert QAccessible.queryAccessibleInterface(ear.canvas).childCount() == 11


def test_all_words_are_told_anew_in_another_language(ear: Ear) -> None:
    QCoreApplication.sendEvent(ear.canvas, QEvent(QEvent.Type.LanguageChange))
    ear.hear()
    assert len(ear.of(Event.NameChanged)) == 7


def test_nothing_is_computed_while_nobody_listens(
    canvas: LayCanvas, document: OpenPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    ear = Ear(canvas)
    ear.hear()
    QAccessible.setActive(False)

    def too_much(*_: object) -> str:
        raise AssertionError

    for name in ("changed_words", "_changed"):
        monkeypatch.setattr(lay_voice, name, too_much)
    monkeypatch.setattr(type(canvas.voice), "selected_keys", too_much)
    document.edit("Split section", lambda plan: split(plan, 1, 1.5))
    QTest.keyClick(canvas, Qt.Key.Key_Tab)
    document.edit("Move", lambda plan: move_boundary(plan, 0, 1.2))
    assert ear.hear() == ""
    monkeypatch.undo()
    QAccessible.setActive(True)
    document.edit("Move", lambda plan: move_boundary(plan, 0, 1.3))
    assert ear.hear().startswith("Boundary A | B at 130.0 cm."), "what came before is not told"


def test_a_drag_over_many_sections_makes_no_object(
    canvas: LayCanvas, document: OpenPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    document.replace(plain_plan(500, length_m=20.0))
    ear = Ear(canvas)
    ear.walk()
    made: list[object] = []
    changed: list[Worksheet] = []
    original = lay_voice._changed
    monkeypatch.setattr(lay_voice, "LayObject", lambda *key: made.append(key))

    def compare(old: Worksheet, new: Worksheet) -> frozenset[Key]:
        changed.append(new)
        return original(old, new)

    monkeypatch.setattr(lay_voice, "_changed", compare)
    for step in range(20):
        document.preview(move_boundary(document.plan, 250, document.plan.edges_m[251] + step * 0.0005))
        ear.hear()
    document.commit_preview("Move boundary")
    ear.hear()
    assert made == []
    assert len(changed) == 1
    assert len(ear.of(Event.NameChanged)) == 3, "a boundary and the sections on both sides"
