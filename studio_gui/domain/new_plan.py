"""The plan a new window starts from: small, valid and painted.

The rule of this module: a new plan shows what a plan looks like, and nothing in it needs mending.
"""

from __future__ import annotations

from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.fibre import WHITE_WOOL_SRGB, Fibre, Lay
from studio_gui.domain.liquors import Liquor, Part
from studio_gui.domain.plan import Liquid, Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.stocks import Stock

#: g/L of citric acid in acid water and in every bottle; common practice, no source.
ACID_G_PER_L = 10.0


def new_plan(title: str = "") -> Plan:
    """Return a plan of one 100 g roving of 4 m in two sections, one dye let down with acid water."""
    dye = Stock(
        id="k1",
        name="Blue",
        role="dye",
        strength_g_per_l=10.0,
        acid_g_per_l=ACID_G_PER_L,
        swatches=(Swatch(1.0, "#2a5d8f", WHITE_WOOL_SRGB),),
    )
    water = Stock(id="k2", name="Acid water", role="let-down", acid_g_per_l=ACID_G_PER_L)
    liquors = (
        Liquor("q1", "A", "Deep", parts=(Part("k1", 30.0), Part("k2", 20.0))),
        Liquor("q2", "B", "Pale", parts=(Part("k1", 12.0), Part("k2", 38.0))),
    )
    return Plan(
        title=title,
        fibre=Fibre(mass_g=100.0, length_m=4.0),
        lay=Lay(),
        stocks=(dye, water),
        liquors=liquors,
        sections=(Section("s1", "Deep", "q1"), Section("s2", "Pale", "q2")),
        boundaries=(Boundary(2.0),),
        liquid=Liquid(),
    )
