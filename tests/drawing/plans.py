"""Plans to draw: small ones with known places."""

from __future__ import annotations

from dataclasses import replace

from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.edits.inputs import set_passes
from studio_gui.domain.fibre import Fibre, Lay
from studio_gui.domain.liquors import Liquor, Part
from studio_gui.domain.plan import Liquid, Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.stocks import Stock

WOOL = "#f3eee2"

#: Holds 3.0, core wet at 2.2, ml/g.
WET = Liquid(uptake_ml_per_g=1.4, soak_ml_per_g=1.0, limit_ml_per_g=3.0, penetration_ml_per_g=1.2)
STATES = ("right", "under", "over", "wiped", "second pass", "undyed", "wiped from over")
_WETNESS = {  # applied, wiped, second pass, ml/g
    "right": (1.4, 0.0, 0.0),
    "under": (0.9, 0.0, 0.0),
    "over": (2.25, 0.0, 0.0),
    "wiped": (1.9, 0.5, 0.0),
    "second pass": (1.9, 0.0, 0.5),
    "undyed": (0.0, 0.0, 0.0),
    "wiped from over": (2.2, 0.8, 0.0),
}


def plain_plan(count: int = 3, *, rovings: int = 1, passes: int = 1, length_m: float = 4.0) -> Plan:
    """Return `count` equal sections that take turns with three liquors: blue, pale blue and a red.

    No edge of theirs turns to mud.
    """
    stocks = (
        Stock("k1", "Blue", "dye", 10.0, acid_g_per_l=10.0, swatches=(Swatch(1.0, "#2a5d8f", WOOL),)),
        Stock("k2", "Red", "dye", 10.0, acid_g_per_l=10.0, swatches=(Swatch(1.0, "#b03050", WOOL),)),
        Stock("k3", "Acid water", "let-down", acid_g_per_l=10.0),
    )
    liquors = (
        Liquor("q1", "A", "Blue", parts=(Part("k1", 30.0), Part("k3", 20.0))),
        Liquor("q2", "B", "Pale", parts=(Part("k1", 5.0), Part("k3", 45.0))),
        Liquor("q3", "C", "Red", parts=(Part("k2", 30.0), Part("k3", 20.0))),
    )
    sections = tuple(Section(f"s{i + 1}", f"Section {i + 1}", f"q{i % 3 + 1}") for i in range(count))
    boundaries = tuple(Boundary(length_m * (i + 1) / count) for i in range(count - 1))
    plan = Plan("Plain", Fibre(100.0, length_m, rovings), Lay(), stocks, liquors, sections, boundaries)
    return set_passes(plan, passes)


def plan_of_states(
    count: int = 7, *, rovings: int = 1, passes: int = 1, uneven: bool = True, liquid: Liquid = WET
) -> Plan:
    """Return sections that take turns with `STATES`, all of one liquor, with gaps and overlaps when `uneven`.

    The over one holds 0.25 ml/g too much, the under one lacks 0.3 ml/g.
    """
    plan = plain_plan(count, rovings=rovings, passes=passes)
    grams = plan.fibre.mass_g * rovings / count
    sections = []
    for number, section in enumerate(plan.sections):
        applied, wiped, later = _WETNESS[STATES[number % len(STATES)]]
        sections.append(
            replace(
                section,
                liquor_id="q1",
                fixed_ml=applied * grams,
                wiped_ml=wiped * grams,
                second_pass_ml=later * grams,
            )
        )
    share_m = plan.lay_length_m / count / 4.0
    gaps = {0: share_m, 3: -share_m} if uneven else {}
    boundaries = (
        replace(boundary, gap_m=gaps.get(number % 5, 0.0)) for number, boundary in enumerate(plan.boundaries)
    )
    return replace(plan, sections=tuple(sections), boundaries=tuple(boundaries), liquid=liquid)
