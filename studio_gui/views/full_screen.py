"""The canvas and the totals on the whole screen, and nothing else.

The rule of this module: coming back, everything stands where it stood. What must not be overlooked stays in
sight.
"""

from __future__ import annotations

from PySide6.QtCore import QByteArray, QObject, Qt, Signal
from PySide6.QtWidgets import QMainWindow, QToolBar, QWidget

from studio_gui.views.pane_docks import PaneDocks


class FullScreen(QObject):
    """Whether a window shows its canvas alone.

    Signals
    -------
    switched
        It does now, or no longer; carries which.
    """

    switched = Signal(bool)

    def __init__(self, window: QMainWindow, docks: PaneDocks) -> None:
        super().__init__(window)
        self._window, self._docks = window, docks
        self._places: QByteArray | None = None
        self._keeps_status = False
        self._geometry = QByteArray()
        self._before = Qt.WindowState.WindowNoState

    @property
    def is_on(self) -> bool:
        """Whether the canvas is alone."""
        return self._places is not None

    @property
    def geometry(self) -> QByteArray:
        """The geometry of the window as it is without the full screen, to be kept."""
        # a window manager takes its time: just after coming back, the window still has the screen's size
        return self._geometry if self.is_on else self._window.saveGeometry()

    def set_on(self, on: bool) -> None:
        """Show the canvas alone, or everything as it was."""
        if on == self.is_on:
            return
        if on:
            self._places, self._before = self._docks.places(), self._window.windowState()
            self._geometry = self._window.saveGeometry()
            for part in self._parts():
                part.hide()
            self._window.setWindowState(self._before | Qt.WindowState.WindowFullScreen)
        else:
            places, self._places = self._places, None
            self._window.menuBar().show()
            self._window.statusBar().show()
            self._window.setWindowState(self._before & ~Qt.WindowState.WindowFullScreen)
            if places is not None:
                self._docks.put_back(places)
        self.switched.emit(on)

    def keep_status(self, is_kept: bool) -> None:
        """Leave the status bar in sight when the canvas is alone, or not: there is something to be seen."""
        self._keeps_status = is_kept
        if self.is_on:
            self._window.statusBar().setVisible(is_kept)

    def follow_window(self) -> None:
        """Come back when the window was taken off the whole screen by its window manager."""
        if self.is_on and self._window.isVisible() and not self._window.isFullScreen():
            self.set_on(False)

    def _parts(self) -> list[QWidget]:
        bars = self._window.findChildren(QToolBar, options=Qt.FindChildOption.FindDirectChildrenOnly)
        status = [] if self._keeps_status else [self._window.statusBar()]
        return [self._window.menuBar(), *status, *bars, *self._docks.all]
