"""Sentences and questions about files, in a window of their own.

The rule of this module: words are shown as they are, never as markup, since names in them come from files;
the answer that loses nothing is the one that Enter and Esc give.
"""

from __future__ import annotations

from typing import Literal

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMessageBox, QWidget

from studio_gui.domain.errors import FileProblem
from studio_gui.wording.translation import translate

Button = QMessageBox.StandardButton
HeldAnswer = Literal["copy", "take-over", "leave"]


def ask(
    window: QWidget,
    title: str,
    words: str,
    buttons: Button,
    default: Button,
    icon: QMessageBox.Icon = QMessageBox.Icon.Question,
) -> Button:
    """Ask with standard buttons, and return the one chosen."""
    box = _box(window, title, words, icon)
    box.setStandardButtons(buttons)
    box.setDefaultButton(default)
    try:
        return Button(box.exec())
    finally:
        box.deleteLater()


def tell(window: QWidget, title: str, words: str) -> None:
    """Say what went wrong."""
    ask(window, title, words, Button.Ok, Button.Ok, QMessageBox.Icon.Warning)


def ask_about_holder(window: QWidget, title: str, words: str, problem: FileProblem) -> HeldAnswer:
    """Ask what to do with a plan that somebody else has open."""
    box = _box(window, title, words, QMessageBox.Icon.Warning)
    copy = box.addButton(translate("Questions", "Work on a &copy"), QMessageBox.ButtonRole.AcceptRole)
    take = None
    if problem.code == "plan-held-far":
        take = box.addButton(translate("Questions", "&Take it over"), QMessageBox.ButtonRole.DestructiveRole)
    box.setEscapeButton(box.addButton(Button.Cancel))
    box.setDefaultButton(copy)
    try:
        box.exec()
        chosen = box.clickedButton()
    finally:
        box.deleteLater()
    if chosen is copy:
        return "copy"
    return "take-over" if take is not None and chosen is take else "leave"


def _box(window: QWidget, title: str, words: str, icon: QMessageBox.Icon) -> QMessageBox:
    box = QMessageBox(icon, title, words, Button.NoButton, window)
    box.setTextFormat(Qt.TextFormat.PlainText)
    return box
