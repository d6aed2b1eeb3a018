"""Light that a fluorescent dye sends out on top of what it reflects.

The rule of this module: no model of absorption makes a sample brighter than its fibre, so what a fluorescent
dye's swatches show beyond its curve is kept as light of its own, and runs straight from one swatch's depth to
the next. Under other dyes it fades as they take up the light; how much is our guess, and is told as one.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from studio_gui.domain.colour.spaces import Array, read_only


@dataclass(frozen=True, slots=True, eq=False)
class Excess:
    """What is seen of a dye beyond its absorption.

    Parameters
    ----------
    depths_pct_owf
        Depths of the swatches, rising, from 0 (no dye, no excess), shape (m,).
    linear
        Linear sRGB light to add at each, below 0 where there is less than the curve says, shape (m, 3).
    """

    depths_pct_owf: Array
    linear: Array

    def at(self, depths_pct_owf: Array) -> Array:
        """Return the light to add, shape (n, 3), at depths in % owf, shape (n,); level beyond the deepest."""
        return np.stack(
            [np.interp(depths_pct_owf, self.depths_pct_owf, channel) for channel in self.linear.T], axis=1
        )


def excess_over(depths_pct_owf: Array, seen: Array, modelled: Array) -> Excess:
    """Return the `Excess` of swatches seen over what a curve gives, both linear light, shape (n, 3).

    Swatches of one depth count by their mean.

    >>> seen = np.array([[0.4] * 3, [0.6] * 3])
    >>> excess_over(np.array([1.0, 1.0]), seen, np.full((2, 3), 0.25)).linear[:, 0].tolist()
    [0.0, 0.25]
    """
    depths, place = np.unique(depths_pct_owf, return_inverse=True)
    light = np.zeros((depths.size, 3))
    np.add.at(light, place, seen - modelled)
    light /= np.bincount(place)[:, np.newaxis]
    return Excess(
        read_only(np.concatenate(([0.0], depths))), read_only(np.concatenate((np.zeros((1, 3)), light)))
    )
