"""The bench: jars, stocks to make, and the timetable, one tab a subject.

The rule of this module: what is read here is what the sheets of the bench say on paper. A tab that is behind
another reckons nothing.
"""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.bottles_panel import BottlesPanel
from studio_gui.views.jars_panel import JarsPanel
from studio_gui.views.tabbed_pane import TabbedPane
from studio_gui.views.timetable_panel import TimetablePanel


class BenchPane(TabbedPane):
    """Tabs with what there is to do at the bench."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.jars = JarsPanel(document)
        self.bottles = BottlesPanel(document)
        self.timetable = TimetablePanel(document)
        self.add(self.jars, lambda: self.tr("Jars"))
        self.add(self.bottles, lambda: self.tr("Stocks to make"))
        self.add(self.timetable, lambda: self.tr("Timetable"))
        self._retranslate()

    def title(self) -> str:
        return self.tr("Bench")
