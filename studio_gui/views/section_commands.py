"""What can be done with the selected sections, as actions for menus and tool bar.

The rule of this module: every command is one pure edit and one named undo step.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QDialog, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.boundaries import equalise, reverse
from studio_gui.domain.edits.inputs import fold_by_weight
from studio_gui.domain.edits.order import move_sections, run_of
from studio_gui.domain.edits.removal import remove_sections
from studio_gui.domain.edits.sections import duplicate, merge, set_locked, split
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.views.nudge_menu import NudgeMenu


class SectionCommands(QObject):
    """The section actions of a window."""

    def __init__(self, document: OpenPlan, window: QWidget) -> None:
        super().__init__(window)
        self._document, self._window = document, window
        self.split_action = self._action(self._split, "Ctrl+D")
        self.merge_action = self._action(self._merge, "Ctrl+M")
        self.duplicate_action = self._action(self._duplicate, "Ctrl+Shift+D")
        self.equalise_action = self._action(self._equalise, "Ctrl+J")
        self.ladder_action = self._action(self._ladder, "Ctrl+Shift+L")
        self.fade_action = self._action(self._fade, "Ctrl+Shift+F")
        self.match_action = self._action(self._match, "Ctrl+Shift+K")
        self.nudge_menu = NudgeMenu(document, window)
        self.lock_action = self._action(self._lock, "Ctrl+L")
        self.lock_action.setCheckable(True)
        self.earlier_action = self._action(self._earlier, "Ctrl+Shift+Up")
        self.later_action = self._action(self._later, "Ctrl+Shift+Down")
        self.remove_action = self._action(self._remove, "Del")
        # of the views that show sections only: elsewhere the key deletes what is there
        self.remove_action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        self.reverse_action = self._action(self._reverse)
        self.fold_by_weight_action = self._action(self._fold_by_weight)
        document.selected.connect(self._update)
        document.settled.connect(self._update)
        self.retranslate()
        self._update()

    @property
    def actions(self) -> list[QAction]:
        """The actions in the order of the menu."""
        return [
            *self.tool_actions,
            self.duplicate_action,
            self.ladder_action,
            self.fade_action,
            self.match_action,
            self.nudge_menu.menuAction(),
            self.lock_action,
            self.earlier_action,
            self.later_action,
            self.remove_action,
            self.reverse_action,
            self.fold_by_weight_action,
        ]

    @property
    def tool_actions(self) -> list[QAction]:
        """The actions that stand on the tool bar."""
        return [self.split_action, self.merge_action, self.equalise_action]

    def retranslate(self) -> None:
        """Put the actions into the language of the program."""
        self.split_action.setText(self.tr("S&plit"))
        self.merge_action.setText(self.tr("&Merge"))
        self.duplicate_action.setText(self.tr("&Duplicate"))
        self.equalise_action.setText(self.tr("&Equalise"))
        self.ladder_action.setText(self.tr("L&adder or crossfade…"))
        self.fade_action.setText(self.tr("Even &fade…"))
        self.match_action.setText(self.tr("Matc&h a colour…"))
        self.nudge_menu.retranslate()
        self.lock_action.setText(self.tr("&Lock in place"))
        self.earlier_action.setText(self.tr("Move &up, towards the start"))
        self.later_action.setText(self.tr("Move d&own, towards the end"))
        self.remove_action.setText(self.tr("Ta&ke out"))
        self.reverse_action.setText(self.tr("&Reverse the lay"))
        self.fold_by_weight_action.setText(self.tr("Fold by &weight"))

    def _run(self) -> tuple[int, int]:
        """Return first and last index of the selection; `EditRefused` where they are not neighbours."""
        return run_of(self._document.plan, self._document.selected_ids)

    def _split(self) -> None:
        edges = self._document.plan.edges_m
        index = self._document.selected_index
        middle_m = (edges[index] + edges[index + 1]) / 2.0
        self._document.edit(self.tr("Split section"), partial(split, index=index, position_m=middle_m))

    def _merge(self) -> None:
        def merged(plan: Plan) -> Plan:
            first, last = self._run()
            if first == last:
                last = min(first + 1, len(plan.sections) - 1)
                first = last - 1
            return merge(plan, first, last)

        self._document.edit(self.tr("Merge sections"), merged)

    def _duplicate(self) -> None:
        self._document.edit(
            self.tr("Duplicate section"), partial(duplicate, index=self._document.selected_index)
        )

    def _equalise(self) -> None:
        def equalised(plan: Plan) -> Plan:
            first, last = self._run()
            if first == last:
                first, last = 0, len(plan.sections) - 1
            return equalise(plan, first, last)

        self._document.edit(self.tr("Equalise sections"), equalised)

    def _ladder(self) -> None:
        from studio_gui.views.ladder_dialog import LadderDialog  # noqa: PLC0415  (the start does without it)

        self._open(lambda document, first, last, window: LadderDialog(document, first, last, parent=window))

    def _fade(self) -> None:
        from studio_gui.views.fade_dialog import FadeDialog  # noqa: PLC0415  (the start does without it)

        self._open(FadeDialog)

    def _match(self) -> None:
        from studio_gui.views.match_dialog import MatchDialog  # noqa: PLC0415  (the start does without it)

        self._open(MatchDialog)

    def _open(self, kind: Callable[[OpenPlan, int, int, QWidget], QDialog]) -> None:
        """Open a dialog about the selected run; say why where there is none."""
        try:
            first, last = self._run()
        except RovingLayError as refusal:
            self._document.refused.emit(refusal)
            return
        dialog = kind(self._document, first, last, self._window)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open()

    def _lock(self) -> None:
        locked = not self._all_locked()
        name = self.tr("Lock sections") if locked else self.tr("Unlock sections")
        self._document.edit(name, partial(set_locked, section_ids=self._document.selected_ids, locked=locked))

    def _earlier(self) -> None:
        self._move(lambda first, _last: first - 1)

    def _later(self) -> None:
        self._move(lambda _first, last: last + 2)

    def _move(self, before: Callable[[int, int], int]) -> None:
        def moved(plan: Plan) -> Plan:
            first, last = self._run()
            return move_sections(plan, first, last, before(first, last))

        self._document.edit(self.tr("Move sections"), moved)

    def _remove(self) -> None:
        going = self._document.selected_ids
        stays = self._document.selected_index
        if self._document.edit(self.tr("Take out sections"), partial(remove_sections, section_ids=going)):
            sections = self._document.plan.sections
            self._document.select(sections[min(stays, len(sections) - 1)].id)

    def _reverse(self) -> None:
        self._document.edit(self.tr("Reverse the lay"), reverse)

    def _fold_by_weight(self) -> None:
        self._document.edit(self.tr("Fold by weight"), fold_by_weight)

    def _all_locked(self) -> bool:
        chosen = self._document.selected_ids
        return bool(chosen) and all(self._document.plan.section(one).locked for one in chosen)

    def _update(self) -> None:
        if self._document.is_previewing:
            return
        plan = self._document.plan
        several = len(plan.sections) > 1
        self.merge_action.setEnabled(several)
        self.equalise_action.setEnabled(several)
        self.reverse_action.setEnabled(several)
        chosen = self._document.selected_ids
        self.earlier_action.setEnabled(plan.sections[0].id not in chosen)
        self.later_action.setEnabled(plan.sections[-1].id not in chosen)
        self.remove_action.setEnabled(len(chosen) < len(plan.sections))
        self.fold_by_weight_action.setEnabled(plan.lay.passes > 1)
        self.lock_action.setChecked(self._all_locked())

    def _action(self, slot: Callable[[], object], shortcut: str = "") -> QAction:
        action = QAction(self)
        if shortcut:
            action.setShortcut(QKeySequence(shortcut))
        action.triggered.connect(lambda _checked: slot())
        return action
