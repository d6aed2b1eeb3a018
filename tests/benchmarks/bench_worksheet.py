"""The worksheet of a plan, checks and jars and colours included, over 50 to 2,000 sections.

    .venv/bin/python tests/benchmarks/bench_worksheet.py

Every section has a liquor of its own from three dyes and acid water. Printed are the least times, the
exponent of a straight line through their logarithms (1 is linear), and the ratio to a reference: a plain
numpy pass that multiplies out (sections x stocks) amounts and sums them, as often as the worksheet has
columns.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np

from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.fibre import WHITE_WOOL_SRGB, Fibre, Lay
from studio_gui.domain.liquors import Liquor, Part
from studio_gui.domain.plan import Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.stocks import Stock
from studio_gui.domain.worksheet import worksheet

SIZES = (50, 100, 200, 500, 1000, 2000)
REPEATS = 15
COLUMNS = 16


def stocks_of() -> tuple[Stock, ...]:
    """Return three dyes and acid water."""
    colours = {"k1": "#2a5d8f", "k2": "#a03030", "k3": "#e8c02a"}
    dyes = tuple(
        Stock(key, key, "dye", 10.0, acid_g_per_l=10.0, swatches=(Swatch(1.0, srgb, WHITE_WOOL_SRGB),))
        for key, srgb in colours.items()
    )
    return (*dyes, Stock("k4", "Acid water", "let-down", acid_g_per_l=10.0))


def plan_of(count: int) -> Plan:
    """Return a plan of `count` sections."""
    liquors = tuple(
        Liquor(
            f"q{i}",
            f"{i}"[-3:] if count < 1000 else chr(0x4E00 + i),
            f"Liquor {i}",
            parts=(Part("k1", 1.0 + i), Part("k2", 2.0), Part("k3", 3.0), Part("k4", 40.0)),
        )
        for i in range(count)
    )
    length_m = count * 0.1
    return Plan(
        title="Benchmark",
        fibre=Fibre(count * 2.5, length_m),
        lay=Lay(),
        stocks=stocks_of(),
        liquors=liquors,
        sections=tuple(Section(f"s{i}", f"Section {i}", f"q{i}") for i in range(count)),
        boundaries=tuple(Boundary(length_m * (i + 1) / count) for i in range(count - 1)),
    )


def whole(plan: Plan) -> None:
    """Compute everything a screen shows."""
    sheet = worksheet(plan)
    assert len(sheet.figures) == len(plan.sections)
    assert sheet.checks is not None
    assert sheet.totals.liquid_ml > 0.0
    assert len(sheet.colours.srgb) == len(plan.sections)
    assert len(sheet.liquor_colours.srgb) == len(plan.liquors)


def reference(count: int) -> Callable[[], None]:
    """Return a plain numpy pass over as many numbers."""
    amounts = np.random.default_rng(1).random((count, 4))
    grams = np.random.default_rng(2).random(count)

    def run() -> None:
        for _ in range(COLUMNS):
            assert (amounts * grams[:, np.newaxis]).sum(axis=1).shape == (count,)

    return run


def least_s(run: Callable[[], None]) -> float:
    """Return the least time of `REPEATS` runs, s."""
    run()
    times = []
    for _ in range(REPEATS):
        start = time.perf_counter()
        run()
        times.append(time.perf_counter() - start)
    return min(times)


def main() -> None:
    """Print the table."""
    times = []
    for count in SIZES:
        plan = plan_of(count)
        mine, plain = least_s(lambda plan=plan: whole(plan)), least_s(reference(count))  # type: ignore[misc]
        times.append(mine)
        print(f"{count:5} sections {mine * 1000:8.2f} ms   {mine / plain:6.1f} times the reference")
    exponent = np.polyfit(np.log(SIZES), np.log(times), 1)[0]
    print(f"exponent {exponent:.2f}")


if __name__ == "__main__":
    main()
