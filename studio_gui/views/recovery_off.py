"""The note in the status bar that nothing is kept for a crash, for as long as that is so.

The rule of this module: it comes with the first copy that cannot be written and goes with the next that can;
a click says why and what would mend it.
"""

from __future__ import annotations

from textwrap import fill

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QStyle, QToolButton, QWidget

from studio_gui.document.autosave import Autosave
from studio_gui.drawing.look import look_for
from studio_gui.views.questions import Choice, choose

#: Characters in a line of the tooltip, which breaks no lines by itself.
TIP_WIDTH = 90


class RecoveryOff(QToolButton):
    """The note, hidden while all is well.

    Signals
    -------
    switched
        It came or went; carries whether it is there.
    """

    switched = Signal(bool)

    def __init__(self, autosave: Autosave, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._autosave = autosave
        self.setAutoRaise(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.clicked.connect(self._tell)
        autosave.failed.connect(self._follow)
        autosave.mended.connect(self._follow)
        self._colour()
        self.retranslate()
        self.hide()

    @property
    def words(self) -> str:
        """Why nothing is kept and what would mend it; "" while all is well."""
        from studio_gui.wording.recovery_words import recovery_is_off  # noqa: PLC0415  (seldom needed)

        problem = self._autosave.problem
        return "" if problem is None else recovery_is_off(problem, self._autosave.folder)

    def retranslate(self) -> None:
        """Say it in the language of the program."""
        self.setText(self.tr("Recovery is off"))
        self.setToolTip(fill(self.words, TIP_WIDTH, break_long_words=False, break_on_hyphens=False))
        self.setAccessibleDescription(self.words)

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.PaletteChange:
            self._colour()
        super().changeEvent(event)

    def _follow(self) -> None:
        self.retranslate()
        is_off = self._autosave.problem is not None
        self.setVisible(is_off)
        self.switched.emit(is_off)

    def _tell(self) -> None:
        from studio_gui.wording.recovery_words import how_long  # noqa: PLC0415  (seldom needed)

        again = Choice("again", self.tr("&Try again"))
        leave = self.tr("&Close")
        if choose(self.window(), self.text(), self.words, again, more=how_long(), leave=leave) == "again":
            self._autosave.try_again()

    def _colour(self) -> None:
        self.setIcon(self.style().standardIcon(QStyle.StandardPixmap.SP_MessageBoxWarning))
        around = self.parentWidget()
        colour = look_for(self.palette() if around is None else around.palette()).over
        if self.palette().color(QPalette.ColorRole.ButtonText) != colour:
            palette = QPalette()
            palette.setColor(QPalette.ColorRole.ButtonText, colour)
            self.setPalette(palette)
