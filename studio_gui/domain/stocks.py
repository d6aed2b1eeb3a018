"""What stands in the bottles.

The rule of this module: a stock's acid is a number or unknown, and unknown is not the same as none.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from studio_gui.domain.colour.fit import DyeCurve, dye_curve
from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import checked
from studio_gui.domain.text import ID_MAX, NAME_MAX, checked_text

Role = Literal["dye", "let-down"]
ROLES: tuple[Role, ...] = ("dye", "let-down")
StrengthKnown = Literal["weighed", "spoon", "nominal"]
STRENGTHS_KNOWN: tuple[StrengthKnown, ...] = ("weighed", "spoon", "nominal")

#: g of dye per 100 g of fibre that the wool takes up: common practice, no source.
DEFAULT_TAKE_UP_PCT_OWF = 6.0
MOST_SWATCHES = 50


@dataclass(frozen=True, slots=True)
class Stock:
    """One bottle: a dye (with strength and swatches) or a let-down (water, acid water, citric stock).

    `strength_g_per_l` and `take_up_pct_owf` speak of dyes only; a let-down keeps 0 strength.
    `acid_g_per_l` is None while it is not known, `made_ml` while nobody has said how much to make. A dye that
    `is_fluorescent` is interpolated between its own swatches, and what it gives in mixes is a guess.
    """

    id: str
    name: str
    role: Role
    strength_g_per_l: float = 0.0
    strength_known: StrengthKnown = "weighed"
    take_up_pct_owf: float = DEFAULT_TAKE_UP_PCT_OWF
    acid_g_per_l: float | None = None
    swatches: tuple[Swatch, ...] = ()
    made_ml: float | None = None
    is_fluorescent: bool = False

    def __post_init__(self) -> None:
        checked_text("stock_id", self.id, ID_MAX, may_be_empty=False)
        checked_text("stock_name", self.name, NAME_MAX, may_be_empty=False)
        if self.role not in ROLES:
            raise InvalidPlan("not-one-of", field="role", value=self.role)
        if self.strength_known not in STRENGTHS_KNOWN:
            raise InvalidPlan("not-one-of", field="strength_known", value=self.strength_known)
        checked("take_up_pct_owf", self.take_up_pct_owf)
        if self.acid_g_per_l is not None:
            checked("acid_g_per_l", self.acid_g_per_l)
        if self.made_ml is not None:
            checked("made_ml", self.made_ml)
        if self.role == "dye":
            checked("strength_g_per_l", self.strength_g_per_l)
            if not self.swatches:
                raise InvalidPlan("dye-without-swatch", field="swatches", stock=self.name)
            if len(self.swatches) > MOST_SWATCHES:
                raise InvalidPlan("too-many", field="swatches", count=len(self.swatches), most=MOST_SWATCHES)
        elif self.strength_g_per_l or self.swatches or self.is_fluorescent:
            raise InvalidPlan("let-down-with-dye", field="strength_g_per_l", stock=self.name)

    @property
    def is_dye(self) -> bool:
        """Whether the bottle holds dye."""
        return self.role == "dye"

    @property
    def strength_pct(self) -> float:
        """Strength in % w/v (g per 100 ml): 10 g/L is 1 %."""
        return self.strength_g_per_l / 10.0

    @property
    def curve(self) -> DyeCurve:
        """What the dye absorbs, fitted to its swatches; `InvalidPlan` ``no-swatches`` for a let-down."""
        return dye_curve(self.swatches, fluorescent=self.is_fluorescent)
