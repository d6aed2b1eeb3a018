"""If these fail, what is told under the pointer is another place of the yarn than what is drawn there."""

from __future__ import annotations

import pytest

from studio_gui.drawing.knit.place import KnitPlace, runs_right, stitch_at

FLAT = KnitPlace(10, 4, 8, 6, 2)


@pytest.mark.parametrize(("row", "column", "fraction"), [(0, 9, 0.05), (1, 0, 0.05), (2, 0, 0.95)])
def test_the_yarn_runs_to_and_fro(row: int, column: int, fraction: float) -> None:
    x = FLAT.margin_x + (column + 0.5) * FLAT.stitch_width
    y = FLAT.margin_y + (FLAT.rows - row - 0.5) * FLAT.stitch_height
    place = stitch_at(FLAT, x, y)
    assert place is not None
    assert place == pytest.approx((row, fraction))


@pytest.mark.parametrize(("x", "y"), [(0.0, 20.0), (500.0, 20.0), (20.0, 0.0), (20.0, 500.0)])
def test_beside_the_swatch_there_is_no_yarn(x: float, y: float) -> None:
    assert stitch_at(FLAT, x, y) is None


def test_in_the_round_all_rows_run_left() -> None:
    assert not any(runs_right(KnitPlace(10, 4, 8, 6, 2, in_the_round=True), row) for row in range(4))
