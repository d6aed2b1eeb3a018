"""If these fail, stripes are laid too long or too short, or a roving is said to be enough that is not."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given

from studio_gui.domain.edits.inputs import fold_by_weight
from studio_gui.domain.edits.stripes import set_stripes_from_sections
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.stripes import pattern_of_sections, rows_of_sections, stripe_edges
from studio_gui.domain.spinning.yarn_map import yarn_map
from studio_gui.domain.yarn import Knitting, Ply, Strip, Stripe, StripeMeasure, Yarn
from tests.scenes.scene_plans import four_gates, lantern_row, two_shores
from tests.scenes.test_scene_2_two_shores import uneven
from tests.strategies import plans


def wanting(
    plan: Plan,
    *amounts: float,
    measure: StripeMeasure = "rows",
    **yarn: Any,  # noqa: ANN401  (fields of Yarn)
) -> Plan:
    """Want stripes of the plan's liquors in turn, in a knitting that takes 1 m a row."""
    liquors = [liquor.id for liquor in plan.liquors]
    stripes = tuple(
        Stripe(liquors[place % len(liquors)], amount, measure) for place, amount in enumerate(amounts)
    )
    changed = replace(plan.yarn, stripes=stripes, knitting=Knitting(row_m=1.0), **yarn)
    return replace(plan, yarn=changed)


def test_scene_8_the_metres_of_a_chain_give_back_its_sections() -> None:
    laid = stripe_edges(wanting(lantern_row(), 84.6, 56.4, 112.8, 84.6, measure="metres"))
    assert laid.strand_m == pytest.approx((270.0, 180.0, 360.0, 270.0))
    assert laid.strand_g == pytest.approx((30.0, 20.0, 40.0, 30.0))
    assert laid.edges_m == pytest.approx((0.0, 1.2, 2.0, 3.6, 4.8))
    assert laid.order == (0, 1, 2, 3)
    assert laid.fits
    assert laid.left_m == 0.0
    assert (laid.needed_g, laid.available_g) == pytest.approx((120.0, 120.0))


def test_scene_8_in_rows() -> None:
    rows = rows_of_sections(wanting(lantern_row(), 1.0))
    assert [one.rows for one in rows] == pytest.approx([84.6, 56.4, 112.8, 84.6])
    assert [one.yarn_m for one in rows] == pytest.approx([84.6, 56.4, 112.8, 84.6])


def test_scene_7_either_ply_of_a_fractal_can_have_the_stripes() -> None:
    whole = wanting(four_gates(*[Strip()] * 4), 118.75, 95.0, 142.5, 118.75)
    assert stripe_edges(whole).edges_m == pytest.approx((0.0, 1.0, 1.8, 3.0, 4.0))
    split = wanting(four_gates(*[Strip()] * 4), 29.6875, 23.75, 35.625, 29.6875, stripe_ply=2)
    laid = stripe_edges(split)
    assert laid.edges_m == pytest.approx((0.0, 1.0, 1.8, 3.0, 4.0))
    assert laid.strand_m == pytest.approx((31.25, 25.0, 37.5, 31.25))
    assert laid.strand_g == pytest.approx((3.125, 2.5, 3.75, 3.125))
    assert laid.needed_g == pytest.approx(100.0)
    assert laid.map.times == 4


def test_on_a_folded_lay_a_stripe_takes_the_full_density_of_one_leg() -> None:
    # 60 cm of 25 g/m are 15 g, 150 m of singles, 142.5 m of yarn
    laid = stripe_edges(wanting(two_shores(), 142.5, 95.0, structure="both ends"))
    assert laid.edges_m == pytest.approx((0.0, 0.6, 3.0))
    assert laid.marks_m == pytest.approx((0.6, 1.0))  # with where the last stripe would end
    assert (laid.needed_g, laid.available_g, laid.left_g) == pytest.approx((50.0, 150.0, 100.0))
    assert (laid.left_m, laid.left_rows) == pytest.approx((475.0, 475.0))


def test_a_single_takes_no_take_up_and_a_split_its_share() -> None:
    assert stripe_edges(wanting(lantern_row(), 270.0, 1.0, structure="single")).edges_m[1] == pytest.approx(
        1.2
    )
    thirds = wanting(lantern_row(), 84.6, 1.0, structure="lengthwise", splits=(1.0, 1.0, 1.0))
    assert stripe_edges(thirds).edges_m[1] == pytest.approx(1.2)


def test_a_roving_that_is_not_folded_has_the_stripes_on_both_halves() -> None:
    laid = stripe_edges(wanting(lantern_row(), 141.0, 141.0, 100.0, structure="both ends"))
    assert laid.order == (0, 1, 2, 1, 0)
    # 141 m are 150 m of a strand, 16.67 g, 66.67 cm at 25 g/m
    assert laid.edges_m == pytest.approx((0.0, 2 / 3, 4 / 3, 4.8 - 4 / 3, 4.8 - 2 / 3, 4.8))
    assert len(laid.marks_m) == 6
    assert laid.needed_g == pytest.approx(2.0 * 382.0 / 0.94 / 9.0)


def test_the_lay_of_a_mirrored_stripe_is_that_of_both_its_places() -> None:
    plan = set_yarn(lantern_row(), structure="both ends")
    laid = stripe_edges(set_stripes_from_sections(plan))
    assert sum(laid.lay_m) == pytest.approx(plan.lay_length_m)
    assert len(laid.order) > len(laid.lay_m)
    assert laid.lay_m[0] == pytest.approx(2.0 * (laid.edges_m[1] - laid.edges_m[0]))


def test_a_ply_from_the_far_end_has_its_first_stripe_there() -> None:
    plan = replace(lantern_row(), yarn=Yarn(structure="free", plies=(Ply(from_share=1.0, to_share=0.0),)))
    laid = stripe_edges(wanting(plan, 300.0, 900.0))
    assert laid.order == (1, 0)
    assert laid.edges_m == pytest.approx((0.0, 3.6, 4.8))
    assert [one.section_index for one in pattern_of_sections(plan)] == [3, 2, 1, 0]


def test_with_an_uneven_top_stripes_go_by_weight() -> None:
    yarn = Yarn(structure="broken at the fold", take_up=0.0)
    folded = wanting(replace(fold_by_weight(uneven()), yarn=yarn), 150.0, 600.0)
    assert stripe_edges(folded).edges_m == pytest.approx((0.0, 0.6, 3.0))  # 15 of 75 g: a fifth of each leg
    by_length = stripe_edges(wanting(replace(uneven(), yarn=yarn), 150.0, 100.0))
    assert by_length.edges_m[1] == pytest.approx(0.6)  # 15.6 g on one leg, 14.4 g on the other
    assert by_length.available_g == pytest.approx(144.0)  # 6 g are left on one bobbin


def test_what_does_not_fit_is_said_in_every_measure() -> None:
    laid = stripe_edges(wanting(two_shores(), 700.0, 110.0, 40.0, structure="both ends"))
    assert not laid.fits
    assert (laid.needed_m, laid.available_m, laid.left_m) == pytest.approx((850.0, 712.5, -137.5))
    assert laid.left_rows == pytest.approx(-137.5)
    assert laid.left_g == pytest.approx(150.0 - 850.0 / 712.5 * 150.0)
    assert laid.order == (0, 1)  # the third finds no room
    assert len(laid.edges_m) == 3


def test_stripes_that_were_rounded_when_typed_still_fit() -> None:
    laid = stripe_edges(wanting(two_shores(), 400.0, 313.0, structure="both ends"))
    assert laid.fits
    assert laid.left_m == 0.0
    assert laid.edges_m == pytest.approx((0.0, 3.0 * 400.0 / 713.0, 3.0))
    assert not stripe_edges(wanting(two_shores(), 400.0, 313.5, structure="both ends")).fits


def test_no_stripes_take_nothing() -> None:
    laid = stripe_edges(wanting(two_shores()))
    assert (laid.order, laid.edges_m, laid.marks_m) == ((), (0.0, 3.0), ())
    assert (laid.needed_g, laid.fits) == (0.0, True)


def test_where_there_is_no_yarn_nothing_fits() -> None:
    laid = stripe_edges(wanting(two_shores(), 5.0, structure="rovings", offsets_m=(10_000.0,)))
    assert not laid.fits
    assert (laid.order, laid.needed_g) == ((), 0.0)


@given(plans())
def test_edges_tile_the_lay_and_give_each_stripe_its_metres(plan: Plan) -> None:
    laid = stripe_edges(plan)
    assert list(laid.edges_m) == sorted(laid.edges_m)
    assert (laid.edges_m[0], laid.edges_m[-1]) == (0.0, plan.lay_length_m)
    assert len(laid.edges_m) == max(len(laid.order), 1) + 1
    if not laid.order:
        return
    metres = laid.map.yarn_before(laid.edges_m).tolist()
    lengths = dict(enumerate(b - a for a, b in pairwise(metres)))
    last = max(laid.order)
    for place, stripe in enumerate(laid.order):
        if stripe != last and laid.left_m != 0.0:
            assert lengths[place] == pytest.approx(laid.yarn_m[stripe], rel=1e-6, abs=1e-9 * metres[-1])


@given(plans())
def test_rows_of_all_sections_add_up_to_the_yarn(plan: Plan) -> None:
    rows, lay = rows_of_sections(plan), yarn_map(plan)
    assert sum(one.yarn_m for one in pattern_of_sections(plan)) == pytest.approx(
        lay.available_m, rel=1e-6, abs=1e-12
    )
    total_m = sum(one.yarn_m for one in rows)
    most_m = float(lay.before_m[-1])
    # the section over the middle of a mirrored lay has two places side by side
    assert total_m <= most_m + 1e-9
    if not lay.mirrored:
        assert total_m == pytest.approx(most_m)
    for one in rows:
        assert one.rows == pytest.approx(one.yarn_m / plan.yarn.knitting.metres_a_row)
