"""The table of wanted stripes: liquor, amount, what it is counted in, and how long it lies on the lay.

The rule of this module: a stripe is what its row says, and every cell that is typed into is one edit. Rows
are told apart by their places.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum
from functools import cached_property, partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor

from studio_gui.document.row_model import NO_WAY, RIGHT, Role, Row, RowModel
from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.edits.stripes import change_stripe, measure_stripe
from studio_gui.domain.yarn import STRIPE_MEASURES, Stripe, StripeMeasure
from studio_gui.wording.fields import field_name
from studio_gui.wording.naming import liquor_name, one_line
from studio_gui.wording.numbers import UNKNOWN
from studio_gui.wording.quantities import LAY_LENGTH, shown_bare
from studio_gui.wording.stripes import bare_amount, measure_name, parse_stripe
from studio_gui.wording.translation import TRANSLATED


class Column(IntEnum):
    """The columns of the table."""

    NUMBER = 0
    LIQUOR = 1
    AMOUNT = 2
    MEASURE = 3
    LAY = 4


_NOT_TYPED = (Column.NUMBER, Column.LAY)


@dataclass(frozen=True, slots=True)
class StripeRow(Row):
    """A wanted stripe, its number from 1, how its liquor looks, and all its length on the lay, m."""

    number: int
    stripe: Stripe
    liquor: str
    srgb: str
    lay_m: float


class StripeModel(RowModel):
    """Wanted stripes as rows; see `Column`."""

    turn = 2

    def read(self) -> Sequence[StripeRow]:
        sheet = self.document.sheet
        places = {liquor.id: place for place, liquor in enumerate(sheet.plan.liquors)}
        colours = sheet.liquor_colours.srgb
        return [
            StripeRow(
                str(number),
                number,
                stripe,
                liquor_name(sheet.plan, stripe.liquor_id),
                hex_from_srgb(colours[places[stripe.liquor_id]]),
                lay_m,
            )
            for number, (stripe, lay_m) in enumerate(
                zip(sheet.plan.yarn.stripes, sheet.stripes.lay_m, strict=True), start=1
            )
        ]

    def headings(self) -> Sequence[str]:
        return (
            "",
            self.tr("Liquor"),
            self.tr("size"),
            self.tr("in"),
            self.tr("lay, {0}").format(LAY_LENGTH.shown_in(TRANSLATED)[0]),
        )

    def heading_explained(self, column: int) -> str | None:
        explained: dict[int, str] = {
            Column.LIQUOR: self.tr("Liquor of the stripe, with its predicted colour"),
            Column.AMOUNT: self.tr("How large the stripe is to be; 12 m turns rows into a length"),
            Column.MEASURE: self.tr("Rows of the knitting, or a length of plied yarn"),
            Column.LAY: self.tr("How long its sections are on the lay, all together"),
        }
        return explained.get(column)

    def ways_to_change(self, row: StripeRow, column: int) -> Qt.ItemFlag:
        return NO_WAY if column in _NOT_TYPED else Qt.ItemFlag.ItemIsEditable

    def is_figure(self, column: int) -> bool:
        return column in (Column.AMOUNT, Column.LAY)

    def liquor_choices(self) -> Sequence[tuple[str, str]]:
        """Return what a stripe can be painted with: words and id."""
        return [
            (f"{liquor.letter}  {one_line(liquor.name)}", liquor.id) for liquor in self.document.plan.liquors
        ]

    def measure_choices(self) -> Sequence[tuple[str, str]]:
        """Return what a stripe can be counted in: words and measure."""
        return [(measure_name(measure), measure) for measure in STRIPE_MEASURES]

    def take(self, row: StripeRow, column: int, value: object, role: int) -> bool:
        typed, index = str(value), row.number - 1
        if role != Role.EditRole or typed == self._editable(row, column):
            return False
        if column == Column.LIQUOR:
            edit = partial(change_stripe, index=index, liquor_id=typed)
            return self.edit(self.tr("Liquor of a stripe"), edit)
        if column == Column.MEASURE:
            measure: StripeMeasure = "rows" if typed == "rows" else "metres"
            return self.edit(
                self.tr("Measure of a stripe"), partial(measure_stripe, index=index, measure=measure)
            )
        amount, measure = parse_stripe(typed, row.stripe.measure)
        edit = partial(change_stripe, index=index, amount=amount, measure=measure)
        return self.edit(field_name("stripe_amount"), edit)

    @cached_property
    def said(self) -> Mapping[int, Callable[[StripeRow, int], object]]:
        return {
            Role.DisplayRole: self._shown,
            Role.EditRole: self._editable,
            Role.TextAlignmentRole: lambda _, column: RIGHT if self.is_figure(column) else None,
            Role.DecorationRole: lambda row, column: QColor(row.srgb) if column == Column.LIQUOR else None,
            Role.ToolTipRole: lambda row, column: row.liquor if column == Column.LIQUOR else None,
        }

    def _shown(self, row: StripeRow, column: int) -> str:
        words: dict[int, Callable[[], str]] = {
            Column.NUMBER: lambda: str(row.number),
            Column.LIQUOR: lambda: row.liquor,
            Column.AMOUNT: lambda: bare_amount(row.stripe),
            Column.MEASURE: lambda: measure_name(row.stripe.measure),
            Column.LAY: lambda: shown_bare(LAY_LENGTH, row.lay_m) if row.lay_m > 0.0 else UNKNOWN,
        }
        return words[column]()

    def _editable(self, row: StripeRow, column: int) -> str:
        if column == Column.LIQUOR:
            return row.stripe.liquor_id
        return row.stripe.measure if column == Column.MEASURE else self._shown(row, column)
