"""Wool drawn as fibre: what the maps of a picture cost, and the colours of one frame.

    .venv/bin/python tests/benchmarks/bench_wool.py [RUNS]

The wool of the folded sample in a window of 1440 x 900, at one and two device pixels a pixel. Printed are
medians; the first maps, for which the tile of fibres is read, stand apart.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

import numpy as np
from PySide6.QtCore import QSizeF

from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.fibre.colouring import ColouredWool
from studio_gui.drawing.fibre.maps import fibre_maps
from studio_gui.drawing.fibre.picture import fibre_place
from studio_gui.drawing.fibre.place import FibrePlace
from studio_gui.drawing.lay_layout import lay_layout
from studio_gui.storage.files import read_plan

ROOT = Path(__file__).resolve().parents[2]


def milliseconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000.0


def report(place: FibrePlace, runs: int) -> None:
    def median(work: Callable[[], object]) -> float:
        return statistics.median(milliseconds(work) for _ in range(runs))

    first, maps = milliseconds(partial(fibre_maps, place)), median(partial(fibre_maps, place))
    wool = ColouredWool(fibre_maps(place))
    colours = np.random.default_rng(1).random((wool.maps.columns, 3))
    middle, sixth = wool.maps.columns // 2, wool.maps.columns // 6
    whole, part = (
        median(lambda: wool.paint(colours)),
        median(lambda: wool.paint(colours, middle, middle + sixth)),
    )
    print(
        f"{place.width} x {place.height} px: first maps {first:.0f} ms, maps {maps:.0f} ms, "
        f"colours {whole:.2f} ms, of a sixth {part:.2f} ms"
    )


def main(runs: int) -> None:
    plan = read_plan(ROOT / "sample_projects" / "two-shores.roving.json")
    layout = lay_layout(worksheet(plan), QSizeF(1440.0, 900.0))
    for ratio in (1.0, 2.0):
        report(fibre_place(layout, ratio), runs)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 9)
