"""If these fail, windows that come and go leave something behind. The long campaign is a command."""

from __future__ import annotations

import gc
from pathlib import Path

from PySide6.QtWidgets import QApplication

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.main_window import MainWindow
from tests.campaigns.cycles import campaign, window_cycle


def open_plans_and_windows() -> int:
    gc.collect()
    return sum(isinstance(one, (OpenPlan, MainWindow)) for one in gc.get_objects())


def test_a_few_windows_leave_no_file_no_widget_and_no_plan_open(qapp: QApplication) -> None:  # noqa: ARG001
    campaign(1, window_cycle)  # what is made once
    files, widgets = len(list(Path("/proc/self/fd").iterdir())), len(QApplication.allWidgets())
    before = open_plans_and_windows()
    memory = campaign(5, window_cycle)
    assert len(memory) == 5
    assert len(list(Path("/proc/self/fd").iterdir())) <= files + 1
    assert len(QApplication.allWidgets()) <= widgets
    assert open_plans_and_windows() <= before
