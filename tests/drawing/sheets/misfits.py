"""What does not fit on a sheet: the question every layout of a page is asked."""

from itertools import combinations

from studio_gui.drawing.sheets.page import Box, Frame, Page, Picture
from studio_gui.drawing.sheets.type import line_mm, width_mm

# What floats leave over, mm.
_DUST = 1e-6


def misfits(page: Page) -> list[str]:
    """Return a sentence for each text too wide or high for its box, off the paper, or over another."""
    found = []
    for words in page.words():
        widest = max((width_mm(line, words.size_pt, bold=words.bold) for line in words.lines), default=0.0)
        if widest > words.box.width + _DUST:
            found.append(f"{words.lines} is {widest:.1f} mm wide in {words.box.width:.1f}")
        height = len(words.lines) * line_mm(words.size_pt)
        if height > words.box.height + _DUST:
            found.append(f"{words.lines} is {height:.1f} mm high in {words.box.height:.1f}")
        if not page.paper.holds(words.box):
            found.append(f"{words.lines} is off the paper")
    for one, other in combinations(page.words(), 2):
        if one.box.overlaps(other.box):
            found.append(f"{one.lines} is over {other.lines}")
    return found


def crossings(page: Page) -> list[str]:
    """Return a sentence for each text that crosses the edge of a frame, and each that is over a picture."""
    found = []
    frames = [mark.box for mark in page.marks if isinstance(mark, Frame)]
    pictures = [mark.box for mark in page.marks if isinstance(mark, Picture)]
    for words in page.words():
        found += [f"{words.lines} crosses the frame {box}" for box in frames if _crosses(words.box, box)]
        found += [f"{words.lines} is over a picture" for box in pictures if words.box.overlaps(box)]
    return found


def _crosses(one: Box, other: Box) -> bool:
    return one.overlaps(other) and not other.holds(one) and not one.holds(other)
