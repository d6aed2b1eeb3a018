"""The field for the depth that a sample was dyed at.

The rule of this module: a depth is typed as it is, or as what was painted.
"""

from __future__ import annotations

from studio_gui.views.fields import QuantityField
from studio_gui.wording.depths import parse_depth


class DepthField(QuantityField):
    """A depth, typed as % or as what was painted: "12 + 38 on 18 g"."""

    def __init__(self) -> None:
        super().__init__("swatch_depth_pct_owf")
        self.strength_pct = 1.0

    def _take(self, text: str) -> None:
        self.entered.emit(parse_depth(text, self.strength_pct))
