"""What can be done in the table of sections, by its context menu and its keys.

The rule of this module: whatever the canvas does by hand can be done here by keys. Every entry is one edit
and one undo step.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtCore import QModelIndex, QObject, Qt, Signal
from PySide6.QtGui import QAction, QGuiApplication, QKeySequence
from PySide6.QtWidgets import QMenu, QMessageBox

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.document.section_model import SectionModel
from studio_gui.document.section_rows import Column
from studio_gui.domain.edits.boundaries import set_section_length
from studio_gui.domain.edits.lengths import fill_factor, run_at_lengths, run_for, sections_from_lengths
from studio_gui.domain.edits.order import paint_with
from studio_gui.domain.edits.sections import follow_fibre
from studio_gui.domain.errors import RovingLayError
from studio_gui.views.copied_rows import copied_rows
from studio_gui.views.menu_entries import add_entry
from studio_gui.views.row_table import RowTable
from studio_gui.wording.lengths import parse_lengths
from studio_gui.wording.pasted import lengths_do_not_fit, lengths_taken, sections_could_be_made


class TableActions(QObject):
    """The actions of one table of sections.

    Signals
    -------
    said
        A sentence about something that was done.
    """

    said = Signal(str)

    def __init__(self, document: OpenPlan, model: SectionModel, view: RowTable) -> None:
        super().__init__(view)
        self._document, self._model, self._view = document, model, view
        self._offered: Sequence[QAction] = ()
        self.copy_action = self._action(self.copy, QKeySequence.StandardKey.Copy)
        self.paste_action = self._action(self.paste, QKeySequence.StandardKey.Paste)
        self.follow_action = self._action(self._follow)
        self.type_action = self._action(self._type)
        self.retranslate()

    def retranslate(self) -> None:
        """Put the actions into the language of the program."""
        self.copy_action.setText(self.tr("&Copy rows"))
        self.paste_action.setText(self.tr("&Paste lengths"))
        self.follow_action.setText(self.tr("Let liquid &follow the fibre"))

    def offer(self, actions: Sequence[QAction]) -> None:
        """Offer actions on the selected sections in the menu as well."""
        self._offered = actions

    def menu(self, index: QModelIndex) -> QMenu:
        """Return the context menu of a cell; it deletes itself when closed."""
        menu = QMenu(self._view)
        menu.aboutToHide.connect(menu.deleteLater)
        if self._model.flags(index) & Qt.ItemFlag.ItemIsEditable:
            heading = self._model.headerData(index.column(), Qt.Orientation.Horizontal)
            self.type_action.setText(self.tr("&Type in “{0}” (F2)").format(heading))
            menu.addAction(self.type_action)
        menu.addMenu(self._liquors(menu))
        menu.addAction(self.follow_action)
        menu.addSeparator()
        menu.addActions(list(self._offered))
        menu.addSeparator()
        menu.addActions([self.copy_action, self.paste_action])
        self.paste_action.setEnabled(bool(QGuiApplication.clipboard().text()))
        menu.aboutToHide.connect(lambda: self.paste_action.setEnabled(True))
        return menu

    def _liquors(self, menu: QMenu) -> QMenu:
        """Return the choice of liquors for the selected sections."""
        plan, chosen = self._document.plan, self._document.selected_ids
        liquors = menu.addMenu(self.tr("Paint with &liquor"))
        painted = {plan.section(section_id).liquor_id for section_id in chosen}
        for words, liquor_id in self._model.liquor_choices():
            entry = add_entry(liquors, words.replace("&", "&&"))
            entry.setCheckable(True)
            entry.setChecked(painted == {liquor_id})
            entry.triggered.connect(partial(self._paint, liquor_id))
        return liquors

    # -- edits ---------------------------------------------------------------------------------------------

    def _paint(self, liquor_id: str) -> None:
        edit = partial(paint_with, section_ids=self._document.selected_ids, liquor_id=liquor_id)
        self._model.edit(self.tr("Choose liquor"), edit)

    def _follow(self) -> None:
        edit = partial(follow_fibre, section_ids=self._document.selected_ids)
        self._model.edit(self.tr("Let liquid follow the fibre"), edit)

    def _type(self) -> None:
        self._view.edit(self._view.currentIndex())

    # -- clipboard -----------------------------------------------------------------------------------------

    def copy(self) -> None:
        """Copy the selected rows as text, with the columns that are shown."""
        rows = self._model.section_rows(self._chosen())
        columns = [column for column in Column if not self._view.isColumnHidden(column)]
        if rows:
            QGuiApplication.clipboard().setText(copied_rows(rows, columns))

    def paste(self) -> None:
        """Give sections the lengths in the clipboard; ask where there are more or fewer than sections."""
        self._model.typed = ""
        try:
            lengths = parse_lengths(QGuiApplication.clipboard().text())
        except RovingLayError as problem:
            self._model.refused.emit(problem)
            return
        plan, chosen = self._document.plan, self._chosen()
        if len(lengths) == len(chosen) == 1:
            edit = partial(set_section_length, index=chosen[0], length_m=lengths[0])
            self._apply(self.tr("Set length"), edit, lengths, 1.0)
            return
        run = run_for(plan, chosen, len(lengths))
        if run is None:
            self._offer_sections(lengths)
            return
        first, last = run
        factor = fill_factor(plan, first, last, lengths) if sum(lengths) > 0.0 else 1.0
        edit = partial(run_at_lengths, first=first, last=last, given_m=lengths)
        self._apply(self.tr("Paste lengths"), edit, lengths, factor)

    def _offer_sections(self, lengths_m: Sequence[float]) -> None:
        plan = self._document.plan
        count, sections = len(lengths_m), len(plan.sections)
        box = QMessageBox(self._view.window())
        box.setIcon(QMessageBox.Icon.Question)
        box.setTextFormat(Qt.TextFormat.PlainText)
        box.setWindowTitle(self.tr("Paste lengths"))
        box.setText(lengths_do_not_fit(count, sections, len(self._chosen())))
        box.setInformativeText(sections_could_be_made(count, sections))
        make = box.addButton(self.tr("&Make sections of it"), QMessageBox.ButtonRole.AcceptRole)
        leave = box.addButton(QMessageBox.StandardButton.Cancel)
        leave.setText(self.tr("&Cancel"))
        box.setDefaultButton(leave)
        box.exec()
        if box.clickedButton() is make:
            factor = fill_factor(plan, 0, sections - 1, lengths_m) if sum(lengths_m) > 0.0 else 1.0
            edit = partial(sections_from_lengths, given_m=lengths_m)
            self._apply(self.tr("Make sections from lengths"), edit, lengths_m, factor)
        box.deleteLater()

    def _apply(self, name: str, edit: Edit, lengths_m: Sequence[float], factor: float) -> None:
        if self._model.edit(name, edit):
            self.said.emit(lengths_taken(len(lengths_m), factor))

    def _chosen(self) -> list[int]:
        return sorted(index.row() for index in self._view.selectionModel().selectedRows())

    def _action(self, slot: Callable[[], object], key: QKeySequence.StandardKey | None = None) -> QAction:
        action = QAction(self)
        if key is not None:
            action.setShortcuts(key)
            action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
            self._view.addAction(action)
        action.triggered.connect(lambda _checked: slot())
        return action
