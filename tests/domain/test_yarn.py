"""If these fail, a plan can hold a yarn that nobody can spin."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from studio_gui.domain.errors import InvalidPlan, Param
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.yarn import Knitting, Ply, Strip, Stripe, Yarn


@pytest.mark.parametrize(
    ("make", "code", "field"),
    [
        (lambda: Yarn(take_up=1.0), "out-of-range", "take_up"),
        (lambda: Yarn(singles_m_per_g=0.0), "out-of-range", "singles_m_per_g"),
        (lambda: Yarn(structure="knot"), "not-one-of", "structure"),  # type: ignore[arg-type]  # that is it
        (lambda: Yarn(splits=(1.0,)), "too-few", "splits"),
        (lambda: Yarn(splits=(1.0, 0.0)), "out-of-range", "split_weight"),
        (lambda: Yarn(strips=()), "too-few", "strips"),
        (lambda: Yarn(strips=(Strip(),) * 9), "too-many", "strips"),
        (lambda: Yarn(offsets_m=()), "too-few", "offsets_m"),
        (lambda: Yarn(offsets_m=(-1.0,)), "out-of-range", "offset_m"),
        (lambda: Yarn(structure="free"), "too-few", "plies"),
        (lambda: Yarn(stripes=(Stripe("a", 1.0),) * 501), "too-many", "stripes"),
        (lambda: Strip(0.0), "out-of-range", "strip_weight"),
        (lambda: Ply(roving=0), "out-of-range", "ply_roving"),
        (lambda: Ply(roving=1.5), "not-a-whole-number", "ply_roving"),  # type: ignore[arg-type]  # that is it
        (lambda: Ply(from_share=0.5, to_share=0.5), "ply-without-fibre", "from_share"),
        (lambda: Ply(cross_section=0.0), "out-of-range", "cross_section"),
        (lambda: Stripe("a", 0.0), "out-of-range", "stripe_amount"),
        (lambda: Stripe("", 1.0), "text-empty", "liquor_id"),
        (lambda: Stripe("a", 1.0, "stitches"), "not-one-of", "measure"),  # type: ignore[arg-type]  # that is it
        (lambda: Knitting(width_m=0.0), "out-of-range", "knitted_width_m"),
        (lambda: Knitting(row_m=0.0), "out-of-range", "row_m"),
    ],
)
def test_what_no_yarn_may_be_is_refused_with_its_field(
    make: Callable[[], object], code: str, field: Param
) -> None:
    with pytest.raises(InvalidPlan) as caught:
        make()
    assert (caught.value.code, caught.value.params["field"]) == (code, field)


def test_a_stripe_is_of_a_liquor_of_the_plan() -> None:
    plan = new_plan()
    striped = replace(plan, yarn=Yarn(stripes=(Stripe(plan.liquors[0].id, 4.0),)))
    assert striped.yarn.stripes[0].measure == "rows"
    with pytest.raises(InvalidPlan, match="unknown-liquor"):
        replace(plan, yarn=Yarn(stripes=(Stripe("nobody", 4.0),)))


def test_a_free_ply_comes_from_a_roving_of_the_set() -> None:
    plan = new_plan()
    assert replace(plan, yarn=Yarn(structure="free", plies=(Ply(),))).yarn.plies
    with pytest.raises(InvalidPlan, match="ply-from-no-roving"):
        replace(plan, yarn=Yarn(structure="free", plies=(Ply(), Ply(roving=2))))
    # plies kept for another day may wait for more rovings
    assert replace(plan, yarn=Yarn(structure="single", plies=(Ply(roving=2),))).yarn.plies


def test_a_row_takes_three_times_the_width_until_it_is_measured() -> None:
    assert Knitting(width_m=0.4).metres_a_row == pytest.approx(1.2)
    assert Knitting(width_m=0.4, row_m=0.9).metres_a_row == 0.9


def test_plies_share_the_thickness_of_a_roving_on_every_stretch() -> None:
    thirds = (Ply(cross_section=1.0 / 3.0),) * 3
    assert Yarn(structure="free", plies=thirds).plies == thirds
    apart = (Ply(), Ply(roving=2), Ply(roving=3, to_share=0.5), Ply(roving=3, from_share=1.0, to_share=0.5))
    assert Yarn(structure="free", plies=apart).plies == apart
    with pytest.raises(InvalidPlan) as caught:
        Yarn(structure="free", plies=(*thirds, Ply(from_share=0.9, cross_section=0.1)))
    assert caught.value.code == "plies-take-too-much"
    assert caught.value.params["taken_share"] == pytest.approx(1.1)
    assert Yarn(structure="chain", plies=(Ply(), Ply())).plies, "kept, while another structure is chosen"
