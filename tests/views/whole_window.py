"""The whole window on a sample, with every pane, for tests that walk all of it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.paths import samples_dir
from studio_gui.views.main_window import MainWindow


def whole_window(qtbot: QtBot, folder: Path, sample: str = "storm-kettle") -> MainWindow:
    """Return a window with all panes on a sample, shown and active."""
    settings = QSettings(str(folder / "settings.ini"), QSettings.Format.IniFormat)
    document = OpenPlan.from_file(samples_dir() / f"{sample}.roving.json")
    window = MainWindow(document, Preferences(settings))
    qtbot.addWidget(window, before_close_func=lambda one: one.document.undo_stack.setClean())
    window.resize(1440, 900)
    with qtbot.waitExposed(window):
        window.show()
    assert window.panes is not None  # made now, not after the first paint
    window.docks.arrange()  # as in a wide window: the screen that tests draw on is small
    QApplication.processEvents()
    return window


def stops(window: MainWindow) -> Iterator[QWidget]:
    """Walk the window by Tab and yield everything that has the focus, once each, the lay first."""
    window.canvas.setFocus(Qt.FocusReason.TabFocusReason)
    met: list[QWidget] = []
    for _ in range(1000):
        focus = QApplication.focusWidget()
        assert focus is not None, f"Tab loses the focus after {met[-1:]}"
        if focus not in met:
            met.append(focus)
            yield focus
        elif focus is not met[-1]:
            return
        QTest.keyClick(focus, Qt.Key.Key_Tab)
    raise AssertionError(f"Tab never leaves {met[-1]}")
