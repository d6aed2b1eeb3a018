"""Knitting drawn stitch by stitch: what the maps of a swatch cost, and the colours of one frame.

    .venv/bin/python tests/benchmarks/bench_knit.py [RUNS]

A two-ply swatch of 60 stitches by 40 rows, about 900 x 640 px, at one and two device pixels a pixel, and one
of 150 small stitches. Printed are medians; the first maps, for which the patch is knitted, stand apart.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable
from functools import partial

import numpy as np

from studio_gui.drawing.knit.colouring import ColouredKnit
from studio_gui.drawing.knit.maps import knit_maps
from studio_gui.drawing.knit.place import KnitPlace

PLACES = (
    KnitPlace(60, 40, 15, 15, 2),
    KnitPlace(150, 80, 6, 4, 2),
    KnitPlace(60, 40, 30, 30, 2, device_pixel_ratio=2.0),
)


def milliseconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000.0


def report(place: KnitPlace, runs: int) -> None:
    def median(work: Callable[[], object]) -> float:
        return statistics.median(milliseconds(work) for _ in range(runs))

    first, maps = milliseconds(partial(knit_maps, place)), median(partial(knit_maps, place))
    knit = ColouredKnit(knit_maps(place))
    colours = np.random.default_rng(1).random((place.strands, place.samples, 3))
    shown = median(partial(knit.show, colours))
    print(
        f"{place.width} x {place.height} px, {place.columns} x {place.rows} stitches: "
        f"first maps {first:.0f} ms, maps {maps:.0f} ms, colours {shown:.1f} ms"
    )


def main(runs: int) -> None:
    for place in PLACES:
        report(place, runs)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 9)
