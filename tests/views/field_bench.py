"""A field with its message, and another field to go to."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.views.choices import ColourField
from studio_gui.views.fields import EntryField, TextField, with_message
from tests.views.keys import shown


class Bench(QWidget):
    def __init__(self, field: EntryField | ColourField) -> None:
        super().__init__()
        self.other = TextField()
        self.values: list[object] = []
        column = QVBoxLayout(self)
        line = field.edit if isinstance(field, ColourField) else field
        column.addLayout(with_message(line, field))
        column.addWidget(self.other)


def bench(field: EntryField | ColourField, qtbot: QtBot) -> Bench:
    made = shown(Bench(field), qtbot, 300, 160)
    field.entered.connect(made.values.append)  # type: ignore[union-attr]  # every one but the base class has it
    return made
