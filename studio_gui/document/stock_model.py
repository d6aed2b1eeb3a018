"""The table of stocks: what stands in the bottles, and how much of each the plan needs.

The rule of this module: what a plan needs of a stock comes from the jars, never from summing sections. A
dye is shown in the colour of its first swatch; swatches are edited in the form.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import IntEnum
from functools import cached_property, partial
from typing import Any

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QColor

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.document.row_model import NO_WAY, RIGHT, Role, Row, RowModel
from studio_gui.domain.edits.stocks import change_stock, change_strength_keeping_depth
from studio_gui.domain.edits.swatches import stand_in
from studio_gui.domain.stocks import STRENGTHS_KNOWN, Stock, StrengthKnown
from studio_gui.domain.stocks import Role as StockRole
from studio_gui.wording.naming import one_line
from studio_gui.wording.quantities import ACID, DEPTH, STRENGTH, VOLUME, Kind, parse, shown, shown_bare
from studio_gui.wording.translation import TRANSLATED, translate

#: Strength of a dye that has just been put on the shelf, until its owner says better.
NEW_DYE_STRENGTH_G_PER_L = 10.0


class Column(IntEnum):
    """The columns of the table."""

    NAME = 0
    USED = 1
    ROLE = 2
    KNOWN = 3
    SWATCHES = 4
    STRENGTH = 5
    TAKE_UP = 6
    ACID = 7
    NEED = 8


_FIGURES: dict[int, tuple[Kind, str]] = {
    Column.STRENGTH: (STRENGTH, "strength_g_per_l"),
    Column.ACID: (ACID, "acid_g_per_l"),
    Column.NEED: (VOLUME, ""),
    Column.TAKE_UP: (DEPTH, "take_up_pct_owf"),
}
_OF_DYES = (Column.STRENGTH, Column.KNOWN, Column.TAKE_UP, Column.SWATCHES)
_NOT_TYPED = (Column.USED, Column.NEED, Column.ROLE, Column.SWATCHES)
_UNKNOWN = ("", "?", "unknown")


@dataclass(frozen=True, slots=True)
class StockRow(Row):
    """A stock, the letters of the liquors it is in, and how much the plan needs, as shown and in full."""

    stock: Stock
    letters: tuple[str, ...]
    is_acid_line: bool
    srgb: str
    shown_need_ml: float
    need_ml: float = field(compare=False)


class StockModel(RowModel):
    """Stocks as rows; see `Column`.

    `keeps_depths` says what a new strength leaves alone: the shades, or else the parts of the liquors.
    """

    moving = ("shown_need_ml", Column.NEED)

    def __init__(self, document: OpenPlan, parent: QObject | None = None) -> None:
        self.keeps_depths = False
        super().__init__(document, parent)

    def read(self) -> Sequence[StockRow]:
        sheet = self.document.sheet
        plan, need = sheet.plan, sheet.make_up.need_ml.tolist()
        line_id = plan.acid_line.stock_id if plan.acid_line is not None else ""
        letters: dict[str, list[str]] = {stock.id: [] for stock in plan.stocks}
        for liquor in plan.liquors:
            for stock_id in liquor.stock_ids:
                letters[stock_id].append(liquor.letter)
        return [
            StockRow(
                stock.id,
                stock,
                tuple(letters[stock.id]),
                stock.id == line_id,
                sheet.seen_srgb(stock.swatches[0].srgb) if stock.is_dye else "",
                round(ml, 1),
                ml,
            )
            for stock, ml in zip(plan.stocks, need, strict=True)
        ]

    def headings(self) -> Sequence[str]:
        strength, acid, volume, depth = (
            kind.shown_in(TRANSLATED)[0] for kind in (STRENGTH, ACID, VOLUME, DEPTH)
        )
        return (
            self.tr("Stock"),
            self.tr("Used in"),
            self.tr("Kind"),
            self.tr("Known by"),
            self.tr("Swatches {0}").format(depth),
            strength,
            self.tr("Takes up {0}").format(depth),
            self.tr("Acid {0}").format(acid),
            volume,
        )

    def heading_explained(self, column: int) -> str | None:
        explained: dict[int, str] = {
            Column.STRENGTH: self.tr("Strength: weight of dye in the volume of the stock"),
            Column.ACID: self.tr("Acid in the bottle"),
            Column.USED: self.tr("Letters of the liquors that it is in"),
            Column.NEED: self.tr("What all jars of the plan need of it"),
            Column.TAKE_UP: self.tr("Most dye that the wool takes up, on the weight of the fibre"),
            Column.SWATCHES: self.tr("Depths of the dyed samples, on the weight of the fibre"),
        }
        return explained.get(column)

    def used_in(self, stock_id: str) -> str:
        """Return in which liquors a stock is, in words: "A, C, F", "not used"."""
        row = self.row_of(stock_id)
        return str(self.index(row, Column.USED).data()) if row >= 0 else ""

    def ways_to_change(self, row: StockRow, column: int) -> Qt.ItemFlag:
        fixed = column in _NOT_TYPED or self._says_nothing(row, column)
        return NO_WAY if fixed else Qt.ItemFlag.ItemIsEditable

    def take(self, row: StockRow, column: int, value: object, role: int) -> bool:
        typed = str(value)
        if role != Role.EditRole or typed == self._editable(row, column):
            return False
        stock = row.stock
        if column == Column.STRENGTH:
            strength = parse(STRENGTH, typed, "strength_g_per_l")
            return self.edit(self.tr("Change strength"), self.strength_edit(stock.id, strength))
        name, changes = self._changes(stock, column, typed)
        return self.edit(name, partial(change_stock, stock_id=stock.id, **changes))

    def strength_edit(self, stock_id: str, strength_g_per_l: float) -> Edit:
        """Return the edit that gives a dye a new strength and leaves alone what is to be kept."""
        if self.keeps_depths:
            return partial(
                change_strength_keeping_depth, stock_id=stock_id, strength_g_per_l=strength_g_per_l
            )
        return partial(change_stock, stock_id=stock_id, strength_g_per_l=strength_g_per_l)

    def known_choices(self) -> list[tuple[str, StrengthKnown]]:
        """Return how a strength may be known, in words and as the plan has it."""
        return [(self._known_words(known), known) for known in STRENGTHS_KNOWN]

    @cached_property
    def said(self) -> Mapping[int, Callable[[StockRow, int], object]]:
        return {
            Role.DisplayRole: self._shown,
            Role.EditRole: self._editable,
            Role.TextAlignmentRole: lambda _, column: RIGHT if column in _FIGURES else None,
            Role.DecorationRole: self._colour,
            Role.ToolTipRole: self._explained,
        }

    def is_figure(self, column: int) -> bool:
        return column in _FIGURES

    def _changes(self, stock: Stock, column: int, typed: str) -> tuple[str, dict[str, Any]]:
        """Return the name of the undo step and the fields of the stock that `typed` changes."""
        if column == Column.NAME:
            return self.tr("Rename stock"), {"name": typed}
        if column == Column.ACID:
            unknown = typed.strip().casefold() in (*_UNKNOWN, self.tr("unknown").casefold())
            acid = None if unknown else parse(ACID, typed, "acid_g_per_l")
            return self.tr("Change acid"), {"acid_g_per_l": acid}
        if column == Column.TAKE_UP:
            return self.tr("Change take-up"), {"take_up_pct_owf": parse(DEPTH, typed, "take_up_pct_owf")}
        return self.tr("Say how strength is known"), {"strength_known": typed}

    def _figure(self, row: StockRow, column: int) -> float | None:
        stock = row.stock
        if column == Column.NEED:
            return row.need_ml
        if column == Column.ACID:
            return stock.acid_g_per_l
        return stock.strength_g_per_l if column == Column.STRENGTH else stock.take_up_pct_owf

    def _says_nothing(self, row: StockRow, column: int) -> bool:
        return column in _OF_DYES and not row.stock.is_dye

    def _shown(self, row: StockRow, column: int) -> str:
        stock = row.stock
        if self._says_nothing(row, column):
            return ""
        if column in _FIGURES:
            value = self._figure(row, column)
            return self.tr("unknown") if value is None else shown_bare(_FIGURES[column][0], value)
        words: dict[int, Callable[[], str]] = {
            Column.USED: lambda: self._used(row),
            Column.ROLE: lambda: role_words(stock.role),
            Column.KNOWN: lambda: self._known_words(stock.strength_known),
            Column.SWATCHES: lambda: _depths(stock),
        }
        return words.get(column, lambda: stock.name)()

    def _editable(self, row: StockRow, column: int) -> str:
        if self._says_nothing(row, column):
            return ""
        if column in _FIGURES:
            value = self._figure(row, column)
            return self.tr("unknown") if value is None else shown(_FIGURES[column][0], value)
        return row.stock.strength_known if column == Column.KNOWN else self._shown(row, column)

    def _used(self, row: StockRow) -> str:
        users = [one_line(letter) for letter in row.letters]
        if row.is_acid_line:
            users.append(self.tr("acid line"))
        return ", ".join(users) or self.tr("not used")

    def _explained(self, row: StockRow, column: int) -> str | None:
        if column == Column.NAME:
            return row.stock.name
        if column == Column.USED:
            return self._used(row)
        if column == Column.STRENGTH and row.stock.is_dye:
            return (
                f"{shown(STRENGTH, row.stock.strength_g_per_l)} = {shown(ACID, row.stock.strength_g_per_l)}"
            )
        return None

    def _colour(self, row: StockRow, column: int) -> QColor | None:
        if column == Column.NAME:
            return QColor(row.srgb) if row.srgb else QColor(Qt.GlobalColor.transparent)
        return None

    def _known_words(self, known: StrengthKnown) -> str:
        return {
            "weighed": self.tr("weighed"),
            "spoon": self.tr("by spoon"),
            "nominal": self.tr("as labelled"),
        }[known]


def role_words(role: StockRole) -> str:
    """Return what a role is called."""
    return translate("StockModel", "dye") if role == "dye" else translate("StockModel", "let-down")


def _depths(stock: Stock) -> str:
    return ", ".join(shown_bare(DEPTH, swatch.depth_pct_owf) for swatch in stock.swatches)


def new_dye(stock_id: str, name: str, fibre_srgb: str) -> Stock:
    """Return a dye to put on the shelf, with a swatch to start from: 1 % owf on this fibre."""
    swatch = stand_in(fibre_srgb)
    return Stock(stock_id, name, "dye", strength_g_per_l=NEW_DYE_STRENGTH_G_PER_L, swatches=(swatch,))
