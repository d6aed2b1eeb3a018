"""Plans to draw: small ones with known places."""

from __future__ import annotations

from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.edits.inputs import set_passes
from studio_gui.domain.fibre import Fibre, Lay
from studio_gui.domain.liquors import Liquor, Part
from studio_gui.domain.plan import Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.stocks import Stock

WOOL = "#f3eee2"


def plain_plan(count: int = 3, *, rovings: int = 1, passes: int = 1, length_m: float = 4.0) -> Plan:
    """Return `count` equal sections that take turns with three liquors: blue, pale blue and red."""
    stocks = (
        Stock("k1", "Blue", "dye", 10.0, acid_g_per_l=10.0, swatches=(Swatch(1.0, "#2a5d8f", WOOL),)),
        Stock("k2", "Red", "dye", 10.0, acid_g_per_l=10.0, swatches=(Swatch(1.0, "#a03030", WOOL),)),
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
