"""If these fail, a chain-plied yarn is longer, shorter or cleaner than it will be: "Lantern Row"."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.edits.stripes import set_sections_from_stripes, set_stripes_from_sections
from studio_gui.domain.worksheet import worksheet
from tests.scenes.scene_plans import lantern_row


def test_singles_divide_by_three_and_then_take_up() -> None:
    yarn = worksheet(lantern_row()).yarn
    assert [run.length_m for run in yarn.strand_runs(0)] == pytest.approx([270.0, 180.0, 360.0, 270.0])
    assert [run.end_m - run.start_m for run in yarn.runs] == pytest.approx([84.6, 56.4, 112.8, 84.6])
    assert (yarn.laid_m, yarn.plied_m) == pytest.approx((360.0, 338.4))
    assert yarn.leftover_m == (0.0,)


def test_changes_smear_over_two_thirds_of_a_loop_on_average() -> None:
    yarn = worksheet(lantern_row()).yarn
    assert yarn.smear_m.tolist() == pytest.approx([0.4, 0.4, 0.4])
    assert yarn.smear_m.sum() == pytest.approx(1.2)
    assert yarn.smear_each_m == pytest.approx(0.4)
    assert yarn.smear_worst_m == pytest.approx(1.8)
    assert yarn.solid_share == pytest.approx(1.0 - 1.2 / 360.0)


def test_a_chain_of_one_colour_smears_nothing() -> None:
    plan = lantern_row()
    yarn = worksheet(replace(plan, sections=plan.sections[:1], boundaries=())).yarn
    assert (yarn.smear_each_m, yarn.smear_worst_m, yarn.barber_pole_m) == (0.0, 0.0, 0.0)
    assert yarn.share(yarn.plied_m) == 1.0


def test_three_thirds_by_eye_leave_singles_over() -> None:
    plan = lantern_row()
    thirds = replace(plan, yarn=replace(plan.yarn, structure="lengthwise", splits=(42.0, 39.0, 39.0)))
    yarn = worksheet(thirds).yarn
    assert [one.length_m for one in yarn.strands] == pytest.approx([378.0, 351.0, 351.0])
    assert yarn.leftover_m == pytest.approx((27.0, 0.0, 0.0))
    assert yarn.leftover_shares == pytest.approx((27.0 / 378.0, 0.0, 0.0))
    assert yarn.leftover_share == pytest.approx(0.071, abs=0.0005)


def test_the_rows_of_its_stripes_give_back_its_sections_and_their_weights() -> None:
    """1.5 m a row: 56.4 rows of A and so on; the metres of the yarn are found on the roving again."""
    plan = set_stripes_from_sections(lantern_row())
    assert [stripe.amount for stripe in plan.yarn.stripes] == pytest.approx([56.4, 37.6, 75.2, 56.4])
    laid = worksheet(plan).stripes
    assert laid.strand_g == pytest.approx((30.0, 20.0, 40.0, 30.0))
    assert laid.edges_m == pytest.approx((0.0, 1.2, 2.0, 3.6, 4.8))
    assert set_sections_from_stripes(plan).edges_m == pytest.approx(lantern_row().edges_m)
