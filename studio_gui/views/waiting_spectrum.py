"""A measured spectrum that waits for the depth it was dyed at.

The rule of this module: nothing of it reaches the plan before the depth is typed; it waits with its dye, and
goes only when it is taken or sent away.
"""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QToolButton, QVBoxLayout, QWidget

from studio_gui.domain.colour.measured import Spectrum
from studio_gui.views.depth_field import DepthField
from studio_gui.views.labels import TonedLabel, call, explain
from studio_gui.views.live import LiveWidget
from studio_gui.wording.colours import spectrum_line

_CLOSE_PX = 24


class WaitingSpectrum(LiveWidget):
    """What was read of a spectrum, and the field for its depth; out of sight while none waits.

    Signals
    -------
    taken
        The depth, % owf, was typed.
    sent_away
        It is not wanted.
    """

    taken = Signal(float)
    sent_away = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._spectrum: Spectrum | None = None
        self._name = ""
        self.words = TonedLabel("under")
        self.words.setWordWrap(True)
        self.asks = QLabel()
        self.depth_field = DepthField()
        self.depth_field.entered.connect(self.taken)
        self.asks.setBuddy(self.depth_field)
        self.close_button = QToolButton()
        self.close_button.setText("×")
        self.close_button.setFixedSize(_CLOSE_PX, _CLOSE_PX)
        self.close_button.setAutoRaise(True)
        self.close_button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.close_button.clicked.connect(self.sent_away)
        row = QHBoxLayout()
        row.setSpacing(4)
        row.addWidget(self.asks)
        row.addWidget(self.depth_field, 1)
        row.addWidget(self.close_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addWidget(self.words)
        column.addLayout(row)
        column.addWidget(self.depth_field.message)
        self._retranslate()
        self.hide()

    def show_spectrum(self, spectrum: Spectrum | None, name: str, strength_pct: float) -> None:
        """Show what waits, from a file called `name`, for a dye of this strength; nothing for None."""
        if spectrum is not self._spectrum:
            self.depth_field.drop()
        self._spectrum, self._name = spectrum, name
        self.depth_field.strength_pct = strength_pct
        self.setVisible(spectrum is not None)
        self._say()

    def _say(self) -> None:
        if self._spectrum is not None:
            waits = self.tr("{0} waits for its depth and has no say yet.").format(self._name)
            self.words.show_text(f"{waits} {spectrum_line(self._spectrum)}")

    def _retranslate(self) -> None:
        self.asks.setText(self.tr("Dyed a&t"))
        call(self.depth_field, self.tr("Depth of the measured sample"))
        self.depth_field.setPlaceholderText(self.tr("such as 1.5, or 12 + 38 on 18 g"))
        call(self.close_button, self.tr("Do without this spectrum"))
        explain(self.close_button, self.close_button.accessibleName())
        self._say()
