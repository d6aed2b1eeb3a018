"""What is chosen in the preview of a print: paper, sheets, and which of them come how.

The rule of this module: it shows `Choices` and hands changed ones on; a choice that means nothing as long as
a sheet is left out is there, but out of use.
"""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QEvent, Signal
from PySide6.QtWidgets import QFormLayout, QLabel, QVBoxLayout, QWidget

from studio_gui.drawing.sheets.book import SHEETS
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.paper import PAPERS
from studio_gui.views.choices import ChoiceField
from studio_gui.views.labels import call
from studio_gui.views.tick_box import TickBox

#: The sheets that come a second time for who stands opposite, and the one that may be a roll.
LAY_SHEET, TAPE_SHEET = "section-map", "tape"


class PrintChoices(QWidget):
    """Fields of `Choices`.

    Signals
    -------
    changed
        Something else was chosen.
    """

    changed = Signal()

    def __init__(self, choices: Choices, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._choices = choices
        self._counts: dict[str, int] = {}
        self.paper = ChoiceField()
        self.paper_name = QLabel()
        self.paper_name.setBuddy(self.paper)
        self.sheets_name = QLabel()
        self.sheets = {sheet.key: TickBox() for sheet in SHEETS}
        self.mirrored = TickBox()
        self.roll = TickBox()
        self._lay_out()
        self._show()
        self._retranslate()
        self.paper.activated.connect(self._take)
        for box in (*self.sheets.values(), self.mirrored, self.roll):
            box.toggled.connect(self._take)

    @property
    def choices(self) -> Choices:
        """What is chosen."""
        return self._choices

    def show_counts(self, counts: dict[str, int]) -> None:
        """Show how many pages each sheet has."""
        self._counts = counts
        self._retranslate()

    def _lay_out(self) -> None:
        paper = QFormLayout()
        paper.addRow(self.paper_name, self.paper)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addLayout(paper)
        column.addSpacing(8)
        column.addWidget(self.sheets_name)
        for box in self.sheets.values():
            column.addWidget(box)
        column.addSpacing(8)
        column.addWidget(self.mirrored)
        column.addWidget(self.roll)

    def _show(self) -> None:
        choices = self._choices
        self.paper.set_choices([(name, name) for name in PAPERS], choices.paper.name)
        for key, box in self.sheets.items():
            box.setChecked(key not in choices.left_out)
        self.mirrored.setChecked(choices.mirrored)
        self.roll.setChecked(choices.tape_on_a_roll)
        self._enable()

    def _enable(self) -> None:
        self.mirrored.setEnabled(self.sheets[LAY_SHEET].isChecked())
        self.roll.setVisible(TAPE_SHEET in self.sheets)
        self.roll.setEnabled(TAPE_SHEET in self.sheets and self.sheets[TAPE_SHEET].isChecked())

    def _take(self) -> None:
        self._choices = replace(
            self._choices,
            paper=PAPERS[str(self.paper.value)],
            # what another program may have left out stays so
            left_out=(self._choices.left_out - self.sheets.keys())
            | {key for key, box in self.sheets.items() if not box.isChecked()},
            mirrored=self.mirrored.isChecked(),
            tape_on_a_roll=self.roll.isChecked(),
        )
        self._enable()
        self.changed.emit()

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
        super().changeEvent(event)

    def _retranslate(self) -> None:
        self.paper_name.setText(self.tr("P&aper"))
        call(self.paper, self.tr("Paper"))
        self.sheets_name.setText(self.tr("Sheets"))
        for sheet in SHEETS:
            count = self._counts.get(sheet.key)
            words = sheet.title()
            if count is not None:
                words = self.tr("{0}, pages: {1}").format(words, count)
            self.sheets[sheet.key].setText(words.replace("&", "&&"))
        self.mirrored.setText(self.tr("Section map for the &other side too"))
        self.mirrored.setToolTip(self.tr("A second map, with the lay as it is seen by who stands opposite"))
        self.roll.setText(self.tr("Tape on a &roll"))
        self.roll.setToolTip(self.tr("One page as long as the lay, for a printer with a roll of paper"))
