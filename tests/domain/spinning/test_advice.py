"""If these fail, a stripe that cannot stay clean is not told of, or a fade is, or bad advice is given."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given

from studio_gui.domain.fibre import Lay, MassMark, Roving
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.advice import (
    Offer,
    least_length_m,
    short_sections,
    short_stripes,
    structures_that_would_do,
)
from studio_gui.domain.spinning.stripes import stripe_edges
from studio_gui.domain.spinning.yarn_map import yarn_map
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import Knitting, Ply, Strip, Stripe, Yarn
from tests.scenes.scene_plans import banded, by_parts, dye, laid, let_down
from tests.strategies import plans

SINGLE = Yarn(structure="single", staple_m=0.10)


def banded_so(*lengths: float, letters: str = "ABCD", yarn: Yarn = SINGLE) -> Plan:
    bands = [(letters[place % len(letters)], length) for place, length in enumerate(lengths)]
    return banded(bands, 100.0, yarn)


def short(plan: Plan) -> dict[int, float]:
    return short_sections(section_figures(plan))


def numbers(offer: Offer) -> tuple[float, float, float]:
    return offer.length_m, offer.needed_g, offer.available_g


def fade(*parts: float) -> Plan:
    """One dye, ever more of it."""
    steps = [by_parts(f"L{place}", {"D": part, "AW": 20.0 - part}) for place, part in enumerate(parts)]
    return replace(laid([(step.id, 0.1) for step in steps], [dye("D"), let_down("AW")], steps), yarn=SINGLE)


def test_a_stripe_shorter_than_one_and_a_half_staples_smears() -> None:
    assert short(banded_so(1.0, 0.14, 1.0)) == pytest.approx({1: 0.14})
    assert short(banded_so(1.0, 0.15, 1.0)) == {}  # the limit hit exactly is inside it
    assert least_length_m(SINGLE) == pytest.approx(0.15)


def test_the_ends_have_one_neighbour_only() -> None:
    assert short(banded_so(0.1, 1.0, 0.1)) == {}


def test_a_step_of_a_fade_is_no_stripe() -> None:
    assert short(fade(1.0, 6.0, 18.0)) == {}
    assert short(fade(1.0, 18.0, 1.1)) == pytest.approx({1: 0.1})


def test_plain_colours_one_beside_the_other_are_no_fade() -> None:
    """Orange is between purple and yellow, yet nobody painted a fade."""
    stocks = [dye("P", srgb="#6b4f78"), dye("O", srgb="#d6733f"), dye("Y", srgb="#f0d585"), let_down("AW")]
    liquors = [by_parts(f"L{stock.id}", {stock.id: 10.0, "AW": 2.0}) for stock in stocks[:3]]
    plan = replace(laid([(liquor.id, 0.1) for liquor in liquors], stocks, liquors), yarn=SINGLE)
    assert short(plan) == pytest.approx({1: 0.1})


def test_neighbours_that_look_nearly_alike_do_not_matter() -> None:
    assert short(fade(6.0, 7.0, 6.2)) == {}


def test_neighbours_of_one_liquor_are_one_stretch() -> None:
    assert short(banded_so(1.0, 0.09, 0.09, 1.0, letters="ABBC")) == {}
    both = short(banded_so(1.0, 0.06, 0.06, 1.0, letters="ABBA"))
    assert both == pytest.approx({1: 0.12, 2: 0.12})


def test_over_a_fold_a_section_is_as_long_as_both_its_legs() -> None:
    plan = banded_so(1.0, 0.5, 0.1)
    folded = replace(plan, fibre=replace(plan.fibre, length_m=3.2), lay=Lay((1.6,)))
    assert short(folded) == {}
    tight = replace(folded, yarn=replace(SINGLE, staple_m=0.2))
    assert short(tight) == pytest.approx({2: 0.2})


def test_the_thinnest_of_the_rovings_that_were_weighed_counts() -> None:
    plan = banded_so(1.0, 0.16, 1.0)
    # eased by weight: where this roving is thick, the section is shorter on it
    thick = Roving(100.0, (MassMark(0.4, 0.3), MassMark(0.6, 0.7)))
    fibre = replace(plan.fibre, rovings=2, measured=(Roving(100.0), thick))
    eased = replace(plan, fibre=fibre, lay=Lay((), matching="by weight"))
    assert short(eased) == pytest.approx({1: 0.16 * 0.2 / 0.4}, rel=0.2)
    assert short(replace(eased, fibre=replace(plan.fibre, rovings=2))) == {}


def test_wanted_stripes_are_judged_before_they_are_set() -> None:
    yarn = replace(SINGLE, singles_m_per_g=10.0, knitting=Knitting(row_m=1.0))
    plan = banded_so(1.0, 1.0, 1.0, 1.0, yarn=yarn)  # 25 g/m: 250 m a metre of roving
    stripes = (Stripe("A", 200.0), Stripe("B", 30.0), Stripe("C", 200.0))
    wanted = replace(plan, yarn=replace(yarn, stripes=stripes))
    colours = worksheet(wanted).liquor_colours
    assert short_stripes(stripe_edges(wanted), colours) == pytest.approx({1: 0.12})
    mirrored = replace(wanted, yarn=replace(wanted.yarn, structure="both ends", take_up=0.0))
    assert short_stripes(stripe_edges(mirrored), colours) == pytest.approx({1: 0.12})
    assert short_stripes(stripe_edges(plan), colours) == {}


def test_other_structures_with_their_numbers() -> None:
    plan = banded_so(1.0, 0.1, 1.0, 1.9, yarn=replace(SINGLE, take_up=0.05))
    two, fractal, three, chain = structures_that_would_do(plan, 0.1)
    # a chain needs three times the length on the roving, and what take-up takes
    assert numbers(chain) == pytest.approx((0.1 * 3.0 / 0.95, 300.0 / 0.95, 100.0))
    assert numbers(two) == pytest.approx((0.1 * 2.0 / 0.95, 200.0 / 0.95, 100.0))
    assert (chain.structure, two.structure, fractal.structure) == ("chain", "lengthwise", "fractal")
    assert numbers(fractal) == pytest.approx(numbers(two))
    assert (three.structure, three.plies) == ("lengthwise", 3)
    assert three.length_m == pytest.approx(chain.length_m)


def test_a_structure_that_would_not_do_is_not_offered_nor_the_one_there_is() -> None:
    chain = banded_so(1.0, 0.1, 1.0, yarn=Yarn(structure="chain", take_up=0.0))
    assert structures_that_would_do(chain, 0.1) == ()  # all others take less roving, or as much
    single = banded_so(1.0, 0.1, 1.0, yarn=replace(SINGLE, take_up=0.0))
    assert [offer.plies for offer in structures_that_would_do(single, 0.06)] == [3, 3]
    for structure in ("both ends", "broken at the fold"):
        plied = replace(single, yarn=replace(single.yarn, structure=structure))
        offered = [offer.structure for offer in structures_that_would_do(plied, 0.2)]
        assert "both ends" not in offered


def test_stripes_that_take_a_part_of_the_yarn_need_a_part_of_the_roving() -> None:
    plan = banded_so(1.0, 0.1, 1.0, 1.9, yarn=replace(SINGLE, take_up=0.0))
    chain = structures_that_would_do(plan, 0.1, wanted_m=250.0)[-1]
    assert chain.needed_g == pytest.approx(75.0)


@pytest.mark.parametrize(
    ("yarn", "share"),
    [
        (Yarn(structure="fractal", splits=(1.0, 3.0), take_up=0.0), 0.25),
        (
            Yarn(structure="fractal", splits=(1.0, 3.0), strips=(Strip(),) * 3, stripe_ply=2, take_up=0.0),
            0.25,
        ),
        (
            Yarn(
                structure="free",
                plies=(Ply(cross_section=0.5, strips=(Strip(1.0), Strip(4.0))),),
                take_up=0.0,
            ),
            0.1,
        ),
        (Yarn(structure="lengthwise", splits=(1.0,) * 4, take_up=0.0), 0.25),
    ],
)
def test_what_a_strand_has_of_the_thickness(yarn: Yarn, share: float) -> None:
    plan = banded_so(1.0, 0.1, 1.0, yarn=replace(yarn, staple_m=0.01))
    plied = structures_that_would_do(plan, 1.0)[0]
    assert plied.structure == "both ends"
    assert plied.length_m == pytest.approx(share)


@given(plans())
def test_any_plan_can_be_advised(plan: Plan) -> None:
    found = short(plan)
    assert all(0.0 < length_m < least_length_m(plan.yarn) for length_m in found.values())
    for offer in structures_that_would_do(plan, min(found.values(), default=0.1)):
        assert offer.length_m >= least_length_m(plan.yarn) * (1.0 - 1e-9)
        assert offer.available_g > 0.0
    laid = stripe_edges(plan)
    stripes = short_stripes(laid, worksheet(plan).liquor_colours)
    assert set(stripes) <= set(laid.order)
    assert yarn_map(plan).available_m >= 0.0
