"""What a yarn costs: its figures, its uneven spins, and a frame of strip and yarn.

    QT_QPA_PLATFORM=offscreen PYTHONPATH=. .venv/bin/python tests/benchmarks/bench_yarn.py [RUNS]

Printed are medians in ms, and with frames the 99th percentile:

- figures: `Worksheet.yarn` with its runs, by sections and structure, and how the cost grows with sections
  times strips (1 is linear);
- spins: `simulate` of 300 two-ply spins, and as a ratio to one plain cumulative sum over as many points;
- frames: from a moved boundary or another grist to strip and yarn being painted; the paint event is asserted.
"""

from __future__ import annotations

import gc
import math
import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial

import numpy as np
from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.simulation import SPINS, STRETCHES, simulate
from studio_gui.domain.worksheet import Worksheet, worksheet
from studio_gui.domain.yarn import Strip, Structure, Yarn
from studio_gui.views.yarn_strip import YarnStrip
from tests.benchmarks.bench_drag import plan_of

STRUCTURES: tuple[tuple[str, Structure, int], ...] = (
    ("both ends", "both ends", 1),
    ("chain", "chain", 1),
    ("fractal 1:4", "fractal", 4),
    ("fractal 1:8", "fractal", 8),
)
SIZES = (12, 50, 500)
FRAME_BUDGET_MS = 16.0


class Paints(QObject):
    """Counts paint events."""

    def __init__(self) -> None:
        super().__init__()
        self.count = 0

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        del watched
        self.count += event.type() == QEvent.Type.Paint
        return False


def milliseconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000.0


def spun(count: int, structure: Structure, strips: int) -> Plan:
    return replace(plan_of(count), yarn=Yarn(structure=structure, strips=(Strip(),) * strips))


def read_yarn(sheet: Worksheet) -> tuple[int, float]:
    """Ask for what the pane shows of a yarn."""
    return len(sheet.yarn.runs), sheet.yarn.solid_share


def report_figures(runs: int) -> None:
    def cost(plan: Plan) -> float:
        def fresh() -> Worksheet:
            sheet = worksheet(plan)
            sheet.colours  # noqa: B018  (they are there in any frame)
            return sheet

        times = []
        for _ in range(runs):
            sheet = fresh()
            times.append(milliseconds(partial(read_yarn, sheet)))
        return statistics.median(times)

    for name, structure, strips in STRUCTURES:
        costs = [cost(spun(count, structure, strips)) for count in SIZES]
        growth = math.log(costs[-1] / costs[-2]) / math.log(SIZES[-1] / SIZES[-2])
        told = ", ".join(f"{count}: {ms:.2f}" for count, ms in zip(SIZES, costs, strict=True))
        print(f"figures, {name}: {told} ms; grows with power {growth:.2f}")


def report_spins(runs: int) -> None:
    for count in (12, 50):
        yarn = worksheet(spun(count, "both ends", 1)).yarn
        points = SPINS * (STRETCHES + sum(len(one.cuts_m) for one in yarn.strands))
        plain = np.random.default_rng(1).random(points)
        ours = statistics.median(milliseconds(partial(simulate, yarn, 0.1)) for _ in range(runs))
        sums = statistics.median(milliseconds(partial(np.cumsum, plain)) for _ in range(runs))
        print(
            f"spins, {count} sections: {SPINS} in {ours:.1f} ms, {ours / sums:.0f} x a sum of {points} points"
        )


def report_frames(application: QApplication, runs: int) -> None:
    for name, structure, strips in STRUCTURES:
        plan = spun(50, structure, strips)
        document = OpenPlan(plan)
        strip, paints = YarnStrip(document), Paints()
        strip.installEventFilter(paints)
        strip.resize(980, 200)
        strip.show()
        until = time.monotonic() + 3.0
        while time.monotonic() < until:  # fibre comes meanwhile
            application.processEvents()
        gc.freeze()  # as the program does once its window is furnished
        here_m = plan.boundaries[25].position_m

        def frame(shown: Plan, strip: YarnStrip = strip, paints: Paints = paints) -> float:
            before = paints.count

            def work(shown: Plan = shown, strip: YarnStrip = strip) -> None:
                strip.document.preview(shown)
                strip.repaint()

            ms = milliseconds(work)
            assert paints.count > before, "nothing was painted"
            return ms

        moves = [move_boundary(plan, 25, here_m + 0.0004 * (number % 9 + 1)) for number in range(runs * 4)]
        grists = [set_yarn(plan, singles_m_per_g=10.0 + number % 7) for number in range(runs * 2)]
        dragged, others = ([frame(shown) for shown in plans] for plans in (moves, grists))
        document.cancel_preview()
        worst = float(np.percentile(dragged, 99))
        print(
            f"frame at 50 sections, {name}: drag {statistics.median(dragged):.1f} ms (99 %: {worst:.1f}, "
            f"{'within' if worst <= FRAME_BUDGET_MS else 'over'} {FRAME_BUDGET_MS:.0f}), "
            f"another yarn {statistics.median(others):.1f} ms"
        )
        strip.close()


def main(runs: int) -> None:
    application = QApplication.instance() or QApplication([])
    assert isinstance(application, QApplication)
    report_figures(runs)
    report_spins(runs)
    report_frames(application, runs)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
