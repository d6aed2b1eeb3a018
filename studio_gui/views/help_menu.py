"""Help: keys and gestures, a look around, cautions, and what this program is.

The rule of this module: help stands beside the work and never in its way. Its windows are made when they are
asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QDialog, QMenu, QWidget


class HelpMenu(QMenu):
    """The Help menu; `menus` are those whose keys are listed."""

    def __init__(self, window: QWidget, menus: Callable[[], Sequence[QMenu]]) -> None:
        super().__init__(window)
        self._window, self._menus = window, menus
        self._open: dict[str, QDialog] = {}
        self.keys_action = self._action(lambda: self._show("keys"))
        self.keys_action.setShortcuts(
            QKeySequence.keyBindings(QKeySequence.StandardKey.HelpContents) or [QKeySequence("F1")]
        )
        self.tour_action = self._action(lambda: self._show("tour"))
        self.cautions_action = self._action(lambda: self._show("cautions"))
        self.limits_action = self._action(lambda: self._show("limits"))
        self.addSeparator()
        self.about_action = self._action(lambda: self._show("about"))
        self.retranslate()

    def retranslate(self) -> None:
        """Put the menu into the language of the program."""
        self.setTitle(self.tr("&Help"))
        self.keys_action.setText(self.tr("&Keys and gestures"))
        self.tour_action.setText(self.tr("A &look around"))
        self.cautions_action.setText(self.tr("&Cautions"))
        self.limits_action.setText(self.tr("Li&mits of colour"))
        self.about_action.setText(self.tr("&About Roving Lay"))

    def _show(self, name: str) -> None:
        """Show one of the windows, the same one for as long as it is open."""
        from studio_gui.views.help_windows import AboutWindow, CautionsWindow, KeysWindow  # noqa: PLC0415
        from studio_gui.views.limits_window import LimitsWindow  # noqa: PLC0415
        from studio_gui.views.tour_window import TourWindow  # noqa: PLC0415

        dialog = self._open.get(name)
        if dialog is None:
            if name == "keys":
                dialog = KeysWindow(self._menus, self._window)
            else:
                windows = {
                    "tour": TourWindow,
                    "cautions": CautionsWindow,
                    "limits": LimitsWindow,
                    "about": AboutWindow,
                }
                dialog = windows[name](self._window)
            self._open[name] = dialog
            dialog.finished.connect(lambda: self._closed(name))
        dialog.show()
        dialog.raise_()
        dialog.activateWindow()

    def _closed(self, name: str) -> None:
        self._open.pop(name).deleteLater()

    def _action(self, slot: Callable[[], object]) -> QAction:
        action = QAction(self)
        action.triggered.connect(lambda _checked: slot())
        self.addAction(action)
        return action
