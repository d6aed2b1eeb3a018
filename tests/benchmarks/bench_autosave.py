"""What one snapshot costs the window: 200 sections, 200 liquors, ten rovings.

    .venv/bin/python -m tests.benchmarks.bench_autosave

Printed, in ms: what the window's thread pays for handing a snapshot over, how long the write takes on its own
thread, and the longest time for which the window could not answer while a snapshot was written (the gaps
between beats of a timer of 1 ms), beside the same without any snapshot. Each is the median and the most of
`REPEATS`.
"""

from __future__ import annotations

import gc
import statistics
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QElapsedTimer, QEventLoop, QTimer

from studio_gui.document.autosave import Autosave
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.fibre import Fibre
from studio_gui.storage.recovery import SnapshotFile
from tests.benchmarks.bench_worksheet import plan_of

SECTIONS, ROVINGS, REPEATS = 200, 10, 30
SPAN_MS = 120


def longest_gap_ms(begin: Callable[[], None] | None = None) -> float:
    """Return the longest gap between beats over `SPAN_MS`, in which `begin` is called."""
    loop, clock, beat = QEventLoop(), QElapsedTimer(), QTimer()
    gaps = [0.0]
    last = [0]

    def count() -> None:
        now = clock.nsecsElapsed()
        gaps.append((now - last[0]) / 1e6)
        last[0] = now

    beat.setInterval(1)
    beat.timeout.connect(count)
    clock.start()
    beat.start()
    if begin is not None:
        QTimer.singleShot(5, begin)
    QTimer.singleShot(SPAN_MS, loop.quit)
    loop.exec()
    beat.stop()
    return max(gaps)


def main() -> None:
    application = QCoreApplication([])
    plan = plan_of(SECTIONS)
    plan = replace(plan, fibre=Fibre(plan.fibre.mass_g, plan.fibre.length_m, rovings=ROVINGS))
    document = OpenPlan(plan)
    gc.freeze()  # as the program does once its window stands
    handing: list[float] = []
    with tempfile.TemporaryDirectory() as place:
        autosave = Autosave(document, Path(place) / "window")
        kept = SnapshotFile(Path(place) / "thread")
        writing = []
        for number in range(REPEATS):
            changed = replace(plan, title=f"Plan {number}")
            began = time.perf_counter()
            kept.write(changed, None, None)
            writing.append((time.perf_counter() - began) * 1e3)
        size_kb = kept.file.stat().st_size / 1024
        kept.close()

        def keep() -> None:
            began = time.perf_counter()
            autosave._keep()
            handing.append((time.perf_counter() - began) * 1e3)

        without = [longest_gap_ms() for _ in range(REPEATS)]
        during = []
        for number in range(REPEATS):
            document.replace(replace(plan, title=f"Plan {number}"))
            during.append(longest_gap_ms(keep))
        assert autosave.file.exists(), "a snapshot was written"
        autosave.end()
    print(f"{SECTIONS} sections, {ROVINGS} rovings; a snapshot of {size_kb:.0f} kB; median and most, ms")
    for words, values in (
        ("handing it over", handing),
        ("the write itself", writing),
        ("longest gap without", without),
        ("longest gap during", during),
    ):
        print(f"{words:<22}{statistics.median(values):8.2f}{max(values):8.2f}")
    del application


if __name__ == "__main__":
    main()
