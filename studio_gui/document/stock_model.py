"""The table of stocks: what stands in the bottles, and how much of each the plan needs.

The rule of this module: what a plan needs of a stock comes from the jars, never from summing sections. A
dye's swatch is its first one; further swatches are kept.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import IntEnum
from functools import cached_property, partial
from typing import Any

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QColor

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.document.row_model import NO_WAY, RIGHT, Role, Row, RowModel
from studio_gui.domain.colour.swatches import Swatch, checked_srgb
from studio_gui.domain.edits.stocks import change_stock, change_strength_keeping_depth
from studio_gui.domain.stocks import STRENGTHS_KNOWN, Stock, StrengthKnown
from studio_gui.domain.stocks import Role as StockRole
from studio_gui.wording.quantities import ACID, DEPTH, STRENGTH, VOLUME, Kind, parse, shown, shown_bare
from studio_gui.wording.translation import TRANSLATED, translate

#: The swatch of a dye that has just been put on the shelf, until its owner says better.
NEW_DYE_SRGB = "#7a5c8e"
NEW_DYE_DEPTH_PCT_OWF = 1.0
NEW_DYE_STRENGTH_G_PER_L = 10.0


class Column(IntEnum):
    """The columns of the table."""

    NAME = 0
    STRENGTH = 1
    ACID = 2
    NEED = 3
    ROLE = 4
    KNOWN = 5
    TAKE_UP = 6
    SWATCH = 7
    SWATCH_DEPTH = 8


_FIGURES: dict[int, tuple[Kind, str]] = {
    Column.STRENGTH: (STRENGTH, "strength_g_per_l"),
    Column.ACID: (ACID, "acid_g_per_l"),
    Column.NEED: (VOLUME, ""),
    Column.TAKE_UP: (DEPTH, "take_up_pct_owf"),
    Column.SWATCH_DEPTH: (DEPTH, "depth_pct_owf"),
}
_OF_DYES = (Column.STRENGTH, Column.KNOWN, Column.TAKE_UP, Column.SWATCH, Column.SWATCH_DEPTH)
_UNKNOWN = ("", "?", "unknown")


@dataclass(frozen=True, slots=True)
class StockRow(Row):
    """A stock, and how much of it the plan needs, as shown and in full."""

    stock: Stock
    shown_need_ml: float
    need_ml: float = field(compare=False)


class StockModel(RowModel):
    """Stocks as rows; see `Column`.

    `keeps_depths` says what a new strength leaves alone: the shades, or else the parts of the liquors.
    """

    def __init__(self, document: OpenPlan, parent: QObject | None = None) -> None:
        self.keeps_depths = False
        super().__init__(document, parent)

    def read(self) -> Sequence[StockRow]:
        sheet = self.document.sheet
        need = sheet.make_up.need_ml.tolist()
        return [
            StockRow(stock.id, stock, round(need_ml, 1), need_ml)
            for stock, need_ml in zip(sheet.plan.stocks, need, strict=True)
        ]

    def headings(self) -> Sequence[str]:
        acid, volume = (kind.shown_in(TRANSLATED)[0] for kind in (ACID, VOLUME))
        return (
            self.tr("Stock"),
            self.tr("Strength"),
            self.tr("Acid {0}").format(acid),
            self.tr("Need {0}").format(volume),
            self.tr("Kind"),
            self.tr("Known by"),
            self.tr("Takes up %"),
            self.tr("Swatch"),
            self.tr("at depth %"),
        )

    def ways_to_change(self, row: StockRow, column: int) -> Qt.ItemFlag:
        fixed = column in (Column.NEED, Column.ROLE) or self._says_nothing(row, column)
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
            Role.ToolTipRole: lambda row, column: row.stock.name if column == Column.NAME else None,
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
        if column == Column.KNOWN:
            return self.tr("Say how strength is known"), {"strength_known": typed}
        if column == Column.SWATCH:
            srgb = checked_srgb("srgb", typed if typed.startswith("#") else f"#{typed}")
            return self.tr("Change swatch"), {"swatches": with_first_swatch(stock, srgb=srgb)}
        depth = parse(DEPTH, typed, "depth_pct_owf")
        return self.tr("Change swatch"), {"swatches": with_first_swatch(stock, depth_pct_owf=depth)}

    def _figure(self, row: StockRow, column: int) -> float | None:
        stock = row.stock
        if column == Column.NEED:
            return row.need_ml
        if column == Column.ACID:
            return stock.acid_g_per_l
        if column == Column.STRENGTH:
            return stock.strength_g_per_l
        return stock.take_up_pct_owf if column == Column.TAKE_UP else stock.swatches[0].depth_pct_owf

    def _says_nothing(self, row: StockRow, column: int) -> bool:
        return column in _OF_DYES and not row.stock.is_dye

    def _shown(self, row: StockRow, column: int) -> str:
        stock = row.stock
        if self._says_nothing(row, column):
            return ""
        if column in _FIGURES:
            value = self._figure(row, column)
            if value is None:
                return self.tr("unknown")
            say = shown if column == Column.STRENGTH else shown_bare
            return say(_FIGURES[column][0], value)
        if column == Column.ROLE:
            return role_words(stock.role)
        return (
            self._known_words(stock.strength_known) if column == Column.KNOWN else self._editable(row, column)
        )

    def _editable(self, row: StockRow, column: int) -> str:
        stock = row.stock
        if self._says_nothing(row, column):
            return ""
        if column in _FIGURES:
            value = self._figure(row, column)
            return self.tr("unknown") if value is None else shown(_FIGURES[column][0], value)
        words: dict[int, str] = {
            Column.NAME: stock.name,
            Column.ROLE: stock.role,
            Column.KNOWN: stock.strength_known,
            Column.SWATCH: stock.swatches[0].srgb if stock.is_dye else "",
        }
        return words[column]

    def _colour(self, row: StockRow, column: int) -> QColor | None:
        stock = row.stock
        if column == Column.NAME:
            return QColor(stock.swatches[0].srgb) if stock.is_dye else QColor(Qt.GlobalColor.transparent)
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


def with_first_swatch(stock: Stock, **changes: Any) -> tuple[Swatch, ...]:  # noqa: ANN401  (fields of Swatch)
    """Return the swatches of a dye with fields of the first replaced; the others stay."""
    return (replace(stock.swatches[0], **changes), *stock.swatches[1:])


def new_dye(stock_id: str, name: str, fibre_srgb: str) -> Stock:
    """Return a dye to put on the shelf, with a swatch to start from: 1 % owf on this fibre."""
    swatch = Swatch(NEW_DYE_DEPTH_PCT_OWF, NEW_DYE_SRGB, fibre_srgb)
    return Stock(stock_id, name, "dye", strength_g_per_l=NEW_DYE_STRENGTH_G_PER_L, swatches=(swatch,))
