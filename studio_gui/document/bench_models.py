"""The tables of the bench: what goes into each jar, and the stocks to make for it.

The rule of this module: amounts read as they are printed, in millilitres and grams whatever the units. Only
how much of a stock is made can be typed; with nothing typed the plan suggests it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum
from functools import cached_property, partial
from typing import cast

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont

from studio_gui.document.row_model import NO_WAY, RIGHT, SEVERITY_ROLE, Role, Row, RowModel
from studio_gui.document.yarn_models import FigureModel, FigureRow
from studio_gui.domain.bottles import Bottle
from studio_gui.domain.cards import Card
from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.plan import Plan
from studio_gui.wording.bench_words import (
    alike_warning,
    amount_warning,
    bottle_warnings,
    jar_error,
    jar_number,
    jar_use,
    measured_ml,
    painted_with,
    powder,
    stock_kind,
    volume_made,
)
from studio_gui.wording.fields import field_name
from studio_gui.wording.naming import liquor_name, one_line, stock_name
from studio_gui.wording.numbers import shown_number
from studio_gui.wording.quantities import Kind, parse
from studio_gui.wording.translation import translate

#: Millilitres in every system of units, as syringes and cylinders are.
MILLILITRES = Kind("volume", "ml", 1)

#: What sets a stock in from its jar.
INDENT = "\u2003\u2003"
_TRANSPARENT = "#00000000"


class JarColumn(IntEnum):
    """The columns of the table of jars."""

    NAME = 0
    AMOUNT = 1
    OFF = 2


@dataclass(frozen=True, slots=True)
class JarRow(FigureRow):
    """A jar with its colour, or one stock in it without; what is told of it, and whether it is amiss."""

    srgb: str
    explained: str
    is_amiss: bool


class JarModel(FigureModel):
    """Jars, each followed by what is measured into it; see `JarColumn`."""

    kinds = (None, None, None)

    def names(self) -> Sequence[str]:
        return (self.tr("Jar"), self.tr("ml"), self.tr("points"))

    def heading_explained(self, column: int) -> str | None:
        return {
            JarColumn.AMOUNT: self.tr("In whole graduations, as on the card of the jar"),
            JarColumn.OFF: self.tr("How far its share of the jar is off by that, in points of a hundred"),
        }.get(JarColumn(column))

    def read(self) -> Sequence[JarRow]:
        sheet = self.document.sheet
        colours = {
            liquor.id: hex_from_srgb(srgb)
            for liquor, srgb in zip(sheet.plan.liquors, sheet.liquor_colours.srgb, strict=True)
        }
        return [
            row
            for number, card in enumerate(sheet.cards)
            for row in _jar_rows(sheet.plan, card, number, colours[card.jar.liquor_id])
        ]

    def is_figure(self, column: int) -> bool:
        return column != JarColumn.NAME

    def plain(self, row: int, column: int) -> str:
        return str(cast("JarRow", self._rows[row]).cells[column]).strip()

    def amiss(self) -> list[str]:
        """Return what is amiss with amounts, a line each, behind the name of the jar."""
        found, jar = [], ""
        for row in (cast("JarRow", row) for row in self._rows):
            name = str(row.cells[JarColumn.NAME]).strip()
            jar = name if row.srgb else jar
            if row.is_amiss and not row.srgb:
                found.append(self.tr("{0}, {1}: {2}").format(jar, name, row.explained))
        return found

    @cached_property
    def said(self) -> Mapping[int, Callable[[FigureRow, int], object]]:
        return {
            Role.DisplayRole: lambda row, column: row.cells[column],
            Role.TextAlignmentRole: lambda _, column: RIGHT if self.is_figure(column) else None,
            **{role: partial(_told, role) for role in (*_TOLD, SEVERITY_ROLE)},
        }


_TOLD = (Role.ToolTipRole, Role.DecorationRole, Role.FontRole)


def _told(role: int, row: FigureRow, column: int) -> object:
    """Return what a row of jars says besides its cells."""
    jar = cast("JarRow", row)
    if role == Role.FontRole:
        return _font(bold=bool(jar.srgb))
    if role == SEVERITY_ROLE:
        return "warning" if jar.is_amiss else None
    if role == Role.ToolTipRole:
        return " · ".join(part for part in (str(jar.cells[0]).strip(), jar.explained) if part)
    return QColor(jar.srgb) if jar.srgb and column == JarColumn.NAME else None


def _jar_rows(plan: Plan, card: Card, number: int, srgb: str) -> Iterator[JarRow]:
    name = _joined(liquor_name(plan, card.jar.liquor_id), jar_number(card))
    told = _joined(painted_with(plan, card), jar_use(plan, card), jar_error(card))
    cells = (name, measured_ml(card.total_ml, plan), "")
    yield JarRow(str(number), cells, srgb, told, card.is_too_coarse)
    for amount in card.amounts:
        cells = (
            INDENT + stock_name(plan, amount.stock_id),
            measured_ml(amount.measured_ml, plan),
            shown_number(amount.points_off, 1),
        )
        words = amount_warning(amount)
        yield JarRow(f"{number} {amount.stock_id}", cells, "", words, bool(words))
    alike = alike_warning(plan, card)
    if alike:
        whole = (INDENT + translate("Bench", "all of it"), "", "")
        yield JarRow(f"{number} alike", whole, "", alike, is_amiss=True)


def _joined(*parts: str) -> str:
    return " · ".join(part for part in parts if part)


class BottleColumn(IntEnum):
    """The columns of the table of stocks to make."""

    NAME = 0
    NEED = 1
    MADE = 2
    DYE = 3
    ACID = 4


@dataclass(frozen=True, slots=True)
class BottleRow(Row):
    """A stock to make: what is shown of it, in which colour, and what is amiss with it."""

    bottle: Bottle
    cells: tuple[str, ...]
    kind: str
    warnings: tuple[str, ...]
    srgb: str


class BottleModel(RowModel):
    """Stocks to make in the order of work; see `BottleColumn`."""

    turn = 2

    def read(self) -> Sequence[BottleRow]:
        sheet = self.document.sheet
        plan = sheet.plan
        rows = []
        for bottle in sheet.bottles:
            stock = plan.stock(bottle.stock_id)
            cells = (
                one_line(stock.name),
                measured_ml(bottle.need_ml, plan),
                volume_made(bottle),
                powder(bottle.dye_g),
                powder(bottle.acid_g),
            )
            srgb = sheet.seen_srgb(stock.swatches[0].srgb) if stock.is_dye else _TRANSPARENT
            warnings = bottle_warnings(plan, bottle)
            rows.append(BottleRow(bottle.stock_id, bottle, cells, stock_kind(stock), warnings, srgb))
        return rows

    def headings(self) -> Sequence[str]:
        return (
            self.tr("Stock"),
            self.tr("need ml"),
            self.tr("make ml"),
            self.tr("dye g"),
            self.tr("acid g"),
        )

    def heading_explained(self, column: int) -> str | None:
        return {
            BottleColumn.NAME: self.tr(
                "Stocks in the order of work: acid first, the strongest before the rest"
            ),
            BottleColumn.NEED: self.tr("What the jars take of it, as on their cards"),
            BottleColumn.MADE: self.tr(
                "How much is made of it. In italics it is suggested: type your own, or nothing to go back."
            ),
            BottleColumn.DYE: self.tr("Dye powder in so much of it"),
            BottleColumn.ACID: self.tr("Citric acid in so much of it; a question mark where it is not known"),
        }[BottleColumn(column)]

    def ways_to_change(self, row: BottleRow, column: int) -> Qt.ItemFlag:
        return Qt.ItemFlag.ItemIsEditable if column == BottleColumn.MADE else NO_WAY

    def is_figure(self, column: int) -> bool:
        return column != BottleColumn.NAME

    def take(self, row: BottleRow, column: int, value: object, role: int) -> bool:
        typed = str(value)
        if role != Role.EditRole or typed == row.cells[column]:
            return False
        made_ml = parse(MILLILITRES, typed, "made_ml") if typed.strip() else None
        return self.edit(field_name("made_ml"), partial(change_stock, stock_id=row.id, made_ml=made_ml))

    def amiss(self) -> list[str]:
        """Return what is amiss with bottles, a line each."""
        rows = (row for row in self._rows if isinstance(row, BottleRow))
        template = self.tr("{0}: {1}")
        return [template.format(row.cells[0], words) for row in rows for words in row.warnings]

    @cached_property
    def said(self) -> Mapping[int, Callable[[BottleRow, int], object]]:
        return {
            Role.DisplayRole: lambda row, column: row.cells[column],
            Role.EditRole: lambda row, column: row.cells[column],
            Role.TextAlignmentRole: lambda _, column: RIGHT if self.is_figure(column) else None,
            Role.ToolTipRole: self._explained,
            Role.DecorationRole: lambda row, column: (
                QColor(row.srgb) if column == BottleColumn.NAME else None
            ),
            Role.FontRole: lambda row, column: _font(
                italic=column == BottleColumn.MADE and row.bottle.is_suggested
            ),
        }

    def _explained(self, row: BottleRow, column: int) -> str | None:
        if column == BottleColumn.NAME:
            return f"{row.cells[0]} · {row.kind}"
        if column == BottleColumn.MADE and row.bottle.is_suggested:
            return self.tr("Suggested: what is needed, taken up to a handy volume")
        return "\n".join(row.warnings) or None


def _font(*, bold: bool = False, italic: bool = False) -> QFont | None:
    """Return a font that only says how it differs from the table's; None where it does not."""
    if not (bold or italic):
        return None
    font = QFont()
    if bold:
        font.setBold(True)
    if italic:
        font.setItalic(True)
    return font
