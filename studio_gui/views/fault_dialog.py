"""What is shown when the program made a mistake: one plain sentence, and details to copy.

The rule of this module: an unexpected error keeps what is not saved, is written down without any recipe, is
told once however often it comes, and never closes the window.
"""

from __future__ import annotations

import sys
import threading
from types import TracebackType

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QPlainTextEdit, QPushButton, QVBoxLayout, QWidget

from studio_gui.document.autosave import Autosave
from studio_gui.domain.errors import FileProblem
from studio_gui.paths import program_version
from studio_gui.storage.log import note_error, report_of
from studio_gui.views.labels import TonedLabel

WIDTH_PX = 560
DETAIL_LINES = 9


class FaultDialog(QDialog):
    """The sentence and the details of one fault."""

    def __init__(self, report: str, is_kept: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("Something went wrong"))
        self.words = TonedLabel("text")
        self.words.setWordWrap(True)
        kept = (
            self.tr("Your work is safe: what is not saved has been kept aside.")
            if is_kept
            else self.tr("What is not saved could not be kept aside: save it now, under a new name.")
        )
        self.words.show_text(
            self.tr(
                "Roving Lay made a mistake, and what you did last may not have happened. {0} You can go on."
                " If it comes again, send these details to whoever looks after the program;"
                " nothing of your recipes is in them."
            ).format(kept)
        )
        versions = f"Roving Lay {program_version()}, Python {sys.version.split()[0]}"
        self.details = QPlainTextEdit(f"{versions}\n{report}")
        self.details.setReadOnly(True)
        self.details.setAccessibleName(self.tr("Details"))
        self.details.setTabChangesFocus(True)
        self.details.setLineWrapMode(QPlainTextEdit.LineWrapMode.NoWrap)
        self.details.setMinimumHeight(DETAIL_LINES * self.fontMetrics().lineSpacing())
        self.buttons = QDialogButtonBox()
        self.copy = QPushButton(self.tr("&Copy details"))
        self.go_on = QPushButton(self.tr("&Go on"))
        self.buttons.addButton(self.copy, QDialogButtonBox.ButtonRole.ActionRole)
        self.buttons.addButton(self.go_on, QDialogButtonBox.ButtonRole.AcceptRole)
        self.copy.clicked.connect(self._copy)
        self.buttons.accepted.connect(self.accept)
        column = QVBoxLayout(self)
        column.setSpacing(8)
        for widget in (self.words, self.details, self.buttons):
            column.addWidget(widget)
        self.go_on.setDefault(True)
        self.go_on.setFocus(Qt.FocusReason.OtherFocusReason)
        self.setMinimumWidth(WIDTH_PX)

    def _copy(self) -> None:
        QGuiApplication.clipboard().setText(self.details.toPlainText())
        self.copy.setText(self.tr("Copied"))


class FaultWatch(QObject):
    """Hears of every error that nothing else has taken up.

    Signals
    -------
    heard
        An error happened, on whatever thread; carries it.
    """

    heard = Signal(Exception)

    def __init__(self, autosave: Autosave, window: QWidget) -> None:
        super().__init__(window)
        self._autosave, self._window = autosave, window
        self._told: set[str] = set()
        self.dialog: FaultDialog | None = None
        self.heard.connect(self._take, Qt.ConnectionType.QueuedConnection)

    def install(self) -> None:
        """Hear of errors from now on."""
        sys.excepthook = self._hear
        threading.excepthook = self._hear_of_thread

    def _hear(self, kind: type[BaseException], error: BaseException, _trace: TracebackType | None) -> None:
        if isinstance(error, Exception):
            self.heard.emit(error)
        else:
            sys.__excepthook__(kind, error, _trace)

    def _hear_of_thread(self, told: threading.ExceptHookArgs) -> None:
        if isinstance(told.exc_value, Exception):
            self.heard.emit(told.exc_value)

    def _take(self, error: Exception) -> None:
        """Keep what is not saved first; then tell, unless the same was told already."""
        report, is_kept = report_of(error), True
        if report in self._told:
            return
        self._told.add(report)
        note_error(error)
        try:
            self._autosave.keep_now()
        except FileProblem:
            is_kept = False
        if self.dialog is not None:
            return
        self.dialog = FaultDialog(report, is_kept, self._window)
        self.dialog.finished.connect(self._done)
        self.dialog.open()

    def _done(self) -> None:
        if self.dialog is not None:
            self.dialog.deleteLater()
            self.dialog = None
