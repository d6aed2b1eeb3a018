"""Columns of figures on paper, which add up as they are printed.

The rule of this module: all figures of a column have one unit, named in its heading, and the same decimals,
as few as they need. The total is rounded as it is; where the rows rounded one by one would not add up to it,
the last decimal of those nearest to the next step is moved (largest remainder; ties to the larger row).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from studio_gui.wording.numbers import shown_number
from studio_gui.wording.quantities import Kind
from studio_gui.wording.translation import TRANSLATED, Tongue
from studio_gui.wording.units import unit

#: Decimals that are added to those of a kind, at most, so that something does not read as nothing.
_MORE_DECIMALS = 2
# Of a step of the last decimal: what floats leave over.
_DUST = 1e-6


@dataclass(frozen=True, slots=True)
class FigureColumn:
    """Figures without their unit, which is `symbol`, and their total."""

    symbol: str
    cells: tuple[str, ...]
    total: str


def figure_column(
    kind: Kind, values: Sequence[float], tongue: Tongue = TRANSLATED, *, summed: bool = True
) -> FigureColumn:
    """Return `values` (0 or more, in the plan's unit) as a column; one that is not `summed` has no total.

    >>> from studio_gui.wording.quantities import MASS
    >>> from studio_gui.wording.translation import ENGLISH
    >>> figure_column(MASS, (400.0 / 3.0, 400.0 / 3.0, 400.0 / 3.0), ENGLISH)
    FigureColumn(symbol='g', cells=('133.3', '133.3', '133.4'), total='400.0')
    >>> figure_column(MASS, (80.0, 60.0), ENGLISH).cells
    ('80', '60')
    """
    symbol, sizes, decimals = _sized(kind, values, tongue)
    steps = [size * 10.0**decimals for size in sizes]
    if not summed:
        return FigureColumn(symbol, tuple(_said(_nearest(step), decimals, tongue) for step in steps), "")
    total = _nearest(sum(steps))
    counts = _shared(steps, total)
    return FigureColumn(
        symbol, tuple(_said(count, decimals, tongue) for count in counts), _said(total, decimals, tongue)
    )


def edge_columns(
    kind: Kind, edges: Sequence[float], tongue: Tongue = TRANSLATED
) -> tuple[tuple[str, ...], FigureColumn]:
    """Return places that rise from 0 (in the plan's unit), and what lies between them, as printed.

    A length is the difference of the places printed beside it.

    >>> from studio_gui.wording.quantities import LAY_LENGTH
    >>> from studio_gui.wording.translation import ENGLISH
    >>> places, lengths = edge_columns(LAY_LENGTH, (0.0, 1.0 / 3.0, 2.0 / 3.0, 1.0), ENGLISH)
    >>> places, lengths.cells, lengths.total
    (('0.0', '33.3', '66.7', '100.0'), ('33.3', '33.4', '33.3'), '100.0')
    """
    symbol, sizes, decimals = _sized(kind, edges, tongue)
    counts = [_nearest(size * 10.0**decimals) for size in sizes]
    said = tuple(_said(count, decimals, tongue) for count in counts)
    lengths = tuple(_said(after - before, decimals, tongue) for before, after in pairwise(counts))
    return said, FigureColumn(symbol, lengths, _said(counts[-1] - counts[0], decimals, tongue))


def _sized(kind: Kind, values: Sequence[float], tongue: Tongue) -> tuple[str, list[float], int]:
    """Return the unit, the values in it, and the decimals that they need."""
    symbol, most = kind.shown_in(tongue)
    shown_in = unit(kind.dimension, symbol)
    sizes = [shown_in.from_inside(value) for value in values]
    decimals = next((few for few in range(most) if all(_is_whole(size * 10.0**few) for size in sizes)), most)
    least = min((size for size in sizes if size > 0.0), default=1.0)
    while least * 10.0**decimals < 1.0 - _DUST and decimals < most + _MORE_DECIMALS:
        decimals += 1
    return symbol, sizes, decimals


def _is_whole(steps: float) -> bool:
    return abs(steps - round(steps)) < _DUST


def _nearest(steps: float) -> int:
    """Return the nearest whole number; a tie goes up, whatever dust there is."""
    return math.floor(steps + 0.5 + _DUST)


def _shared(steps: Sequence[float], total: int) -> list[int]:
    """Return whole numbers next to `steps` whose sum is `total`, that of the steps as it is rounded."""
    counts = [math.floor(step + _DUST) for step in steps]
    order = sorted(range(len(steps)), key=lambda row: (-round(steps[row] - counts[row], 6), -steps[row], row))
    for row in order[: total - sum(counts)]:
        counts[row] += 1
    return counts


def _said(count: int, decimals: int, tongue: Tongue) -> str:
    return shown_number(count / 10.0**decimals, decimals, tongue)
