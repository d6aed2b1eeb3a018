"""Start of the program, from the process's start to its first paint, against a bare window.

    .venv/bin/python tests/benchmarks/bench_start.py [RUNS]

The program opens the sample of twenty sections. The bare window imports Qt's widgets and numpy and paints one
line of text. Both run in turn, each in a process of its own; printed are medians, the ratio of each pair's
times, and peak memory. A run counts only when the paint event came and pint was not loaded.
"""

from __future__ import annotations

import json
import os
import resource
import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SAMPLE = ROOT / "sample_projects" / "long-dusk.roving.json"


def bare() -> None:
    import numpy as np
    from PySide6.QtCore import QTimer
    from PySide6.QtGui import QPainter, QPaintEvent
    from PySide6.QtWidgets import QApplication, QMainWindow, QWidget

    class Line(QWidget):
        def paintEvent(self, event: QPaintEvent) -> None:
            painter = QPainter(self)
            try:
                painter.drawText(20, 40, f"{np.arange(20).sum()}")
            finally:
                painter.end()
            report()
            QTimer.singleShot(0, QApplication.quit)

    app = QApplication(sys.argv)
    window = QMainWindow()
    window.setCentralWidget(Line())
    window.resize(1440, 900)
    window.show()
    app.exec()


def program() -> None:
    from PySide6.QtCore import QTimer
    from PySide6.QtGui import QPaintEvent
    from PySide6.QtWidgets import QApplication

    from studio_gui.app import main
    from studio_gui.views.lay_canvas import LayCanvas

    paint = LayCanvas.paintEvent

    def paint_and_report(self: LayCanvas, event: QPaintEvent) -> None:
        LayCanvas.paintEvent = paint  # type: ignore[method-assign]
        paint(self, event)
        report()
        QTimer.singleShot(0, QApplication.quit)

    LayCanvas.paintEvent = paint_and_report  # type: ignore[method-assign]
    main([str(SAMPLE)])


def report() -> None:
    print(
        json.dumps(
            {
                "seconds": time.time() - float(os.environ["STARTED"]),
                "peak_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0,
                "pint": "pint" in sys.modules,
            }
        ),
        flush=True,
    )


def measured(kind: str) -> dict[str, float]:
    environment = {**os.environ, "STARTED": repr(time.time()), "PYTHONPATH": str(ROOT)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)  # an installed program is compiled
    environment.setdefault("QT_QPA_PLATFORM", "offscreen")
    run = subprocess.run(
        [sys.executable, __file__, kind], env=environment, capture_output=True, text=True, check=True
    )
    result: dict[str, float] = json.loads(run.stdout.splitlines()[0])
    assert not result["pint"], "pint was loaded before the first paint"
    return result


def compare(runs: int) -> None:
    for kind in ("bare", "program"):
        measured(kind)  # warm the disk
    pairs = [(measured("bare"), measured("program")) for _ in range(runs)]
    for name, number in (("bare window", 0), ("program", 1)):
        seconds = statistics.median(pair[number]["seconds"] for pair in pairs)
        peak = statistics.median(pair[number]["peak_mb"] for pair in pairs)
        print(f"{name:12} first paint {seconds * 1000:6.0f} ms   peak memory {peak:6.1f} MB")
    for figure in ("seconds", "peak_mb"):
        ratios = sorted(pair[1][figure] / pair[0][figure] for pair in pairs)
        middle = statistics.median(ratios)
        print(f"ratio {figure:8} median {middle:.2f} ({ratios[0]:.2f} to {ratios[-1]:.2f})")


if __name__ == "__main__":
    match sys.argv[1:]:
        case ["bare"]:
            bare()
        case ["program"]:
            program()
        case [runs]:
            compare(int(runs))
        case _:
            compare(9)
