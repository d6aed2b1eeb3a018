"""The window of the two ways to measure how wet the work may be.

The rule of this module: it stays beside the plan, so that both can be looked at; it changes nothing itself.
"""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QDialogButtonBox, QFrame, QScrollArea, QTabWidget, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.live import LiveDialog
from studio_gui.views.lots_panel import LotsPanel
from studio_gui.views.weighings_panel import WeighingsPanel


class MeasuringDialog(LiveDialog):
    """Weighings of a tuft, and lots that were painted.

    Signals
    -------
    taken
        Measured figures went into the plan: field to figure.
    """

    taken = Signal(dict)

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.weighings = WeighingsPanel(document)
        self.lots = LotsPanel(document)
        self.tabs = QTabWidget()
        for panel in (self.weighings, self.lots):
            room = QScrollArea()
            room.setWidgetResizable(True)
            room.setFrameShape(QFrame.Shape.NoFrame)
            room.setWidget(panel)
            self.tabs.addTab(room, "")
            panel.proposals.taken.connect(self.taken)
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        self.buttons.rejected.connect(self.reject)
        for button in self.buttons.buttons():
            button.setProperty("autoDefault", False)  # Enter ends a field, not the window
        column = QVBoxLayout(self)
        column.addWidget(self.tabs, 1)
        column.addWidget(self.buttons)
        self.resize(520, 480)
        self._retranslate()

    def show_weighings(self) -> None:
        """Show the weighings, ready for the first of them."""
        self._show_tab(0)
        self.weighings.fields["dry"].setFocus()

    def show_lots(self) -> None:
        """Show the lots, ready for what is next to be entered."""
        self._show_tab(1)
        last = self.lots.rows[-1].fibre if self.lots.rows else self.lots.add
        last.setFocus()

    def _show_tab(self, place: int) -> None:
        self.tabs.setCurrentIndex(place)
        self.show()
        self.raise_()
        self.activateWindow()

    def _retranslate(self) -> None:
        self.setWindowTitle(self.tr("Measure how wet the work may be"))
        self.tabs.setTabText(0, self.tr("A tuft, &weighed"))
        self.tabs.setTabText(1, self.tr("&Lots that were painted"))
