"""What is said of a knitted swatch.

The rule of this module: metres are of plied yarn; rows are whole where they are counted, and have a decimal
where a stretch of colour is told in them.
"""

from __future__ import annotations

from studio_gui.domain.spinning.figures import YarnRun
from studio_gui.domain.spinning.swatch import KnittedRows
from studio_gui.wording.numbers import shown_number
from studio_gui.wording.quantities import ROVING_LENGTH, ROWS, shown
from studio_gui.wording.translation import TRANSLATED, Tongue
from studio_gui.wording.yarn_words import letters_of


def swatch_line(rows: KnittedRows, tongue: Tongue = TRANSLATED) -> str:
    """Return what a row takes and how many there are; of a yarn that makes none, why."""
    row = shown(ROVING_LENGTH, rows.row_m, tongue)
    if rows.rows == 0:
        return no_swatch(rows, tongue)
    words = tongue.translate("Swatch", "One row takes {0} of yarn; rows: {1}")
    return words.format(row, shown_number(rows.rows, 0, tongue))


def no_swatch(rows: KnittedRows, tongue: Tongue = TRANSLATED) -> str:
    """Return why a yarn makes no row, and how to mend it."""
    if rows.yarn.plied_m <= 0.0:
        return tongue.translate(
            "Swatch", "There is no yarn to knit with: one of the bobbins has nothing left to ply."
        )
    words = tongue.translate(
        "Swatch", "One row takes {0}, and the yarn has {1}. Knit narrower, or with less yarn a row."
    )
    return words.format(
        shown(ROVING_LENGTH, rows.row_m, tongue), shown(ROVING_LENGTH, rows.yarn.plied_m, tongue)
    )


def knitted_run(rows: KnittedRows, run: YarnRun, tongue: Tongue = TRANSLATED) -> str:
    """Return a stretch of the yarn in rows: "A is solid for 3.9 rows"."""
    words = (
        tongue.translate("Swatch", "{0} is solid for {1} rows")
        if run.solid
        else tongue.translate("Swatch", "{0} is barber-pole for {1} rows")
    )
    liquors = tuple(dict.fromkeys(run.liquors)) if run.solid else run.liquors
    return words.format(letters_of(rows.plan, liquors), shown(ROWS, rows.rows_of(run), tongue))


def row_told(row: int, tongue: Tongue = TRANSLATED) -> str:
    """Return which row is pointed at, counted from 1."""
    return tongue.translate("Swatch", "Row {0}").format(shown_number(row, 0, tongue))
