"""What does not fit on a sheet: the question every layout of a page is asked."""

from itertools import combinations

from studio_gui.drawing.sheets.page import Page
from studio_gui.drawing.sheets.type import line_mm, width_mm


def misfits(page: Page) -> list[str]:
    """Return a sentence for each text too wide or high for its box, off the paper, or over another."""
    found = []
    for words in page.words():
        widest = max((width_mm(line, words.size_pt, bold=words.bold) for line in words.lines), default=0.0)
        if widest > words.box.width + 1e-6:
            found.append(f"{words.lines} is {widest:.1f} mm wide in {words.box.width:.1f}")
        height = len(words.lines) * line_mm(words.size_pt)
        if height > words.box.height + 1e-6:
            found.append(f"{words.lines} is {height:.1f} mm high in {words.box.height:.1f}")
        if not page.paper.holds(words.box):
            found.append(f"{words.lines} is off the paper")
    for one, other in combinations(page.words(), 2):
        if one.box.overlaps(other.box):
            found.append(f"{one.lines} is over {other.lines}")
    return found
