"""The open plan: what is shown, what can be undone, what is on disk.

The rule of this module: every change is a new `Plan`, made and validated before anything is pushed; a
gesture previews freely and pushes once. Views listen to `shown` and read `sheet`; they keep no plan of their
own.

Qt's undo stack holds the names of the steps alone; the plans between them stand in a list beside it. A
command written in Python can be collected before its stack, which then crashes while it is destroyed.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtGui import QUndoStack

from studio_gui.document.plan_file import PlanFile
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import Worksheet, worksheet
from studio_gui.storage.files import Fingerprint, read_plan
from studio_gui.storage.recovery import Snapshot

Edit = Callable[[Plan], Plan]

#: What may lag behind a gesture follows it in turns, so that no frame has to wait for all of it.
TURNS = 3
TURN_MS = 25
LATE_MS = TURNS * TURN_MS


class OpenPlan(QObject):
    """One open plan with its undo stack.

    Signals
    -------
    shown
        The worksheet on the screen changed: by an edit, undo, redo, a preview, or a plan being opened.
    settled
        The worksheet on the screen changed, and is none of a gesture that goes on.
    turn
        While a gesture previews, in place of `settled`: now is the turn of those with this number to take up
        what changed. All turns come in the `LATE_MS` after a change.
    selected
        The selected sections changed.
    refused
        An edit was refused; carries the `RovingLayError`.
    file_changed
        The path, or whether the plan differs from the file, changed.
    replaced
        Another plan is open; what was held for the one before is of no use, though ids may be the same.
    """

    shown = Signal()
    settled = Signal()
    turn = Signal(int)
    selected = Signal()
    refused = Signal(RovingLayError)
    file_changed = Signal()
    replaced = Signal()

    def __init__(self, plan: Plan, parent: QObject | None = None) -> None:
        """Start with a plan that is in no file yet."""
        super().__init__(parent)
        self.undo_stack = QUndoStack(self)
        self.undo_stack.indexChanged.connect(self._take_step)
        self.undo_stack.cleanChanged.connect(self._clean_changed)
        self._late = QTimer(self)
        self._late.setSingleShot(True)
        self._late.setInterval(TURN_MS)
        self._late.timeout.connect(self._take_turn)
        self._turn = 0
        self._turns_left = 0
        self._is_unsettled = False
        self._plans = [plan]
        self._sheet = worksheet(plan)
        self._file = PlanFile()
        self._is_recovered = False
        self._selected: tuple[str, ...] = (plan.sections[0].id,)

    @classmethod
    def from_file(cls, path: Path) -> OpenPlan:
        """Return the plan in a file, open; `FileProblem` when it cannot be read or is open elsewhere."""
        file, plan = PlanFile().read(path)
        document = cls(plan)
        document._file = file
        return document

    @property
    def plan(self) -> Plan:
        """The plan as it stands, without any preview."""
        return self._plans[self.undo_stack.index()]

    @property
    def redo_plan(self) -> Plan | None:
        """The plan that redo would bring back; None when there is nothing to redo."""
        after = self.undo_stack.index() + 1
        return self._plans[after] if after < len(self._plans) else None

    @property
    def sheet(self) -> Worksheet:
        """The worksheet on the screen: of the preview while a gesture runs, else of `plan`."""
        return self._sheet

    @property
    def file(self) -> PlanFile:
        """What is known of the file the plan is kept in."""
        return self._file

    @property
    def path(self) -> Path | None:
        """The file the plan is kept in, None for one never saved."""
        return self._file.path

    @property
    def was(self) -> Fingerprint | None:
        """The fingerprint of the plan's file as it was last read or written here."""
        return self._file.was

    @property
    def is_recovered(self) -> bool:
        """Whether the plan came back from a snapshot and was not saved since."""
        return self._is_recovered

    @property
    def is_modified(self) -> bool:
        """Whether the plan differs from its file."""
        return not self.undo_stack.isClean()

    @property
    def is_previewing(self) -> bool:
        """Whether a gesture is running."""
        return self._sheet.plan is not self.plan

    @property
    def selected_ids(self) -> tuple[str, ...]:
        """Ids of the selected sections that exist in the plan on the screen, in the lay's order."""
        return tuple(section.id for section in self._sheet.plan.sections if section.id in self._selected)

    @property
    def selected_index(self) -> int:
        """Index of the first selected section; 0 when none is."""
        chosen = self.selected_ids
        return self._sheet.plan.section_index(chosen[0]) if chosen else 0

    def show_in_grey(self, in_grey: bool) -> None:
        """Show every predicted colour as the grey that is as light, or as it is."""
        if in_grey != self._sheet.in_grey:
            self._sheet = replace(self._sheet, in_grey=in_grey)
            self.shown.emit()
            self.settled.emit()

    def select(self, *section_ids: str) -> None:
        """Select sections by id; unknown ids are left out."""
        if section_ids != self._selected:
            self._selected = section_ids
            self.selected.emit()

    def edit(self, name: str, edit: Edit) -> bool:
        """Apply a pure edit as one named undo step; return False, emitting `refused`, when it is refused.

        An edit that changes nothing leaves no step.
        """
        return self.try_edit(name, edit) is None

    def try_edit(self, name: str, edit: Edit) -> RovingLayError | None:
        """Do as `edit` does, and return why it is refused, or None."""
        try:
            plan = edit(self.plan)
        except RovingLayError as refusal:
            self.cancel_preview()
            self.refused.emit(refusal)
            return refusal
        self._push(name, plan)
        return None

    def preview(self, plan: Plan) -> None:
        """Show `plan` without an undo step, while a gesture runs."""
        self._show(plan)

    def commit_preview(self, name: str) -> None:
        """Turn what is previewed into one undo step."""
        self._push(name, self._sheet.plan)

    def cancel_preview(self) -> None:
        """Show the plan as it was before the gesture."""
        if self.is_previewing:
            self._show(self.plan)

    def open_file(self, path: Path, *, take_over: bool = False) -> None:
        """Replace the plan by the one in a file; `FileProblem` leaves everything as it was.

        `take_over` takes it from a holder on another machine, who may be gone or not.
        """
        file, plan = self._file.read(path, take_over=take_over)
        self._start_over(plan, file)

    def open_copy(self, path: Path) -> None:
        """Replace the plan by that in a file, which stays whose it is: the copy is in no file yet."""
        self.replace(read_plan(path))

    def replace(self, plan: Plan) -> None:
        """Start over with a plan that is in no file yet."""
        self._start_over(plan, PlanFile())

    def recover(self, kept: Snapshot, name: str) -> None:
        """Start over with a plan that a snapshot kept, changed against its file by a step called `name`.

        Where its file has changed since, or is gone, there is no such step, and the plan is modified all the
        same. Where another program has its file open, the plan comes back without one.
        """
        file, base = self._file.recovered(kept)
        self._start_over(kept.plan if base is None else base, file)
        self._is_recovered = True
        if base is None or base == kept.plan:
            self.undo_stack.resetClean()
        else:
            self._push(name, kept.plan)
        self.file_changed.emit()

    def let_go(self) -> None:
        """Let others open the plan's file, as this program ends."""
        self._file.let_go(PlanFile())

    def _start_over(self, plan: Plan, file: PlanFile) -> None:
        self._file.let_go(file)
        self._file, self._is_recovered = file, False
        self._plans, self._selected = [plan], (plan.sections[0].id,)
        self.undo_stack.clear()
        self.replaced.emit()
        self._show(plan)
        self.selected.emit()
        self.file_changed.emit()

    def reload(self, name: str) -> None:
        """Show what the plan's file holds now, by a step called `name`; undoing it gives back what was open.

        Raises
        ------
        FileProblem
            When it cannot be read; everything stays as it was.
        """
        if self._file.path is None:
            return
        file, plan = self._file.read(self._file.path)
        self._push(name, plan)
        self._file, self._is_recovered = file, False
        self.undo_stack.setClean()
        self.file_changed.emit()

    def save(self, path: Path, *, take_over: bool = False, keep_other: bool = False) -> Path | None:
        """Write the plan to `path` and keep it there; `FileProblem` leaves the old file intact.

        A file of an older version that it was read from is copied beside it first, and with `keep_other`
        whatever stands there; the copy is returned.
        """
        file, kept = self._file.saved(path, self.plan, take_over=take_over, keep_other=keep_other)
        self._file.let_go(file)
        self._file, self._is_recovered = file, False
        self.undo_stack.setClean()
        self.file_changed.emit()
        return kept

    def _push(self, name: str, plan: Plan) -> None:
        stack = self.undo_stack
        if plan == self.plan:
            self._show(self.plan)
            return
        self._plans[stack.index() + 1 :] = [plan]
        was_blocked = stack.blockSignals(True)  # the step counts when it is whole
        stack.beginMacro(name)
        stack.blockSignals(was_blocked)
        stack.endMacro()

    def _take_step(self) -> None:
        self._show(self.plan)

    def _show(self, plan: Plan) -> None:
        if plan is not self._sheet.plan:
            self._sheet = worksheet(plan, self._sheet)
            self._is_unsettled = True
            self.shown.emit()
        if not self._is_unsettled:
            return
        if not self.is_previewing:
            self._late.stop()
            self._is_unsettled = False
            self.settled.emit()
            return
        self._turns_left = TURNS
        if not self._late.isActive():
            self._late.start()

    def _take_turn(self) -> None:
        self._turns_left -= 1
        if self._turns_left:
            self._late.start()
        self._turn = (self._turn + 1) % TURNS
        self.turn.emit(self._turn)

    def _clean_changed(self) -> None:
        self.file_changed.emit()
