"""What is painted: liquors made of stocks.

The rule of this module: a liquor stands on one of two bases. On **parts** the jar stays and the depth moves
with the wetness; on **depth** the depth stays and the jar follows.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import checked
from studio_gui.domain.text import ID_MAX, LETTER_MAX, NAME_MAX, checked_text

Basis = Literal["parts", "depth"]
BASES: tuple[Basis, ...] = ("parts", "depth")
MOST_STOCKS_IN_LIQUOR = 30


@dataclass(frozen=True, slots=True)
class Part:
    """`parts` of one stock, in any unit of volume: only their ratio counts."""

    stock_id: str
    parts: float

    def __post_init__(self) -> None:
        checked("parts", self.parts)


@dataclass(frozen=True, slots=True)
class DyeDepth:
    """The wanted depth of shade of one dye, g per 100 g of dry fibre."""

    stock_id: str
    depth_pct_owf: float

    def __post_init__(self) -> None:
        checked("depth_pct_owf", self.depth_pct_owf)


@dataclass(frozen=True, slots=True)
class Liquor:
    """A liquor with its letter and name.

    On basis ``parts``, `parts` name every stock and `depths` is empty. On basis ``depth``, `depths` name the
    dyes and `parts` the let-downs that fill the jar, in their ratio.
    """

    id: str
    letter: str
    name: str
    basis: Basis = "parts"
    parts: tuple[Part, ...] = ()
    depths: tuple[DyeDepth, ...] = ()

    def __post_init__(self) -> None:
        checked_text("liquor_id", self.id, ID_MAX, may_be_empty=False)
        checked_text("letter", self.letter, LETTER_MAX, may_be_empty=False)
        checked_text("liquor_name", self.name, NAME_MAX)
        if self.basis not in BASES:
            raise InvalidPlan("not-one-of", field="basis", value=self.basis)
        if self.basis == "parts" and self.depths:
            raise InvalidPlan("depths-on-parts-basis", field="depths", liquor=self.letter)
        if self.basis == "depth" and not any(part.parts for part in self.parts):
            raise InvalidPlan("depth-without-let-down", field="parts", liquor=self.letter)
        if len(self.stock_ids) > MOST_STOCKS_IN_LIQUOR:
            raise InvalidPlan(
                "too-many", field="parts", count=len(self.stock_ids), most=MOST_STOCKS_IN_LIQUOR
            )
        if len(set(self.stock_ids)) != len(self.stock_ids):
            raise InvalidPlan("stock-twice", field="parts", liquor=self.letter)

    @property
    def stock_ids(self) -> tuple[str, ...]:
        """Ids of every stock in it: dyes by depth first, then parts, as entered."""
        return tuple(depth.stock_id for depth in self.depths) + tuple(part.stock_id for part in self.parts)

    @property
    def total_parts(self) -> float:
        """Sum of the parts."""
        return sum(part.parts for part in self.parts)

    @property
    def is_empty(self) -> bool:
        """Whether nothing at all is in it: its sections stay unpainted."""
        return self.total_parts <= 0.0
