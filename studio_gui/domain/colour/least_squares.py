"""The point where the sum of squared residuals is least.

The rule of this module: it knows numbers only, and always returns a point that is no worse than the start.

Method: K. Levenberg, "A Method for the Solution of Certain Non-Linear Problems in Least Squares",
Quarterly of Applied Mathematics 2, 1944; D. W. Marquardt, "An Algorithm for Least-Squares Estimation of
Nonlinear Parameters", Journal of the Society for Industrial and Applied Mathematics 11, 1963.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

import numpy as np

from studio_gui.domain.colour.spaces import Array

_LARGEST_STEP = 3.0
#: Steps after which a fit from nowhere has settled, or never will.
MOST_STEPS = 60
_FIRST_DAMPING = 1e-3
_LEAST_DAMPING = 1e-7
_HOPELESS_DAMPING = 1e9
_SETTLED_SHARE = 1e-7
_SETTLED_COST = 1e-9

#: Residuals (m,) at a point (p,) and their derivatives (m, p).
Residuals: TypeAlias = Callable[[Array], tuple[Array, Array]]


def least_squares(residuals: Residuals, start: Array, most_steps: int = MOST_STEPS) -> Array:
    """Return the point, shape (p,), near `start` where the sum of squared residuals is least.

    >>> least_squares(lambda point: (point - 2.0, np.eye(1)), np.zeros(1)).round(6).tolist()
    [2.0]
    """
    point, damping = start, _FIRST_DAMPING
    errors, slopes = residuals(point)
    cost = float(errors @ errors)
    for _ in range(most_steps):
        curvature = slopes.T @ slopes
        damped = curvature + damping * np.diag(np.diag(curvature))
        step = np.clip(-np.linalg.solve(damped, slopes.T @ errors), -_LARGEST_STEP, _LARGEST_STEP)
        new_errors, new_slopes = residuals(point + step)
        new_cost = float(new_errors @ new_errors)
        if new_cost < cost:
            settled = cost - new_cost <= _SETTLED_SHARE * cost + _SETTLED_COST
            point, errors, slopes, cost = point + step, new_errors, new_slopes, new_cost
            damping = max(damping / 10.0, _LEAST_DAMPING)
            if settled:
                break
        else:
            damping *= 5.0
            if damping > _HOPELESS_DAMPING:
                break
    return point
