"""Context menus of the lay: what can be done with the section, boundary, gap or fold under the pointer.

The rule of this module: a menu holds every edit of what it is about, by the same commands as the menu bar,
and never more than that.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.edits.boundaries import equalise, set_gap
from studio_gui.domain.edits.inputs import set_passes
from studio_gui.domain.edits.order import paint_with
from studio_gui.domain.edits.sections import merge, split
from studio_gui.drawing.lay_layout import ItemKind, LayItem
from studio_gui.views.gestures import gap_name
from studio_gui.views.menu_entries import add_entry
from studio_gui.views.section_commands import SectionCommands
from studio_gui.wording.naming import one_line

#: Asks for an exact place, length or width of an item.
TypePlace = Callable[[ItemKind, int], None]


class LayMenus(QObject):
    """Makes the context menus of one window's lay."""

    def __init__(
        self, document: OpenPlan, commands: SectionCommands, looks: list[QAction], type_place: TypePlace
    ) -> None:
        super().__init__(commands)
        self._document, self._commands, self._looks = document, commands, looks
        self._type_place = type_place

    def menu_at(self, item: LayItem | None, place_m: float, parent: QWidget) -> QMenu:
        """Return the menu of an item, or of the table around the film; it deletes itself when closed."""
        menu = QMenu(parent)
        menu.aboutToHide.connect(menu.deleteLater)
        if item is None:
            menu.addActions(self._looks)
            return menu
        fill = {
            "section": self._fill_for_section,
            "boundary": self._fill_for_boundary,
            "gap": self._fill_for_gap,
            "fold": self._fill_for_fold,
        }
        fill[item.kind](menu, item.index, place_m)
        return menu

    def _fill_for_section(self, menu: QMenu, index: int, place_m: float) -> None:
        commands = self._commands
        split_here = partial(split, index=index, position_m=place_m)
        self._add(menu, self.tr("&Split here"), self.tr("Split section"), split_here)
        menu.addActions([commands.merge_action, commands.equalise_action, commands.duplicate_action])
        self._add_ask(menu, self.tr("Length…"), "section", index)
        menu.addSeparator()
        menu.addMenu(self._paint_menu(menu))
        menu.addActions([commands.nudge_menu.menuAction(), commands.match_action, commands.fade_action])
        menu.addAction(commands.lock_action)
        menu.addSeparator()
        menu.addActions([commands.earlier_action, commands.later_action, commands.remove_action])
        menu.addAction(commands.reverse_action)

    def _fill_for_boundary(self, menu: QMenu, index: int, place_m: float) -> None:
        self._add_ask(menu, self.tr("&Place…"), "boundary", index)
        halves = partial(equalise, first=index, last=index + 1)
        self._add(menu, self.tr("Equal &halves"), self.tr("Equalise sections"), halves)
        both = partial(merge, first=index, last=index + 1)
        self._add(menu, self.tr("&Merge both sides"), self.tr("Merge sections"), both)
        menu.addSeparator()
        self._fill_for_gap(menu, index, place_m)

    def _fill_for_gap(self, menu: QMenu, index: int, place_m: float) -> None:
        plan = self._document.plan
        self._add_ask(menu, self.tr("&Gap or overlap…"), "gap", index)
        close = partial(set_gap, index=index, gap_m=0.0)
        action = self._add(menu, self.tr("&No gap"), gap_name(plan, index), close)
        action.setEnabled(plan.boundaries[index].gap_m != 0.0)

    def _fill_for_fold(self, menu: QMenu, index: int, place_m: float) -> None:
        self._add_ask(menu, self.tr("&Place of the fold…"), "fold", index)
        evenly = partial(set_passes, passes=self._document.plan.lay.passes)
        self._add(menu, self.tr("Legs of &equal length"), self.tr("Fold evenly"), evenly)
        menu.addAction(self._commands.fold_by_weight_action)

    def _paint_menu(self, parent: QMenu) -> QMenu:
        menu = QMenu(self.tr("Paint &with"), parent)
        plan = self._document.plan
        chosen = self._document.selected_ids
        used = {plan.section(one).liquor_id for one in chosen}
        for liquor in plan.liquors:
            words = f"{liquor.letter}  {one_line(liquor.name)}".replace("&", "&&")
            paint = partial(paint_with, section_ids=chosen, liquor_id=liquor.id)
            action = self._add(menu, words, self.tr("Choose liquor"), paint)
            action.setCheckable(True)
            action.setChecked(used == {liquor.id})
        return menu

    def _add(self, menu: QMenu, words: str, name: str, edit: Edit) -> QAction:
        action = add_entry(menu, words)
        action.triggered.connect(lambda _checked: self._document.edit(name, edit))
        return action

    def _add_ask(self, menu: QMenu, words: str, kind: ItemKind, index: int) -> None:
        add_entry(menu, words).triggered.connect(lambda _checked: self._type_place(kind, index))
