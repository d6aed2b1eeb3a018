"""If these fail, somebody who does not see the canvas finds no section and moves no boundary."""

from __future__ import annotations

import gc
import subprocess
import sys
from collections.abc import Iterator

import pytest
import shiboken6
from PySide6.QtCore import QCoreApplication, QEvent, QPoint, QRect, Qt
from PySide6.QtGui import QAccessible, QAccessibleActionInterface, QAccessibleInterface
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.sections import merge, set_locked
from studio_gui.drawing.lay_layout import ItemKind
from studio_gui.views.lay_canvas import LayCanvas
from studio_gui.views.lay_manners import MANNERS
from studio_gui.wording.translation import install_units
from tests.drawing.plans import plain_plan

Role, Text = QAccessible.Role, QAccessible.Text


@pytest.fixture
def listening(qapp: object) -> Iterator[None]:  # noqa: ARG001  (asks Qt's platform)
    QAccessible.setActive(True)
    yield
    QAccessible.setActive(False)


@pytest.fixture
def canvas(qtbot: QtBot, document: OpenPlan, listening: None) -> LayCanvas:  # noqa: ARG001
    canvas = LayCanvas(document)
    qtbot.addWidget(canvas)
    canvas.resize(1100, 620)
    with qtbot.waitExposed(canvas):
        canvas.show()
    canvas.setFocus()
    return canvas


def root(canvas: LayCanvas) -> QAccessibleInterface:
    return QAccessible.queryAccessibleInterface(canvas)


def item(canvas: LayCanvas, kind: ItemKind, index: int) -> QAccessibleInterface:
    place = [(one.kind, one.index) for one in canvas.lay.items].index((kind, index))
    return root(canvas).child(place)


def test_the_canvas_has_a_child_for_each_item_in_the_order_of_the_keyboard(canvas: LayCanvas) -> None:
    children = [root(canvas).child(place) for place in range(root(canvas).childCount())]
    assert [child.text(Text.Name) for child in children] == [
        "A Section 1, 100.0 cm, 62.5 ml, in range",
        "Boundary A | B, 100.0 cm from the start",
        "B Section 2, 100.0 cm, 62.5 ml, in range",
        "Boundary B | C, 200.0 cm from the start",
        "C Section 3, 100.0 cm, 62.5 ml, in range",
        "Boundary C | A, 300.0 cm from the start",
        "A Section 4, 100.0 cm, 62.5 ml, in range",
    ]
    assert {child.role() for child in children} == {Role.ListItem, Role.Slider}
    for place, child in enumerate(children):
        assert root(canvas).indexOfChild(child) == place
        assert child.parent() is root(canvas)
        assert child.childCount() == 0
        assert child.window() is canvas.windowHandle()
    assert root(canvas).child(len(children)) is None
    assert root(canvas).text(Text.Name) == "Lay"


def test_folds_are_children_too(canvas: LayCanvas, document: OpenPlan) -> None:
    document.replace(plain_plan(2, passes=2))
    fold = item(canvas, "fold", 0)
    assert fold.text(Text.Name) == "Fold 1 of 1, 200.0 cm from the start"
    fold.valueInterface().setCurrentValue(210.0)
    assert fold.valueInterface().currentValue() == pytest.approx(210.0)
    assert document.undo_stack.undoText() == "Move the fold"


def test_every_kind_that_the_keyboard_walks_has_manners() -> None:
    # An item without an entry would be seen and not heard.
    document = OpenPlan(plain_plan(3, passes=2))
    canvas = LayCanvas(document)
    assert {one.kind for one in canvas.lay.items} <= set(MANNERS)
    canvas.deleteLater()


def test_a_child_lies_where_it_is_drawn(canvas: LayCanvas) -> None:
    for one in canvas.lay.items:
        rect = item(canvas, one.kind, one.index).rect()
        assert rect == QRect(canvas.mapToGlobal(one.rect.toRect().topLeft()), one.rect.toRect().size())
        assert not item(canvas, one.kind, one.index).state().offscreen
    middle = item(canvas, "section", 2).rect().center()
    assert root(canvas).childAt(middle.x(), middle.y()) is item(canvas, "section", 2)
    corner = canvas.mapToGlobal(QPoint(1, 1))
    assert root(canvas).childAt(corner.x(), corner.y()) is None


def test_states_follow_focus_selection_and_lock(canvas: LayCanvas, document: OpenPlan) -> None:
    canvas.focus_item("section", 1)
    assert item(canvas, "section", 1).state().focused
    assert item(canvas, "section", 1).state().selected
    assert not item(canvas, "section", 0).state().selected
    assert root(canvas).focusChild() is item(canvas, "section", 1)
    canvas.focus_item("boundary", 0)
    assert item(canvas, "boundary", 0).state().focused
    assert not item(canvas, "boundary", 0).state().selectable
    assert not item(canvas, "boundary", 0).state().readOnly
    document.edit("Lock", lambda plan: set_locked(plan, ["s1"], locked=True))
    assert item(canvas, "boundary", 0).state().readOnly
    assert item(canvas, "boundary", 0).text(Text.Name).endswith(", locked")
    canvas.focus_item("gap", 1)
    assert root(canvas).focusChild() is item(canvas, "boundary", 1), "a gap is spoken of with its boundary"
    canvas.clearFocus()
    assert not item(canvas, "boundary", 1).state().focused
    assert root(canvas).focusChild() is None


def test_the_selection_can_be_read_and_changed(canvas: LayCanvas, document: OpenPlan) -> None:
    selection = root(canvas).selectionInterface()
    assert selection.selectedItemCount() == 1
    assert selection.select(item(canvas, "section", 2))
    assert list(document.selected_ids) == ["s1", "s3"]
    assert selection.selectedItems() == [item(canvas, "section", 0), item(canvas, "section", 2)]
    assert selection.isSelected(item(canvas, "section", 2))
    assert selection.unselect(item(canvas, "section", 0))
    assert list(document.selected_ids) == ["s3"]
    assert not selection.unselect(item(canvas, "section", 2)), "the panes always speak of a section"
    assert not selection.select(item(canvas, "boundary", 0))
    assert not selection.clear()
    assert selection.selectAll()
    assert len(document.selected_ids) == 4


def test_the_value_of_a_boundary_is_its_place(canvas: LayCanvas, document: OpenPlan) -> None:
    value = item(canvas, "boundary", 1).valueInterface()
    assert value.currentValue() == pytest.approx(200.0)
    assert value.minimumValue() == pytest.approx(100.1)
    assert value.maximumValue() == pytest.approx(299.9)
    assert value.minimumStepSize() == pytest.approx(0.1)
    value.setCurrentValue(230.0)
    assert document.plan.boundaries[1].position_m == pytest.approx(2.3)
    assert document.undo_stack.undoText() == "Move boundary B | C"
    value.setCurrentValue(9000.0)
    assert document.plan.boundaries[1].position_m == pytest.approx(2.999)
    document.undo_stack.undo()
    document.undo_stack.undo()
    assert document.plan.boundaries[1].position_m == 2.0


@pytest.mark.parametrize("nonsense", [float("nan"), float("inf"), "far", None])
def test_a_value_that_is_no_place_changes_nothing(
    canvas: LayCanvas, document: OpenPlan, nonsense: object
) -> None:
    before = document.plan
    item(canvas, "boundary", 1).valueInterface().setCurrentValue(nonsense)
    assert document.plan is before


def test_a_locked_boundary_has_one_value_and_keeps_it(canvas: LayCanvas, document: OpenPlan) -> None:
    document.replace(set_locked(plain_plan(4), ["s2"], locked=True))
    value = item(canvas, "boundary", 1).valueInterface()
    assert value.minimumValue() == value.maximumValue() == value.currentValue()
    value.setCurrentValue(250.0)
    assert document.plan.boundaries[1].position_m == 2.0


def test_values_are_in_the_units_that_are_shown(canvas: LayCanvas, document: OpenPlan) -> None:
    install_units("us")
    try:
        value = item(canvas, "boundary", 0).valueInterface()
        assert value.currentValue() == pytest.approx(39.37, abs=0.01)
        assert item(canvas, "boundary", 0).text(Text.Name) == "Boundary A | B, 39.37 in from the start"
        value.setCurrentValue(40.0)
        assert document.plan.boundaries[0].position_m == pytest.approx(1.016)
    finally:
        install_units("metric")


def test_actions_do_what_the_keys_do(canvas: LayCanvas, document: OpenPlan) -> None:
    actions = item(canvas, "boundary", 0).actionInterface()
    increase, decrease = (
        QAccessibleActionInterface.increaseAction(),
        QAccessibleActionInterface.decreaseAction(),
    )
    assert increase in actions.actionNames()
    assert actions.keyBindingsForAction(increase) == ["Right"]
    actions.doAction(increase)
    assert document.plan.boundaries[0].position_m == pytest.approx(1.001)
    actions.doAction(decrease)
    assert document.plan.boundaries[0].position_m == pytest.approx(1.0)
    section = item(canvas, "section", 3).actionInterface()
    assert section.actionNames() == [QAccessibleActionInterface.setFocusAction()]
    section.doAction(QAccessibleActionInterface.setFocusAction())
    assert canvas.focused == ("section", 3)
    assert document.selected_ids == ("s4",)
    section.doAction("Sing")


def test_an_item_that_is_gone_answers_nothing(canvas: LayCanvas, document: OpenPlan) -> None:
    last = item(canvas, "section", 3)
    document.edit("Merge", lambda plan: merge(plan, first=0, last=3))
    assert last.text(Text.Name) == ""
    assert last.rect().isEmpty()
    assert last.state().invalid
    assert root(canvas).childCount() == 1
    assert root(canvas).indexOfChild(last) == -1
    QCoreApplication.processEvents()
    assert not shiboken6.isValid(last), "Qt still knows it"


def test_no_interface_is_offered_that_is_not_there(canvas: LayCanvas) -> None:
    # C++ asks for each of them; an address where there is nothing would end the program.
    for one in (root(canvas), item(canvas, "section", 0), item(canvas, "boundary", 0)):
        assert one.textInterface() is None
        assert one.tableCellInterface() is None
        assert one.editableTextInterface() is None
    assert item(canvas, "section", 0).valueInterface() is None
    assert item(canvas, "section", 0).child(0) is None
    assert item(canvas, "section", 0).childAt(0, 0) is None
    assert item(canvas, "section", 0).object() is None


def test_windows_opened_and_closed_leave_no_object_behind(qtbot: QtBot, listening: None) -> None:  # noqa: ARG001
    document = OpenPlan(plain_plan(4))
    for number in range(60):
        canvas = LayCanvas(document)
        canvas.show()
        one = root(canvas).child(number % 7)
        assert one.isValid()
        QTest.keyClick(canvas, Qt.Key.Key_Tab)
        canvas.close()
        canvas.deleteLater()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
        assert not shiboken6.isValid(one)
        del canvas
        gc.collect(0)
    document.select("s2")  # nobody listens any more


def test_the_program_ends_in_peace_with_a_canvas_open() -> None:
    # Qt's registry deletes what is left when the application goes, after Python has let go of most.
    program = (
        "from PySide6.QtWidgets import QApplication\n"
        "from PySide6.QtGui import QAccessible\n"
        "from studio_gui.document.open_plan import OpenPlan\n"
        "from studio_gui.views.lay_canvas import LayCanvas\n"
        "from tests.drawing.plans import plain_plan\n"
        "app = QApplication([])\n"
        "QAccessible.setActive(True)\n"
        "canvas = LayCanvas(OpenPlan(plain_plan(4)))\n"
        "canvas.show()\n"
        "app.processEvents()\n"
        "root = QAccessible.queryAccessibleInterface(canvas)\n"
        "print([root.child(i).text(QAccessible.Text.Name) for i in range(7)][0])\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("A Section 1")
