"""The main window: the canvas in the middle, panes around it, and what can be done in menus.

The rule of this module: it puts views together and asks about files; it edits nothing by itself.
"""

from __future__ import annotations

from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPoint, Qt, Signal
from PySide6.QtGui import (
    QAction,
    QCloseEvent,
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QKeyEvent,
)
from PySide6.QtWidgets import QMainWindow, QToolButton, QVBoxLayout, QWidget

from studio_gui.document.autosave import Autosave
from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.domain.errors import RovingLayError
from studio_gui.drawing.lay_layout import LayItem
from studio_gui.views.banner import Banner
from studio_gui.views.file_commands import FileCommands
from studio_gui.views.full_screen import FullScreen
from studio_gui.views.labels import ShortenedLabel
from studio_gui.views.lay_canvas import LayCanvas
from studio_gui.views.lay_menus import LayMenus
from studio_gui.views.pane_docks import PaneDocks
from studio_gui.views.plan_drop import PlanDrop
from studio_gui.views.recovery import Recovery
from studio_gui.views.section_commands import SectionCommands
from studio_gui.views.totals_bar import TotalsBar
from studio_gui.views.typing_watch import TypingWatch
from studio_gui.views.view_choices import ViewChoices
from studio_gui.views.view_commands import ViewCommands
from studio_gui.views.window_menus import WindowMenus
from studio_gui.wording.naming import one_line

if TYPE_CHECKING:
    from studio_gui.views.compare_window import CompareWindow
    from studio_gui.views.panes import Panes

MESSAGE_MS = 8_000
BANNER_MS = 3_000
LONGEST_TITLE = 120


class MainWindow(QMainWindow):
    """The window of one open plan.

    Signals
    -------
    furnished
        The panes are there: once, after the first paint.
    """

    furnished = Signal()

    def __init__(
        self, document: OpenPlan, preferences: Preferences | None = None, snapshots: Path | None = None
    ) -> None:
        """Show a plan; its unsaved state is kept in the folder `snapshots`, by default the program's own."""
        super().__init__()
        self.document = document
        self._preferences = preferences or Preferences()
        self.choices = ViewChoices(self._preferences, self)  # before anything says a number
        self.files = FileCommands(document, self._preferences, self)
        self.autosave = Autosave(document, snapshots, self)
        self.recovery = Recovery(document, self.autosave, self.files.may_discard, self)
        self.typing = TypingWatch(self)
        self.canvas = LayCanvas(document)
        self.section_commands = SectionCommands(document, self)
        self.view_commands = ViewCommands(self.canvas, self)
        self.lay_menus = LayMenus(
            document, self.section_commands, self.view_commands.actions, self.canvas.type_place
        )
        self.totals = TotalsBar(document)
        self.docks = PaneDocks(self, self.canvas)
        self.full_screen = FullScreen(self, self.docks)
        self.menus = WindowMenus(self)
        self._hinted = ""
        self._assemble()
        self._connect()
        self._retranslate()
        self._take_place()

    # -- putting together ----------------------------------------------------------------------------------

    def _assemble(self) -> None:
        centre = QWidget()
        column = QVBoxLayout(centre)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.canvas, 1)
        column.addWidget(self.totals)
        self.setCentralWidget(centre)
        self._hint = ShortenedLabel("text")  # beneath the messages, which hide it while they last
        self.statusBar().addWidget(self._hint, 1)
        self.indicative = QToolButton()
        self.indicative.setAutoRaise(True)
        self.indicative.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.indicative.clicked.connect(self.menus.help.limits_action.trigger)
        self.statusBar().addPermanentWidget(self.recovery.off)
        self.statusBar().addPermanentWidget(self.indicative)
        self._banner = Banner(self)
        self._drop = PlanDrop(self)
        self.setAcceptDrops(True)

    @cached_property
    def panes(self) -> Panes:
        """The panes beside and under the canvas; made after the first paint, or when first asked for."""
        from studio_gui.views.focus_ring import FocusRing  # noqa: PLC0415  (as below)
        from studio_gui.views.panes import Panes  # noqa: PLC0415  (the first paint does without them)

        panes, docks = Panes(self.document, self), self.docks
        for dock, pane in (
            (docks.table, panes.table),
            (docks.strip, panes.strip_pane),
            (docks.swatch, panes.swatch),
            (docks.curve, panes.curve_pane),
            (docks.stocks, panes.stocks),
            (docks.inputs, panes.inputs),
            (docks.section, panes.section),
            (docks.yarn, panes.yarn),
            (docks.bench, panes.bench),
            (docks.checks, panes.checks),
            (docks.steps, panes.steps),
        ):
            docks.fill(dock, pane)
        docks.settle()
        panes.strip.pointed.connect(self.canvas.light)
        self.canvas.lit.connect(panes.strip.light)
        panes.table.offer(self.section_commands.actions, self.section_commands.remove_action)
        self.focus_ring = FocusRing(self, self.canvas)  # the lay draws a ring of its own
        self.furnished.emit()
        return panes

    @cached_property
    def compare_window(self) -> CompareWindow:
        """The window of two colours, made when it is first wanted."""
        from studio_gui.views.compare_window import CompareWindow  # noqa: PLC0415  (few need it at once)

        return CompareWindow(self.document, self)

    def _connect(self) -> None:
        self.document.refused.connect(self._show_refusal)
        self.document.file_changed.connect(self._show_file)
        self.document.settled.connect(self._show_file)
        self.canvas.hinted.connect(self._show_hint)
        self.canvas.menu_wanted.connect(self._canvas_menu)
        self.canvas.painted.connect(lambda: self.panes, Qt.ConnectionType.QueuedConnection)
        self.typing.changed.connect(self.autosave.hear_typing)
        self.files.said.connect(self._say)
        self.recovery.said.connect(self._say)
        self.recovery.off.switched.connect(self.full_screen.keep_status)
        self.choices.said.connect(self._say)
        self.section_commands.nudge_menu.said.connect(self._say)
        self.full_screen.switched.connect(self._say_how_to_come_back)
        self.docks.walked.connect(self._say)
        self._drop.dropped.connect(self.files.open_path)
        self._drop.refused.connect(self._say)
        stack = self.document.undo_stack
        stack.indexChanged.connect(self.statusBar().clearMessage)  # what was said is of a step before
        self.undo_action.triggered.connect(lambda: self._say(self.tr("Undid: {0}").format(stack.redoText())))
        self.redo_action.triggered.connect(lambda: self._say(self.tr("Redid: {0}").format(stack.undoText())))

    def _take_place(self) -> None:
        """Stand where the window stood last, or at the first start where it fits the screen."""
        room = self.screen().availableSize()
        self.resize(min(1440, room.width() - 16), min(900, room.height() - 48))  # less the window's frame
        self.docks.arrange()
        self.restoreGeometry(self._preferences.window_geometry())
        self.docks.put_back(self._preferences.window_state())
        self.canvas.setFocus()  # not what happens to be made first

    @property
    def undo_action(self) -> QAction:
        """Takes the last step back."""
        return self.menus.undo_action

    @property
    def redo_action(self) -> QAction:
        """Does the step again that was taken back."""
        return self.menus.redo_action

    def _canvas_menu(self, point: QPoint, item: LayItem | None, place_m: float) -> None:
        self.lay_menus.menu_at(item, place_m, self).popup(point)

    # -- words ---------------------------------------------------------------------------------------------

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
            if "panes" in self.__dict__:
                self.panes.forget_refusals()  # they name numbers in the units that were
        elif event.type() == QEvent.Type.WindowStateChange:
            self.full_screen.follow_window()
        super().changeEvent(event)

    def _retranslate(self) -> None:
        self.files.retranslate()
        self.choices.retranslate()
        self.section_commands.retranslate()
        self.view_commands.retranslate()
        self.docks.retranslate()
        self.recovery.off.retranslate()
        self.menus.retranslate()
        self.indicative.setText(self.tr("Colours are indicative"))
        self.indicative.setToolTip(self.tr("What predicted colours are worth, and what is not modelled"))
        self._show_file()

    def _show_file(self) -> None:
        path, title = self.document.path, self.document.plan.title
        file = "" if path is None else path.name
        name = self.tr("{0} ({1})").format(title, file) if title and file else title or file
        name = name or self.tr("Untitled")
        name = one_line(name.replace("[*]", ""), LONGEST_TITLE)
        if self.document.is_recovered:
            name = self.tr("{0} (recovered)").format(name)
        self.setWindowTitle(self.tr("{0}[*] – Roving Lay").format(name))
        self.setWindowFilePath("" if path is None else str(path))
        self.setWindowModified(self.document.is_modified)
        self._show_hint(self._hinted)

    def _show_hint(self, hint: str) -> None:
        """Say what can be done with what is under the pointer; with nothing there, what could be next."""
        self._hinted = hint
        if not hint and self.document.path is None and not self.document.plan.title:
            hint = self.tr(
                "A new plan: set weight and length under Fibre and liquid; double-click the wool to split it."
            )
        self._hint.show_text(
            hint
            or self.tr(
                "Drag a peg to move a boundary. Shift moves all that follows; Alt lets go of the ruler."
            )
        )

    def _show_refusal(self, error: RovingLayError) -> None:
        from studio_gui.wording.sentences import refusal  # noqa: PLC0415  (the first paint does without it)

        self._say(refusal(error, self.document.plan))

    def _say(self, words: str) -> None:
        if self.full_screen.is_on:
            self._banner.say(words, for_ms=BANNER_MS)  # the status bar is out of sight
        self.statusBar().showMessage(words, MESSAGE_MS)

    def _say_how_to_come_back(self, alone: bool) -> None:
        if alone:
            self.canvas.setFocus()
            self._banner.say(self.tr("Esc or F11 brings the panes back"), for_ms=BANNER_MS)
        else:
            self._banner.end()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.full_screen.is_on:
            self.full_screen.set_on(False)
            return
        super().keyPressEvent(event)

    # -- files ---------------------------------------------------------------------------------------------

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        self._drop.enter(event)

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        self._drop.stay(event)

    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        self._drop.leave()

    def dropEvent(self, event: QDropEvent) -> None:
        self._drop.drop(event)

    def closeEvent(self, event: QCloseEvent) -> None:
        if not self.files.may_discard():
            event.ignore()
            return
        self.autosave.end()
        self.leave()
        super().closeEvent(event)

    def leave(self) -> None:
        """Remember where the window stood and let others have the plan's file, as the program ends."""
        geometry = self.full_screen.geometry
        self.full_screen.set_on(False)
        self._preferences.remember_window(geometry, self.docks.places())
        self.document.let_go()
