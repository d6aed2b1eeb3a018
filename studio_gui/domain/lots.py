"""What lots that were painted tell of the fibre: when the core wets, and how much it holds.

The rule of this module: a lot bounds a figure and never gives it. A white core was painted too little, a lot
that pooled held too much, and one that came out right did neither; several lots narrow the bounds. Lots that
cannot all be true of one fibre are named, and nothing is learned from them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import checked, exceeds

Seen = Literal["white core", "right", "pooled"]
SEEN: tuple[Seen, ...] = ("white core", "right", "pooled")


@dataclass(frozen=True, slots=True)
class Lot:
    """Dry fibre (g), the liquor painted on it (ml), its soak (ml per g of dry fibre), and what was seen.

    >>> lot = Lot(50.0, 70.0, 1.0, "right")
    >>> lot.applied_ml_per_g, lot.held_ml_per_g
    (1.4, 2.4)
    """

    fibre_g: float
    liquid_ml: float
    soak_ml_per_g: float
    seen: Seen

    def __post_init__(self) -> None:
        checked("lot_g", self.fibre_g)
        checked("lot_ml", self.liquid_ml)
        checked("soak_ml_per_g", self.soak_ml_per_g)
        if self.seen not in SEEN:
            raise InvalidPlan("not-one-of", field="seen", value=self.seen)

    @property
    def applied_ml_per_g(self) -> float:
        """Liquor applied, ml per g of dry fibre."""
        return self.liquid_ml / self.fibre_g

    @property
    def held_ml_per_g(self) -> float:
        """What the fibre had to hold, ml per g of dry fibre."""
        return self.soak_ml_per_g + self.applied_ml_per_g


@dataclass(frozen=True, slots=True)
class Bounds:
    """Between what a figure lies, ml per g; None where no lot says. Users say which end is inside."""

    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class Clash:
    """Two lots, by their places, that cannot both be true: one `seen` amiss where the other was right."""

    seen: Seen
    amiss: int
    right: int


@dataclass(frozen=True, slots=True)
class Learned:
    """What lots tell.

    Attributes
    ----------
    penetration
        The least liquor that wets the core lies above `low`, and at `high` or below.
    limit
        What the fibre holds lies at `low` or above, and below `high`.
    clashes
        Lots that speak against each other; what they are about is left without bounds.
    """

    penetration: Bounds = Bounds()
    limit: Bounds = Bounds()
    clashes: tuple[Clash, ...] = ()


def learn(lots: Sequence[Lot]) -> Learned:
    """Return what `lots`, in any order, tell together.

    >>> learn([Lot(50.0, 60.0, 1.0, "white core"), Lot(50.0, 80.0, 1.0, "right")]).penetration
    Bounds(low=1.2, high=1.6)
    """
    applied = [lot.applied_ml_per_g for lot in lots]
    held = [lot.held_ml_per_g for lot in lots]
    right, white, pooled = (
        [place for place, lot in enumerate(lots) if lot.seen == seen]
        for seen in ("right", "white core", "pooled")
    )
    wettest_white = max(white, key=lambda place: applied[place], default=None)
    driest_right = min(right, key=lambda place: applied[place], default=None)
    fullest_right = max(right, key=lambda place: held[place], default=None)
    driest_pooled = min(pooled, key=lambda place: held[place], default=None)
    penetration = Bounds(_at(applied, wettest_white), _at(applied, driest_right))
    limit = Bounds(_at(held, fullest_right), _at(held, driest_pooled))
    clashes = []
    if _is_empty(penetration) and wettest_white is not None and driest_right is not None:
        penetration = Bounds()
        clashes.append(Clash("white core", wettest_white, driest_right))
    if _is_empty(limit) and driest_pooled is not None and fullest_right is not None:
        limit = Bounds()
        clashes.append(Clash("pooled", driest_pooled, fullest_right))
    return Learned(penetration, limit, tuple(clashes))


def penetration_to_use(bounds: Bounds, now_ml_per_g: float) -> float | None:
    """Return the penetration limit to go by: the present one where it agrees, else the least that wetted.

    None where all that is known is that the present one is too low.
    """
    too_high = bounds.high is not None and exceeds(now_ml_per_g, bounds.high)
    too_low = bounds.low is not None and not exceeds(now_ml_per_g, bounds.low)
    return bounds.high if too_high or too_low else now_ml_per_g


def limit_to_use(bounds: Bounds, now_ml_per_g: float) -> float | None:
    """Return the holding limit to go by: the present one where it agrees, else the most that was held.

    None where all that is known is that the present one is too high.
    """
    too_low = bounds.low is not None and exceeds(bounds.low, now_ml_per_g)
    too_high = bounds.high is not None and not exceeds(bounds.high, now_ml_per_g)
    return bounds.low if too_low or too_high else now_ml_per_g


def uptake_to_use(learned: Learned, soak_ml_per_g: float, now_ml_per_g: float) -> float | None:
    """Return the uptake to go by on a soak: the present one where lots show it right, else the nearest.

    None where no lot came out right, or none would on such a soak.
    """
    least, most = learned.penetration.high, learned.limit.low
    if least is None or most is None or exceeds(least, most - soak_ml_per_g):
        return None
    return min(max(now_ml_per_g, least), most - soak_ml_per_g)


def _at(figures: Sequence[float], place: int | None) -> float | None:
    return None if place is None else figures[place]


def _is_empty(bounds: Bounds) -> bool:
    return bounds.low is not None and bounds.high is not None and not exceeds(bounds.high, bounds.low)
