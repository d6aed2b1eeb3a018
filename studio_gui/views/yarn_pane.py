"""The yarn: how it is spun and plied, one tab a subject.

The rule of this module: a tab that is behind another reckons nothing.
"""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.halves_panel import HalvesPanel
from studio_gui.views.spinning_panel import SpinningPanel
from studio_gui.views.stripes_panel import StripesPanel
from studio_gui.views.tabbed_pane import TabbedPane
from studio_gui.views.yarn_numbers import YarnNumbers


class YarnPane(TabbedPane):
    """Tabs with what there is to say of the yarn."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.spinning = SpinningPanel(document)
        self.stripes = StripesPanel(document)
        self.numbers = YarnNumbers(document)
        self.halves = HalvesPanel(document)
        self.add(self.spinning, lambda: self.tr("Spinning"))
        self.add(self.stripes, lambda: self.tr("Stripes"))
        self.add(self.numbers, lambda: self.tr("Numbers"))
        self.add(self.halves, lambda: self.tr("Halves"))
        self._retranslate()

    def title(self) -> str:
        return self.tr("Yarn")
