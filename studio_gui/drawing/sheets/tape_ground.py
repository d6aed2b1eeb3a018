"""What is drawn on a piece of tape: colours, ruler and lines.

The rule of this module: whatever a colour says, a line or a pattern says too. Beside black lines the bar of
colours is white; film beyond the lay is hatched widely, a gap closely, and an overlap has both colours.
"""

from __future__ import annotations

from collections.abc import Iterator

from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.sections import Boundary
from studio_gui.drawing.ruler import ruler_steps, ruler_unit_m
from studio_gui.drawing.sheets.page import WHITE, Box, Frame, Mark, Rule
from studio_gui.drawing.sheets.tape_film import SAME_MM
from studio_gui.drawing.sheets.tape_piece import (
    BAR_MM,
    BAR_TOP_MM,
    NOTES_MM,
    TICKS_MM,
    TapePiece,
)

#: As if the ruler were looked at so closely, px a metre: figures every 5 cm, or every 2 inches.
RULER_PX_PER_M = 1200.0
_LINE_MM = 0.8
_BELOW_BAR_MM = 0.6
_WIDE_HATCH_MM, _CLOSE_HATCH_MM = 8.0, 2.0


def ground_marks(at: TapePiece) -> Iterator[Mark]:
    """Yield colours, ruler and lines of a piece."""
    yield from _colours(at)
    yield from _ruler(at)
    yield from _lines(at)


def ticks(at: TapePiece) -> Iterator[tuple[float, float, bool]]:
    """Yield place and height of every tick, mm, and whether it has a figure."""
    unit_m = ruler_unit_m()
    figure_m, tick_m = ruler_steps(RULER_PX_PER_M, unit_m)
    low, high = max(at.seen_mm[0], 0.0), min(at.seen_mm[1], at.film.edges_mm[-1])
    number = max(round(low / 1000.0 / tick_m) - 1, 0)
    while (place := 1000.0 * number * tick_m) <= high + SAME_MM:
        is_figure, is_unit = (_is_multiple(number * tick_m, step) for step in (figure_m, unit_m))
        if place >= low - SAME_MM:
            yield place, TICKS_MM * (1.0 if is_figure else 0.65 if is_unit else 0.4), is_figure
        number += 1


def _is_multiple(length_m: float, step_m: float) -> bool:
    return abs(length_m / step_m - round(length_m / step_m)) < 1e-6


def _ruler(at: TapePiece) -> Iterator[Mark]:
    low, high = at.seen_mm
    yield Rule(at.x(low), at.top, at.x(high), at.top, 0.3)
    for place, height, _ in ticks(at):
        yield Rule(at.x(place), at.top, at.x(place), at.top + height, 0.25)


def _lines(at: TapePiece) -> Iterator[Mark]:
    foot, edges = at.top + BAR_MM, set(at.film.edges_mm)
    for place in at.film.lines_mm:
        if not at.sees(place):
            continue
        x = at.x(place)
        if place in edges:
            yield Rule(x, at.top + BAR_TOP_MM - 0.2, x, foot + 0.2, 3.0 * _LINE_MM, colour=WHITE)
            yield Rule(x, at.top, x, foot + _BELOW_BAR_MM, _LINE_MM)
        else:
            yield Rule(x, at.top, x, foot + _BELOW_BAR_MM, 0.5, dash_mm=1.5)


def _colours(at: TapePiece) -> Iterator[Mark]:
    film = at.film
    for index, start, end in film.sections_within(*at.seen_mm):
        band = at.band(start, end)
        if band is not None:
            yield Frame(band, 0.3, fill=hex_from_srgb(film.sheet.colours.srgb[index]))
    for start, end in ((film.ends_mm[0], 0.0), (film.edges_mm[-1], film.ends_mm[1])):
        yield from _hatched(at.band(start, end), _WIDE_HATCH_MM)
    for index, boundary in enumerate(film.plan.boundaries):
        if boundary.gap_m:
            yield from _gap(at, index, boundary)


def _gap(at: TapePiece, index: int, boundary: Boundary) -> Iterator[Mark]:
    """Yield a gap, or an overlap, and the broken lines where it begins and ends."""
    middle, half = 1000.0 * boundary.position_m, 500.0 * abs(boundary.gap_m)
    band = at.band(middle - half, middle + half)
    if boundary.gap_m > 0.0:
        yield from _hatched(band, _CLOSE_HATCH_MM)
    elif band is not None:
        srgb = at.film.sheet.colours.srgb
        for row in (0, 1):
            upper = Box(band.x, band.y + row * band.height / 2.0, band.width, band.height / 2.0)
            yield Frame(upper, 0.5, fill=hex_from_srgb(srgb[index + row]))
    for place in (middle - half, middle + half):
        if at.sees(place):
            x = at.x(place)
            yield Rule(x, at.top + NOTES_MM, x, at.top + BAR_MM + _BELOW_BAR_MM, 0.5, dash_mm=1.0)


def _hatched(band: Box | None, apart_mm: float) -> Iterator[Mark]:
    """Yield a frame with lines at 45 degrees in it; nothing for no band."""
    if band is None:
        return
    yield Frame(band, 0.3, fill=WHITE)
    foot = band.x - band.height + apart_mm
    while foot < band.right:
        start, end = max(foot, band.x), min(foot + band.height, band.right)
        yield Rule(start, band.bottom - (start - foot), end, band.bottom - (end - foot), 0.2)
        foot += apart_mm
