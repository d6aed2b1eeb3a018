"""The plan: the whole document.

The rule of this module: a `Plan` that exists is valid. Every number is finite and in range, every id is
unique and points somewhere, sections tile the lay, and each section is at least `SHORTEST_SECTION_M` long.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, fields
from functools import cached_property
from itertools import pairwise
from typing import Literal, Protocol

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.fibre import Fibre, Lay
from studio_gui.domain.geometry import lay_length_m
from studio_gui.domain.liquors import Liquor
from studio_gui.domain.ranges import RELATIVE_TOLERANCE, checked
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.stocks import Stock
from studio_gui.domain.text import NAME_MAX, checked_text
from studio_gui.domain.timetable import Timetable
from studio_gui.domain.yarn import Yarn

Mixing = Literal["jars"]

#: Wicking width of a new plan, mm; common practice, no source.
WICKING_MM = 20.0
SHORTEST_SECTION_M = 0.001
MOST_SECTIONS = 2_000
MOST_STOCKS = 500


@dataclass(frozen=True, slots=True)
class Liquid:
    """How wet the work is; the user's own measured figures, in ml per g of dry fibre.

    `soak_acid_g_per_l` is the acid of the soaking water, None while unknown. Defaults: common practice, no
    source (hand-squeezed soak; 0.5 when spun out).
    """

    uptake_ml_per_g: float = 2.5
    soak_ml_per_g: float = 1.0
    limit_ml_per_g: float = 4.0
    penetration_ml_per_g: float = 1.5
    soak_acid_g_per_l: float | None = 0.0

    def __post_init__(self) -> None:
        checked("uptake_ml_per_g", self.uptake_ml_per_g)
        checked("soak_ml_per_g", self.soak_ml_per_g)
        checked("limit_ml_per_g", self.limit_ml_per_g)
        checked("penetration_ml_per_g", self.penetration_ml_per_g)
        if self.soak_acid_g_per_l is not None:
            checked("soak_acid_g_per_l", self.soak_acid_g_per_l)


@dataclass(frozen=True, slots=True)
class AcidLimits:
    """When to warn of acid: sections that differ by more than `ratio`, or fall below `floor_pct_owf`.

    Defaults: common practice, no source.
    """

    ratio: float = 1.25
    floor_pct_owf: float = 1.0

    def __post_init__(self) -> None:
        checked("acid_ratio_limit", self.ratio)
        checked("acid_floor_pct_owf", self.floor_pct_owf)


@dataclass(frozen=True, slots=True)
class AcidLine:
    """Acid as a line of its own in every jar: `stock_id` replaces let-down up to `jar_g_per_l`."""

    stock_id: str
    jar_g_per_l: float

    def __post_init__(self) -> None:
        checked("acid_g_per_l", self.jar_g_per_l)


@dataclass(frozen=True, slots=True)
class Bench:
    """How jars are made up: spare share and dead volume of each, and the graduation of what measures.

    `syringe_ml` is what a syringe holds that liquor is painted with, None where none is used.
    """

    spare_share: float = 0.05
    dead_ml: float = 0.0
    graduation_ml: float = 1.0
    syringe_ml: float | None = None

    def __post_init__(self) -> None:
        checked("spare_share", self.spare_share)
        checked("dead_ml", self.dead_ml)
        checked("graduation_ml", self.graduation_ml)
        if self.syringe_ml is not None:
            checked("syringe_ml", self.syringe_ml)


class _Identified(Protocol):
    @property
    def id(self) -> str:
        """What other parts of the plan call it by."""


@dataclass(frozen=True)
class Plan:
    """A colourway on a lay. `boundaries[i]` lies between `sections[i]` and `sections[i + 1]`.

    Raises
    ------
    InvalidPlan
        When anything in it breaks the rule of this module.
    """

    title: str
    fibre: Fibre
    lay: Lay
    stocks: tuple[Stock, ...]
    liquors: tuple[Liquor, ...]
    sections: tuple[Section, ...]
    boundaries: tuple[Boundary, ...] = ()
    liquid: Liquid = field(default_factory=Liquid)
    acid: AcidLimits = field(default_factory=AcidLimits)
    wicking_mm: float = WICKING_MM
    mixing: Mixing = "jars"
    bench: Bench = field(default_factory=Bench)
    acid_line: AcidLine | None = None
    yarn: Yarn = field(default_factory=Yarn)
    timetable: Timetable = field(default_factory=Timetable)

    def __post_init__(self) -> None:
        checked_text("title", self.title, NAME_MAX)
        checked("wicking_mm", self.wicking_mm)
        if self.mixing != "jars":
            raise InvalidPlan("not-one-of", field="mixing", value=self.mixing)
        _check_ids("stocks", self.stocks, MOST_STOCKS)
        _check_ids("liquors", self.liquors, MOST_SECTIONS)
        _check_ids("sections", self.sections, MOST_SECTIONS)
        if not self.sections:
            raise InvalidPlan("no-sections", field="sections")
        self._check_liquors()
        self._check_boundaries()
        self._check_yarn()

    @cached_property
    def lay_length_m(self) -> float:
        """Length of the lay on the film, m."""
        return lay_length_m(self.fibre, self.lay)

    @cached_property
    def edges_m(self) -> tuple[float, ...]:
        """The n + 1 places (m along the lay) where the n sections start and end."""
        return (0.0, *(boundary.position_m for boundary in self.boundaries), self.lay_length_m)

    @cached_property
    def half_gaps_m(self) -> tuple[float, ...]:
        """What the gap at each of the n + 1 edges takes from either side, m; an overlap takes nothing."""
        return (0.0, *(max(boundary.gap_m, 0.0) / 2.0 for boundary in self.boundaries), 0.0)

    @property
    def dyes(self) -> tuple[Stock, ...]:
        """The stocks with dye, in their order."""
        return tuple(stock for stock in self.stocks if stock.is_dye)

    @property
    def let_downs(self) -> tuple[Stock, ...]:
        """The stocks without dye, in their order."""
        return tuple(stock for stock in self.stocks if not stock.is_dye)

    def with_boundaries(self, boundaries: tuple[Boundary, ...]) -> Plan:
        """Return this plan with other boundaries. Only they are checked, for all else is valid already.

        Raises
        ------
        InvalidPlan
            ``boundaries-do-not-match``, ``section-too-short``.
        """
        plan = object.__new__(Plan)
        plan.__dict__.update({one.name: getattr(self, one.name) for one in fields(self)})
        plan.__dict__["boundaries"] = boundaries
        plan._check_boundaries()
        return plan

    def stock(self, stock_id: str) -> Stock:
        """Return the stock with this id; `InvalidPlan` ``unknown-stock`` when there is none."""
        return self.stocks[_index_of(self.stocks, stock_id, "unknown-stock")]

    def liquor(self, liquor_id: str) -> Liquor:
        """Return the liquor with this id; `InvalidPlan` ``unknown-liquor`` when there is none."""
        return self.liquors[_index_of(self.liquors, liquor_id, "unknown-liquor")]

    def section(self, section_id: str) -> Section:
        """Return the section with this id; `InvalidPlan` ``unknown-section`` when there is none."""
        return self.sections[self.section_index(section_id)]

    def section_index(self, section_id: str) -> int:
        """Return the place of a section in the lay's order; `InvalidPlan` ``unknown-section`` when absent."""
        return _index_of(self.sections, section_id, "unknown-section")

    def liquors_with(self, stock_id: str) -> tuple[Liquor, ...]:
        """Return the liquors that name a stock, in their order, even those with nothing of it."""
        return tuple(liquor for liquor in self.liquors if stock_id in liquor.stock_ids)

    def sections_with(self, liquor_id: str) -> tuple[Section, ...]:
        """Return the sections that a liquor is painted on, in the lay's order."""
        return tuple(section for section in self.sections if section.liquor_id == liquor_id)

    def _check_liquors(self) -> None:
        stocks = {stock.id: stock for stock in self.stocks}
        letters: set[str] = set()
        for liquor in self.liquors:
            if liquor.letter in letters:
                raise InvalidPlan("letter-twice", field="letter", value=liquor.letter)
            letters.add(liquor.letter)
            for stock_id in liquor.stock_ids:
                if stock_id not in stocks:
                    raise InvalidPlan("unknown-stock", field="liquors", value=stock_id)
            if any(not stocks[depth.stock_id].is_dye for depth in liquor.depths):
                raise InvalidPlan("depth-of-let-down", field="depths", liquor=liquor.letter)
            if liquor.basis == "depth" and any(stocks[part.stock_id].is_dye for part in liquor.parts):
                raise InvalidPlan("dye-among-let-downs", field="parts", liquor=liquor.letter)
        known = {liquor.id for liquor in self.liquors}
        for section in self.sections:
            if section.liquor_id not in known:
                raise InvalidPlan("unknown-liquor", field="sections", value=section.liquor_id)
        if self.acid_line is not None:
            stock = stocks.get(self.acid_line.stock_id)
            if stock is None or stock.is_dye or not stock.acid_g_per_l:
                raise InvalidPlan("acid-line-without-acid", field="acid_line", value=self.acid_line.stock_id)

    def _check_yarn(self) -> None:
        known = {liquor.id for liquor in self.liquors}
        for stripe in self.yarn.stripes:
            if stripe.liquor_id not in known:
                raise InvalidPlan("unknown-liquor", field="stripes", value=stripe.liquor_id)
        if self.yarn.structure == "free":
            for number, ply in enumerate(self.yarn.plies, start=1):
                if ply.roving > self.fibre.rovings:
                    raise InvalidPlan(
                        "ply-from-no-roving",
                        field="plies",
                        ply=number,
                        value=ply.roving,
                        rovings=self.fibre.rovings,
                    )

    def _check_boundaries(self) -> None:
        if len(self.boundaries) != len(self.sections) - 1:
            raise InvalidPlan(
                "boundaries-do-not-match",
                field="boundaries",
                count=len(self.boundaries),
                sections=len(self.sections),
            )
        folds = self.lay.fold_positions_m
        if folds and folds[-1] >= self.fibre.length_m:
            raise InvalidPlan(
                "fold-past-end", field="fold_positions_m", value=folds[-1], high=self.fibre.length_m
            )
        ends = zip(self.sections, pairwise(self.edges_m), pairwise(self.half_gaps_m), strict=True)
        for section, (start_m, end_m), (before_m, after_m) in ends:
            painted_m = end_m - start_m - before_m - after_m
            if painted_m < SHORTEST_SECTION_M * (1.0 - RELATIVE_TOLERANCE) - 1e-12:
                raise too_short(section, painted_m)


def too_short(section: Section, length_m: float) -> InvalidPlan:
    """Return ``section-too-short`` for a section whose painted length would be `length_m`."""
    return InvalidPlan(
        "section-too-short",
        field="boundaries",
        section=section.name,
        section_id=section.id,
        length_m=length_m,
        low=SHORTEST_SECTION_M,
    )


def _check_ids(name: str, items: Sequence[_Identified], most: int) -> None:
    if len(items) > most:
        raise InvalidPlan("too-many", field=name, count=len(items), most=most)
    seen: set[str] = set()
    for item in items:
        if item.id in seen:
            raise InvalidPlan("id-twice", field=name, value=item.id)
        seen.add(item.id)


def _index_of(items: Sequence[_Identified], wanted: str, code: str) -> int:
    for index, item in enumerate(items):
        if item.id == wanted:
            return index
    raise InvalidPlan(code, value=wanted)
