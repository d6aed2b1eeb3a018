"""The main window: the canvas in the middle, panes around it, and what can be done in menus.

The rule of this module: it puts views together and asks about files; it edits nothing by itself.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QAction, QCloseEvent, QKeySequence
from PySide6.QtWidgets import (
    QDockWidget,
    QFrame,
    QLabel,
    QMainWindow,
    QMenu,
    QScrollArea,
    QSizePolicy,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.domain.errors import RovingLayError
from studio_gui.drawing.lay_layout import LayItem
from studio_gui.views.file_commands import FileCommands
from studio_gui.views.lay_canvas import LayCanvas
from studio_gui.views.lay_menus import LayMenus
from studio_gui.views.section_commands import SectionCommands
from studio_gui.views.totals_bar import TotalsBar
from studio_gui.views.view_choices import ViewChoices
from studio_gui.views.view_commands import ViewCommands

if TYPE_CHECKING:
    from studio_gui.views.panes import Panes

MESSAGE_MS = 8_000


class MainWindow(QMainWindow):
    """The window of one open plan."""

    def __init__(self, document: OpenPlan, preferences: Preferences | None = None) -> None:
        super().__init__()
        self.document = document
        self._preferences = preferences or Preferences()
        self.files = FileCommands(document, self._preferences, self)
        self.choices = ViewChoices(self._preferences, self)  # before anything says a number
        self.canvas = LayCanvas(document)
        self.section_commands = SectionCommands(document, self)
        self.view_commands = ViewCommands(self.canvas, self)
        self.lay_menus = LayMenus(
            document, self.section_commands, self.view_commands.actions, self.canvas.type_place
        )
        self.totals = TotalsBar(document)
        self._assemble()
        self._make_actions()
        self._connect()
        self._retranslate()
        self._show_file()
        room = self.screen().availableSize()
        self.resize(min(1440, room.width() - 16), min(900, room.height() - 48))  # less the window's frame
        self.restoreGeometry(self._preferences.window_geometry())
        self.restoreState(self._preferences.window_state())

    # -- putting together ----------------------------------------------------------------------------------

    def _assemble(self) -> None:
        below = QWidget()
        self._table_room = QVBoxLayout(below)
        self._table_room.setContentsMargins(0, 0, 0, 0)
        middle = QSplitter(Qt.Orientation.Vertical)
        middle.addWidget(self.canvas)
        middle.addWidget(below)
        middle.setStretchFactor(0, 3)
        middle.setStretchFactor(1, 1)
        middle.setSizes([580, 220])
        middle.setCollapsible(0, False)
        centre = QWidget()
        column = QVBoxLayout(centre)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(middle, 1)
        column.addWidget(self.totals)
        self.setCentralWidget(centre)
        self._hint = QLabel()  # beneath the messages, which hide it while they last
        self.statusBar().addWidget(self._hint)
        self._rooms: list[QScrollArea] = []
        left, right = Qt.DockWidgetArea.LeftDockWidgetArea, Qt.DockWidgetArea.RightDockWidgetArea
        self.stocks_dock = self._dock("stocks", left)
        self.inputs_dock = self._dock("inputs", left)
        self.section_dock = self._dock("section", right)
        self.checks_dock = self._dock("checks", right)
        self.docks = (self.stocks_dock, self.inputs_dock, self.section_dock, self.checks_dock)
        self.resizeDocks([self.stocks_dock, self.section_dock], [290, 350], Qt.Orientation.Horizontal)

    def _dock(self, name: str, area: Qt.DockWidgetArea) -> QDockWidget:
        dock = QDockWidget()
        dock.setObjectName(name)
        room = QScrollArea()
        room.setWidgetResizable(True)
        room.setFrameShape(QFrame.Shape.NoFrame)
        dock.setWidget(room)
        self._rooms.append(room)
        self.addDockWidget(area, dock)
        return dock

    @cached_property
    def panes(self) -> Panes:
        """The panes beside and under the canvas; made after the first paint, or when first asked for."""
        from studio_gui.views.panes import Panes  # noqa: PLC0415  (the first paint does without them)

        panes = Panes(self.document, self)
        filled = (panes.stocks, panes.inputs, panes.section, panes.checks)
        for room, pane in zip(self._rooms, filled, strict=True):
            room.setWidget(pane)
        self._table_room.addWidget(panes.table)
        panes.table.offer(self.section_commands.actions, self.section_commands.remove_action)
        return panes

    def _connect(self) -> None:
        self.document.refused.connect(self._show_refusal)
        self.document.file_changed.connect(self._show_file)
        self.document.shown.connect(self._show_file)
        self.canvas.hinted.connect(self._hint.setText)
        self.canvas.menu_wanted.connect(self._canvas_menu)
        self.canvas.painted.connect(lambda: self.panes, Qt.ConnectionType.QueuedConnection)
        self.files.said.connect(self._say)
        self.choices.said.connect(self._say)

    # -- actions -------------------------------------------------------------------------------------------

    def _make_actions(self) -> None:
        stack = self.document.undo_stack
        self.undo_action = stack.createUndoAction(self)
        self.redo_action = stack.createRedoAction(self)
        self.undo_action.setShortcuts(_keys(QKeySequence.StandardKey.Undo, "Ctrl+Z"))
        self.redo_action.setShortcuts(_keys(QKeySequence.StandardKey.Redo, "Ctrl+Shift+Z"))
        self.quit_action = self._action(self.close, _keys(QKeySequence.StandardKey.Quit, "Ctrl+Q"))
        self.file_menu, self.edit_menu, self.section_menu, self.view_menu = (QMenu(self) for _ in range(4))
        for menu in (self.file_menu, self.edit_menu, self.section_menu, self.view_menu):
            self.menuBar().addMenu(menu)
        self.file_menu.addActions(self.files.actions)
        self.file_menu.addSeparator()
        self.file_menu.addAction(self.quit_action)
        self.edit_menu.addActions([self.undo_action, self.redo_action])
        self.section_menu.addActions(self.section_commands.actions)
        self.view_menu.addActions(self.view_commands.actions)
        self.view_menu.addSeparator()
        for dock in self.docks:
            self.view_menu.addAction(dock.toggleViewAction())
        self.view_menu.addSeparator()
        self.view_menu.addMenu(self.choices.units_menu)
        bar = self.addToolBar("")
        bar.setObjectName("tools")
        bar.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
        bar.addActions([self.files.open_action, self.files.save_action])
        bar.addSeparator()
        bar.addActions([self.undo_action, self.redo_action])
        bar.addSeparator()
        bar.addActions(self.section_commands.tool_actions)
        bar.addSeparator()
        bar.addAction(self.files.export_action)
        self.choices.units_box.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        bar.addWidget(self.choices.units_box)  # the stretch before it keeps it at the far end
        self.tool_bar = bar

    def _action(self, slot: Callable[[], object], shortcuts: list[QKeySequence]) -> QAction:
        action = QAction(self)
        action.setShortcuts(shortcuts)
        action.triggered.connect(lambda _checked: slot())
        return action

    def _canvas_menu(self, point: QPoint, item: LayItem | None, place_m: float) -> None:
        self.lay_menus.menu_at(item, place_m, self).popup(point)

    # -- words ---------------------------------------------------------------------------------------------

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
            if "panes" in self.__dict__:
                self.panes.forget_refusals()  # they name numbers in the units that were
        super().changeEvent(event)

    def _retranslate(self) -> None:
        self.files.retranslate()
        self.choices.retranslate()
        self.section_commands.retranslate()
        self.view_commands.retranslate()
        self.file_menu.setTitle(self.tr("&File"))
        self.edit_menu.setTitle(self.tr("&Edit"))
        self.section_menu.setTitle(self.tr("&Section"))
        self.view_menu.setTitle(self.tr("&View"))
        self.quit_action.setText(self.tr("&Quit"))
        # on the tool bar without the step's name, so that its buttons stay where they are
        self.undo_action.setIconText(self.tr("Undo"))
        self.redo_action.setIconText(self.tr("Redo"))
        self.tool_bar.setWindowTitle(self.tr("Tools"))
        self.stocks_dock.setWindowTitle(self.tr("Stocks and liquors"))
        self.inputs_dock.setWindowTitle(self.tr("Fibre and liquid"))
        self.section_dock.setWindowTitle(self.tr("Section"))
        self.checks_dock.setWindowTitle(self.tr("Checks"))
        self._show_file()

    def _show_file(self) -> None:
        path, title = self.document.path, self.document.plan.title
        name = title or (path.name if path is not None else self.tr("Untitled"))
        self.setWindowTitle(self.tr("{0}[*] – Roving Lay").format(name.replace("[*]", "")))
        self.setWindowFilePath("" if path is None else str(path))
        self.setWindowModified(self.document.is_modified)

    def _show_refusal(self, error: RovingLayError) -> None:
        from studio_gui.wording.sentences import refusal  # noqa: PLC0415  (the first paint does without it)

        self._say(refusal(error, self.document.plan))

    def _say(self, words: str) -> None:
        self.statusBar().showMessage(words, MESSAGE_MS)

    # -- closing -------------------------------------------------------------------------------

    def closeEvent(self, event: QCloseEvent) -> None:
        if not self.files.may_discard():
            event.ignore()
            return
        self._preferences.remember_window(self.saveGeometry(), self.saveState())
        super().closeEvent(event)


def _keys(standard: QKeySequence.StandardKey, fallback: str) -> list[QKeySequence]:
    """Return the platform's keys for a command, or the fallback where it has none."""
    return QKeySequence.keyBindings(standard) or [QKeySequence(fallback)]
