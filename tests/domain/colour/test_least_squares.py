"""If these fail, a dye is fitted to something else than its swatches."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.domain.colour.least_squares import least_squares
from studio_gui.domain.colour.spaces import Array


def test_a_bent_valley_is_followed_to_its_bottom() -> None:
    # Rosenbrock's function, least at (1, 1)
    def residuals(point: Array) -> tuple[Array, Array]:
        x, y = point
        return np.array([10.0 * (y - x * x), 1.0 - x]), np.array([[-20.0 * x, 10.0], [-1.0, 0.0]])

    assert least_squares(residuals, np.array([-1.2, 1.0])) == pytest.approx([1.0, 1.0], abs=1e-4)


def test_where_no_step_is_any_better_the_start_is_kept() -> None:
    # slopes that point the wrong way
    assert least_squares(lambda point: (point, -np.eye(1)), np.array([0.5])).tolist() == [0.5]
