"""One frame of a dragged boundary, from the mouse's move until everything is painted, against plain drawing.

    .venv/bin/python tests/benchmarks/bench_drag.py [--platform xcb] [--sections 50] [--cpu] [--profile]

Each case is a plan of that many sections, dragged plainly and with Shift. Four windows take turns, one drag
each, so that what else the machine does hits all alike:

- reference canvas: a widget that fills one rectangle and writes one shortened label a section;
- reference frame: the same beside a stock table of as many rows and columns, which is told what changed;
- our canvas: the lay's canvas alone, in a window of its own size;
- our frame: the whole main window of 1440 x 900 with all panes in view.

Both tables and both canvases have the same sizes. A frame counts only when the paint events came: the
canvas's, and the table's when cells changed. Printed are medians and 99th percentiles in ms, and the ratios
of medians; with --cpu, processor time instead, for a machine that is busy with other things. Then the whole
window is left alone for a second: nothing should be painted, and no timer should fire.
"""

from __future__ import annotations

import argparse
import cProfile
import gc
import itertools
import os
import pstats
import tempfile
import time
from collections.abc import Iterator, Sequence

import numpy as np
from PySide6.QtCore import (
    QEvent,
    QEventLoop,
    QObject,
    QPointF,
    QRect,
    Qt,
    QTimer,
)
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontDatabase,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QStandardItem,
    QStandardItemModel,
)
from PySide6.QtWidgets import QAbstractItemView, QApplication, QTableView, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.fibre import Fibre, Lay
from studio_gui.domain.liquors import DyeDepth, Liquor, Part
from studio_gui.domain.plan import Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.paths import font_path
from studio_gui.views.lay_canvas import LayCanvas
from studio_gui.views.main_window import MainWindow
from tests.benchmarks.bench_worksheet import stocks_of

SIZES = (12, 50, 500)
WINDOW = (1440, 900)
LENGTH_M = 3.0
WIDE_SHARE = 0.1  # of the lay, for both neighbours of the boundary that is dragged and for the last section
DRAGGED = 1
LIQUORS = 24
STEP_PX = 13.0  # more than twice as far as a mark draws, so that every move comes to rest elsewhere
REACH = 4  # steps to each side
MOVES = 64
WARM_UP = 4
PLAIN, SHIFT = Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier
PATIENCE_S = 5.0


def plan_of(count: int) -> Plan:
    """Return a plan of `count` sections painted with mixtures of three dyes, by parts and by depth."""
    others = (1.0 - 3.0 * WIDE_SHARE) / (count - 3)
    shares = np.array(
        [WIDE_SHARE if i in (DRAGGED, DRAGGED + 1, count - 1) else others for i in range(count)]
    )
    places = LENGTH_M * np.cumsum(shares)[:-1]
    return Plan(
        title="Benchmark",
        fibre=Fibre(150.0, 2.0 * LENGTH_M, 2),
        lay=Lay((LENGTH_M,)),
        stocks=stocks_of(),
        liquors=tuple(_liquor(i) for i in range(min(count, LIQUORS))),
        sections=tuple(
            Section(f"s{i}", f"Section {i}", f"q{i % LIQUORS}", fixed_ml=4.0 if i % 7 == 5 else None)
            for i in range(count)
        ),
        boundaries=tuple(Boundary(float(place)) for place in places),
    )


def _liquor(i: int) -> Liquor:
    name = ("q" + str(i), chr(ord("A") + i), f"Liquor {i}")
    if i % 3 == 1:
        depths = (DyeDepth("k1", 0.2 + 0.02 * i), DyeDepth("k2", 0.3), DyeDepth("k3", 0.1))
        return Liquor(*name, "depth", (Part("k4", 1.0),), depths)
    return Liquor(*name, parts=(Part("k1", 1.0 + i), Part("k2", 12.0), Part("k3", 3.0), Part("k4", 40.0)))


class Paints(QObject):
    """How often widgets were painted."""

    def __init__(self, *widgets: QWidget) -> None:
        super().__init__()
        self.count = 0
        for widget in widgets:
            widget.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        self.count += event.type() == QEvent.Type.Paint
        return False


class Subject:
    """A window with a canvas, perhaps with a table, that a boundary is dragged on."""

    clock = staticmethod(time.perf_counter)

    def __init__(
        self,
        name: str,
        window: QWidget,
        canvas: QWidget,
        table: QTableView | None = None,
        document: OpenPlan | None = None,
    ) -> None:
        self.name, self.window, self.canvas, self.table, self.document = name, window, canvas, table, document
        self.times_ms: list[float] = []
        self.table_frames = 0
        self._changes = 0
        self._canvas_paints = Paints(canvas)
        self._table_paints = None if table is None else Paints(table.viewport())
        if table is not None:
            table.model().dataChanged.connect(self._changed)

    def _changed(self) -> None:
        self._changes += 1

    def drag(self, peg: QPointF, places: Sequence[float], keys: Qt.KeyboardModifier) -> None:
        """Take the peg along the places, px, and let go; keep the time of every frame."""
        assert self.window.windowHandle().isExposed(), f"{self.name} is not exposed"
        self._send(QEvent.Type.MouseButtonPress, peg, keys)
        for number, x in enumerate(places):
            before = None if self.document is None else self.document.sheet.plan
            took_ms = self._frame(QPointF(x, peg.y()), keys)
            assert self.document is None or self.document.sheet.plan != before, "a move changed nothing"
            if number >= WARM_UP:
                self.times_ms.append(took_ms)
        self._send(QEvent.Type.MouseButtonRelease, QPointF(places[-1], peg.y()), keys)
        settle()

    def _frame(self, point: QPointF, keys: Qt.KeyboardModifier) -> float:
        painted, changes = self._canvas_paints.count, self._changes
        table_painted = 0 if self._table_paints is None else self._table_paints.count
        deadline, start = time.perf_counter() + PATIENCE_S, self.clock()
        self._send(QEvent.Type.MouseMove, point, keys)
        while True:
            QApplication.processEvents()
            tabled = self._changes > changes
            missing = self._canvas_paints.count == painted or (
                tabled and self._table_paints is not None and self._table_paints.count == table_painted
            )
            if not missing:
                break
            assert time.perf_counter() < deadline, f"no paint event came to {self.name}"
        QApplication.processEvents()
        self.table_frames += tabled
        return (self.clock() - start) * 1000.0

    def _send(self, kind: QEvent.Type, point: QPointF, keys: Qt.KeyboardModifier) -> None:
        left = Qt.MouseButton.LeftButton
        button = Qt.MouseButton.NoButton if kind == QEvent.Type.MouseMove else left
        held = Qt.MouseButton.NoButton if kind == QEvent.Type.MouseButtonRelease else left
        there = self.canvas.mapToGlobal(point)
        QApplication.sendEvent(self.canvas, QMouseEvent(kind, point, there, button, held, keys))


class Rectangles(QWidget):
    """The reference's canvas: one rectangle and one shortened label a section."""

    def __init__(self, plan: Plan, layout: LayLayout, rows: PlainRows | None = None) -> None:
        super().__init__()
        self._layout, self._rows = layout, rows
        self._names = [section.name for section in plan.sections]
        self._colours = [QColor.fromHsv(37 * i % 360, 90, 220) for i in range(len(self._names))]
        self._edges = [layout.x(edge) for edge in plan.edges_m]
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        moved = event.position().x() - self._edges[DRAGGED + 1]
        is_shift = bool(event.modifiers() & SHIFT)
        last = len(self._names) if is_shift else DRAGGED + 2
        for edge in range(DRAGGED + 1, last):
            self._edges[edge] += moved
        if self._rows is not None:
            self._rows.show([self._layout.lay_m(edge) for edge in self._edges], DRAGGED, last - 1)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            painter.fillRect(self.rect(), QColor("white"))
            metrics, edges = self.fontMetrics(), self._edges
            for i, (name, colour) in enumerate(zip(self._names, self._colours, strict=True)):
                left, right = round(edges[i]), round(edges[i + 1])
                box = QRect(left, 40, right - left, self.height() - 80)
                painter.fillRect(box, colour)
                words = metrics.elidedText(name, Qt.TextElideMode.ElideRight, box.width())
                painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)
        finally:
            painter.end()


class PlainRows(QStandardItemModel):
    """The reference's table: a text in each cell, set anew in every row that changed."""

    def __init__(self, names: Sequence[str], columns: int) -> None:
        super().__init__(len(names), columns)
        self._cells = [[QStandardItem(name) for _ in range(columns)] for name in names]
        for row, cells in enumerate(self._cells):
            for column, cell in enumerate(cells):
                self.setItem(row, column, cell)

    def show(self, edges_m: Sequence[float], first: int, last: int) -> None:
        for row in range(first, last + 1):
            start, end = edges_m[row], edges_m[row + 1]
            for number, cell in enumerate(self._cells[row][2:]):
                cell.setText(f"{start + number * (end - start):.2f}")


class Case:
    """The four windows of one plan."""

    def __init__(self, count: int) -> None:
        plan = plan_of(count)
        self.documents = (OpenPlan(plan), OpenPlan(plan))
        whole = MainWindow(self.documents[1])
        table = whole.panes.table.view
        _show(whole)
        _arrange(whole)
        self.documents[1].select(plan.sections[DRAGGED].id)  # so that its figures are on the screen
        canvas = LayCanvas(self.documents[0])
        canvas.resize(whole.canvas.size())
        _show(canvas)
        boxes = Rectangles(plan, canvas.lay)
        boxes.resize(whole.canvas.size())
        _show(boxes)
        both, view, beside = self._beside(plan, whole, canvas)
        assert canvas.size() == whole.canvas.size() == boxes.size() == beside.size()
        assert view.size() == table.size()
        self.subjects = (
            Subject("reference canvas", boxes, boxes),
            Subject("reference frame", both, beside, view),
            Subject("our canvas", canvas, canvas, document=self.documents[0]),
            Subject("our frame", whole, whole.canvas, table, self.documents[1]),
        )
        self._canvas = canvas
        settle()
        gc.freeze()  # as the program does once its window is furnished

    def _beside(
        self, plan: Plan, whole: MainWindow, canvas: LayCanvas
    ) -> tuple[QWidget, QTableView, Rectangles]:
        """Return the reference's window: its canvas and its table where ours have theirs."""
        ours = whole.panes.table.view
        both = QWidget()
        both.resize(*WINDOW)
        rows = PlainRows([section.name for section in plan.sections], ours.model().columnCount())
        beside = Rectangles(plan, canvas.lay, rows)
        beside.setParent(both)
        beside.setGeometry(
            QRect(whole.canvas.mapTo(whole, whole.canvas.rect().topLeft()), whole.canvas.size())
        )
        view = QTableView(both)
        view.setModel(rows)
        view.setGeometry(_place(ours, whole))
        view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        for column in range(rows.columnCount()):
            view.setColumnWidth(column, ours.columnWidth(column))
        view.verticalHeader().hide()
        view.verticalHeader().setDefaultSectionSize(ours.verticalHeader().defaultSectionSize())
        _show(both)
        return both, view, beside

    def places(self) -> tuple[QPointF, list[float]]:
        """Return where the peg is, and the pixel columns it is taken to, back and forth."""
        lay = self._canvas.lay
        peg = lay.item("boundary", DRAGGED).slip.center()
        there = [*range(1, REACH + 1), *range(REACH - 1, -REACH - 1, -1), *range(-REACH + 1, 1)]
        steps = itertools.islice(itertools.cycle(there), WARM_UP + MOVES)
        return peg, [peg.x() + step * STEP_PX for step in steps]

    def run(self, keys: Qt.KeyboardModifier, rounds: int) -> None:
        """Drag in each window in turn, `rounds` times; each drag is undone."""
        for subject in self.subjects:
            subject.times_ms.clear()
            subject.table_frames = 0
        peg, places = self.places()
        for _ in range(rounds):
            for subject in self.subjects:
                subject.drag(peg, places, keys)
            for document in self.documents:
                assert document.undo_stack.count() == 1, "the drag left no step"
                document.undo_stack.undo()
                document.undo_stack.clear()
            settle()
        for subject in self.subjects:
            assert subject.table is None or subject.table_frames, f"the table of {subject.name} never changed"

    def close(self) -> None:
        for subject in self.subjects:
            subject.window.close()


def _arrange(window: MainWindow) -> None:
    """Put the panes where they stand at first, the table in front, whatever the size of the screen."""
    window.resize(*WINDOW)
    docks = window.docks
    docks.arrange()
    settle()
    docks.table.raise_()  # it shares its place with strip and yarn, which stand in front at first
    settle()
    for dock in (docks.table, docks.stocks, docks.inputs, docks.section, docks.checks):
        assert not dock.visibleRegion().isEmpty(), f"the pane {dock.objectName()} cannot be seen"


def _place(widget: QWidget, window: QWidget) -> QRect:
    return QRect(widget.mapTo(window, widget.rect().topLeft()), widget.size())


def _show(window: QWidget) -> None:
    window.show()
    deadline = time.perf_counter() + PATIENCE_S
    while not window.windowHandle().isExposed():
        assert time.perf_counter() < deadline, "a window is not exposed"
        QApplication.processEvents()
    settle()


def settle(seconds: float = 0.25) -> None:
    """Let what is late come."""
    loop = QEventLoop()
    QTimer.singleShot(round(seconds * 1000.0), loop.quit)
    loop.exec()


class Idleness(QObject):
    """What happens in the program while nobody does anything."""

    def __init__(self) -> None:
        super().__init__()
        self.paints = self.timers = 0

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        self.paints += event.type() == QEvent.Type.Paint
        self.timers += event.type() == QEvent.Type.Timer
        return False


def idle(window: MainWindow) -> None:
    """Print what the window does in a second without input."""
    window.activateWindow()
    window.canvas.setFocus()
    settle(1.5)  # the style's own animations end
    idleness, application = Idleness(), QApplication.instance()
    assert application is not None
    application.installEventFilter(idleness)
    start = time.process_time()
    settle(1.0)
    used_ms = (time.process_time() - start) * 1000.0
    application.removeEventFilter(idleness)
    timers = idleness.timers - 1  # the one that ends the second
    print(f"idle for 1 s: {idleness.paints} paints, {max(timers, 0)} timers, {used_ms:.1f} ms of CPU time")


def report(count: int, way: str, case: Case) -> None:
    """Print medians, 99th percentiles and ratios of a case."""
    middle = {subject.name: float(np.median(subject.times_ms)) for subject in case.subjects}
    for subject in case.subjects:
        high = float(np.percentile(subject.times_ms, 99))
        print(f"{count:5} {way:6} {subject.name:17} {middle[subject.name]:7.2f} ms   99 % {high:7.2f} ms")
    canvas = middle["our canvas"] / middle["reference canvas"]
    frame = middle["our frame"] / middle["reference frame"]
    panes_ms = middle["our frame"] - middle["our canvas"]
    print(
        f"{count:5} {way:6} canvas {canvas:.2f} and frame {frame:.2f} times the reference; "
        f"panes {panes_ms:.2f} ms",
        flush=True,
    )


def ways() -> Iterator[tuple[str, Qt.KeyboardModifier]]:
    yield "plain", PLAIN
    yield "shift", SHIFT


def profile(case: Case, keys: Qt.KeyboardModifier) -> None:
    """Print where the time of the whole frame goes."""
    peg, places = case.places()
    profiler = cProfile.Profile()
    profiler.enable()
    case.subjects[-1].drag(peg, places, keys)
    profiler.disable()
    case.documents[1].undo_stack.undo()
    case.documents[1].undo_stack.clear()
    pstats.Stats(profiler).sort_stats("tottime").print_stats(40)
    pstats.Stats(profiler).sort_stats("cumtime").print_stats(60)


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--platform", default=os.environ.get("QT_QPA_PLATFORM", "offscreen"))
    parser.add_argument("--sections", type=int, nargs="+", default=SIZES)
    parser.add_argument("--rounds", type=int, default=6)
    parser.add_argument("--cpu", action="store_true")
    parser.add_argument("--profile", action="store_true")
    arguments = parser.parse_args()
    os.environ["QT_QPA_PLATFORM"] = arguments.platform
    if arguments.cpu:
        Subject.clock = staticmethod(time.process_time)
    with tempfile.TemporaryDirectory() as nobody:
        os.environ["XDG_CONFIG_HOME"] = nobody
        application = QApplication(["bench_drag"])
        QFontDatabase.addApplicationFont(str(font_path()))
        application.setFont(QFont("Noto Sans", 10))
        for count in arguments.sections:
            case = Case(count)
            for way, keys in ways():
                if arguments.profile:
                    profile(case, keys)
                else:
                    case.run(keys, arguments.rounds)
                    report(count, way, case)
            idle(case.subjects[-1].window)  # type: ignore[arg-type]
            case.close()


if __name__ == "__main__":
    main()
