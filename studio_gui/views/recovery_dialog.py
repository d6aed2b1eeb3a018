"""Offers what a crash left behind: each unsaved plan with its time and what differs in it.

The rule of this module: nothing is deleted but by a button that says so, after a question; whatever is left
alone is offered again. What another window has taken meanwhile is told as such, and left to it.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from studio_gui.domain.differences import differences
from studio_gui.domain.errors import FileProblem
from studio_gui.storage.files import fingerprint, read_plan
from studio_gui.storage.recovery import Orphan, Snapshot, check_left, discard
from studio_gui.views.labels import MessageLabel, TonedLabel
from studio_gui.views.questions import Button, ask
from studio_gui.wording.differences import differences_words
from studio_gui.wording.moments import moment_words
from studio_gui.wording.naming import one_line
from studio_gui.wording.sentences import refusal
from studio_gui.wording.unentered import typed_words

WIDTH_PX = 560
LONGEST_PATH = 300


class RecoveryDialog(QDialog):
    """A list of unsaved plans; `chosen` is the one to go on with, None while there is none."""

    def __init__(self, found: list[Orphan], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.chosen: Orphan | None = None
        self._found = list(found)
        self._missed: dict[Path, FileProblem] = {}
        self.setWindowTitle(self.tr("Unsaved work was found"))
        self.lead = TonedLabel("text")
        self.lead.setWordWrap(True)
        self.lead.show_text(
            self.tr(
                "Roving Lay was cut off before, and kept what was not saved. Choose what to go on with."
                " What you leave is offered again at the next start, and under File > Recover unsaved work."
            )
        )
        self.list = QListWidget()
        self.list.setAccessibleName(self.tr("Unsaved plans"))
        self.list.setTextElideMode(Qt.TextElideMode.ElideMiddle)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.details = TonedLabel("secondary")
        self.details.setWordWrap(True)
        self.details.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.message = MessageLabel()
        self.buttons = QDialogButtonBox()
        self.recover = QPushButton(self.tr("&Recover"))
        self.delete = QPushButton(self.tr("&Delete…"))
        self.later = QPushButton(self.tr("&Later"))
        self.buttons.addButton(self.recover, QDialogButtonBox.ButtonRole.AcceptRole)
        self.buttons.addButton(self.delete, QDialogButtonBox.ButtonRole.DestructiveRole)
        self.buttons.addButton(self.later, QDialogButtonBox.ButtonRole.RejectRole)
        self._lay_out()
        self.list.currentRowChanged.connect(self._show_details)
        self.list.itemActivated.connect(lambda _item: self._recover())
        self.recover.clicked.connect(self._recover)
        self.delete.clicked.connect(self._delete)
        self.buttons.rejected.connect(self.reject)
        self._fill(0)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setSpacing(8)
        for widget in (self.lead, self.list, self.details, self.message, self.buttons):
            column.addWidget(widget)
        column.setStretchFactor(self.list, 1)
        self.recover.setDefault(True)
        self.setMinimumWidth(WIDTH_PX)

    def _fill(self, row: int) -> None:
        row = min(row, len(self._found) - 1)
        was_blocked = self.list.blockSignals(
            True
        )  # while it is filled its rows are not those that were found
        self.list.clear()
        for orphan in self._found:
            self.list.addItem(QListWidgetItem(self._name(orphan)))
        self.list.setCurrentRow(row)
        self.list.blockSignals(was_blocked)
        self._show_details()
        lines = min(max(len(self._found), 2), 6)
        self.list.setMinimumHeight(lines * (self.fontMetrics().height() + 8) + 2 * self.list.frameWidth())

    @property
    def _current(self) -> Orphan:
        return self._found[self.list.currentRow()]

    def _name(self, orphan: Orphan) -> str:
        found = orphan.found
        if not isinstance(found, Snapshot):
            return self.tr("A copy that cannot be read")
        name = one_line(found.plan.title) or self.tr("Untitled")
        return self.tr("{0} – {1}").format(name, moment_words(found.saved_at))

    def _show_details(self) -> None:
        self.message.say("")
        orphan = self._current
        is_left = orphan.file not in self._missed
        self.recover.setEnabled(is_left and isinstance(orphan.found, Snapshot))
        self.delete.setEnabled(is_left)
        self.details.show_text("\n".join(self._lines(orphan)))

    def _lines(self, orphan: Orphan) -> list[str]:
        found = self._missed.get(orphan.file, orphan.found)
        if not isinstance(found, Snapshot):
            return [refusal(found)]
        lines = []
        if orphan.host:
            lines.append(self.tr("Kept on the computer “{0}”.").format(one_line(orphan.host)))
        if found.path is None:
            lines.append(self.tr("It was never saved to a file."))
            lines.append(self.tr("It has {0} sections.").format(len(found.plan.sections)))
        else:
            lines.append(self.tr("It belongs to {0}.").format(one_line(str(found.path), LONGEST_PATH)))
            lines.append(self._difference(found, found.path))
        return lines if found.typed is None else [*lines, typed_words(found.typed)]

    def _difference(self, found: Snapshot, path: Path) -> str:
        try:
            has_changed = fingerprint(path) != found.was
            found_apart = differences(read_plan(path), found.plan)
        except FileProblem as problem:
            if problem.code == "file-not-found":
                return self.tr("That file is not there any more.")
            return self.tr("That file cannot be compared: {0}").format(refusal(problem))
        if not found_apart:
            return self.tr("The plan is as it stands in the file.")
        words = differences_words(found_apart)
        if has_changed:
            return self.tr("The file was changed since. It differs in: {0}.").format(words)
        return self.tr("It differs from the file in: {0}.").format(words)

    def _recover(self) -> None:
        if self.recover.isEnabled() and self._done(check_left):
            self.chosen = self._current
            self.accept()

    def _delete(self) -> None:
        orphan, row = self._current, self.list.currentRow()
        if not self.delete.isEnabled() or not self._done(check_left):
            return
        answer = ask(
            self,
            self.tr("Delete unsaved work"),
            self.tr("Delete “{0}” for good? What was not saved of it is kept nowhere else.").format(
                self._name(orphan)
            ),
            Button.Yes | Button.Cancel,
            Button.Cancel,
            yes=self.tr("&Delete"),
        )
        if answer != Button.Yes:
            return
        if not self._done(discard):
            return
        self._found.remove(orphan)
        if not self._found:
            self.reject()
            return
        self._fill(row)

    def _done(self, deed: Callable[[Orphan], None]) -> bool:
        """Do something with the current one; return False, telling why, where that fails."""
        try:
            deed(self._current)
        except FileProblem as problem:
            if problem.code in ("snapshot-taken", "snapshot-gone"):  # another window's affair from now on
                self._missed[self._current.file] = problem
                self._show_details()
            else:
                self.message.say(refusal(problem))
            return False
        return True

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Delete:
            self._delete()
            return
        super().keyPressEvent(event)
