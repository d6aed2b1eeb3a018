"""If these fail, hidden panes slow every drag down, or show old figures when they are seen again."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QDockWidget, QLabel, QMainWindow
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.section_model import SectionModel
from studio_gui.document.section_rows import Column
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.views.live import LiveWidget
from studio_gui.views.row_table import RowTable
from studio_gui.views.sight import can_be_seen

RIGHT_SIDE = Qt.DockWidgetArea.RightDockWidgetArea


class Pane(LiveWidget):
    """Shows where the first boundary is, and counts how often it was told."""

    def __init__(self, document: OpenPlan) -> None:
        super().__init__()
        self._document, self.times, self.place_m = document, 0, 1.0
        self._keep_up(document, self._show)

    def _show(self) -> None:
        self.times += 1
        self.place_m = self._document.sheet.plan.boundaries[0].position_m


class Bench:
    """A window with a pane and a table of sections, each in a dock of its own."""

    def __init__(self, document: OpenPlan, qtbot: QtBot) -> None:
        self.document, self.window = document, QMainWindow()
        qtbot.addWidget(self.window)
        self.window.setCentralWidget(QLabel("middle"))
        self.window.setDockOptions(QMainWindow.DockOption.AllowTabbedDocks)  # no sliding into place
        self.pane = Pane(document)
        self.model = SectionModel(document, self.window)
        self.table = RowTable(self.model, Column.NAME, {})
        self.docks = [QDockWidget(name) for name in ("pane", "table")]
        for dock, widget in zip(self.docks, (self.pane, self.table), strict=True):
            dock.setWidget(widget)
            self.window.addDockWidget(RIGHT_SIDE, dock)

    def show(self) -> None:
        self.window.show()
        QApplication.processEvents()

    def drag_to(self, place_m: float) -> None:
        self.document.preview(move_boundary(self.document.plan, 0, place_m))

    def table_shows(self) -> str:
        return str(self.model.index(1, Column.FROM).data())


@pytest.fixture
def bench(document: OpenPlan, qtbot: QtBot) -> Bench:
    return Bench(document, qtbot)


def _close(bench: Bench) -> None:
    for dock in bench.docks:
        dock.close()


def _float_and_close(bench: Bench) -> None:
    for dock in bench.docks:
        dock.setFloating(True)
        dock.close()


def _put_behind(bench: Bench) -> None:
    front = QDockWidget("front")
    front.setWidget(QLabel("front"))
    bench.window.addDockWidget(RIGHT_SIDE, front)
    bench.window.tabifyDockWidget(bench.docks[0], bench.docks[1])
    bench.window.tabifyDockWidget(bench.docks[1], front)
    front.show()
    front.raise_()


def _reopen(dock: QDockWidget) -> None:
    dock.show()
    dock.raise_()


@pytest.mark.parametrize("hide", [_close, _float_and_close, _put_behind])
def test_a_hidden_pane_rests_and_is_right_when_it_is_seen(
    bench: Bench, qtbot: QtBot, hide: Callable[[Bench], None]
) -> None:
    bench.show()
    hide(bench)
    qtbot.waitUntil(lambda: not (can_be_seen(bench.pane) or can_be_seen(bench.table)))
    for place_m in (0.5, 0.6, 0.7):
        bench.drag_to(place_m)
    assert (bench.pane.times, bench.table_shows()) == (0, "100.0")
    bench.document.commit_preview("")
    assert (bench.pane.times, bench.table_shows()) == (0, "100.0")
    _reopen(bench.docks[0])
    qtbot.waitUntil(lambda: bench.pane.place_m == 0.7)
    assert bench.pane.times == 1
    _reopen(bench.docks[1])
    qtbot.waitUntil(lambda: bench.table_shows() == "70.0")


def test_a_pane_whose_dock_was_closed_from_the_start_rests(bench: Bench) -> None:
    _close(bench)
    bench.show()
    bench.drag_to(0.5)
    assert bench.pane.times == 0


def test_what_is_seen_follows_at_once(bench: Bench) -> None:
    bench.show()
    bench.drag_to(0.5)
    assert (bench.pane.place_m, bench.table_shows()) == (0.5, "50.0")


def test_before_its_window_is_shown_a_pane_follows(bench: Bench) -> None:
    bench.drag_to(0.5)
    assert bench.pane.place_m == 0.5


def test_what_is_scrolled_away_in_a_pane_catches_up_with_it(bench: Bench, qtbot: QtBot) -> None:
    part = Pane(bench.document)
    part.setParent(bench.pane)
    part.move(0, 5_000)
    bench.show()
    _put_behind(bench)
    qtbot.waitUntil(lambda: not can_be_seen(bench.pane))
    bench.drag_to(0.5)
    assert part.times == 0
    bench.docks[0].raise_()
    qtbot.waitUntil(lambda: bench.pane.place_m == 0.5)
    assert part.place_m == 0.5
