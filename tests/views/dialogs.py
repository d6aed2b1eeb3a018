"""Somebody who answers modal dialogs with real clicks and keys."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QLineEdit,
    QMessageBox,
)

from studio_gui.views.removal import RemovalQuestion

Answer = Callable[[QDialog], None]


@contextmanager
def answering(*answers: Answer) -> Iterator[list[str]]:
    """Answer the modal dialogs that come up inside, in turn; yields what they said, in turn.

    Fails when more or fewer dialogs come up than there are answers.
    """
    waiting = list(answers)
    said: list[str] = []
    problems: list[BaseException] = []
    answered: list[QDialog] = []

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        if not isinstance(dialog, QDialog) or not dialog.isVisible() or dialog in answered:
            return
        answered.append(dialog)
        said.append(_words(dialog))
        try:
            assert waiting, f"a dialog too many: {said[-1]}"
            waiting.pop(0)(dialog)
        except BaseException as problem:  # noqa: BLE001  (carried out of the event loop, raised below)
            problems.append(problem)
            dialog.reject()

    timer = QTimer()
    timer.setInterval(20)
    timer.timeout.connect(look)
    timer.start()
    try:
        yield said
    finally:
        timer.stop()
    if problems:
        raise problems[0]
    assert not waiting, "a dialog did not come up"


def _words(dialog: QDialog) -> str:
    if isinstance(dialog, QMessageBox):
        return dialog.text()
    return dialog.question.text() if isinstance(dialog, RemovalQuestion) else dialog.windowTitle()


def press(button: QMessageBox.StandardButton) -> Answer:
    """Return an answer that clicks a button of a message box."""

    def answer(dialog: QDialog) -> None:
        assert isinstance(dialog, QMessageBox)
        QTest.mouseClick(dialog.button(button), Qt.MouseButton.LeftButton)

    return answer


def click_text(words: str) -> Answer:
    """Return an answer that clicks the button so called of a message box."""

    def answer(dialog: QDialog) -> None:
        assert isinstance(dialog, QMessageBox)
        button = next(one for one in dialog.buttons() if one.text().replace("&", "") == words)
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)

    return answer


def choose_file(path: Path) -> Answer:
    """Return an answer that types a file's name into a file dialog and accepts it."""

    def answer(dialog: QDialog) -> None:
        assert isinstance(dialog, QFileDialog)
        line = dialog.findChild(QLineEdit, "fileNameEdit")
        assert line is not None
        line.selectAll()
        QTest.keyClicks(line, str(path))
        QTest.keyClick(line, Qt.Key.Key_Return)
        if dialog.isVisible():  # the first Enter went to the list of completions
            buttons = dialog.findChild(QDialogButtonBox)
            assert buttons is not None
            accept = next(
                button
                for button in buttons.buttons()
                if buttons.buttonRole(button) == QDialogButtonBox.ButtonRole.AcceptRole
            )
            QTest.mouseClick(accept, Qt.MouseButton.LeftButton)

    return answer


def soon(answer: Answer) -> Answer:
    """Return an answer given in a moment, so that a question it brings up can be answered in turn."""
    return lambda dialog: QTimer.singleShot(0, dialog, lambda: answer(dialog))


def cancel(dialog: QDialog) -> None:
    """Leave a dialog by Esc."""
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
