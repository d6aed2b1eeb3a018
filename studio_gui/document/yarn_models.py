"""The tables of the yarn: its runs, its pairs of liquors, and what is left over of each ply.

The rule of this module: figures come from the worksheet and are only told. A row holds figures in the plan's
units and codes; words and units are put to them when they are shown.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import cast

from PySide6.QtCore import Qt

from studio_gui.document.row_model import NO_WAY, RIGHT, SEVERITY_ROLE, Role, Row, RowModel
from studio_gui.domain.checks.yarn import leftover_severity
from studio_gui.wording.quantities import MASS, SHARE, YARN_LENGTH, Kind, shown_bare, shown_plain
from studio_gui.wording.translation import TRANSLATED
from studio_gui.wording.yarn_words import letters_of

#: Figures that agree to so many decimals of the plan's unit are the same but for the dust of reckoning.
DECIMALS = 9
#: How exactly figures are copied.
MOST_DECIMALS = 4


@dataclass(frozen=True, slots=True)
class FigureRow(Row):
    """A row of figures, and of texts where a column is no figure."""

    cells: tuple[float | str, ...]


class FigureModel(RowModel):
    """Rows that are only told. `kinds` says of each column which figure it holds; None is a text."""

    turn = 2
    kinds: tuple[Kind | None, ...] = ()

    def names(self) -> Sequence[str]:
        """Return what the columns are called; one of figures is followed by its unit."""
        raise NotImplementedError

    def word(self, code: str) -> str:
        """Return the code in the last column, in the language of the program."""
        raise NotImplementedError

    def plain(self, row: int, column: int) -> str:
        """Return a cell as a spreadsheet reads it: a bare number, or its text."""
        shown = cast("FigureRow", self._rows[row])
        cell, kind = shown.cells[column], self.kinds[column]
        if kind is None:
            return self._text(str(cell), column)
        return shown_plain(kind, float(cell), MOST_DECIMALS)

    def headings(self) -> Sequence[str]:
        named = zip(self.names(), self.kinds, strict=True)
        symbols = [(name, "" if kind is None else kind.shown_in(TRANSLATED)[0]) for name, kind in named]
        return [f"{name}, {symbol}" if symbol and name else name or symbol for name, symbol in symbols]

    @cached_property
    def said(self) -> Mapping[int, Callable[[FigureRow, int], object]]:
        return {
            Role.DisplayRole: self._shown,
            Role.TextAlignmentRole: lambda _, column: RIGHT if self.is_figure(column) else None,
            Role.ToolTipRole: lambda row, column: (
                None if self.is_figure(column) else self._shown(row, column)
            ),
        }

    def is_figure(self, column: int) -> bool:
        return self.kinds[column] is not None

    def ways_to_change(self, row: FigureRow, column: int) -> Qt.ItemFlag:
        return NO_WAY

    def _text(self, cell: str, column: int) -> str:
        return self.word(cell) if column == len(self.kinds) - 1 else cell

    def _shown(self, row: FigureRow, column: int) -> str:
        cell, kind = row.cells[column], self.kinds[column]
        return self._text(str(cell), column) if kind is None else shown_bare(kind, float(cell))


class LeftoverModel(FigureModel):
    """Plies, and what is left of each: metres of singles, grams, share of the longest, how bad that is."""

    kinds = (None, YARN_LENGTH, YARN_LENGTH, MASS, SHARE, None)

    def names(self) -> Sequence[str]:
        return (self.tr("Ply"), self.tr("spun"), self.tr("left"), "", "", self.tr("State"))

    def read(self) -> Sequence[FigureRow]:
        sheet = self.document.sheet
        yarn, limits = sheet.yarn, sheet.plan.yarn
        figures = zip(yarn.strands, yarn.leftover_m, yarn.leftover_g, yarn.leftover_shares, strict=True)
        return [
            _row(
                number,
                str(number),
                *(strand.length_m, left_m, left_g, share),
                leftover_severity(share, limits.note_share, limits.warn_share) or "fine",
            )
            for number, (strand, left_m, left_g, share) in enumerate(figures, start=1)
        ]

    def word(self, code: str) -> str:
        return {"fine": self.tr("fine"), "note": self.tr("note"), "warning": self.tr("warning")}[code]

    @cached_property
    def said(self) -> Mapping[int, Callable[[FigureRow, int], object]]:
        return {**super().said, SEVERITY_ROLE: lambda row, _: row.cells[-1]}


class _LiquorsModel(FigureModel):
    def word(self, code: str) -> str:
        return {
            "solid": self.tr("solid"),
            "barber-pole": self.tr("barber-pole"),
            "smeared": self.tr("smeared"),
        }[code]


class RunModel(_LiquorsModel):
    """The yarn from its start: where a run begins, its length, its liquors, whether it is of one colour."""

    kinds = (YARN_LENGTH, YARN_LENGTH, None, None)

    def names(self) -> Sequence[str]:
        return (self.tr("from"), "", self.tr("Liquors"), self.tr("Look"))

    def read(self) -> Sequence[FigureRow]:
        sheet = self.document.sheet
        return [
            _row(
                number,
                *(run.start_m, run.end_m - run.start_m, letters_of(sheet.plan, run.liquors)),
                "solid" if run.solid else "barber-pole",
            )
            for number, run in enumerate(sheet.yarn.runs)
        ]


class PairModel(_LiquorsModel):
    """Which liquors lie side by side, the first strand's first: singles of each strand, yarn, and share."""

    kinds = (None, YARN_LENGTH, YARN_LENGTH, SHARE, None)

    def names(self) -> Sequence[str]:
        return (self.tr("Liquors"), self.tr("singles"), self.tr("yarn"), "", self.tr("Look"))

    def read(self) -> Sequence[FigureRow]:
        sheet = self.document.sheet
        yarn = sheet.yarn
        many = "smeared" if yarn.is_chain else "barber-pole"
        return [
            _row(
                number,
                letters_of(sheet.plan, pair.liquors),
                *(pair.laid_m, pair.plied_m, yarn.share(pair.plied_m)),
                "solid" if pair.solid else many,
            )
            for number, pair in enumerate(yarn.pairs)
        ]


def _row(number: int, *cells: float | str) -> FigureRow:
    rounded = (round(cell, DECIMALS) if isinstance(cell, float) else cell for cell in cells)
    return FigureRow(str(number), tuple(rounded))
