"""Works a long day without waiting: `python -m tests.campaigns.workday --hours 8`.

Somebody acts every six seconds of simulated time; snapshots are kept after every edit, the plan is saved now
and then, and once an hour the program vanishes and what was not saved is recovered. Reports memory by hour.
"""

from __future__ import annotations

import argparse
import gc
import random
import tempfile
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QEvent

from tests.campaigns.bench import BenchDay, random_step

STEPS_AN_HOUR = 600


def resident_kb() -> int:
    """Memory of this process that is in use, kB."""
    with Path("/proc/self/statm").open(encoding="ascii") as file:
        return int(file.read().split()[1]) * 4


def campaign(steps: int, steps_an_hour: int, seed: int) -> list[int]:
    """Work so many steps, with a crash every hour; return the memory after each hour, kB."""
    rng, memory = random.Random(seed), []
    with tempfile.TemporaryDirectory() as place:
        day = BenchDay(Path(place))
        for step in range(1, steps + 1):
            random_step(day, rng)
            day.autosave.keep_now()
            QCoreApplication.processEvents()
            if step % steps_an_hour == 0:
                day.crash_and_recover()
                day.check()
                QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
                gc.collect()
                memory.append(resident_kb())
        day.end()
    return memory


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--hours", type=int, default=8)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    application = QCoreApplication([])
    memory = campaign(arguments.hours * STEPS_AN_HOUR, STEPS_AN_HOUR, arguments.seed)
    print(f"{arguments.hours} hours, {arguments.hours * STEPS_AN_HOUR} steps; memory by hour, MB:")
    print(", ".join(f"{kb / 1024:.1f}" for kb in memory))
    del application


if __name__ == "__main__":
    main()
