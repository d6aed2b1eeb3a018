"""The colours of a plan that can be compared: of sections, swatches and the undyed fibre.

The rule of this module: a section's colour is that of its middle, without wicking, as everywhere; a look in
greys changes nothing here.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.profile import section_colours
from studio_gui.domain.worksheet import Worksheet

ColourOf = Literal["section", "swatch", "undyed"]


@dataclass(frozen=True, slots=True)
class PlanColour:
    """One colour of a plan: of the section or the stock `owner_id`, and of which of its swatches, from 0.

    `outside` says that it lies outside sRGB, and `srgb` is the nearest that a screen shows.
    """

    of: ColourOf
    owner_id: str
    place: int
    srgb: str
    outside: bool = False

    @property
    def key(self) -> tuple[str, str, int]:
        """What it is the colour of, whatever the colour is."""
        return self.of, self.owner_id, self.place


def plan_colours(sheet: Worksheet) -> tuple[PlanColour, ...]:
    """Return the colours of the sections, of every dye's swatches, and of the undyed fibre."""
    plan, predicted = sheet.plan, section_colours(sheet.figures)
    sections = (
        PlanColour("section", section.id, 0, hex_from_srgb(srgb), bool(clipped))
        for section, srgb, clipped in zip(plan.sections, predicted.srgb, predicted.clipped, strict=True)
    )
    swatches = (
        PlanColour("swatch", stock.id, place, swatch.srgb)
        for stock in plan.dyes
        for place, swatch in enumerate(stock.swatches)
    )
    return (*sections, *swatches, PlanColour("undyed", "", 0, plan.fibre.undyed_srgb))
