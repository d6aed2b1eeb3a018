"""Free plies: a table of what each is spun from, and the strips of the one that is selected.

The rule of this module: plies are added and taken away as single undo steps; what a cell does not take is
said under the table, and the cell keeps what it had.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtWidgets import QAbstractItemView, QHBoxLayout, QToolButton, QVBoxLayout, QWidget

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.document.ply_model import Column, PlyModel
from studio_gui.domain.edits.yarn import (
    add_ply,
    flip_strip,
    remove_ply,
    set_strip_count,
    set_strip_weight,
)
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.yarn import MOST_PLIES, MOST_STRIPS
from studio_gui.views.fields import edit_and_say, edit_at
from studio_gui.views.fitted_table import FittedTable
from studio_gui.views.labels import MessageLabel, TonedLabel, scaled_font
from studio_gui.views.live import LiveWidget
from studio_gui.views.numbered_rows import NumberedRows
from studio_gui.views.shelf import BUTTON_PX, name_button
from studio_gui.wording.fields import field_name
from studio_gui.wording.sentences import refusal
from studio_gui.wording.spinning import strip_notes

_WIDEST: dict[int, str] = {
    Column.NUMBER: "9",
    Column.ROVING: "99",
    Column.FROM: "100.0",
    Column.TO: "100.0",
    Column.THICKNESS: "100.0",
    Column.STRIPS: "8",
    Column.OFFSET: "999.9",
}


class PlyList(LiveWidget):
    """The table of free plies with its buttons, and the strips of the selected ply."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.model = PlyModel(document, self)
        self.table = FittedTable(self.model, Column.FLIPPED, _WIDEST, MOST_PLIES)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.heading = TonedLabel("text")
        self.add, self.remove = QToolButton(), QToolButton()
        self.message = MessageLabel()
        self.strips = NumberedRows("strip_weight", ticked=True)
        self._lay_out()
        self._keep_up(document, self._show, turn=2)
        self.add.clicked.connect(self._add)
        self.remove.clicked.connect(self._remove)
        self.model.refused.connect(self._say)
        self.model.accepted.connect(lambda: self.message.say(""))
        self.table.selectionModel().currentRowChanged.connect(self._show_selected)
        self.strips.counted.connect(self._count_strips)
        self.strips.entered.connect(self._weigh_strip)
        self.strips.ticked.connect(self._flip_strip)
        self._set_fonts()
        self._retranslate()

    @property
    def ply(self) -> int:
        """Number of the selected ply, from 1."""
        return min(max(self.table.currentIndex().row() + 1, 1), max(self.model.rowCount(), 1))

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.setSpacing(4)
        top.addWidget(self.heading, 1)
        for button in (self.add, self.remove):
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
            button.setMinimumSize(BUTTON_PX, BUTTON_PX)
            top.addWidget(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addLayout(top)
        column.addWidget(self.table)
        column.addWidget(self.message)
        column.addSpacing(8)
        column.addWidget(self.strips)

    def _set_fonts(self) -> None:
        self.heading.setFont(scaled_font(self.font(), 1.0, bold=True))

    def _retranslate(self) -> None:
        self.heading.show_text(field_name("plies"))
        self.table.setAccessibleName(field_name("plies"))
        name_button(self.add, self.tr("+ Ply"), self.tr("Add a ply beside the selected one"))
        name_button(self.remove, self.tr("−"), self.tr("Take the selected ply away"))
        self._show()

    # -- showing -------------------------------------------------------------------------------------------

    def _show(self) -> None:
        plan = self._document.sheet.plan
        self.table.hide_column(Column.ROVING, hidden=plan.fibre.rovings == 1)
        has_flips = any(strip.flipped for ply in plan.yarn.plies for strip in ply.strips)
        self.table.hide_column(Column.FLIPPED, hidden=not has_flips)  # there is little room
        self.remove.setEnabled(len(plan.yarn.plies) > 1)
        self.add.setEnabled(len(plan.yarn.plies) < MOST_PLIES)
        self._show_strips()

    def _show_selected(self, _: QModelIndex) -> None:
        self._show_strips()

    def _show_strips(self) -> None:
        sheet = self._document.sheet
        yarn, number = sheet.plan.yarn, self.ply
        if yarn.structure != "free" or number > len(yarn.plies):
            return
        strips = yarn.plies[number - 1].strips
        self.strips.name(
            self.tr("Strips of ply {0}").format(number),
            self.tr("Strip {0}"),
            self.tr("Its weight beside the other strips: grams, where they were weighed"),
            self.tr("flipped"),
        )
        self.strips.offer_counts(1, MOST_STRIPS, len(strips))
        self.strips.show_rows(
            [strip.weight for strip in strips],
            strip_notes(sheet.yarn.strands[number - 1]),
            [strip.flipped for strip in strips],
        )

    def _say(self, error: RovingLayError) -> None:
        self.message.say(refusal(error, self._document.plan))
        self.table.setAccessibleDescription(self.message.text())

    # -- editing -------------------------------------------------------------------------------------------

    def _add(self) -> None:
        beside = self.ply
        self._change(self.tr("Add ply"), partial(add_ply, beside=beside), beside + 1)

    def _remove(self) -> None:
        number = self.ply
        self._change(self.tr("Remove ply"), partial(remove_ply, number=number), number)

    def _change(self, name: str, edit: Edit, then: int) -> None:
        """Apply an edit, and go on in the table with ply number `then`, or the last."""
        if edit_and_say(self._document, name, edit, self.message.say):
            row = min(then, self.model.rowCount()) - 1
            self.table.setCurrentIndex(self.model.index(row, max(self.table.currentIndex().column(), 0)))
            self.table.setFocus()

    def _count_strips(self, count: int) -> None:
        edit = partial(set_strip_count, count=count, ply=self.ply)
        edit_and_say(self._document, field_name("strip_count"), edit, self.strips.message.say)
        self._show_strips()  # a count that was refused goes back to what stands

    def _weigh_strip(self, place: int, weight: float) -> None:
        edit = partial(set_strip_weight, strip=place, weight=weight, ply=self.ply)
        edit_at(self.strips.fields[place], self._document, field_name("strip_weight"), edit)

    def _flip_strip(self, place: int, flipped: bool) -> None:
        edit = partial(flip_strip, strip=place, flipped=flipped, ply=self.ply)
        edit_and_say(self._document, self.tr("Flip a strip"), edit, self.strips.message.say)
