"""The liquors of the plan: added, copied, lettered, arranged, and removed.

The rule of this module: the selected liquor and the selected sections go together: who picks a liquor picks
the sections that it is painted on, and who picks a section sees its liquor picked. A liquor that is painted
nowhere picks none.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QModelIndex

from studio_gui.document import liquor_model
from studio_gui.document.liquor_model import LiquorModel
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.liquors import add_liquor, remove_liquor
from studio_gui.domain.edits.replacing import repaint
from studio_gui.domain.edits.shelf_order import move_liquor
from studio_gui.views.delegates import SwatchDelegate
from studio_gui.views.removal import RemovalQuestion, Way
from studio_gui.views.shelf import ALT, Key, Shelf, ShelfTable, name_button
from studio_gui.views.stock_shelf import copy_name
from studio_gui.wording.naming import liquor_name

Column = liquor_model.Column

_WIDEST: dict[int, str] = {
    Column.LETTER: "AA",
    Column.MADE: "12 + 38",
    Column.JAR: "9999.9",
    Column.SECTIONS: "Harbour, Sand and 3 more",
}
#: Of a name without a swatch beside it.
NAME_PX = 80


class LiquorList(Shelf):
    """The list of liquors."""

    def __init__(self, document: OpenPlan, model: LiquorModel) -> None:
        wished = (Column.JAR, Column.MADE, Column.SECTIONS)
        roomy = (Column.MADE, Column.SECTIONS)
        table = ShelfTable(
            model, Column.NAME, _WIDEST, wished, roomy, marked=(Column.LETTER,), name_px=NAME_PX
        )
        table.setItemDelegateForColumn(Column.LETTER, SwatchDelegate(table))
        super().__init__(document, model, table)
        self._following = False
        self._followed = ""
        self.add = self.add_button(self._add)
        self.remove = self.add_button(self._remove, needs_row=True)
        self.more = self.add_more_button()
        self.rename_command = self.add_command(table.edit_name, Key.Key_Return, Key.Key_Enter)
        self.copy_command = self.add_command(self._copy)
        self.up_command = self.add_command(lambda: self._move(-1), ALT | Key.Key_Up)
        self.down_command = self.add_command(lambda: self._move(1), ALT | Key.Key_Down)
        self.remove_command = self.add_command(self._remove, Key.Key_Delete)
        table.selectionModel().currentRowChanged.connect(self._select_sections)
        table.clicked.connect(self._select_sections)
        document.selected.connect(self._follow)
        model.rearranged.connect(self._follow_anew)
        self._retranslate()
        self._follow()

    def _retranslate(self) -> None:
        self.heading.show_text(self.tr("Liquors"))
        self.table.setAccessibleName(self.tr("Liquors"))
        name_button(self.add, self.tr("+ Liquor"), self.tr("Add an empty liquor"))
        name_button(self.remove, self.tr("−"), self.tr("Remove the selected liquor"))
        name_button(self.more, "⋯", self.tr("More to do with the selected liquor"))
        self.rename_command.setText(self.tr("Re&name"))
        self.copy_command.setText(self.tr("&Duplicate"))
        self.up_command.setText(self.tr("Move &up"))
        self.down_command.setText(self.tr("Move &down"))
        self.remove_command.setText(self.tr("Re&move…"))
        self._fit()

    # -- selection -----------------------------------------------------------------------------------------

    def _select_sections(self, *_: QModelIndex) -> None:
        if self._following or self.model.is_rearranging or not self.current_id:
            return
        sections = self.document.sheet.plan.sections_with(self.current_id)
        if sections:
            self.document.select(*(section.id for section in sections))

    def _follow(self) -> None:
        """Select the liquor of the first selected section."""
        if not self.document.selected_ids:
            return
        liquor_id = self._liquor_of_selection
        self._followed = liquor_id if self.model.row_of(liquor_id) >= 0 else ""
        self._following = True
        try:
            self.show_row(liquor_id)
        finally:
            self._following = False

    def _follow_anew(self) -> None:
        """Follow to a liquor that came with an edit of sections: the list may have it later than they do."""
        if self.document.selected_ids and self._liquor_of_selection != self._followed:
            self._follow()

    @property
    def _liquor_of_selection(self) -> str:
        return self.document.sheet.plan.section(self.document.selected_ids[0]).liquor_id

    # -- commands ------------------------------------------------------------------------------------------

    def _add(self) -> None:
        name = self.tr("New liquor")
        if self.edit(self.tr("Add liquor"), lambda plan: add_liquor(plan, name)[0]):
            self.name_row(self.document.plan.liquors[-1].id)

    def _copy(self) -> None:
        if not self.current_id:
            return
        liquor = self.document.plan.liquor(self.current_id)
        name = copy_name(self.tr("{0} copy"), liquor.name)
        if self.edit(
            self.tr("Copy liquor"), lambda plan: add_liquor(plan, name, liquor.parts, liquor.depths)[0]
        ):
            self.name_row(self.document.plan.liquors[-1].id)

    def _move(self, by: int) -> None:
        if self.current_id:
            self.edit(self.tr("Move liquor"), partial(move_liquor, liquor_id=self.current_id, by=by))

    def _remove(self) -> None:
        liquor_id, plan = self.current_id, self.document.plan
        if not liquor_id:
            return
        others = [(liquor_name(plan, one.id), one.id) for one in plan.liquors if one.id != liquor_id]
        if (
            not plan.sections_with(liquor_id) or not others
        ):  # the only liquor is refused with what to do first
            self.edit(self.tr("Remove liquor"), partial(remove_liquor, liquor_id=liquor_id))
            return
        name, row = liquor_name(plan, liquor_id), self.model.row_of(liquor_id)
        painted_on = self.model.index(row, Column.SECTIONS).data()
        way = Way(
            self.tr("&Paint its sections with"),
            self.tr("Their liquid stays as it is."),
            self.tr("Remove liquor"),
            lambda with_id: partial(repaint, liquor_id=liquor_id, with_id=with_id),
            others,
        )
        RemovalQuestion.ask(
            self.document,
            self.tr("Remove {0}").format(name),
            self.tr("{0} is painted on {1}.").format(name, painted_on),
            self.tr("Remove"),
            [way],
            self,
        )
