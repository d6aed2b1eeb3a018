"""Opens, edits, saves and closes plans: `python -m tests.campaigns.cycles --count 1000 [--windows]`.

With `--windows` each plan has a window of its own, which is shown, furnished, edited in and closed. Reports
how memory grows over the second half, as the slope of a straight line through it.
"""

from __future__ import annotations

import argparse
import gc
import tempfile
from collections.abc import Callable
from functools import partial
from pathlib import Path

import numpy as np
from PySide6.QtCore import QCoreApplication, QEvent, QSettings
from PySide6.QtGui import QPixmapCache
from PySide6.QtWidgets import QApplication

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.storage.files import read_plan, save_plan
from studio_gui.views.main_window import MainWindow
from tests.campaigns.bench import BenchDay
from tests.campaigns.workday import resident_kb
from tests.drawing.plans import plain_plan

EDITS = 10


def plan_cycle(folder: Path, number: int) -> None:
    """Open a plan, move boundaries, keep a snapshot, save, undo all and let go."""
    day = BenchDay(folder)
    for step in range(EDITS):
        day.move(_share(number, step))
    day.autosave.keep_now()
    day.save()
    day.check()
    day.end()


def window_cycle(folder: Path, number: int) -> None:
    """Open a window on a plan, paint it with all its panes, move boundaries, keep a snapshot, save, close."""
    path = folder / "mine.roving.json"
    save_plan(path, plain_plan(4))
    document = OpenPlan.from_file(path)
    settings = QSettings(str(folder / "settings.ini"), QSettings.Format.IniFormat)
    window = MainWindow(document, Preferences(settings), folder / "recovery")
    window.show()
    QCoreApplication.processEvents()
    assert window.panes.table.isVisible()
    for step in range(EDITS):
        place_m = _share(number, step) * document.plan.edges_m[2]
        document.edit("Move", partial(move_boundary, index=0, position_m=place_m))
        QCoreApplication.processEvents()
    window.autosave.keep_now()
    window.files.save()
    assert window.close(), "a window whose plan is saved asks nothing"
    assert read_plan(path) == document.plan
    window.deleteLater()


def _share(number: int, step: int) -> float:
    return (number * EDITS + step) % 83 / 100 + 0.05


def campaign(count: int, cycle: Callable[[Path, int], None] = plan_cycle) -> list[int]:
    """Do so many cycles; return the memory after each, kB."""
    memory = []
    with tempfile.TemporaryDirectory() as place:
        for number in range(count):
            cycle(Path(place), number)
            QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
            QPixmapCache.clear()  # grows to 10 MB with the icons of docks, and no further
            gc.collect()
            memory.append(resident_kb())
    return memory


def slope_kb(memory: list[int]) -> float:
    """Return the growth of memory in kB a cycle, of the straight line that fits best."""
    return float(np.polyfit(np.arange(len(memory)), np.array(memory, dtype=float), 1)[0])


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=1_000)
    parser.add_argument("--windows", action="store_true", help="open each plan in a window of its own")
    arguments = parser.parse_args()
    count = arguments.count
    application = QApplication([])
    memory = campaign(count, window_cycle if arguments.windows else plan_cycle)
    half = memory[count // 2 :]
    print(f"{count} cycles; last {len(half)}: {half[0]} to {half[-1]} kB, {slope_kb(half):+.3f} kB a cycle")
    del application


if __name__ == "__main__":
    main()
