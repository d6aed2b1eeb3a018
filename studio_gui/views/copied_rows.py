"""Rows of tables as text for the clipboard.

The rule of this module: what a spreadsheet in the user's language takes in at once. Tabs between cells, a
line of headings that name the units, bare numbers with the decimal sign of the locale, an empty cell for a
number that is not known; no text runs as a formula.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from PySide6.QtCore import Qt

from studio_gui.document.section_rows import FIGURES, Column, SectionRow
from studio_gui.document.yarn_models import FigureModel
from studio_gui.export.table import harmless
from studio_gui.wording.lengths import length_heading
from studio_gui.wording.quantities import shown_plain
from studio_gui.wording.translation import TRANSLATED, Tongue

MOST_DECIMALS = 4


def copied_rows(rows: Sequence[SectionRow], columns: Sequence[Column], tongue: Tongue = TRANSLATED) -> str:
    """Return rows of sections as lines of cells, under a line of headings."""
    headings = [_heading(column, tongue) for column in columns]
    return _lines(headings, ([_cell(row, column, tongue) for column in columns] for row in rows))


def copied_figures(model: FigureModel, rows: Sequence[int]) -> str:
    """Return rows of a table of figures as lines of cells, under a line of its headings."""
    columns = range(model.columnCount())

    def cell(row: int, column: int) -> str:
        plain = model.plain(row, column)
        return plain if model.is_figure(column) else harmless(plain)

    headings = [str(model.headerData(column, Qt.Orientation.Horizontal)) for column in columns]
    return _lines(headings, ([cell(row, column) for column in columns] for row in rows))


def copied_texts(headings: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Return rows of texts, none of them a bare number, as lines of cells, under a line of headings."""
    return _lines(headings, ([harmless(cell) for cell in row] for row in rows))


def _lines(headings: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    text = io.StringIO(newline="")
    writer = csv.writer(text, delimiter="\t", lineterminator="\n")
    writer.writerow(headings)
    writer.writerows(rows)
    return text.getvalue()


def _heading(column: Column, tongue: Tongue) -> str:
    if column == Column.LENGTH:
        return length_heading(tongue)
    names = {
        Column.LETTER: tongue.translate("Copied", "liquor"),
        Column.NAME: tongue.translate("Copied", "section"),
        Column.FROM: tongue.translate("Copied", "from"),
        Column.TO: tongue.translate("Copied", "to"),
        Column.FIBRE: tongue.translate("Copied", "fibre"),
        Column.LIQUID: tongue.translate("Copied", "liquid"),
        Column.PER_ROVING: tongue.translate("Copied", "liquid per roving"),
        Column.APPLIED: tongue.translate("Copied", "applied"),
        Column.DEPTH: tongue.translate("Copied", "depth"),
        Column.ACID: tongue.translate("Copied", "acid"),
        Column.STATE: tongue.translate("Copied", "wetness"),
        Column.WIPED: tongue.translate("Copied", "wiped"),
        Column.GAP: tongue.translate("Copied", "gap after"),
        Column.LOCKED: tongue.translate("Copied", "locked"),
    }
    if column not in FIGURES:
        return names[column]
    return f"{names[column]}, {FIGURES[column].shown_in(tongue)[0]}"


def _cell(row: SectionRow, column: Column, tongue: Tongue) -> str:
    if column in FIGURES:
        return shown_plain(FIGURES[column], row.figure(column), MOST_DECIMALS, tongue)
    if column == Column.STATE:
        words = {
            "over": tongue.translate("Copied", "over"),
            "under": tongue.translate("Copied", "under"),
            "in range": tongue.translate("Copied", "in range"),
        }
        return words[row.saturation]
    if column == Column.LOCKED:
        return tongue.translate("Copied", "yes") if row.section.locked else tongue.translate("Copied", "no")
    return harmless(row.liquor.letter if column == Column.LETTER else row.section.name)
