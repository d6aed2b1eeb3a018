"""Every check the program makes, in the order of its subjects.

The rule of this module: a new check is one function from `SectionFigures` to `Check`s, listed here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from studio_gui.domain.checks import acid, bench, bookkeeping, colour, depth, edges, halves, wetness, yarn
from studio_gui.domain.checks.check import SEVERITIES, Check
from studio_gui.domain.figures import SectionFigures

CHECKS: tuple[Callable[[SectionFigures], Iterator[Check]], ...] = (
    bookkeeping.crushed_sections,
    depth.out_of_reach,
    wetness.over,
    wetness.under,
    bookkeeping.liquors,
    depth.no_room,
    acid.uneven,
    acid.too_low,
    acid.line_short,
    bookkeeping.short_sections,
    bench.stocks_short,
    halves.halves_differ,
    edges.muddy_edges,
    acid.unknown,
    depth.over_take_up,
    colour.guessed_mixes,
    bookkeeping.two_jars,
    bookkeeping.strengths_by_spoon,
    bookkeeping.unused_stocks,
    yarn.leftover,
    yarn.stripe_too_short,
)


def run_checks(figures: SectionFigures) -> tuple[Check, ...]:
    """Return every finding, errors first, then warnings, then notes, each in the order of `CHECKS`."""
    found = [check for find in CHECKS for check in find(figures)]
    return tuple(sorted(found, key=lambda check: SEVERITIES.index(check.severity)))
