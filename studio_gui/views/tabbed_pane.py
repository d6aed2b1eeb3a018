"""A pane of several subjects, one tab a subject.

The rule of this module: each tab scrolls by itself.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QTabWidget, QToolButton, QVBoxLayout, QWidget

from studio_gui.views.labels import call
from studio_gui.views.live import LiveWidget


class TabbedPane(LiveWidget):
    """Tabs; `_retranslate` has to be called once all are added."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.tabs = QTabWidget()
        self.tabs.setDocumentMode(True)
        self._titles: list[Callable[[], str]] = []
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.tabs)

    def title(self) -> str:
        """Return what the pane is called, in the language of the program."""
        raise NotImplementedError

    def add(self, panel: QWidget, title: Callable[[], str]) -> None:
        """Put a subject behind those that are there."""
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
            call(stop, self.title())
        # Qt names these once, in the language of that time
        for name, words in (("Left", self.tr("Scroll left")), ("Right", self.tr("Scroll right"))):
            button = self.tabs.tabBar().findChild(QToolButton, f"Scroll{name}Button")
            if button is not None:
                call(button, words)
