"""Checks of colour: predictions that are no more than guesses.

The rule of this module: a fluorescent dye is only as good as its own swatches, so every mix with it is named.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from studio_gui.domain.checks.check import Check
from studio_gui.domain.figures import SectionFigures

#: A dye this pale beside another changes nothing that could be seen, % owf. Our choice, no source.
LEAST_DEPTH_PCT_OWF = 0.001


def guessed_mixes(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``mix-is-a-guess`` for each fluorescent dye that stands with another one on some section."""
    seen = figures.left_pct_owf > LEAST_DEPTH_PCT_OWF
    mixed = (seen.sum(axis=1) > 1) & figures.judged
    for column, stock in enumerate(figures.plan.dyes):
        guessed = np.flatnonzero(mixed & seen[:, column]).tolist() if stock.is_fluorescent else []
        if guessed:
            ids = tuple(figures.plan.sections[index].id for index in guessed)
            yield Check("mix-is-a-guess", "note", ids, {"stock_id": stock.id})
