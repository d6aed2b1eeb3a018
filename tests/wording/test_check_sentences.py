"""If these fail, a check or a mend says something else than what was found, or to the wrong sections."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.errors import InvalidPlan, Param
from studio_gui.domain.fibre import Fibre, Lay, MassMark, Roving
from studio_gui.domain.liquors import DyeDepth, Liquor, Part
from studio_gui.domain.plan import AcidLine, Liquid, Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.stocks import Stock
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import Structure, Yarn
from studio_gui.wording.check_sentences import CHECK_WORDS
from studio_gui.wording.mend_sentences import MEND_WORDS
from studio_gui.wording.numbers import UNKNOWN
from studio_gui.wording.sentences import (
    check_reason,
    check_text,
    check_title,
    mend_cost,
    mend_label,
    refusal,
)
from studio_gui.wording.translation import ENGLISH, UNITS, Tongue
from tests.scenes.scene_plans import banded, lantern_row, straight, two_shores
from tests.strategies import plans

SWATCHES = (Swatch(1.0, "#1f5580", "#f3eee2"),)


def dye(stock_id: str, name: str, strength_g_per_l: float = 10.0, acid_g_per_l: float | None = 0.0) -> Stock:
    return Stock(stock_id, name, "dye", strength_g_per_l, acid_g_per_l=acid_g_per_l, swatches=SWATCHES)


BLUE, RED = dye("k1", "Sea blue"), dye("k2", "Rosehip red")
ACID_WATER = Stock("k3", "Acid water", "let-down", acid_g_per_l=10.0)
WATER = Stock("k4", "Plain water", "let-down", acid_g_per_l=0.0)
CITRIC = Stock("k5", "Citric stock", "let-down", acid_g_per_l=200.0)


def parts(liquor_id: str, letter: str, name: str, **ml: float) -> Liquor:
    return Liquor(liquor_id, letter, name, parts=tuple(Part(stock_id, part) for stock_id, part in ml.items()))


def depth(liquor_id: str, letter: str, name: str, let_down_id: str, **pct: float) -> Liquor:
    depths = tuple(DyeDepth(stock_id, one) for stock_id, one in pct.items())
    return Liquor(liquor_id, letter, name, "depth", (Part(let_down_id, 1.0),), depths)


def lay(*sections: tuple[float, Section], stocks: tuple[Stock, ...], liquors: tuple[Liquor, ...]) -> Plan:
    """A plan whose sections have the lengths given, at 25 g/m."""
    ends = [sum(length for length, _ in sections[: index + 1]) for index in range(len(sections))]
    return Plan(
        title="",
        fibre=Fibre(25.0 * ends[-1], ends[-1]),
        lay=Lay(),
        stocks=stocks,
        liquors=liquors,
        sections=tuple(section for _, section in sections),
        boundaries=tuple(Boundary(end) for end in ends[:-1]),
        liquid=Liquid(1.4, 1.0, 3.0, 1.2),
    )


def said(plan: Plan, code: str, tongue: Tongue = ENGLISH) -> list[tuple[str, str]]:
    """Title and reason of every check of a code, and before them the label and cost of each of its mends."""
    found = [check for check in worksheet(plan).checks if check.code == code]
    lines = []
    for check in found:
        lines += [(mend_label(mend, plan, tongue), mend_cost(mend, plan, tongue)) for mend in check.mends]
        lines.append((check_title(check, plan, tongue), check_reason(check, plan, tongue)))
    return lines


THREE = (
    parts("q1", "B", "Shell", k1=10, k3=10),
    parts("q2", "C", "Kelp", k1=60, k3=30),
    parts("q3", "D", "Marram", k1=10, k3=10),
)
KELP_FREE = lay(
    (1.0, Section("s1", "Shell", "q1")),
    (1.6, Section("s2", "Kelp", "q2", fixed_ml=90.0)),
    (1.0, Section("s3", "Marram", "q3")),
    stocks=(replace(BLUE, acid_g_per_l=10.0), ACID_WATER),
    liquors=THREE,
)


def test_free_liquid_is_said_with_where_it_goes_and_every_way_out() -> None:
    assert said(KELP_FREE, "over") == [
        ("Spin out to 0.75 ml/g", "a drier soak for the whole set; nothing to mix anew"),
        ("Paint 80 ml", "the same dye, so a jar of 0.75 %; 20 ml of it let-down"),
        ("Paint in two passes", "80 ml now; heat, cool, press out 10 ml, then paint the other 10 ml"),
        ("Plan a wipe", "wiping out 10 ml takes 7.7 % of the dye: depth falls from 1.50 % to 1.38 %"),
        ("C Kelp: 10 ml over the brim", "It will creep into B and D, and dye them up to 0.09 % deep."),
    ]


def test_ink_well_wipes_at_the_cost_that_was_worked_by_hand() -> None:
    """22.5 g, 45 ml at 0.70 %, soak 1.1, holding 2.5: 13.5 ml free, and a wipe takes 19.35 % of the dye."""
    plan = lay(
        (0.9, Section("s1", "Ink", "q1", fixed_ml=45.0)),
        stocks=(BLUE, WATER),
        liquors=(parts("q1", "A", "Ink", k1=70, k4=30),),
    )
    plan = replace(plan, liquid=Liquid(2.0, 1.1, 2.5, 1.0))
    assert said(plan, "over") == [
        ("Spin out to 0.5 ml/g", "a drier soak for the whole set; nothing to mix anew"),
        ("Paint 31.5 ml", "the same dye, so a jar of 1 %: neat stock, no room for acid or water"),
        ("Paint in two passes", "31.5 ml now; heat, cool, press out 13.5 ml, then paint the other 13.5 ml"),
        ("Plan a wipe", "wiping out 13.5 ml takes 19.4 % of the dye: depth falls from 1.40 % to 1.13 %"),
        ("A Ink: 13.5 ml over the brim", "It will pool under the roving."),
    ]
    wiped = replace(plan, sections=(replace(plan.sections[0], wiped_ml=13.5),))
    assert said(wiped, "over") == [
        ("A Ink: 13.5 ml over the brim, to be wiped out", "The planned wipe of 13.5 ml takes it.")
    ]


def test_less_of_stocks_that_are_too_weak_is_advice_with_its_strength() -> None:
    plan = replace(KELP_FREE, liquors=(THREE[0], parts("q2", "C", "Kelp", k1=60), THREE[2]))
    assert ("Paint 80 ml from stronger stocks", (
        "the same dye takes a jar of 1.13 %: stocks 1.13 times as strong, or stronger"
    )) in said(plan, "over")  # fmt: skip


def test_less_in_one_of_two_sections_of_a_liquor_is_a_jar_of_its_own() -> None:
    sections = (replace(KELP_FREE.sections[0], liquor_id="q2"), *KELP_FREE.sections[1:])
    assert ("Paint 80 ml", "the same dye, so a jar of 0.75 % of its own") in said(
        replace(KELP_FREE, sections=sections), "over"
    )


def test_free_liquid_without_dye_says_only_where_it_goes() -> None:
    plan = replace(KELP_FREE, liquors=(THREE[0], parts("q2", "C", "Kelp", k3=30), THREE[2]))
    assert said(plan, "over")[-1] == ("C Kelp: 10 ml over the brim", "It will creep into B and D.")


def test_a_dry_core_is_said_with_what_wets_it() -> None:
    plan = lay(
        (0.8, Section("s1", "Shell", "q1", fixed_ml=18.0)),
        (0.8, Section("s2", "Kelp", "q2")),
        stocks=(BLUE, ACID_WATER),
        liquors=(THREE[0], depth("q2", "C", "Kelp", "k3", k1=0.5)),
    )
    plan = replace(plan, liquid=replace(plan.liquid, uptake_ml_per_g=1.0))
    assert said(plan, "under") == [
        ("Raise to 24 ml", "liquid fixed for this section; depth rises from 0.45 % to 0.60 %"),
        ("B Shell: core may stay white", "0.9 ml/g; the core wets at 1.2 ml/g."),
        ("Raise uptake to 1.2 ml/g", "for every section that follows the fibre; here depth stays 0.50 %"),
        ("Raise to 24 ml", "liquid fixed for this section; depth stays 0.50 %"),
        ("C Kelp: core may stay white", "1 ml/g; the core wets at 1.2 ml/g."),
    ]
    tight = replace(plan, liquid=replace(plan.liquid, limit_ml_per_g=2.1))
    assert said(tight, "under")[0] == (
        "B Shell: core may stay white",
        "0.9 ml/g; the core wets at 1.2 ml/g, which on this soak is over the brim."
        " Spin out drier, or measure both limits again.",
    )


def test_a_shade_out_of_reach_says_which_of_liquid_depth_and_stock_to_change() -> None:
    plan = lay(
        (1.0, Section("s1", "Ink", "q1", fixed_ml=37.5)),
        (1.0, Section("s2", "Ink", "q1", fixed_ml=75.0)),
        stocks=(BLUE, ACID_WATER),
        liquors=(depth("q1", "A", "Ink", "k3", k1=3.0),),
    )
    first = said(plan, "depth-out-of-reach")
    assert first == [
        ("Raise to 75 ml", "liquid fixed for this section; neat stock, with no room for acid or water"),
        ("Settle for 50 % of the depth", "paler, and still neat stock; the section gets a liquor of its own"),
        ("Mix Sea blue at 2 % or stronger", (
            "depth and liquid stay; at exactly that strength the jar is neat stock"
        )),
        ("A Ink (section 1): shade out of reach", (
            "It takes 75 ml of stock, and 37.5 ml is painted: 50 % of the depth."
        )),
    ]  # fmt: skip
    assert said(plan, "no-room-for-let-down") == [
        ("A Ink (section 2): neat stock, no room for acid or water", (
            "75 ml of its 75 ml is stock. Mix a stronger stock, or paint more."
        )),
    ]  # fmt: skip


def test_a_section_alone_with_its_liquor_settles_without_a_copy() -> None:
    plan = lay(
        (1.0, Section("s1", "Ink", "q1", fixed_ml=37.5)),
        stocks=(BLUE, ACID_WATER),
        liquors=(depth("q1", "A", "Ink", "k3", k1=3.0),),
    )
    assert said(plan, "depth-out-of-reach")[1] == (
        "Settle for 50 % of the depth",
        "paler, and still neat stock, with no room for acid or water",
    )


HARBOUR = lay(
    (0.8, Section("s1", "Slate", "q1")),
    (1.2, Section("s2", "Moss", "q2")),
    (0.4, Section("s3", "Straw", "q3")),
    stocks=(BLUE, RED, ACID_WATER, CITRIC),
    liquors=(
        parts("q1", "A", "Slate", k1=80, k3=20),
        parts("q2", "B", "Moss", k1=20, k2=40, k3=40),
        parts("q3", "C", "Straw", k2=20, k3=80),
    ),
)


def test_acid_that_differs_is_said_between_the_two_that_differ_most() -> None:
    assert said(HARBOUR, "acid-uneven") == [
        ("Same acid in every jar", "mix 10 g/L into every bottle, dyes too"),
        ("Acid as its own line", "Citric stock replaces let-down until every jar has 10 g/L"),
        ("Acid differs 4 times, A to C", "0.28 % on A, 1.12 % on C: the dye will strike unevenly."),
    ]
    assert said(HARBOUR, "acid-too-low") == [
        ("7.1 g/L acid in every jar", "mix 7.1 g/L into every bottle, dyes too"),
        ("Too little acid on A Slate and B Moss", (
            "0.28 % at the lowest, 1.00 % wanted: dye may stay in the rinse."
        )),
    ]  # fmt: skip


def test_wetness_that_keeps_acid_uneven_is_said_with_the_mend() -> None:
    sections = (replace(HARBOUR.sections[0], fixed_ml=40.0), *HARBOUR.sections[1:])
    assert said(replace(HARBOUR, sections=sections), "acid-uneven")[:2] == [
        ("Same acid in every jar", (
            "mix 10 g/L into every bottle; the acid will still differ 1.43 times, as the ml/g do"
        )),
        ("Acid as its own line", (
            "Citric stock replaces let-down until every jar has 10 g/L;"
            " the acid will still differ 1.43 times, as the ml/g do"
        )),
    ]  # fmt: skip


def test_jars_alike_are_not_to_blame_for_uneven_acid() -> None:
    stocks = tuple(replace(stock, acid_g_per_l=10.0) for stock in HARBOUR.stocks)
    sections = (replace(HARBOUR.sections[0], fixed_ml=40.0), *HARBOUR.sections[1:])
    assert said(replace(HARBOUR, stocks=stocks, sections=sections), "acid-uneven")[0] == (
        "Even out the liquid",
        "every jar has the same acid already; it is the ml/g that differ 1.43 times",
    )


def test_two_sections_of_one_liquor_are_told_apart_by_name() -> None:
    sections = (replace(HARBOUR.sections[0], fixed_ml=40.0), replace(HARBOUR.sections[1], liquor_id="q1"))
    plan = replace(HARBOUR, sections=(*sections, replace(HARBOUR.sections[2], liquor_id="q1")))
    assert said(plan, "acid-uneven")[-1] == (
        "Acid differs 1.43 times, A Moss to A Slate",
        "0.28 % on A Moss, 0.40 % on A Slate: the dye will strike unevenly.",
    )


def test_no_acid_at_all_has_no_ratio() -> None:
    liquors = (parts("q1", "A", "Slate", k1=80), *HARBOUR.liquors[1:])
    assert said(replace(HARBOUR, liquors=liquors), "acid-uneven")[-1] == (
        "No acid on A, 1.12 % on C",
        "The dye will strike unevenly.",
    )


def test_unknown_acid_is_said_once_and_not_as_none() -> None:
    stocks = (replace(BLUE, acid_g_per_l=None), *HARBOUR.stocks[1:])
    plan = replace(HARBOUR, stocks=stocks)
    assert said(plan, "acid-unknown") == [
        ("Same as acid water", "every bottle whose acid is not known counts as 10 g/L, as Acid water does"),
        ("Sea blue: acid not known", "The acid on A and B cannot be reckoned."),
    ]
    soaked = replace(plan, liquid=replace(plan.liquid, soak_acid_g_per_l=None))
    assert said(soaked, "acid-unknown")[-1] == (
        "Sea blue and the soak water: acid not known",
        "The acid on A, B and C cannot be reckoned. Enter it; 0 where there is none.",
    )
    only_soak = replace(HARBOUR, liquid=soaked.liquid)
    assert said(only_soak, "acid-unknown") == [
        ("Soak water: acid not known", (
            "The acid on A, B and C cannot be reckoned. Enter it; 0 where there is none."
        )),
    ]  # fmt: skip


def test_an_acid_line_without_room_says_how_far_it_comes() -> None:
    plan = replace(HARBOUR, acid_line=AcidLine("k5", 50.0))
    assert said(plan, "acid-line-short") == [
        ("No room for the acid in A Slate", (
            "50 g/L is wanted in every jar; with so little let-down to replace it comes to 40 g/L."
            " Use a stronger acid stock, or stronger dye stocks."
        )),
    ]  # fmt: skip


def test_many_sections_are_named_by_the_first_and_the_number_of_the_others() -> None:
    five = [(0.03, Section(f"s{number}", f"Step {number}", "q1")) for number in range(1, 6)]
    plan = lay(*five, stocks=(BLUE, ACID_WATER), liquors=(THREE[0],))
    plan = replace(plan, fibre=Fibre(10.0, 0.15))
    assert said(plan, "section-short") == [
        ("Too short to keep a clear colour: B Step 1, B Step 2, B Step 3 and 2 more", (
            "3 cm at the shortest; under 4 cm both edges wick together."
            " Make it longer, or paint drier and enter the narrower wicking width."
        )),
    ]  # fmt: skip


def test_what_is_untidy_is_named_and_can_be_taken_away() -> None:
    plan = lay(
        (1.0, Section("s1", "Shell", "q1")),
        (1.0, Section("s2", "Bare", "q2")),
        stocks=(replace(BLUE, strength_known="spoon", take_up_pct_owf=0.5), ACID_WATER, WATER, CITRIC),
        liquors=(THREE[0], parts("q2", "C", "Bare", k4=0.0), parts("q3", "D", "", k1=1)),
    )
    assert said(plan, "stock-unused") == [
        ("Plain water: not used", "It is in a liquor, but no section takes any of it."),
        ("Take Citric stock off the shelf", "nothing else changes"),
        ("Citric stock: not used", "No liquor has any of it."),
    ]
    assert said(plan, "liquor-unused") == [
        ("Remove liquor D", "nothing else changes"),
        ("Liquor D: not painted anywhere", "No section uses it."),
    ]
    assert said(plan, "liquor-empty") == [
        ("Liquor C Bare: nothing in it", "C Bare will stay undyed. Enter amounts, such as 12 + 38."),
    ]
    assert said(plan, "strength-by-spoon") == [
        ("Sea blue: measured by spoon", (
            "Level spoons differ by a tenth or more, and the depth with them. Weigh the dye to be sure."
        )),
    ]  # fmt: skip
    assert said(plan, "depth-over-take-up") == [
        ("Sea blue: deeper than the wool takes up", (
            "0.70 % on B, the wool takes 0.50 %: the rinse will not run clear."
        )),
    ]  # fmt: skip


def test_one_liquor_at_two_wetnesses_is_said_as_two_jars() -> None:
    plan = lay(
        (1.0, Section("s1", "Shell", "q1")),
        (1.0, Section("s2", "", "q1", fixed_ml=40.0)),
        stocks=(BLUE, ACID_WATER),
        liquors=(depth("q1", "A", "Sea", "k3", k1=0.5),),
    )
    assert said(plan, "two-jars") == [
        ("Liquor A Sea: 2 jars", (
            "One depth at different ml/g takes a jar for each."
            " Give A Shell and A the same ml/g to mix it once."
        )),
    ]  # fmt: skip


def test_a_crushed_section_is_said_to_be_too_short_and_can_be_taken_out() -> None:
    plan = lay(
        (1.0, Section("s1", "Shell", "q1")),
        (0.001, Section("s2", "Hair", "q1", fixed_ml=60.0)),
        stocks=(BLUE, ACID_WATER),
        liquors=(parts("q1", "A", "Sea", k1=10, k3=10),),
    )
    assert said(plan, "section-unpaintable") == [
        ("Take it out", "the section beside it grows into its place"),
        ("A Hair: too short to paint", (
            "0.1 cm long; under 1 cm what a gram of it gets means nothing. Make it longer, or take it out."
        )),
    ]  # fmt: skip


def test_figures_past_all_measure_are_said_as_more_than_a_hundred() -> None:
    uneven: dict[str, Param] = {"ratio": 1234.5, "lowest_id": "s1", "highest_id": "s2"}
    uneven |= {"lowest_pct_owf": 0.5, "highest_pct_owf": 617.25}
    check = Check("acid-uneven", "warning", ("s1", "s2"), uneven)
    assert check_title(check, KELP_FREE, ENGLISH) == "Acid differs more than 100 times, B to C"
    assert "more than 100 % on C" in check_reason(check, KELP_FREE, ENGLISH)
    exactly = replace(check, params={**uneven, "ratio": 100.0})
    assert check_title(exactly, KELP_FREE, ENGLISH) == "Acid differs 100 times, B to C"


def test_a_refused_figure_is_said_as_it_was_typed() -> None:
    error = InvalidPlan("out-of-range", field="depth_pct_owf", value=250.0, low=0.0, high=100.0)
    assert (
        refusal(error, tongue=ENGLISH)
        == "Depth of shade: 250.00 % is not possible. Enter 0.00 % to 100.00 %."
    )


def test_exports_get_all_of_it_in_one_english_line() -> None:
    (check,) = [check for check in worksheet(KELP_FREE).checks if check.code == "over"]
    assert check_text(check, KELP_FREE) == (
        "C Kelp: 10 ml over the brim. It will creep into B and D, and dye them up to 0.09 % deep."
        " To mend: Spin out to 0.75 ml/g; Paint 80 ml; Paint in two passes; Plan a wipe."
    )
    note = Check("stock-unused", "note", (), {"stock_id": "k1"})
    assert check_text(note, KELP_FREE) == (
        "Sea blue: not used. It is in a liquor, but no section takes any of it."
    )


def test_other_units_are_said_where_they_are_asked_for() -> None:
    assert said(KELP_FREE, "over", Tongue("mixed", is_english=True))[0][0] == "Spin out to 21.3 ml/oz"
    assert (
        said(KELP_FREE, "over", Tongue("us", is_english=True))[-1][0] == "C Kelp: 0.34 US fl oz over the brim"
    )


def test_singles_left_over_are_said_in_metres_grams_and_as_a_share() -> None:
    """Thirds by eye of 42, 39 and 39 g at 9 m/g: 27 m of singles too many on the first, 7.1 %."""
    plan = set_yarn(lantern_row(), structure="lengthwise", splits=(42.0, 39.0, 39.0))
    assert said(plan, "leftover") == [
        (
            "Ply 1: 27 m of singles left over",
            "3 g, 7.1 % of the longest ply, stay on the bobbin when the shortest is empty. Even out what the"
            " plies weigh, or wind off less, before spinning.",
        )
    ]


def halves_said(plan: Plan, structure: Structure) -> list[tuple[str, str]]:
    return said(replace(plan, yarn=Yarn(structure=structure)), "halves-differ")


def test_halves_that_differ_are_said_with_what_comes_of_it() -> None:
    """78 g and 72 g of 150: 6 g, 8 % of half; at 10 m/g 60 m of singles."""
    uneven = set_fibre(two_shores(), mass_marks=(MassMark(0.5, 0.52),))
    assert halves_said(uneven, "both ends") == [
        (
            "Fold by weight",
            "folds move to where legs weigh the same, and each leg gets marks of its own",
        ),
        (
            "Halves differ 6 g (8 %)",
            "78 g and 72 g: colours slide up to 60 m of singles apart. Fold by weight, not by length.",
        ),
    ]
    assert halves_said(uneven, "broken at the fold")[-1][1] == (
        "78 g and 72 g: 60 m of singles stay on one bobbin. Fold by weight, not by length."
    )


def test_colours_that_slide_between_equal_halves_are_said_with_the_colour() -> None:
    plan = straight("ABA", (0.6, 5.2))
    assert halves_said(plan, "both ends") == [
        ("Move boundaries to equal grams", "boundaries that answer each other meet between them, by weight"),
        (
            "Halves slide 50 m apart",
            "At the end of A A one half is that far behind the other. Move boundaries to equal grams.",
        ),
    ]


def test_halves_are_said_of_the_roving_whose_they_are_and_with_what_is_left() -> None:
    marks = (MassMark(0.25, 0.35), MassMark(0.5, 0.51))
    measured = (Roving(150.0), Roving(150.0, marks))
    plan = replace(two_shores(), fibre=Fibre(150.0, 6.0, 2, measured=measured))
    title, reason = halves_said(plan, "broken at the fold")[-1]
    assert title.startswith("Roving 2: Halves slide ")
    assert "30 m of singles stay on one bobbin." in reason


def test_a_stripe_too_short_for_the_staple_is_said_with_other_ways_to_spin_it() -> None:
    bands = [("A", 1.0), ("B", 0.1), ("C", 1.9)]
    plan = banded(bands, 100.0, Yarn(structure="single", take_up=0.05, staple_m=0.1))
    plan = replace(plan, sections=tuple(replace(one, name="") for one in plan.sections))
    (check,) = [check for check in worksheet(plan).checks if check.code == "stripe-too-short"]
    assert check_title(check, plan, ENGLISH) == "No clean stripe on this staple: B"
    assert check_reason(check, plan, ENGLISH) == (
        "10 cm on the roving at the shortest; under 15 cm, which is 1.5 staples, the fibres of its neighbours"
        " reach over it. Make it longer, or spin the same rows otherwise."
    )
    cost = "the same rows are {0} long on the roving; all of them take {1} of it, and there are 100 g"
    assert [(mend_label(mend, plan, ENGLISH), mend_cost(mend, plan, ENGLISH)) for mend in check.mends] == [
        ("Split lengthwise into two plies", cost.format("21.1 cm", "210.5 g")),
        ("Fractal, the stripes on its whole ply", cost.format("21.1 cm", "210.5 g")),
        ("Split lengthwise into three plies", cost.format("31.6 cm", "315.8 g")),
        ("Plied as a chain", cost.format("31.6 cm", "315.8 g")),
    ]
    chain = set_yarn(plan, structure="chain")
    assert said(chain, "stripe-too-short")[0][1].endswith("reach over it. Make it longer.")
    twice = set_yarn(plan, staple_m=0.04)
    assert not [check for check in worksheet(twice).checks if check.code == "stripe-too-short"]


def test_a_muddy_edge_is_said_with_what_is_left_of_the_colour_and_three_ways_out() -> None:
    blue = replace(BLUE, swatches=(Swatch(1.0, "#203080", "#f3eee2"),))
    red = replace(RED, swatches=(Swatch(1.0, "#c04030", "#f3eee2"),))
    plum = replace(dye("k6", "Plum"), swatches=(Swatch(1.0, "#803070", "#f3eee2"),))
    liquors = (
        depth("q1", "A", "Night", "k4", k1=1.0),
        depth("q2", "B", "Ember", "k4", k2=1.0),
        depth("q3", "C", "Plum", "k4", k6=1.0),
    )
    sections = [(1.0, Section(f"s{place}", "", f"q{place}")) for place in (1, 2, 3)]
    plan = lay(*sections, stocks=(blue, red, plum, WATER), liquors=liquors)
    (check,) = [check for check in worksheet(plan).checks if check.code == "edge-muddy"]
    assert check_title(check, plan, ENGLISH) == "Muddy where they meet: A and B"
    assert check_reason(check, plan, ENGLISH).startswith("Mixed half and half over 20 mm, they keep ")
    assert [mend_label(mend, plan, ENGLISH) for mend in check.mends] == [
        "Put 13.5 cm of C Plum between them",
        "Leave a gap of 2 cm",
        "Move B to the end",
    ]
    assert mend_cost(check.mends[2], plan, ENGLISH) == "lengths stay; no edge is muddy then"
    params = {**check.mends[2].params, "before": 0, "count": 2}
    assert mend_label(Mend("move-section", params), plan, ENGLISH) == "Move B before A"
    assert mend_cost(Mend("move-section", params), plan, ENGLISH) == "lengths stay; muddy edges left: 2"


def test_a_stock_made_too_small_is_told_with_what_the_jars_take() -> None:
    plan = change_stock(two_shores(), "D", made_ml=50.0)
    (check,) = [check for check in worksheet(plan).checks if check.code == "stock-short"]
    assert check_title(check, plan, ENGLISH) == "D: 31 ml short"
    assert check_reason(check, plan, ENGLISH) == "The jars take 81 ml of it, and 50 ml is to be made."
    assert [mend_label(mend, plan, ENGLISH) for mend in check.mends] == ["Make 85 ml"]
    assert mend_cost(check.mends[0], plan, ENGLISH) == "nothing else changes"


def test_these_scenes_leave_no_check_and_no_mend_unsaid() -> None:
    checked = {"over", "under", "depth-out-of-reach", "no-room-for-let-down", "acid-uneven", "acid-too-low"}
    checked |= {"acid-unknown", "acid-line-short", "section-short", "stock-unused", "liquor-unused"}
    checked |= {"liquor-empty", "strength-by-spoon", "depth-over-take-up", "two-jars"}
    checked |= {"section-unpaintable", "leftover", "halves-differ", "stripe-too-short", "edge-muddy"}
    checked |= {"mix-is-a-guess", "stock-short"}
    assert checked == set(CHECK_WORDS)


@given(plans(), st.sampled_from(UNITS))
def test_whatever_the_plan_every_check_is_said_in_whole_lines(plan: Plan, units: str) -> None:
    nameless = replace(
        plan,
        sections=tuple(replace(section, name="") for section in plan.sections),
        liquors=tuple(replace(one, name="", letter=chr(65 + row)) for row, one in enumerate(plan.liquors)),
        stocks=tuple(replace(stock, name="Stock") for stock in plan.stocks),
    )
    tongue = next(Tongue(one, is_english=True) for one in UNITS if one == units)
    for check in worksheet(nameless).checks:
        lines = [check_title(check, nameless, tongue), check_reason(check, nameless, tongue)]
        for mend in check.mends:
            lines += [mend_label(mend, nameless, tongue), mend_cost(mend, nameless, tongue)]
        for line in lines:
            assert line
            assert UNKNOWN not in line
            assert not set("{}\n") & set(line)


@given(plans(most_sections=4))
def test_names_in_any_script_keep_to_their_place_in_the_line(plan: Plan) -> None:
    for check in worksheet(plan).checks:
        line = check_text(check, plan)
        assert line.count("\u2068") == line.count("\u2069")
        assert not set("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2028\u2029\n\x85") & set(line)


@pytest.mark.parametrize("code", sorted(MEND_WORDS))
def test_a_label_fits_a_button(code: str) -> None:
    params: dict[str, Param] = {
        "section_id": "s2",
        "liquid_ml": 1234.5,
        "stock_id": "k1",
        "acid_g_per_l": 12.34,
        "factor": 0.333,
    }
    params |= {"soak_ml_per_g": 0.75, "uptake_ml_per_g": 1.25, "strength_g_per_l": 12.34}
    assert len(mend_label(Mend(code, params), KELP_FREE, ENGLISH)) <= 40
