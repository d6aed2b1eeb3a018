"""Labels on a line: each as near as it can be to its place, none over another.

The rule of this module: order is kept; what is moved is moved as little as can be, all together (least
squares by pooling neighbours that collide: Ayer et al., An empirical distribution function for sampling with
incomplete information, 1955).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise


def spread(
    places: Sequence[float], widths: Sequence[float], low: float, high: float, gap: float
) -> list[float]:
    """Return where the middles of labels stand, whose wanted `places` rise; all in one unit.

    Labels keep `gap` between them and lie between `low` and `high`. Where there is not room for all, they
    keep together and reach beyond `high`.

    >>> spread((10.0, 12.0, 40.0), (6.0, 6.0, 6.0), 0.0, 50.0, 2.0)
    [7.0, 15.0, 40.0]
    """
    if not places:
        return []
    halves = [(before + after) / 2.0 + gap for before, after in pairwise(widths)]
    offsets = list(accumulate(halves, initial=0.0))
    pools: list[tuple[float, int]] = []
    for place, offset in zip(places, offsets, strict=True):
        mean, count = place - offset, 1
        while pools and pools[-1][0] > mean:
            before, many = pools.pop()
            mean = (mean * count + before * many) / (count + many)
            count += many
        pools.append((mean, count))
    least = low + widths[0] / 2.0
    most = max(high - widths[-1] / 2.0 - offsets[-1], least)
    starts = [min(max(mean, least), most) for mean, count in pools for _ in range(count)]
    return [start + offset for start, offset in zip(starts, offsets, strict=True)]
