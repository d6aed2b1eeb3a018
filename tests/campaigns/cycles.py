"""Opens, edits, saves and closes plans: `python -m tests.campaigns.cycles --count 1000`.

Reports how memory grows over the second half, as the slope of a straight line through it.
"""

from __future__ import annotations

import argparse
import gc
import tempfile
from pathlib import Path

import numpy as np
from PySide6.QtCore import QCoreApplication, QEvent

from tests.campaigns.bench import BenchDay
from tests.campaigns.workday import resident_kb


def campaign(count: int) -> list[int]:
    """Do so many cycles; return the memory after each, kB."""
    memory = []
    with tempfile.TemporaryDirectory() as place:
        for number in range(count):
            day = BenchDay(Path(place))
            for step in range(10):
                day.move((number * 10 + step) % 83 / 100 + 0.05)
            day.autosave.keep_now()
            day.save()
            day.check()
            day.end()
            del day
            QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
            gc.collect()
            memory.append(resident_kb())
    return memory


def slope_kb(memory: list[int]) -> float:
    """Return the growth of memory in kB a cycle, of the straight line that fits best."""
    return float(np.polyfit(np.arange(len(memory)), np.array(memory, dtype=float), 1)[0])


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=1_000)
    count = parser.parse_args().count
    application = QCoreApplication([])
    memory = campaign(count)
    half = memory[count // 2 :]
    print(f"{count} cycles; last {len(half)}: {half[0]} to {half[-1]} kB, {slope_kb(half):+.3f} kB a cycle")
    del application


if __name__ == "__main__":
    main()
