"""The yarn: how it is spun and plied, one tab a subject.

The rule of this module: each tab scrolls by itself, and one that is behind another reckons nothing.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QTabWidget, QToolButton, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.halves_panel import HalvesPanel
from studio_gui.views.labels import call
from studio_gui.views.live import LiveWidget
from studio_gui.views.spinning_panel import SpinningPanel
from studio_gui.views.stripes_panel import StripesPanel
from studio_gui.views.yarn_numbers import YarnNumbers


class YarnPane(LiveWidget):
    """Tabs with what there is to say of the yarn."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.tabs = QTabWidget()
        self.tabs.setDocumentMode(True)
        self._titles: list[Callable[[], str]] = []
        self.spinning = SpinningPanel(document)
        self.stripes = StripesPanel(document)
        self.numbers = YarnNumbers(document)
        self.halves = HalvesPanel(document)
        self._add(self.spinning, lambda: self.tr("Spinning"))
        self._add(self.stripes, lambda: self.tr("Stripes"))
        self._add(self.numbers, lambda: self.tr("Numbers"))
        self._add(self.halves, lambda: self.tr("Halves"))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.tabs)
        self._retranslate()

    def _add(self, panel: QWidget, title: Callable[[], str]) -> None:
        room = QScrollArea()
        room.setWidgetResizable(True)
        room.setFrameShape(QFrame.Shape.NoFrame)
        room.setFocusPolicy(Qt.FocusPolicy.ClickFocus)  # Tab goes from field to field, not to what holds them
        room.setWidget(panel)
        self._titles.append(title)
        self.tabs.addTab(room, "")

    def _retranslate(self) -> None:
        for place, title in enumerate(self._titles):
            self.tabs.setTabText(place, title())
        for stop in (self.tabs, self.tabs.tabBar()):
            call(stop, self.tr("Yarn"))
        # Qt names these once, in the language of that time
        for name, words in (("Left", self.tr("Scroll left")), ("Right", self.tr("Scroll right"))):
            button = self.tabs.tabBar().findChild(QToolButton, f"Scroll{name}Button")
            if button is not None:
                call(button, words)
