"""The list of wanted stripes, in the order in which the yarn is knitted.

The rule of this module: a new stripe comes after the selected one and is as large, in the next liquor.
"""

from __future__ import annotations

from functools import partial

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.stripe_model import Column, StripeModel
from studio_gui.domain.edits.stripes import add_stripe, move_stripe, remove_stripe
from studio_gui.domain.plan import Plan
from studio_gui.domain.yarn import Stripe
from studio_gui.views.delegates import ChoiceDelegate
from studio_gui.views.shelf import ALT, Key, Shelf, ShelfTable, name_button

#: Rows of the first stripe that is added.
FIRST_ROWS = 8.0

_WIDEST: dict[int, str] = {
    Column.NUMBER: "99",
    Column.AMOUNT: "9999.9",
    Column.MEASURE: "rows",
    Column.LAY: "999.9",
}
#: Of a liquor with its swatch.
LIQUOR_PX = 90


class StripeList(Shelf):
    """The table of stripes with its buttons."""

    def __init__(self, document: OpenPlan, model: StripeModel) -> None:
        wished = (Column.LAY, Column.NUMBER)
        table = ShelfTable(model, Column.LIQUOR, _WIDEST, wished, (), name_px=LIQUOR_PX)
        table.setItemDelegateForColumn(Column.LIQUOR, ChoiceDelegate(model.liquor_choices, table))
        table.setItemDelegateForColumn(Column.MEASURE, ChoiceDelegate(model.measure_choices, table))
        super().__init__(document, model, table)
        self.add = self.add_button(self._add)
        self.remove = self.add_button(self._remove, needs_row=True)
        self.more = self.add_more_button()
        self.insert_command = self.add_command(self._add, Key.Key_Insert)
        self.copy_command = self.add_command(self._copy)
        self.up_command = self.add_command(lambda: self._move(-1), ALT | Key.Key_Up)
        self.down_command = self.add_command(lambda: self._move(1), ALT | Key.Key_Down)
        self.remove_command = self.add_command(self._remove, Key.Key_Delete)
        self._retranslate()

    @property
    def row(self) -> int:
        """The selected stripe (from 0), -1 where there is none."""
        return int(self.current_id or 0) - 1

    def _retranslate(self) -> None:
        self.heading.show_text(self.tr("Wanted stripes"))
        self.table.setAccessibleName(self.tr("Wanted stripes"))
        name_button(self.add, self.tr("+ Stripe"), self.tr("Add a stripe after the selected one"))
        name_button(self.remove, self.tr("−"), self.tr("Take the selected stripe out"))
        name_button(self.more, "⋯", self.tr("More to do with the selected stripe"))
        self.insert_command.setText(self.tr("&Add a stripe"))
        self.copy_command.setText(self.tr("&Duplicate"))
        self.up_command.setText(self.tr("Move &up"))
        self.down_command.setText(self.tr("Move &down"))
        self.remove_command.setText(self.tr("&Remove"))
        self._fit()

    def _add(self) -> None:
        stripe = _next_stripe(self.document.plan, self.row)
        self._put(self.tr("Add stripe"), stripe)

    def _copy(self) -> None:
        if self.row >= 0:
            self._put(self.tr("Duplicate stripe"), self.document.plan.yarn.stripes[self.row])

    def _put(self, name: str, stripe: Stripe) -> None:
        at = self.row + 1
        if self.edit(name, partial(add_stripe, at=at, stripe=stripe)):
            self._select(at)

    def _move(self, by: int) -> None:
        row = self.row
        if row >= 0 and self.edit(self.tr("Move stripe"), partial(move_stripe, index=row, by=by)):
            self._select(row + by)

    def _remove(self) -> None:
        row = self.row
        if row >= 0 and self.edit(self.tr("Remove stripe"), partial(remove_stripe, index=row)):
            self._select(row)

    def _select(self, row: int) -> None:
        last = self.model.rowCount() - 1
        self.show_row(str(min(max(row, 0), last) + 1))


def _next_stripe(plan: Plan, after: int) -> Stripe:
    """Return a stripe to add: as large as the one before it, in the liquor that follows in the list."""
    if after < 0:
        return Stripe(plan.liquors[0].id, FIRST_ROWS)
    before = plan.yarn.stripes[after]
    ids = [liquor.id for liquor in plan.liquors]
    following = ids[(ids.index(before.liquor_id) + 1) % len(ids)]
    return Stripe(following, before.amount, before.measure)
