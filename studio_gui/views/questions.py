"""Sentences and questions about files, in a window of their own.

The rule of this module: words are shown as they are, never as markup, since names in them come from files;
the answer that loses nothing is the one that Enter and Esc give; every button has a key of its own.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QMessageBox, QWidget

from studio_gui.domain.errors import FileProblem
from studio_gui.wording.translation import translate

Button = QMessageBox.StandardButton
Icon = QMessageBox.Icon
_Role = QMessageBox.ButtonRole


@dataclass(frozen=True)
class Choice:
    """An answer: what it is called in the program, and on its button; one that is not possible is greyed."""

    key: str
    label: str
    is_possible: bool = True


def ask(
    window: QWidget,
    title: str,
    words: str,
    buttons: Button,
    default: Button,
    icon: Icon = Icon.Question,
    yes: str = "",
) -> Button:
    """Ask with standard buttons, and return the one chosen; `yes` says on its button what Yes will do."""
    box = _box(window, title, words, icon)
    box.setStandardButtons(buttons)
    for button, label in (_labels() | ({Button.Yes: yes} if yes else {})).items():
        if button & buttons:
            box.button(button).setText(label)
    if yes:
        box.button(Button.Yes).setIcon(QIcon())  # the one of Yes would say that all is well
    box.setDefaultButton(default)
    try:
        return Button(box.exec())
    finally:
        box.deleteLater()


def tell(window: QWidget, title: str, words: str) -> None:
    """Say what went wrong."""
    ask(window, title, words, Button.Ok, Button.Ok, Icon.Warning)


def tell_meanwhile(window: QWidget, title: str, words: str) -> None:
    """Say what went wrong without waiting until it was read."""
    box = _box(window, title, words, Icon.Warning)
    box.setStandardButtons(Button.Ok)
    box.button(Button.Ok).setText(_labels()[Button.Ok])
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    box.open()


def choose(window: QWidget, title: str, words: str, *choices: Choice, more: str = "", leave: str = "") -> str:
    """Ask, and return the key of the answer: Enter gives the first, Esc "".

    What stands under `more` is said as a paragraph of its own; `leave` is on the button of Esc instead of
    Cancel.
    """
    box = _box(window, title, words, Icon.Warning)
    box.setInformativeText(more)
    buttons = {
        choice.key: box.addButton(choice.label, _Role.DestructiveRole if place else _Role.AcceptRole)
        for place, choice in enumerate(choices)
    }
    for choice in choices:
        buttons[choice.key].setEnabled(choice.is_possible)
    cancel = box.addButton(Button.Cancel)
    cancel.setText(leave or _labels()[Button.Cancel])
    box.setEscapeButton(cancel)
    box.setDefaultButton(buttons[choices[0].key])
    try:
        box.exec()
        chosen = box.clickedButton()
        return next((key for key, button in buttons.items() if button is chosen), "")
    finally:
        box.deleteLater()


def ask_about_holder(window: QWidget, title: str, words: str, problem: FileProblem) -> str:
    """Ask what to do with a plan that somebody else has open: "copy", "take-over", or "" to leave it."""
    choices = [Choice("copy", translate("Questions", "Work on a co&py"))]
    if problem.code == "plan-held-far":
        choices.append(Choice("take-over", translate("Questions", "&Take it over")))
    return choose(window, title, words, *choices)


def _labels() -> dict[Button, str]:
    """Return what is on each standard button, with a key; those of some systems have none."""
    return {
        Button.Save: translate("Questions", "&Save"),
        Button.Discard: translate("Questions", "&Don’t save"),
        Button.Yes: translate("Questions", "&Yes"),
        Button.Ok: translate("Questions", "&OK"),
        Button.Cancel: translate("Questions", "&Cancel"),
    }


def _box(window: QWidget, title: str, words: str, icon: Icon) -> QMessageBox:
    box = QMessageBox(icon, title, words, Button.NoButton, window)
    box.setTextFormat(Qt.TextFormat.PlainText)
    return box
