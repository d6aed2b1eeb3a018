"""Where the panes stand around the canvas: docks to move, tab, float and hide, and their places at first.

The rule of this module: wherever a pane was put, it can be reached by F6 and brought back by one command, and
none stays on a screen that is gone.
"""

from __future__ import annotations

from PySide6.QtCore import QByteArray, QObject, QRect, QSize, Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QApplication,
    QDockWidget,
    QFrame,
    QMainWindow,
    QScrollArea,
    QTabBar,
    QTabWidget,
    QWidget,
)

#: Raised whenever docks come or go, so that places kept by an older program are not taken for these.
STATE_VERSION = 6
#: Below this width (px) all panes share one side, so that the canvas keeps most of the window.
NARROW_PX = 1200
LEFT_PX, RIGHT_PX = 290, 350
#: The table, and strip and yarn, take so much of the height, but no more than this, px.
TABLE_SHARE, TABLE_PX = 0.26, 260
#: The checks take so much of the height; the pane above them is looked at and typed into more.
CHECKS_SHARE = 0.3
#: In one column they share their place with yarn and bench.
LOWER_SHARE = 0.4
#: How much of a floating pane has to lie on a screen for it to be found, px.
GRIP_PX = 48

_LEFT, _RIGHT = Qt.DockWidgetArea.LeftDockWidgetArea, Qt.DockWidgetArea.RightDockWidgetArea
_BOTTOM = Qt.DockWidgetArea.BottomDockWidgetArea
_CORNERS = (
    (Qt.Corner.TopLeftCorner, _LEFT),
    (Qt.Corner.BottomLeftCorner, _LEFT),
    (Qt.Corner.TopRightCorner, _RIGHT),
    (Qt.Corner.BottomRightCorner, _RIGHT),
)


class PaneDocks(QObject):
    """The docks of a window, empty until they are given their panes.

    Signals
    -------
    walked
        The keyboard went to another pane; carries its name.
    """

    walked = Signal(str)

    def __init__(self, window: QMainWindow, canvas: QWidget) -> None:
        super().__init__(window)
        self._window, self._canvas = window, canvas
        self._is_as_at_first = False
        self.table = self._dock("table", scrolls=True)
        self.strip = self._dock("strip", scrolls=True)
        self.swatch = self._dock("swatch", scrolls=True)
        self.curve = self._dock("curve", scrolls=True)
        self.stocks = self._dock("stocks")
        self.inputs = self._dock("inputs")
        self.section = self._dock("section")
        self.yarn = self._dock("yarn", scrolls=True)
        self.bench = self._dock("bench", scrolls=True)
        self.checks = self._dock("checks")
        self.steps = self._dock("steps", scrolls=True)
        #: In the order in which they are walked.
        self.all = (
            self.table,
            self.strip,
            self.swatch,
            self.curve,
            self.stocks,
            self.inputs,
            self.section,
            self.yarn,
            self.bench,
            self.checks,
            self.steps,
        )
        for corner, area in _CORNERS:
            window.setCorner(corner, area)
        window.setTabPosition(Qt.DockWidgetArea.AllDockWidgetAreas, QTabWidget.TabPosition.North)
        window.setDockNestingEnabled(True)

    def retranslate(self) -> None:
        """Put the titles into the language of the program, with a mnemonic each in the menu."""
        for dock, title, entry in (
            (self.table, self.tr("Sections"), self.tr("Sections &table")),
            (self.strip, self.tr("Strip and yarn"), self.tr("Strip and y&arn")),
            (self.swatch, self.tr("Swatch"), self.tr("S&watch")),
            (self.curve, self.tr("Fade curve"), self.tr("Fa&de curve")),
            (self.stocks, self.tr("Stocks and liquors"), self.tr("&Stocks and liquors")),
            (self.inputs, self.tr("Fibre and liquid"), self.tr("&Fibre and liquid")),
            (self.section, self.tr("Section"), self.tr("S&ection")),
            (self.yarn, self.tr("Yarn"), self.tr("&Yarn")),
            (self.bench, self.tr("Bench"), self.tr("Benc&h")),
            (self.checks, self.tr("Checks"), self.tr("&Checks")),
            (self.steps, self.tr("Undo list"), self.tr("&Undo list")),
        ):
            dock.setWindowTitle(title)
            dock.toggleViewAction().setText(entry)  # after the title, which Qt puts there

    def fill(self, dock: QDockWidget, pane: QWidget) -> None:
        """Put a pane into its dock."""
        from studio_gui.views.dock_icons import DockIcons  # noqa: PLC0415  (the first paint does without them)

        DockIcons(dock)
        room = dock.widget()
        if isinstance(room, QScrollArea):
            room.setWidget(pane)
            room.updateGeometry()
        else:
            dock.setWidget(pane)
            room.deleteLater()

    # -- places --------------------------------------------------------------------------------------------

    def arrange(self) -> None:
        """Put every dock where it stands at first: two columns and the table; in a narrow window, one."""
        window = self._window
        for dock in self.all:
            if window.dockWidgetArea(dock) != Qt.DockWidgetArea.NoDockWidgetArea:
                dock.setFloating(False)
                window.removeDockWidget(dock)
        window.addDockWidget(_BOTTOM, self.table)
        window.tabifyDockWidget(self.table, self.strip)
        window.tabifyDockWidget(self.strip, self.swatch)
        window.tabifyDockWidget(self.swatch, self.curve)
        if window.width() < NARROW_PX:
            self._arrange_one_column()
        else:
            for area, dock in (
                (_LEFT, self.stocks),
                (_LEFT, self.inputs),
                (_RIGHT, self.section),
                (_RIGHT, self.checks),
            ):
                window.addDockWidget(area, dock)
            window.tabifyDockWidget(self.section, self.yarn)
            window.tabifyDockWidget(self.yarn, self.bench)
        window.tabifyDockWidget(self.checks, self.steps)
        self.steps.hide()
        for dock in self.all:
            if dock.isHidden() and dock is not self.steps:  # removing has hidden it
                dock.show()
        self._is_as_at_first = True
        self.settle()
        window.resizeDocks([self.stocks, self.section], [LEFT_PX, RIGHT_PX], Qt.Orientation.Horizontal)
        table_px = min(round(TABLE_SHARE * window.height()), TABLE_PX)
        window.resizeDocks([self.table], [table_px], Qt.Orientation.Vertical)
        self._share_column()
        if not window.tabifiedDockWidgets(self.stocks):
            window.resizeDocks([self.stocks, self.inputs], [1, 1], Qt.Orientation.Vertical)

    def _share_column(self) -> None:
        """Share the height of the right column out."""
        height = self._window.height()
        is_one_column = bool(self._window.tabifiedDockWidgets(self.stocks))
        checks_px = round((LOWER_SHARE if is_one_column else CHECKS_SHARE) * height)
        self._window.resizeDocks(
            [self.section, self.checks], [height - checks_px, checks_px], Qt.Orientation.Vertical
        )

    def _arrange_one_column(self) -> None:
        window = self._window
        window.addDockWidget(_RIGHT, self.stocks)
        window.addDockWidget(_RIGHT, self.checks)
        window.tabifyDockWidget(self.stocks, self.inputs)
        window.tabifyDockWidget(self.inputs, self.section)
        window.tabifyDockWidget(self.checks, self.yarn)  # one more above, and no title there could be read
        window.tabifyDockWidget(self.yarn, self.bench)

    def settle(self) -> None:
        """Bring section and checks to the front and to their heights, which Qt forgets of empty panes."""
        bars = self._window.findChildren(QTabBar, options=Qt.FindChildOption.FindDirectChildrenOnly)
        for bar in bars:  # Qt keeps them when panes lie apart again, as stops that nobody sees
            bar.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        if self._is_as_at_first:
            self.section.raise_()
            self.strip.raise_()
            self.checks.raise_()
            self._share_column()

    def places(self) -> QByteArray:
        """Return where everything stands, to be kept."""
        return self._window.saveState(STATE_VERSION)

    def put_back(self, places: QByteArray) -> None:
        """Put everything where it stood; nothing is moved by places that an older program kept."""
        if self._window.restoreState(places, STATE_VERSION):
            self._is_as_at_first = False
        for dock in self.all:
            if dock.isFloating():
                dock.move(_seen(dock.frameGeometry(), self._window.frameGeometry()).topLeft())

    # -- keyboard ------------------------------------------------------------------------------------------

    def walk(self, step: int) -> None:
        """Give the keyboard to the next pane (`step` 1) or the one before (-1)."""
        stops = [self._canvas, *(dock for dock in self.all if dock.toggleViewAction().isChecked())]
        focus = QApplication.focusWidget()
        here = next((place for place, stop in enumerate(stops) if _holds(stop, focus)), 0)
        stop = stops[(here + step) % len(stops)]
        if isinstance(stop, QDockWidget):
            stop.raise_()
        stop.window().activateWindow()
        _entry(stop).setFocus(Qt.FocusReason.OtherFocusReason)
        self.walked.emit(stop.windowTitle() if isinstance(stop, QDockWidget) else self.tr("Lay"))

    def _dock(self, name: str, *, scrolls: bool = False) -> QDockWidget:
        dock = QDockWidget(self._window)
        dock.setObjectName(name)
        # what is brought back is wanted in front, whatever it shares its place with
        dock.toggleViewAction().triggered.connect(lambda shown: dock.raise_() if shown else None)
        if scrolls:
            dock.setWidget(QWidget())
            return dock
        room = _Room()
        room.setWidgetResizable(True)
        room.setFrameShape(QFrame.Shape.NoFrame)
        room.setFocusPolicy(Qt.FocusPolicy.ClickFocus)  # Tab goes from field to field, not to what holds them
        dock.setWidget(room)
        return dock


class _Room(QScrollArea):
    """What a pane that is too high scrolls in; sideways it always has room enough."""

    def minimumSizeHint(self) -> QSize:
        pane, least = self.widget(), super().minimumSizeHint()
        if pane is None:
            return least
        width = pane.minimumSizeHint().width() + self.verticalScrollBar().sizeHint().width()
        return QSize(max(least.width(), width), least.height())


def _holds(stop: QWidget, focus: QWidget | None) -> bool:
    return focus is not None and (stop is focus or stop.isAncestorOf(focus))


def _entry(stop: QWidget) -> QWidget:
    """Return what takes the keyboard in a pane: what had it last, else what Tab would come to first."""
    last: QWidget | None = stop.focusWidget()
    if last is not None and last is not stop and _takes_keys(last, stop):
        return last
    widget: QWidget | None = stop.nextInFocusChain()
    while widget is not None and widget is not stop:
        if stop.isAncestorOf(widget) and _takes_keys(widget, stop):
            return widget
        widget = widget.nextInFocusChain()
    return stop.widget() if isinstance(stop, QDockWidget) else stop


def _takes_keys(widget: QWidget, stop: QWidget) -> bool:
    by_tab = widget.focusPolicy() & Qt.FocusPolicy.TabFocus
    return bool(by_tab) and widget.isEnabled() and widget.isVisibleTo(stop)


def _seen(frame: QRect, window: QRect) -> QRect:
    """Return `frame`, or one like it over `window` where too little of it lies on any screen to be found."""
    for screen in QGuiApplication.screens():
        common = screen.availableGeometry().intersected(frame)
        if common.width() >= GRIP_PX and common.height() >= GRIP_PX and common.top() == frame.top():
            return frame
    moved = QRect(frame)
    moved.moveCenter(window.center())
    return moved
