"""Unsaved work that comes back: the offer at the start and in the menu, and what is said of it.

The rule of this module: what is open and unsaved is asked about before another plan takes its place.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QDialog, QWidget

from studio_gui.document.autosave import Autosave
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.errors import FileProblem
from studio_gui.storage.log import note
from studio_gui.storage.recovery import Orphan, Snapshot, adopt, orphans
from studio_gui.views.questions import tell_meanwhile
from studio_gui.views.recovery_off import RecoveryOff


class Recovery(QObject):
    """Offers unsaved plans, and goes on with the one chosen.

    Signals
    -------
    said
        A sentence for the status bar.

    `off` is the note that nothing is kept, for the window to place.
    """

    said = Signal(str)

    def __init__(
        self,
        document: OpenPlan,
        autosave: Autosave,
        may_discard: Callable[[], bool],
        window: QWidget,
    ) -> None:
        super().__init__(window)
        self._document, self._autosave, self._window = document, autosave, window
        self._may_discard = may_discard
        self.off = RecoveryOff(autosave)
        self.off.switched.connect(self._say_state)

    def offer_at_start(self) -> None:
        """Offer what a crash left behind; say nothing where there is nothing."""
        found = orphans(self._autosave.folder)
        if found:
            self._offer(found)

    def offer(self) -> None:
        """Offer what a crash left behind, as somebody asked for it."""
        found = orphans(self._autosave.folder)
        if found:
            self._offer(found)
        else:
            self.said.emit(self.tr("There is no unsaved work to recover."))

    def say_stayed(self) -> str:
        """Say that the program was told to end and goes on, and wait for no answer; return the words."""
        from studio_gui.wording.recovery_words import has_stayed  # noqa: PLC0415  (seldom needed)

        problem = self._autosave.problem
        if problem is None:
            return ""
        words = has_stayed(problem, self._autosave.folder)
        tell_meanwhile(self._window, self.tr("Not ended"), words)
        return words

    def _offer(self, found: list[Orphan]) -> None:
        from studio_gui.views.recovery_dialog import RecoveryDialog  # noqa: PLC0415  (seldom needed)

        dialog = RecoveryDialog(found, self._window)
        try:
            if dialog.exec() == QDialog.DialogCode.Accepted and dialog.chosen is not None:
                self._go_on_with(dialog.chosen)
        finally:
            dialog.deleteLater()

    def _go_on_with(self, orphan: Orphan) -> None:
        if not isinstance(orphan.found, Snapshot) or not self._may_discard():
            return
        try:
            kept = adopt(orphan)
        except FileProblem as problem:
            self.said.emit(self._words(problem))
            return
        self._document.recover(orphan.found, self.tr("Recover unsaved work"))
        self._autosave.go_on_with(kept)
        note("plan-recovered", sections=len(self._document.plan.sections))
        if self._document.path is None and orphan.found.path is not None:
            words = self.tr(
                "Recovered as a plan without a file: its own is open elsewhere. Save it under a new name."
            )
        else:
            words = self.tr("Recovered, and not saved yet. Save it to keep it.")
        if orphan.found.typed is not None:
            from studio_gui.wording.unentered import typed_words  # noqa: PLC0415  (seldom needed)

            words = f"{words} {typed_words(orphan.found.typed)}"
        self.said.emit(words)

    def _say_state(self, is_off: bool) -> None:
        if is_off:
            note("snapshot-failed")
            self.said.emit(
                self.tr("After a crash, what is not saved would be lost. Click “{0}” for why.").format(
                    self.off.text()
                )
            )
        else:
            self.said.emit(self.tr("Recovery works again: what is not saved is kept for a crash."))

    def _words(self, problem: FileProblem) -> str:
        from studio_gui.wording.sentences import refusal  # noqa: PLC0415  (the first paint does without it)

        return refusal(problem)
