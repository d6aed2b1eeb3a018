"""Acid on the fibre.

The rule of this module: only what stays in the fibre counts, soak water and liquor alike; an unknown acid
(nan here) makes the section's acid unknown, and unknown is not none.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray = NDArray[np.float64]


def jar_acid_g_per_l(amounts_ml: FloatArray, acid_g_per_l: FloatArray) -> FloatArray:
    """Return the acid of each liquor, g/L.

    Parameters
    ----------
    amounts_ml
        (n, stocks) ml of each stock.
    acid_g_per_l
        (stocks,) acid of each stock; nan where unknown, which makes every liquor with any of it nan.

    >>> jar_acid_g_per_l(np.array([[30.0, 10.0]]), np.array([0.0, 10.0])).tolist()
    [2.5]
    """
    unknown = np.isnan(acid_g_per_l)
    total = amounts_ml.sum(axis=1)
    grams = amounts_ml @ np.where(unknown, 0.0, acid_g_per_l)
    jar = np.divide(grams, total, out=np.zeros_like(total), where=total > 0.0)
    return np.where((amounts_ml[:, unknown] > 0.0).any(axis=1), np.nan, jar)


def acid_pct_owf(
    applied_ml_per_g: ArrayLike, jar_g_per_l: ArrayLike, soak_ml_per_g: float, soak_acid_g_per_l: float
) -> FloatArray:
    """Return the acid on the fibre, g per 100 g dry fibre: ``applied * jar % + soak * soak water %`` (% w/v).

    nan in, nan out; a dry fibre (soak 0) brings no acid whatever its soak water was.

    >>> round(float(acid_pct_owf(1.5, 2.0, 1.0, 0.0)), 6)
    0.3
    """
    from_soak = soak_ml_per_g * soak_acid_g_per_l / 10.0 if soak_ml_per_g > 0.0 else 0.0
    return np.multiply(applied_ml_per_g, jar_g_per_l) / 10.0 + from_soak


def with_acid_line(
    amounts_ml: FloatArray,
    acid_g_per_l: FloatArray,
    let_down: NDArray[np.bool_],
    line: int,
    target_g_per_l: float,
) -> FloatArray:
    """Return `amounts_ml` with let-down replaced by stock `line` until each liquor holds `target_g_per_l`.

    At most all the let-down is replaced; a liquor that already has the acid is left alone. Row sums stay.

    Parameters
    ----------
    amounts_ml
        (n, stocks) ml; not changed.
    acid_g_per_l
        (stocks,) acid; nan (unknown) counts as none here.
    let_down
        (stocks,) which stocks may be replaced; `line` itself never is.

    >>> with_acid_line(np.array([[100.8, 25.2, 0.0]]), np.array([0.0, 0.0, 200.0]),
    ...                np.array([False, True, True]), 2, 10.0).round(6).tolist()
    [[100.8, 18.9, 6.3]]
    """
    acid = np.nan_to_num(acid_g_per_l)
    replaceable = let_down & (np.arange(len(acid)) != line)
    room_ml = amounts_ml[:, replaceable].sum(axis=1)
    present = amounts_ml @ acid
    replaced_acid = amounts_ml[:, replaceable] @ acid[replaceable]
    mean_acid = np.divide(replaced_acid, room_ml, out=np.zeros_like(room_ml), where=room_ml > 0.0)
    gain = acid[line] - mean_acid
    missing = target_g_per_l * amounts_ml.sum(axis=1) - present
    with np.errstate(over="ignore"):  # next to no gain would take more than there is, and is cut to the room
        swap_ml = np.divide(missing, gain, out=np.zeros_like(missing), where=gain > 0.0)
    swap_ml = np.clip(swap_ml, 0.0, room_ml)
    kept = 1.0 - np.divide(swap_ml, room_ml, out=np.zeros_like(room_ml), where=room_ml > 0.0)
    result = amounts_ml.copy()
    result[:, replaceable] *= kept[:, np.newaxis]
    result[:, line] += swap_ml
    return result
