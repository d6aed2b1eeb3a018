"""Where the stitches of a swatch lie, and how large they are.

The rule of this module: stitches are whole device pixels, so that every one is drawn alike. Row 0 is the
first above the cast-on, at the bottom; the yarn runs from there up, row after row.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

#: Samples of the yarn's colour along one stitch.
SAMPLES = 4
#: Height of a stitch as a share of its width: 20 stitches and 28 rows to 10 cm, common practice, no source.
STITCH_SHAPE = 20.0 / 28.0
#: Width of stitches, px of the screen's scale: the smallest that is drawn, and the largest.
LEAST_STITCH_PX, WIDEST_STITCH_PX = 4.0, 26.0
#: So many rows are to be seen before stitches are drawn larger.
ROWS_WANTED = 16
#: Smaller stitches, px of the screen's scale, show no fibre.
LEAST_FIBRE_PX = 8.0


@dataclass(frozen=True, slots=True)
class KnitPlace:
    """All that the maps of a swatch depend on.

    A stitch is `stitch_width` by `stitch_height` device pixels; `strands` is how many are twisted round each
    other. Knitted flat, every other row runs back: the first one shown where `first_is_back`.
    """

    columns: int
    rows: int
    stitch_width: int
    stitch_height: int
    strands: int
    device_pixel_ratio: float = 1.0
    in_the_round: bool = False
    first_is_back: bool = False

    @property
    def margin_x(self) -> int:
        """Device pixels at either side for what bulges out."""
        return math.ceil(0.17 * self.stitch_width) + 1

    @property
    def margin_y(self) -> int:
        """Device pixels above and below for heads and feet."""
        return math.ceil(1.15 * self.stitch_height) + 1

    @property
    def width(self) -> int:
        """Width of the picture, device pixels."""
        return self.columns * self.stitch_width + 2 * self.margin_x

    @property
    def height(self) -> int:
        """Height of the picture, device pixels."""
        return self.rows * self.stitch_height + 2 * self.margin_y

    @property
    def samples_per_row(self) -> int:
        """Colours along one row of yarn."""
        return self.columns * SAMPLES

    @property
    def samples(self) -> int:
        """Colours along the yarn that is seen, in the order in which it is knitted."""
        return self.rows * self.samples_per_row


def stitch_at(place: KnitPlace, x: float, y: float) -> tuple[int, float] | None:
    """Return the row (0 the lowest shown) and how far along it the yarn is (0 to 1) at a device pixel.

    None beside the swatch.

    >>> stitch_at(KnitPlace(10, 4, 8, 6, 2), 3.0 + 8.0 * 10 - 1.0, 8.0 + 6.0 * 4 - 1.0)
    (0, 0.0125)
    """
    across = (x - place.margin_x) / (place.columns * place.stitch_width)
    row = math.floor((place.margin_y + place.rows * place.stitch_height - y) / place.stitch_height)
    if not (0.0 <= across <= 1.0 and 0 <= row < place.rows):
        return None
    return row, across if runs_right(place, row) else 1.0 - across


def runs_right(place: KnitPlace, row: int) -> bool:
    """Return whether a row shown is knitted from left to right, as seen on the right side of the fabric.

    Rows of the right side run leftwards, and so does every row in the round: common practice, no source.
    """
    return not place.in_the_round and (row + place.first_is_back) % 2 == 1
