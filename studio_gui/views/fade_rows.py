"""What the bars and the recipes of a solved fade show.

The rule of this module: what is painted comes first, and beside it what is painted without a solver.
"""

from __future__ import annotations

from PySide6.QtGui import QColor

from studio_gui.domain.colour.fades import Fade
from studio_gui.domain.colour.spaces import hex_from_lab
from studio_gui.domain.edits.fades import PlannedFade
from studio_gui.views.fade_bars import FadeRow
from studio_gui.views.recipe_table import Recipe
from studio_gui.wording.fade_words import evenness_words, fade_depth_words, jar_stocks, jar_words
from studio_gui.wording.translation import translate


def rows_of(fade: PlannedFade) -> tuple[FadeRow, ...]:
    """Return the bars: even steps, equal shares, a halving series."""
    equal, halved = fade.naive
    return (
        _row(translate("Fades", "Even steps"), fade.solved),
        _row(translate("Fades", "Equal shares"), equal),
        _row(translate("Fades", "Halving"), halved),
    )


def recipes_of(fade: PlannedFade) -> list[Recipe]:
    """Return what goes into each jar, and the colour that it gives."""
    return [
        Recipe(colour, jar_words(fade, place), jar_stocks(fade, place), fade_depth_words(fade, place))
        for place, colour in enumerate(_colours(fade.solved))
    ]


def _row(name: str, fade: Fade) -> FadeRow:
    return FadeRow(name, evenness_words(fade.evenness), _colours(fade), fade.evenness.steps)


def _colours(fade: Fade) -> tuple[QColor, ...]:
    return tuple(QColor(hex_from_lab(lab)[0]) for lab in fade.labs)
