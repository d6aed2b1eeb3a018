"""Strip, yarn and map: what the maps of twisted strands cost, one frame of them, and the map of stretches.

    .venv/bin/python tests/benchmarks/bench_yarn_pictures.py [RUNS]

Yarn of 1200 x 60 px with 1 to 6 strands, at one and two device pixels a pixel; its quick stand-in; maps of 5
to 400 stretches. Printed are medians; the first maps, for which the tile of fibres is read, stand apart.
"""

from __future__ import annotations

import os
import statistics
import sys
import time
from collections.abc import Callable
from functools import partial

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QRectF
from PySide6.QtGui import QGuiApplication, QImage, QPainter

from studio_gui.drawing.look import LIGHT
from studio_gui.drawing.yarn.map import MapRun, paint_map
from studio_gui.drawing.yarn.pictures import TwistPicture, paint_plain_yarn, twist_place
from studio_gui.drawing.yarn.twist import twist_maps

WIDTH, HEIGHT = 1200, 60
YARN_M = 700.0
DYES = ("#2f5d7c", "#c9b26a", "#a8483f", "#d9a5a0", "#5f6b45", "#ece7dd")


def milliseconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000.0


def median(work: Callable[[], object], runs: int) -> float:
    return statistics.median(milliseconds(work) for _ in range(runs))


def on_screen(paint: Callable[[QPainter], None], device_pixel_ratio: float, runs: int) -> float:
    """Return the milliseconds that painting takes on a picture as deep as the screen."""
    size = round(WIDTH * device_pixel_ratio), round(HEIGHT * device_pixel_ratio)
    image = QImage(*size, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(device_pixel_ratio)
    image.fill(LIGHT.table)
    painter = QPainter(image)
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        return median(partial(paint, painter), runs)
    finally:
        painter.end()


def report_yarn(strands: int, device_pixel_ratio: float, runs: int) -> None:
    box = QRectF(0.0, 0.0, WIDTH, HEIGHT)
    place = twist_place(box, strands, device_pixel_ratio)
    first = milliseconds(partial(twist_maps, place))
    maps = median(partial(twist_maps, place), runs)
    picture = TwistPicture(twist_maps(place))
    colours: NDArray[np.float64] = np.random.default_rng(1).random((strands, place.width, 3))
    frame = on_screen(lambda painter: picture.draw(painter, box, colours), device_pixel_ratio, runs)
    quick = on_screen(lambda painter: paint_plain_yarn(painter, box, colours), device_pixel_ratio, runs)
    print(
        f"{place.width} x {place.height} px, {strands} strands: first maps {first:.0f} ms, "
        f"maps {maps:.0f} ms, frame {frame:.1f} ms, stand-in {quick:.1f} ms"
    )


def stretches(count: int) -> list[MapRun]:
    """Return so many stretches of unlike length, every other one barber-pole."""
    draw = np.random.default_rng(count)
    cuts = np.concatenate(([0.0], np.sort(draw.uniform(0.0, YARN_M, count - 1)), [YARN_M])).tolist()
    runs = []
    for number in range(count):
        one, other = draw.permutation(len(DYES))[:2].tolist()
        both = (one, one) if number % 2 == 0 else (one, other)
        letters, srgb = tuple("ABCDEF"[dye] for dye in both), tuple(DYES[dye] for dye in both)
        runs.append(MapRun(cuts[number], cuts[number + 1], letters, srgb, solid=number % 2 == 0))
    return runs


def report_map(count: int, runs: int) -> None:
    box, rows = QRectF(0.0, 0.0, WIDTH, 36.0), stretches(count)
    took = on_screen(lambda painter: paint_map(painter, box, rows, (0.0, YARN_M), LIGHT), 1.0, runs)
    print(f"map of {count} stretches: {took:.2f} ms")


def main(runs: int) -> None:
    for ratio in (1.0, 2.0):
        for strands in (1, 2, 3, 6):
            report_yarn(strands, ratio, runs)
    for count in (5, 50, 400):
        report_map(count, runs)


if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    application = QGuiApplication([])
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 9)
