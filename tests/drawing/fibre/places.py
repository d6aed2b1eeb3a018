"""Places of strands to make fibre maps for."""

from __future__ import annotations

from studio_gui.drawing.fibre.place import FibrePlace, StrandPlace


def strands_place(
    passes: int = 2,
    *,
    rovings: int = 1,
    height: float = 32.0,
    width: int = 400,
    left: float = 40.0,
    right: float = 360.0,
    ratio: float = 1.0,
) -> FibrePlace:
    """Return equal legs from `left` to `right` in a picture `width` px wide, 20 px below its upper edge."""
    strands, top = [], 20.0
    for roving in range(rovings):
        for number in range(passes):
            strands.append(StrandPlace(roving, left, right, top, height, forward=number % 2 == 0))
            top += 1.125 * height
        top += 0.375 * height
    return FibrePlace(width, round(top + 20.0), ratio, tuple(strands), extra_px=30.0, wicking_px=10.0)
