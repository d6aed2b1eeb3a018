"""If these fail, a swatch shows another metre of the yarn than is knitted there."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.domain.edits.stripes import set_knitting
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.spinning.swatch import KnittedRows
from studio_gui.domain.worksheet import worksheet


def knitted(**knitting: object) -> KnittedRows:
    return KnittedRows(worksheet(set_knitting(new_plan(), **knitting)).yarn)


def test_rows_take_plied_metres() -> None:
    rows = knitted(width_m=0.4)
    assert rows.row_m == pytest.approx(1.2)
    assert rows.stitches == 80
    assert rows.rows == int(rows.yarn.plied_m / 1.2)
    kept = 1.0 - rows.yarn.take_up
    assert kept < 1.0, "else plied and laid metres are the same"
    assert rows.laid_m([0.0, 1.5]) == pytest.approx(np.array([0.0, 1.8 / kept]))


def test_nothing_lies_beyond_the_yarn() -> None:
    rows = knitted()
    assert float(rows.laid_m(1e6)) == rows.yarn.laid_m
    assert float(rows.laid_m(-1.0)) == 0.0
    assert rows.run_at(1e6) is None


def test_a_yarn_that_just_makes_its_rows_makes_them_all() -> None:
    plied_m = knitted().yarn.plied_m
    assert [knitted(row_m=plied_m / count).rows for count in range(5, 60)] == list(range(5, 60))


def test_the_narrowest_knitting_has_a_stitch() -> None:
    assert knitted(width_m=0.02).stitches == 4
    assert knitted(width_m=0.02, row_m=100.0).rows == int(knitted().yarn.plied_m / 100.0)


def test_the_stretches_of_the_yarn_fill_its_rows() -> None:
    rows = knitted()
    runs = rows.yarn.runs
    assert sum(rows.rows_of(run) for run in runs) == pytest.approx(rows.yarn.plied_m / rows.row_m)
    assert rows.run_at(0.0) is runs[0]
    assert rows.run_at(runs[-1].start_m / rows.row_m + 1e-6) is runs[-1]
