"""Fades and matches: times, ratios, and how even solved fades are beside naive ones.

    .venv/bin/python tests/benchmarks/bench_fades.py

Times are the least of several and the ratio of each to a reference: the predicted colours and CIEDE2000 of
as many colours as the solver has to weigh at least, by plain calls. Evenness is over 200 seeded random fades.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fades import naive_fades, solve_fade
from studio_gui.domain.colour.matching import match_colour
from tests.domain.colour.dyes import COLOURS, jars, palette, random_fade

REPEATS = 15
FADES = 200
MATCHES = 40


def least_ms(act: Callable[[], object]) -> float:
    """Return the least time of several, ms."""
    act()
    times = []
    for _ in range(REPEATS):
        start = time.perf_counter()
        act()
        times.append(time.perf_counter() - start)
    return 1000.0 * min(times)


def fades() -> None:
    """Report the time of fades of 12 sections."""
    blue, three = palette("blue"), palette("red", "lemon", "blue")
    doses = np.random.default_rng(1).uniform(0.0, 2.0, (600 + 12 * 24, 3))
    labs = three.lab(doses)
    reference = least_ms(lambda: ciede2000(three.lab(doses), labs[::-1]))
    print(f"reference: {len(doses)} colours of three dyes and their CIEDE2000  {reference:6.2f} ms")
    two = palette("red", "blue")
    cases = {
        "pale to deep, one bottle": (blue, jars(), np.array([[0.05], [4.0]])),
        "pale to deep, two bottles": (blue, jars(12, (1.0, 0.1), (0, 0)), np.array([[0.05], [4.0]])),
        "dye to dye": (two, jars(12, (1.0, 1.0)), np.array([[3.0, 0.0], [0.0, 3.0]])),
        "three dyes": (
            three,
            jars(12, (1.0, 1.0, 1.0)),
            np.array([[1.0, 1.0, 0.0], [0.0, 0.5, 2.0]]),
        ),
    }
    for name, case in cases.items():
        taken = least_ms(lambda case=case: solve_fade(*case))  # type: ignore[misc]  # bound early
        print(f"12 sections, {name:28} {taken:6.2f} ms  {taken / reference:5.1f} x")


def matches() -> None:
    """Report the time of a match over twelve bottles."""
    everything, measuring = palette(*COLOURS), jars(1, (1.0,) * 12)
    wanted = everything.lab(np.random.default_rng(2).dirichlet(np.ones(12), MATCHES))
    doses = np.random.default_rng(3).uniform(0.0, 2.0, (298 * 4, 12))
    reference = least_ms(lambda: everything.lab(doses))
    taken = least_ms(lambda: match_colour(everything, measuring, wanted[0]))
    print(f"reference: {len(doses)} colours of twelve dyes {reference:6.2f} ms")
    print(f"a match over twelve bottles         {taken:6.2f} ms  {taken / reference:5.1f} x")
    exact = [match_colour(everything, measuring, one).exact_difference for one in wanted]
    print(f"{MATCHES} mixes of all twelve dyes, before rounding: median {np.median(exact):.2f}")


def evenness() -> None:
    """Report the evenness of solved and naive fades."""
    generator = np.random.default_rng(1976)
    solved, equal, halved = [], [], []
    for _ in range(FADES):
        case = random_fade(generator)
        solved.append(solve_fade(case.palette, case.measuring, case.stops_pct_owf).evenness.ratio)
        one, other = naive_fades(case.palette, case.measuring, case.stops_pct_owf)
        equal.append(one.evenness.ratio)
        halved.append(other.evenness.ratio)
    for name, ratios in (("solved", solved), ("equal shares", equal), ("halving", halved)):
        low, middle, high = np.sort(ratios)[[FADES // 10, FADES // 2, FADES * 9 // 10]]  # some are infinite
        print(
            f"largest over smallest step, {name:13} 10 % {low:7.2f}  median {middle:7.2f}  90 % {high:7.2f}"
        )


if __name__ == "__main__":
    fades()
    matches()
    evenness()
