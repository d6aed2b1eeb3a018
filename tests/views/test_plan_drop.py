"""If these fail, a plan dragged onto the window is lost on the way, or takes unsaved work with it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, QSettings, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDragLeaveEvent, QDragMoveEvent, QDropEvent, QWindow
from PySide6.QtWidgets import QApplication, QMessageBox, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.storage.files import save_plan
from studio_gui.views.banner import Banner
from studio_gui.views.main_window import MainWindow
from tests.drawing.plans import plain_plan
from tests.views.dialogs import answering, press

Button = QMessageBox.StandardButton
COPY, LEFT, NONE = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


# 6.12 deprecates the only way that 6.11 has to make these events.
pytestmark = pytest.mark.filterwarnings(r"ignore:Function. 'Q(Drag|Drop)\w*Event:DeprecationWarning")


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> MainWindow:
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    window = MainWindow(OpenPlan(plain_plan(4)), Preferences(settings))
    qtbot.addWidget(window, before_close_func=lambda one: one.document.undo_stack.setClean())
    with qtbot.waitExposed(window):
        window.show()
    assert window.panes is not None
    QApplication.processEvents()
    return window


@pytest.fixture
def plan_file(tmp_path: Path) -> Path:
    path = tmp_path / "dragged.roving.json"
    save_plan(path, plain_plan(6))
    return path


class Dragged:
    """Files held over a window by the mouse, as its platform tells it."""

    def __init__(self, window: MainWindow, *files: Path | str) -> None:
        self.window = window
        self.actions = COPY | Qt.DropAction.MoveAction
        self.data = QMimeData()
        urls = [QUrl.fromLocalFile(str(one)) if isinstance(one, Path) else QUrl(one) for one in files]
        self.data.setUrls(urls)
        self.data.setText("\n".join(url.toString() for url in urls))  # file managers add it

    @property
    def target(self) -> QWindow:
        handle = self.window.windowHandle()
        assert handle is not None
        return handle

    def hold(self, over: QWidget) -> bool:
        """Bring the files over a widget; return whether they may be dropped there."""
        self.place = over.mapTo(self.window, over.rect().center())
        enter = QDragEnterEvent(self.place, self.actions, self.data, LEFT, NONE)
        move = QDragMoveEvent(self.place, self.actions, self.data, LEFT, NONE)
        for event in (enter, move):
            event.setDropAction(Qt.DropAction.MoveAction)  # as file managers propose
            QApplication.sendEvent(self.target, event)
        self.action = move.dropAction()
        return enter.isAccepted() and move.isAccepted()

    def let_go(self) -> bool:
        event = QDropEvent(QPointF(self.place), self.actions, self.data, LEFT, NONE)
        event.setDropAction(Qt.DropAction.MoveAction)
        QApplication.sendEvent(self.target, event)
        QApplication.processEvents()
        self.action = event.dropAction()
        return event.isAccepted()

    def take_away(self) -> None:
        QApplication.sendEvent(self.target, QDragLeaveEvent())

    @property
    def words(self) -> Sequence[str]:
        return [one.words for one in self.window.findChildren(Banner) if one.isVisible()]


def test_a_plan_is_opened_where_it_is_dropped(window: MainWindow, plan_file: Path) -> None:
    drag = Dragged(window, plan_file)
    assert drag.hold(window.canvas)
    assert drag.words == ["Drop to open dragged.roving.json"]
    assert drag.let_go()
    assert drag.words == []
    assert drag.action == COPY, "moved, it would be deleted where it came from"
    assert window.document.path == plan_file
    assert len(window.document.plan.sections) == 6


def test_over_a_field_it_is_meant_for_the_window(window: MainWindow, plan_file: Path) -> None:
    field = window.panes.inputs.title
    drag = Dragged(window, plan_file)
    assert drag.hold(field)
    assert drag.words
    drag.let_go()
    assert window.document.path == plan_file
    assert "file:" not in field.text()


def test_what_can_only_be_moved_is_left_where_it_is(window: MainWindow, plan_file: Path) -> None:
    drag = Dragged(window, plan_file)
    drag.actions = Qt.DropAction.MoveAction
    assert not drag.hold(window.canvas)
    assert drag.words == []


def test_carried_off_again_it_changes_nothing(window: MainWindow, plan_file: Path) -> None:
    before = window.document.plan
    drag = Dragged(window, plan_file)
    drag.hold(window.canvas)
    drag.take_away()
    assert drag.words == []
    assert window.document.plan is before


@pytest.mark.parametrize("answer", [Button.Cancel, Button.Discard])
def test_unsaved_work_is_asked_about(
    window: MainWindow, plan_file: Path, answer: QMessageBox.StandardButton
) -> None:
    window.document.edit("Move", lambda plan: move_boundary(plan, 0, 1.5))
    changed = window.document.plan
    drag = Dragged(window, plan_file)
    drag.hold(window.canvas)
    with answering(press(answer)):
        drag.let_go()
    assert (window.document.plan is changed) == (answer == Button.Cancel)


@pytest.mark.parametrize(
    ("names", "sentence"),
    [
        (("photo.png",), "photo.png is no plan. The names of plans end in .roving.json."),
        (("one.roving.json", "two.roving.json"), "Drop one plan; a window holds one at a time."),
    ],
)
def test_wrong_files_are_refused_in_words(
    window: MainWindow, tmp_path: Path, names: tuple[str, ...], sentence: str
) -> None:
    before = window.document.plan
    drag = Dragged(window, *(tmp_path / name for name in names))
    drag.hold(window.canvas)
    assert drag.words == [sentence]
    drag.let_go()
    assert window.statusBar().currentMessage() == sentence
    assert window.document.plan is before


def test_what_is_no_file_of_this_computer_is_refused(window: MainWindow) -> None:
    drag = Dragged(window, "https://example.org/x.roving.json")
    drag.hold(window.canvas)
    assert drag.words == ["Only files of this computer can be dropped here."]


def test_a_plan_with_mistakes_in_it_is_refused_with_the_reason(window: MainWindow, tmp_path: Path) -> None:
    path = tmp_path / "broken.roving.json"
    path.write_text("{", encoding="utf-8")
    before = window.document.plan
    drag = Dragged(window, path)
    drag.hold(window.canvas)
    with answering(press(Button.Ok)) as said:
        drag.let_go()
    assert "broken.roving.json" in said[0]
    assert window.document.plan is before


def test_dragged_text_is_left_alone(window: MainWindow) -> None:
    data = QMimeData()
    data.setText("12 + 38")
    event = QDragEnterEvent(QPoint(400, 200), COPY, data, LEFT, NONE)
    QApplication.sendEvent(window, event)
    assert not event.isAccepted()
