"""The menus and the tool bar of the main window.

The rule of this module: it only puts actions in their places. Every action can be reached by keys, and no two
in a menu share a mnemonic.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QSizePolicy, QToolBar, QToolButton

from studio_gui.drawing.lay_layout import TARGET
from studio_gui.views.help_menu import HelpMenu

if TYPE_CHECKING:
    from studio_gui.views.main_window import MainWindow

#: Marks actions whose text goes on with the name of an undo step.
NAMES_A_STEP = "names-a-step"


class WindowMenus(QObject):
    """Menus and tool bar of a window, in the language of the program."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        stack = window.document.undo_stack
        self.undo_action = stack.createUndoAction(self)
        self.redo_action = stack.createRedoAction(self)
        self.undo_action.setShortcuts(_keys(QKeySequence.StandardKey.Undo, "Ctrl+Z"))
        self.redo_action.setShortcuts(_keys(QKeySequence.StandardKey.Redo, "Ctrl+Shift+Z"))
        for action in (self.undo_action, self.redo_action):
            action.setProperty(NAMES_A_STEP, True)
        self.recover_action = self._action(window.recovery.offer)
        self.quit_action = self._action(window.close, _keys(QKeySequence.StandardKey.Quit, "Ctrl+Q"))
        self.reset_action = self._action(window.docks.arrange)
        self.next_action = self._action(lambda: window.docks.walk(1), [QKeySequence("F6")])
        self.previous_action = self._action(lambda: window.docks.walk(-1), [QKeySequence("Shift+F6")])
        self.full_action = self._action(
            lambda: window.full_screen.set_on(self.full_action.isChecked()), [QKeySequence("F11")]
        )
        self.full_action.setCheckable(True)
        self.compare_action = self._action(
            lambda: self._window.compare_window.open_for_selection(),  # noqa: PLW0108  (made when wanted)
            [QKeySequence("Ctrl+K")],
        )
        window.full_screen.switched.connect(self.full_action.setChecked)
        self.file, self.edit, self.section, self.view, self.panes = (QMenu(window) for _ in range(5))
        self.help = HelpMenu(window, lambda: self.all)
        self._fill_menus()
        self.tool_bar = self._make_tool_bar()
        # keys hold while the menu bar is out of sight
        window.addActions([action for menu in self.all for action in _all_actions(menu)])

    @property
    def all(self) -> tuple[QMenu, ...]:
        """The menus of the menu bar, from left to right."""
        return (self.file, self.edit, self.section, self.view, self.help)

    def retranslate(self) -> None:
        """Put menus, tool bar and the actions made here into the language of the program."""
        self.file.setTitle(self.tr("&File"))
        self.edit.setTitle(self.tr("&Edit"))
        self.section.setTitle(self.tr("&Section"))
        self.view.setTitle(self.tr("&View"))
        self.panes.setTitle(self.tr("&Panes"))
        self.help.retranslate()
        self.recover_action.setText(self.tr("Reco&ver unsaved work…"))
        self.quit_action.setText(self.tr("&Quit"))
        self.reset_action.setText(self.tr("&Reset panes"))
        self.next_action.setText(self.tr("&Next pane"))
        self.previous_action.setText(self.tr("&Previous pane"))
        self.compare_action.setText(self.tr("Co&mpare colours…"))
        self.full_action.setText(self.tr("Full scree&n canvas"))
        # on the tool bar without the step's name, so that its buttons stay where they are
        self.undo_action.setIconText(self.tr("Undo"))
        self.redo_action.setIconText(self.tr("Redo"))
        self.tool_bar.setWindowTitle(self.tr("Tools"))
        self.tool_bar.toggleViewAction().setText(self.tr("Tool &bar"))

    def _fill_menus(self) -> None:
        window = self._window
        for menu in self.all:
            window.menuBar().addMenu(menu)
        self.file.addActions(window.files.actions)
        self.file.insertMenu(window.files.sample_action, window.files.recent_menu)
        self.file.addSeparator()
        self.file.addActions([self.recover_action, self.quit_action])
        self.edit.addActions([self.undo_action, self.redo_action])
        self.section.addActions(window.section_commands.actions)
        for dock in window.docks.all:
            self.panes.addAction(dock.toggleViewAction())
        self.panes.addSeparator()
        self.panes.addActions([self.next_action, self.previous_action])
        self.view.addActions([*window.view_commands.actions, self.compare_action])
        self.view.addSeparator()
        self.view.addMenu(self.panes)
        self.view.addActions([self.reset_action, self.full_action])
        self.view.addSeparator()
        self.view.addMenu(window.choices.units_menu)
        self.view.addMenu(window.choices.appearance_menu)

    def _make_tool_bar(self) -> QToolBar:
        window = self._window
        bar = window.addToolBar("")
        bar.setObjectName("tools")
        bar.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
        bar.addActions([window.files.open_action, window.files.save_action])
        bar.addSeparator()
        bar.addActions([self.undo_action, self.redo_action])
        bar.addSeparator()
        bar.addActions(window.section_commands.tool_actions)
        bar.addSeparator()
        bar.addAction(window.files.export_action)
        for button in bar.findChildren(QToolButton):
            button.setMinimumHeight(round(TARGET))
        window.choices.units_box.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        bar.addWidget(window.choices.units_box)  # the stretch before it keeps it at the far end
        self.panes.addSeparator()
        self.panes.addAction(bar.toggleViewAction())
        return bar

    def _action(self, slot: Callable[[], object], shortcuts: list[QKeySequence] | None = None) -> QAction:
        action = QAction(self)
        action.setShortcuts(shortcuts or [])
        action.triggered.connect(lambda _checked: slot())
        return action


def _all_actions(menu: QMenu) -> list[QAction]:
    """Return the actions of a menu and its submenus that have keys."""
    found = []
    for action in menu.actions():
        submenu = action.menu()
        if isinstance(submenu, QMenu):
            found += _all_actions(submenu)
        elif action.shortcuts():
            found.append(action)
    return found


def _keys(standard: QKeySequence.StandardKey, fallback: str) -> list[QKeySequence]:
    """Return the platform's keys for a command, or the fallback where it has none."""
    return QKeySequence.keyBindings(standard) or [QKeySequence(fallback)]
