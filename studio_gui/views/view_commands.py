"""How the lay is looked at, as actions: closer, further, all of it, one roving for all.

The rule of this module: looking is no edit; nothing here is ever undone.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QWidget

from studio_gui.views.lay_canvas import LayCanvas

STEP = 1.5


class ViewCommands(QObject):
    """The actions that change how a canvas looks at the lay."""

    def __init__(self, canvas: LayCanvas, window: QWidget) -> None:
        super().__init__(window)
        self._canvas = canvas
        self.closer = self._action(lambda: canvas.looks.zoom(STEP), "Ctrl++")
        self.further = self._action(lambda: canvas.looks.zoom(1.0 / STEP), "Ctrl+-")
        self.fit = self._action(canvas.looks.fit, "Ctrl+0")
        self.to_selection = self._action(canvas.looks.show_selection, "Ctrl+9")
        self.one_roving = self._action(self._show_rovings, "Ctrl+1")
        self.one_roving.setCheckable(True)
        self.grey = self._action(self._show_grey, "Ctrl+G")
        self.grey.setCheckable(True)
        canvas.view_changed.connect(self._update)
        self.retranslate()
        self._update()

    @property
    def actions(self) -> list[QAction]:
        """The actions in the order of the menu."""
        return [self.closer, self.further, self.fit, self.to_selection, self.one_roving, self.grey]

    def retranslate(self) -> None:
        """Put the actions into the language of the program."""
        self.closer.setText(self.tr("Look &closer"))
        self.further.setText(self.tr("Look from &further off"))
        self.fit.setText(self.tr("Show the &whole film"))
        self.to_selection.setText(self.tr("Look at the &selection"))
        self.one_roving.setText(self.tr("&One roving for all"))
        self.grey.setText(self.tr("Shades of &grey"))
        self.grey.setToolTip(
            self.tr(
                "Shows wool, yarn, liquors and stocks as light as they are, without their hue; where a colour"
                " is entered or picked it stays as it is"
            )
        )

    def _update(self) -> None:
        view = self._canvas.view
        self.further.setEnabled(not view.is_fitted)
        self.fit.setEnabled(not view.is_fitted)
        self.one_roving.setChecked(view.one_roving)

    def _show_rovings(self) -> None:
        self._canvas.looks.show_one_roving(self.one_roving.isChecked())

    def _show_grey(self) -> None:
        self._canvas.document.show_in_grey(self.grey.isChecked())

    def _action(self, slot: Callable[[], object], shortcut: str) -> QAction:
        action = QAction(self)
        action.setShortcut(QKeySequence(shortcut))
        action.triggered.connect(lambda _checked: slot())
        return action
