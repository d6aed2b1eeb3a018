"""The papers that sheets are laid out for.

Sizes: ISO 216:2007 for A4, ANSI/ASME Y14.1 for Letter (8.5 x 11 inches).
"""

from __future__ import annotations

from dataclasses import dataclass

from studio_gui.drawing.sheets.page import Box

#: What home printers leave white at every edge (common practice, no source).
MARGIN_MM = 10.0


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper by its sides as it stands upright, mm."""

    name: str
    width_mm: float
    height_mm: float

    def portrait(self) -> Box:
        """Return the sheet standing upright."""
        return Box(0.0, 0.0, self.width_mm, self.height_mm)

    def landscape(self) -> Box:
        """Return the sheet lying on its long side."""
        return Box(0.0, 0.0, self.height_mm, self.width_mm)


A4 = Paper("A4", 210.0, 297.0)
LETTER = Paper("Letter", 215.9, 279.4)
PAPERS = {paper.name: paper for paper in (A4, LETTER)}

# Where Letter is the usual paper: Unicode CLDR, supplemental data, paperSize US-Letter (from memory).
_LETTER_COUNTRIES = ("BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE")


def usual_paper(country: str) -> Paper:
    """Return the paper that is usual in a country, by its code of ISO 3166.

    >>> usual_paper("US").name, usual_paper("NO").name
    ('Letter', 'A4')
    """
    return LETTER if country in _LETTER_COUNTRIES else A4
