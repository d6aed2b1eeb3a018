"""Sections of the lay and the boundaries between them.

The rule of this module: a section knows what is painted on it, never where it lies; where it lies is a
boundary's business, so that sections tile exactly.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from studio_gui.domain.ranges import checked
from studio_gui.domain.text import ID_MAX, NAME_MAX, checked_text

LiquidMode = Literal["follows fibre", "fixed"]
LIQUID_MODES: tuple[LiquidMode, ...] = ("follows fibre", "fixed")


@dataclass(frozen=True, slots=True)
class Boundary:
    """Where two sections meet, m along the lay.

    `gap_m` is a signed width centred on it: above 0 the fibre between the two stays unpainted, below 0 both
    colours are painted there. The nominal sections tile all the same.
    """

    position_m: float
    gap_m: float = 0.0

    def __post_init__(self) -> None:
        checked("boundary_m", self.position_m)
        checked("gap_m", self.gap_m)


@dataclass(frozen=True, slots=True)
class Section:
    """A stretch of the lay painted with one liquor, across every pass and every roving.

    `fixed_ml` is liquor for the whole set; None means it follows the fibre. `wiped_ml` is wiped or pressed
    out cold, taking dye along. `second_pass_ml`, a part of the liquid, is painted after a first heating and
    after as much spent liquid has been pressed out, which takes no dye along. A locked section keeps its
    place.
    """

    id: str
    name: str
    liquor_id: str
    fixed_ml: float | None = None
    wiped_ml: float = 0.0
    second_pass_ml: float = 0.0
    locked: bool = False

    def __post_init__(self) -> None:
        checked_text("section_id", self.id, ID_MAX, may_be_empty=False)
        checked_text("section_name", self.name, NAME_MAX)
        if self.fixed_ml is not None:
            checked("fixed_ml", self.fixed_ml)
        checked("wiped_ml", self.wiped_ml)
        checked("second_pass_ml", self.second_pass_ml)

    @property
    def liquid_mode(self) -> LiquidMode:
        """``fixed`` or ``follows fibre``."""
        return "follows fibre" if self.fixed_ml is None else "fixed"
