"""Plans of worked bench scenes, and the builders they are made with. All names and figures are invented."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import accumulate

from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.fibre import Fibre, Lay, MassMark
from studio_gui.domain.liquors import DyeDepth, Liquor, Part
from studio_gui.domain.plan import Bench, Liquid, Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.stocks import Stock
from studio_gui.domain.yarn import Strip, Yarn

WOOL = "#f3eee2"


def dye(
    stock_id: str, strength_pct: float = 1.0, srgb: str = "#2a5d8f", acid_g_per_l: float | None = 0.0
) -> Stock:
    """Return a weighed dye stock (% w/v), without acid unless told."""
    return Stock(
        id=stock_id,
        name=stock_id,
        role="dye",
        strength_g_per_l=10.0 * strength_pct,
        acid_g_per_l=acid_g_per_l,
        swatches=(Swatch(1.0, srgb, WOOL),),
    )


def let_down(stock_id: str, acid_g_per_l: float | None = 0.0) -> Stock:
    """Return a let-down: plain water unless told."""
    return Stock(id=stock_id, name=stock_id, role="let-down", acid_g_per_l=acid_g_per_l)


def by_parts(name: str, parts: Mapping[str, float]) -> Liquor:
    """Return a liquor on parts, its name also its id."""
    return Liquor(name, name[:3], name, "parts", tuple(Part(*part) for part in parts.items()))


def by_depth(name: str, depths: Mapping[str, float], filler: str = "AW") -> Liquor:
    """Return a liquor on depths (% owf), filled with one let-down, its name also its id."""
    wanted = tuple(DyeDepth(*depth) for depth in depths.items())
    return Liquor(name, name[:3], name, "depth", (Part(filler, 1.0),), wanted)


def laid(  # noqa: PLR0913  (a plan has as many subjects)
    stretches: Sequence[tuple[str, float]],
    stocks: Sequence[Stock],
    liquors: Sequence[Liquor],
    *,
    rovings: int = 1,
    density_g_per_m: float = 25.0,
    folded: bool = False,
    liquid: Liquid | None = None,
    bench: Bench | None = None,
) -> Plan:
    """Return a plan whose sections are (liquor id, m along the lay) in order; section ids are s1, s2, ...

    Folded, each roving is twice as long as the lay and lies to and fro.
    """
    ends = list(accumulate(length_m for _, length_m in stretches))
    length_m = ends[-1] * (2.0 if folded else 1.0)
    return Plan(
        title="Scene",
        fibre=Fibre(density_g_per_m * length_m, length_m, rovings),
        lay=Lay((ends[-1],)) if folded else Lay(),
        stocks=tuple(stocks),
        liquors=tuple(liquors),
        sections=tuple(
            Section(f"s{number}", f"Section {number}", liquor_id)
            for number, (liquor_id, _) in enumerate(stretches, start=1)
        ),
        boundaries=tuple(Boundary(end) for end in ends[:-1]),
        liquid=liquid or Liquid(),
        bench=bench or Bench(),
    )


def harbour_thaw(acid_water_g_per_l: float = 10.0) -> Plan:
    """Scene 1: a matching set of four rovings, five sections by depth, the only acid in the let-down."""
    colours = {"B": "#2a5d8f", "K": "#2b2b2e", "Y": "#e0b64a", "R": "#a8382f"}
    return laid(
        [("Slate", 0.8), ("Quarter", 0.6), ("Moss", 1.2), ("Straw", 0.4), ("Rust", 1.0)],
        [*(dye(name, 1.0, srgb) for name, srgb in colours.items()), let_down("AW", acid_water_g_per_l)],
        [
            by_depth("Slate", {"B": 0.90, "K": 0.30}),
            by_depth("Quarter", {"B": 0.225, "K": 0.075}),
            by_depth("Moss", {"Y": 0.60, "B": 0.30}),
            by_depth("Straw", {"Y": 0.30}),
            by_depth("Rust", {"R": 0.60, "Y": 0.45}),
        ],
        rovings=4,
        liquid=Liquid(uptake_ml_per_g=1.5, penetration_ml_per_g=1.0),
    )


def two_shores() -> Plan:
    """Scene 2: one roving folded in half, five sections from both ends to the fold."""
    letters = "ABCDE"
    return laid(
        list(zip(letters, (0.6, 0.4, 0.8, 0.5, 0.7), strict=True)),
        [dye("D"), let_down("AW", 10.0)],
        [
            by_parts(letter, {"D": 10.0 * number, "AW": 50.0})
            for number, letter in enumerate(letters, start=1)
        ],
        folded=True,
        liquid=Liquid(uptake_ml_per_g=1.4, penetration_ml_per_g=1.0),
    )


def bramble() -> Plan:
    """Scene 4: an old sheet for 113.4 g, all from 1 % stock: red 60, blue 24, water 86 ml."""
    return laid(
        [("A", 1.0)],
        [dye("Red", 1.0, "#a8382f"), dye("Blue"), let_down("Water")],
        [by_parts("A", {"Red": 60.0, "Blue": 24.0, "Water": 86.0})],
        density_g_per_m=113.4,
        liquid=Liquid(uptake_ml_per_g=170.0 / 113.4, penetration_ml_per_g=1.0),
    )


def ink(stock_pct: float) -> Plan:
    """Scene 4: 100 g at 1.5 ml/g with a liquor "Ink" by depth, not yet deep, from a stock of `stock_pct`."""
    return laid(
        [("I", 4.0)],
        [dye("Ink", stock_pct), let_down("AW", 10.0)],
        [by_depth("I", {"Ink": 0.5})],
        liquid=Liquid(uptake_ml_per_g=1.5, penetration_ml_per_g=1.0),
    )


def ink_well(stock_pct: float = 1.0) -> Plan:
    """Scene 6: 90 cm of Ink with 45 ml at 0.70 %, soak 1.1, limit 2.5 ml/g; 10 g of pale on both sides."""
    ink_parts = 70.0 / stock_pct
    plan = laid(
        [("P", 0.4), ("I", 0.9), ("P", 0.4)],
        [dye("Ink", stock_pct), let_down("AW", 10.0)],
        [by_parts("P", {"Ink": 5.0, "AW": 95.0}), by_parts("I", {"Ink": ink_parts, "AW": 100.0 - ink_parts})],
        liquid=Liquid(1.2, soak_ml_per_g=1.1, limit_ml_per_g=2.5, penetration_ml_per_g=1.0),
    )
    return change_section(plan, "s2", fixed_ml=45.0)


#: Four colours nobody takes for one another.
FOUR = {"A": "#2a5d8f", "B": "#e0b64a", "C": "#a8382f", "D": "#2f6b3c"}


def straight(letters: str, places_m: tuple[float, ...], marks: tuple[MassMark, ...] = ()) -> Plan:
    """Return Two Shores' roving laid straight, a section a letter, with boundaries in the given places."""
    like = two_shores()
    liquors = {liquor.letter: liquor.id for liquor in like.liquors}
    return replace(
        like,
        lay=Lay(),
        fibre=Fibre(150.0, 6.0, mass_marks=marks),
        sections=tuple(Section(f"s{n}", "", liquors[letter]) for n, letter in enumerate(letters)),
        boundaries=tuple(Boundary(place) for place in places_m),
    )


def banded(stretches: Sequence[tuple[str, float]], grams: float, yarn: Yarn) -> Plan:
    """Return a straight roving of `grams` in plain bands of `FOUR`: (liquor id, m along the lay)."""
    length_m = sum(length for _, length in stretches)
    plan = laid(
        stretches,
        [*(dye(name, 1.0, srgb) for name, srgb in FOUR.items()), let_down("AW", 10.0)],
        [by_parts(name, {name: 1.0, "AW": 1.0}) for name in FOUR],
        density_g_per_m=grams / length_m,
    )
    return replace(plan, yarn=yarn)


def four_gates(*strips: Strip) -> Plan:
    """Scene 7: 100 g, 400 cm in four bands; one ply whole, the other split into `strips`."""
    bands = [("A", 1.0), ("B", 0.8), ("C", 1.2), ("D", 1.0)]
    return banded(bands, 100.0, Yarn(structure="fractal", strips=strips, take_up=0.05))


def lantern_row() -> Plan:
    """Scene 8: 120 g in four bands, chain-plied: 9 m/g, 6 % take-up, loops of 60 cm."""
    bands = [("A", 1.2), ("B", 0.8), ("C", 1.6), ("D", 1.2)]
    yarn = Yarn(structure="chain", singles_m_per_g=9.0, take_up=0.06, loop_m=0.6)
    return banded(bands, 120.0, yarn)
