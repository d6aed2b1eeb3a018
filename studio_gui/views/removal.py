"""The question that is asked before something that is used is taken away.

The rule of this module: it names the users and offers what they can do instead; each answer is one undo
step, and one that is refused says why and lets another be chosen.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.views.choices import ChoiceField
from studio_gui.views.fields import edit_and_say
from studio_gui.views.labels import MessageLabel, TonedLabel, call
from studio_gui.views.tick_box import RadioButton

WIDTH_PX = 380
INDENT_PX = 24


@dataclass(frozen=True)
class Way:
    """One way to take something away: what it is called, what it does, the undo step, and the edit.

    `edit` is given the chosen one of `others` (words and id), "" where there is nothing to choose.
    """

    words: str
    note: str
    step: str
    edit: Callable[[str], Edit]
    others: Sequence[tuple[str, str]] | None = None


class RemovalQuestion(QDialog):
    """What the users of something are to do without it."""

    def __init__(
        self,
        document: OpenPlan,
        title: str,
        question: str,
        accept: str,
        ways: Sequence[Way],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._document, self._ways = document, ways
        self.setWindowTitle(title)
        self.setAccessibleDescription(question)
        self.question = TonedLabel("text")
        self.question.setWordWrap(True)
        self.question.show_text(question)
        self.radios = [RadioButton(way.words) for way in ways]
        self.boxes = [ChoiceField() if way.others else None for way in ways]
        self.message = MessageLabel()
        self.buttons = QDialogButtonBox()
        self.remove = QPushButton(accept)
        self.buttons.addButton(self.remove, QDialogButtonBox.ButtonRole.AcceptRole)
        self.cancel = self.buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        self.buttons.accepted.connect(self._apply)
        self.buttons.rejected.connect(self.reject)
        self._lay_out()
        self.radios[0].setChecked(True)
        self.remove.setDefault(True)
        self.setMinimumWidth(WIDTH_PX)

    @classmethod
    def ask(
        cls,
        document: OpenPlan,
        title: str,
        question: str,
        accept: str,
        ways: Sequence[Way],
        parent: QWidget,
    ) -> bool:
        """Ask, and do what was chosen; return whether anything was done."""
        dialog = cls(document, title, question, accept, ways, parent)
        try:
            return dialog.exec() == QDialog.DialogCode.Accepted
        finally:
            dialog.deleteLater()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setSpacing(8)
        column.addWidget(self.question)
        for way, radio, box in zip(self._ways, self.radios, self.boxes, strict=True):
            row = QHBoxLayout()
            row.setSpacing(8)
            row.addWidget(radio)
            radio.setAccessibleDescription(way.note)
            if box is not None and way.others:
                box.set_choices(list(way.others), way.others[0][1])
                box.chosen.connect(lambda _, radio=radio: radio.setChecked(True))
                call(box, way.words.replace("&", ""))
                row.addWidget(box, 1)
            else:
                row.addStretch(1)
            column.addLayout(row)
            note = TonedLabel("secondary")
            note.setWordWrap(True)
            note.setIndent(INDENT_PX)
            note.show_text(way.note)
            column.addWidget(note)
        if len(self.radios) == 1:
            only = self.radios[0]
            only.hide()
            label = QLabel(self._ways[0].words)
            label.setBuddy(self.boxes[0] or only)
            column.insertWidget(1, label)
        column.addWidget(self.message)
        column.addWidget(self.buttons)

    def _apply(self) -> None:
        place = next(place for place, radio in enumerate(self.radios) if radio.isChecked())
        way, box = self._ways[place], self.boxes[place]
        chosen = str(box.value) if box is not None else ""
        if edit_and_say(self._document, way.step, way.edit(chosen), self.message.say):
            self.accept()
        else:
            self.setAccessibleDescription(self.message.text())
