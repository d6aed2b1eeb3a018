"""The stocks on the shelf: added, copied, arranged, and taken off.

The rule of this module: a stock that nothing needs goes without a question, because undo brings it back; for
one that is in liquors it is asked what they do without it.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from studio_gui.document import stock_model
from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.stock_model import StockModel, new_dye
from studio_gui.domain.edits.replacing import remove_from_liquors, replace_stock
from studio_gui.domain.edits.shelf_order import move_stock
from studio_gui.domain.edits.stocks import add_stock, copy_stock, free_stock_id, remove_stock
from studio_gui.domain.plan import Plan
from studio_gui.domain.stocks import Stock
from studio_gui.domain.text import NAME_MAX
from studio_gui.views.delegates import ChoiceDelegate, SwatchDelegate
from studio_gui.views.removal import RemovalQuestion, Way
from studio_gui.views.shelf import ALT, Key, Shelf, ShelfTable, name_button
from studio_gui.wording.naming import in_a_row, one_line, some_in_a_row

Column = stock_model.Column

_WIDEST: dict[int, str] = {
    Column.STRENGTH: "99.99",
    Column.ACID: "unknown",
    Column.USED: "not used",
    Column.NEED: "9999.9",
    Column.ROLE: "let-down",
    Column.KNOWN: "as labelled",
    Column.TAKE_UP: "99.99",
    Column.SWATCHES: "0.50, 1.00, 2.00",
}
_WISHED = (
    *(Column.STRENGTH, Column.NEED, Column.USED, Column.ACID, Column.KNOWN),
    *(Column.TAKE_UP, Column.SWATCHES, Column.ROLE),
)


class StockShelf(Shelf):
    """The list of stocks."""

    def __init__(self, document: OpenPlan, model: StockModel) -> None:
        roomy = (Column.USED, Column.SWATCHES)
        table = ShelfTable(model, Column.NAME, _WIDEST, _WISHED, roomy)
        table.setItemDelegateForColumn(Column.NAME, SwatchDelegate(table))
        table.setItemDelegateForColumn(Column.KNOWN, ChoiceDelegate(model.known_choices, table))
        super().__init__(document, model, table)
        self.add_dye = self.add_button(self._add_dye)
        self.add_let_down = self.add_button(self._add_let_down)
        self.remove = self.add_button(self._remove, needs_row=True)
        self.more = self.add_more_button()
        self.rename_command = self.add_command(table.edit_name, Key.Key_Return, Key.Key_Enter)
        self.copy_command = self.add_command(self._copy)
        self.up_command = self.add_command(lambda: self._move(-1), ALT | Key.Key_Up)
        self.down_command = self.add_command(lambda: self._move(1), ALT | Key.Key_Down)
        self.remove_command = self.add_command(self._remove, Key.Key_Delete)
        self._retranslate()

    def hint_words(self) -> str:
        plan = self.document.sheet.plan
        if not plan.stocks:
            return self.tr("No stock yet: add a dye, then acid water.")
        if not plan.let_downs:
            return self.tr("No let-down yet: add acid water, to let the dye down.")
        return "" if plan.dyes else self.tr("No dye yet: add one, to have a colour to paint.")

    def _retranslate(self) -> None:
        self.heading.show_text(self.tr("Stocks"))
        self.table.setAccessibleName(self.tr("Stocks"))
        name_button(self.add_dye, self.tr("+ Dye"), self.tr("Put a dye on the shelf"))
        name_button(self.add_let_down, self.tr("+ Let-down"), self.tr("Put water or acid water on the shelf"))
        name_button(self.remove, self.tr("−"), self.tr("Take the selected stock off the shelf"))
        name_button(self.more, "⋯", self.tr("More to do with the selected stock"))
        self.rename_command.setText(self.tr("Re&name"))
        self.copy_command.setText(self.tr("&Duplicate"))
        self.up_command.setText(self.tr("Move &up"))
        self.down_command.setText(self.tr("Move &down"))
        self.remove_command.setText(self.tr("&Take off the shelf…"))
        self._fit()

    # -- commands ------------------------------------------------------------------------------------------

    def _add_dye(self) -> None:
        name = self.tr("New dye")
        self._add(self.tr("Add dye"), lambda plan, new: new_dye(new, name, plan.fibre.undyed_srgb))

    def _add_let_down(self) -> None:
        name = self.tr("New let-down")
        self._add(self.tr("Add let-down"), lambda _, new: Stock(new, name, "let-down"))

    def _add(self, step: str, make: Callable[[Plan, str], Stock]) -> None:
        new_id = free_stock_id(self.document.plan)
        if self.edit(step, lambda plan: add_stock(plan, make(plan, new_id))):
            self.name_row(new_id)

    def _copy(self) -> None:
        stock_id = self.current_id
        if not stock_id:
            return
        new_id = free_stock_id(self.document.plan)
        name = copy_name(self.tr("{0} copy"), self.document.plan.stock(stock_id).name)
        if self.edit(self.tr("Copy stock"), partial(copy_stock, stock_id=stock_id, name=name)):
            self.name_row(new_id)

    def _move(self, by: int) -> None:
        if self.current_id:
            self.edit(self.tr("Move stock"), partial(move_stock, stock_id=self.current_id, by=by))

    def _remove(self) -> None:
        stock_id = self.current_id
        if not stock_id:
            return
        users = self._users(stock_id)
        if users:
            self._ask(self.document.plan.stock(stock_id), users)
        else:
            self.edit(self.tr("Remove stock"), partial(remove_stock, stock_id=stock_id))

    def _users(self, stock_id: str) -> str:
        """Return in words what needs a stock: "liquors A and C", "" where nothing does."""
        plan = self.document.plan
        letters = [one_line(liquor.letter) for liquor in plan.liquors_with(stock_id)]
        users = []
        if len(letters) == 1:
            users.append(self.tr("liquor {0}").format(letters[0]))
        elif letters:
            users.append(self.tr("liquors {0}").format(some_in_a_row(letters, len(letters))))
        if plan.acid_line is not None and plan.acid_line.stock_id == stock_id:
            users.append(self.tr("the acid line of every jar"))
        return in_a_row(users)

    def _ask(self, stock: Stock, users: str) -> None:
        name = one_line(stock.name)
        others = [
            (one_line(other.name), other.id)
            for other in self.document.plan.stocks
            if other.role == stock.role and other.id != stock.id
        ]
        ways = [
            Way(
                self.tr("Replace it &by"),
                self.tr("Amounts and depths stay; a stronger dye makes liquors by parts darker."),
                self.tr("Replace stock"),
                lambda by_id: partial(replace_stock, stock_id=stock.id, by_id=by_id),
                others,
            ),
            Way(
                self.tr("Take it &out there too"),
                self.tr("What else is in a jar takes its place, in the same ratio."),
                self.tr("Remove stock"),
                lambda _: partial(remove_from_liquors, stock_id=stock.id),
            ),
        ]
        RemovalQuestion.ask(
            self.document,
            self.tr("Take {0} off the shelf").format(name),
            self.tr("{0} is needed by {1}.").format(name, users),
            self.tr("Take off"),
            [way for way in ways if way.others is None or way.others],
            self,
        )


def copy_name(pattern: str, name: str) -> str:
    """Return the name of a copy, "{0} copy", not longer than a name may be."""
    room = NAME_MAX - len(pattern)
    return pattern.format(name[:room])
