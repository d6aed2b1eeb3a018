"""Which doses a bench can measure: whole graduations of the bottles at hand, let down to a full jar.

The rule of this module: what is measured out is the jar, its spare share and dead volume with it, filled to a
whole graduation. A dose is deliverable where every bottle gives whole graduations and together they fit.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.colour.palette import doses_of_dyes
from studio_gui.domain.colour.spaces import Array

#: How many amounts of each dye are tried, by the number of dyes: a few hundred mixes at most.
_TRIED = (16, 16, 6, 4, 3, 3, 3, 2)
#: Graduations of the weakest bottle of a dye that are tried, from the one just below what is wanted.
_OFFSETS = np.array([0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0, 4.0])

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Measuring:
    """What can be measured for n jars from b bottles.

    Parameters
    ----------
    graduations
        Graduations that each jar holds, whole, shape (n,).
    doses_pct_owf
        Dose on the fibre, % owf, that one graduation of each bottle gives in each jar, above 0, shape (n, b).
    dye_of
        Which dye is in each bottle.
    dyes
        Number of dyes.
    """

    graduations: Array
    doses_pct_owf: Array
    dye_of: tuple[int, ...]
    dyes: int

    def doses(self, counts: Array) -> Array:
        """Return the dose of each dye, shape (n, ..., dyes), of graduations of each bottle, (n, ..., b).

        >>> measuring = Measuring(np.array([50.0]), np.array([[0.1, 0.01]]), (0, 0), 1)
        >>> measuring.doses(np.array([[3.0, 5.0]])).round(6).tolist()
        [[0.35]]
        """
        one = self.doses_pct_owf.reshape(len(self.graduations), *[1] * (counts.ndim - 2), len(self.dye_of))
        return doses_of_dyes(counts * one, self.dye_of, self.dyes)

    def fits(self, counts: Array) -> NDArray[np.bool_]:
        """Tell whether each jar holds graduations of the bottles, shape (n, ...) for (n, ..., b)."""
        total = counts.sum(axis=-1)
        fits: NDArray[np.bool_] = total <= self.graduations.reshape(-1, *[1] * (total.ndim - 1)) + _ROUNDING
        return fits

    def finest(self, dye: int) -> NDArray[np.intp]:
        """Return the bottle of a dye whose graduation is the finest in each jar, shape (n,)."""
        bottles = np.flatnonzero(np.array(self.dye_of) == dye)
        finest: NDArray[np.intp] = bottles[self.doses_pct_owf[:, bottles].argmin(axis=1)]
        return finest

    def least_graduations(self, doses_pct_owf: Array) -> Array:
        """Return the graduations that doses (n, dyes) need of the strongest bottle of each dye, (n,)."""
        need = np.zeros(len(self.graduations))
        for dye in range(self.dyes):
            bottles = [place for place, one in enumerate(self.dye_of) if one == dye]
            need += doses_pct_owf[:, dye] / self.doses_pct_owf[:, bottles].max(axis=1)
        return need


def counts_near(measuring: Measuring, wanted_pct_owf: Array) -> Array:
    """Return graduations of each bottle, shape (n, c, b), whose doses are near the wanted ones, (n, dyes).

    Those that do not fit into a jar are among them; the first is the nearest of each dye. A dye that no jar
    wants is left out.

    >>> measuring = Measuring(np.array([50.0]), np.array([[0.1]]), (0,), 1)
    >>> counts_near(measuring, np.array([[0.23]]))[0, :4, 0].tolist()
    [2.0, 3.0, 1.0, 4.0]
    """
    used = [dye for dye in range(measuring.dyes) if wanted_pct_owf[:, dye].any()]
    tried = _TRIED[min(len(used), len(_TRIED) - 1)]
    each = [_counts_of_dye(measuring, dye, wanted_pct_owf[:, dye], tried) for dye in used]
    if not each:
        return np.zeros((len(measuring.graduations), 1, len(measuring.dye_of)))
    places = np.indices([one.shape[1] for one in each]).reshape(len(each), -1)
    counts: Array = np.sum([one[:, place] for one, place in zip(each, places, strict=True)], axis=0)
    return counts


def _counts_of_dye(measuring: Measuring, dye: int, wanted: Array, tried: int) -> Array:
    """Return graduations, (n, at most `tried`, b), whose dose of one dye is nearest to `wanted`, (n,)."""
    bottles = np.array([place for place, one in enumerate(measuring.dye_of) if one == dye])
    order = bottles[np.argsort(-measuring.doses_pct_owf[0, bottles], kind="stable")]
    one = measuring.doses_pct_owf[:, order]
    some = _some_counts(wanted, one, _OFFSETS)
    away = np.abs((some * one[:, np.newaxis]).sum(axis=-1) - wanted[:, np.newaxis])
    total = some.sum(axis=-1)
    # of two ways to one dose, that of fewer graduations is nearer
    away += 1e-9 * one[:, -1:] * total
    cannot = (some < 0.0).any(axis=-1) | (total > measuring.graduations[:, np.newaxis] + _ROUNDING)
    away = np.where(cannot, np.inf, away)
    nearest = np.argsort(away, axis=1, kind="stable")[:, :tried]
    # the strongest bottle alone, not quite enough, is always among them: it fits in a jar that is nearly full
    nearest[:, -1] = 0
    counts = np.zeros((len(wanted), nearest.shape[1], len(measuring.dye_of)))
    counts[:, :, order] = np.maximum(np.take_along_axis(some, nearest[:, :, np.newaxis], axis=1), 0.0)
    return counts


def _some_counts(wanted: Array, one: Array, offsets: Array) -> Array:
    """Return graduations, (n, c, b), around a dose, (n,), of bottles, (n, b), strongest first.

    The strong bottle gives nearly all of it, or one graduation less; the weaker ones what is left.
    """
    below = np.floor(wanted / one[:, 0] + _ROUNDING)
    if one.shape[1] == 1:
        return (below[:, np.newaxis] + offsets)[:, :, np.newaxis]
    alone = np.zeros((len(wanted), 2, one.shape[1]))
    alone[:, :, 0] = below[:, np.newaxis] + np.array([0.0, 1.0])
    found = [alone]
    for strong in (below, below - 1.0):
        rest = _some_counts(np.maximum(wanted - strong * one[:, 0], 0.0), one[:, 1:], offsets)
        first = np.broadcast_to(strong[:, np.newaxis, np.newaxis], (*rest.shape[:2], 1))
        found.append(np.concatenate((first, rest), axis=2))
    return np.concatenate(found, axis=1)
