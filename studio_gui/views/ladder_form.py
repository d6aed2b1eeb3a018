"""A ladder typed as one line: "12+36, 24+24, 36+12".

The rule of this module: there is a stock to choose for each amount of the first step, in their order; the
line, the stocks and the options together are the ladder.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFormLayout, QLabel, QPlainTextEdit, QWidget

from studio_gui.document.ladder_shelf import LadderShelf
from studio_gui.document.open_plan import Edit
from studio_gui.domain.edits.ladders import Ladder, Lengths, lay_ladder
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.liquors import MOST_STOCKS_IN_LIQUOR
from studio_gui.domain.plan import Plan
from studio_gui.domain.sections import LiquidMode
from studio_gui.storage.ladder_templates import LadderTemplate
from studio_gui.views.choices import ChoiceField
from studio_gui.views.flow import FlowLayout
from studio_gui.views.labels import call
from studio_gui.views.live import LiveWidget
from studio_gui.views.template_bar import TemplateBar
from studio_gui.wording.ladders import parse_ladder
from studio_gui.wording.naming import one_line

LINES_SEEN = 3
STOCK_WIDTH = 170


class LadderForm(LiveWidget):
    """Line, stocks and options of a ladder over a run of a plan's sections.

    Signals
    -------
    changed
        Another ladder stands in the form.
    """

    changed = Signal()

    def __init__(self, plan: Plan, first: int, shelf: LadderShelf, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._plan = plan
        self._first = first
        self._chosen: dict[int, str] = {}
        self._lengths: Lengths = "equal"
        self._liquid: LiquidMode = "fixed"
        self.templates = TemplateBar(shelf)
        self.line = QPlainTextEdit()
        self.line.setTabChangesFocus(True)
        self.stocks: list[ChoiceField] = []
        self.liquid, self.lengths = ChoiceField(), ChoiceField()
        self.names = [QLabel() for _ in range(5)]
        self._stock_room = QWidget()
        self._stock_flow = FlowLayout(self._stock_room)
        self._lay_out()
        self.templates.chosen.connect(self.use)
        self.line.textChanged.connect(self._change)
        self.liquid.chosen.connect(self._choose_liquid)
        self.lengths.chosen.connect(self._choose_lengths)
        self._set_fonts()
        self._retranslate()

    @property
    def is_blank(self) -> bool:
        """Whether nothing is typed in yet."""
        return not self.line.toPlainText().strip()

    def edit(self, first: int, last: int, name: str) -> Edit:
        """Return the edit that lays the ladder; `InvalidPlan` where the line cannot be read."""
        steps = parse_ladder(self.line.toPlainText())
        ladder = Ladder(self._stock_ids(len(steps[0])), steps, self._lengths, self._liquid)
        return partial(lay_ladder, first=first, last=last, ladder=ladder, name=name)

    def step_name(self) -> str:
        """Return the name of the undo step."""
        return self.tr("Lay a ladder")

    def use(self, ladder: LadderTemplate) -> None:
        """Take line and options from a saved ladder."""
        self._lengths, self._liquid = ladder.lengths, ladder.liquid
        self.line.blockSignals(True)
        self.line.setPlainText(ladder.line)
        self.line.blockSignals(False)
        self._change()

    # -- putting together ----------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        form = QFormLayout(self)
        form.setContentsMargins(8, 10, 8, 8)
        form.setHorizontalSpacing(12)
        form.setVerticalSpacing(8)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        fields = (self.templates, self.line, self._stock_room, self.liquid, self.lengths)
        for name, field in zip(self.names, fields, strict=True):
            form.addRow(name, field)
            name.setBuddy(self.templates.list if field is self.templates else field)

    def _set_fonts(self) -> None:
        height = self.fontMetrics().lineSpacing() * LINES_SEEN
        self.line.setFixedHeight(height + 2 * round(self.line.document().documentMargin()) + 4)

    def _retranslate(self) -> None:
        words = (
            self.tr("Sa&ved"),
            self.tr("S&teps"),
            self.tr("Stocks"),
            self.tr("Li&quid"),
            self.tr("Len&gths"),
        )
        for name, text in zip(self.names, words, strict=True):
            name.setText(text)
        self.line.setPlaceholderText("12+36, 24+24, 36+12, 48+0")
        call(self.line, self.tr("Steps of the ladder, ml for the whole set"))
        self.line.setToolTip(
            self.tr(
                "Each step is ml for the whole set, one amount for each stock. Steps stand apart by a comma"
                " with a space after it, by a semicolon, or on lines of their own."
            )
        )
        call(self.liquid, self.tr("Liquid of the steps"))
        call(self.lengths, self.tr("Lengths of the steps"))
        self._show()

    # -- showing -------------------------------------------------------------------------------------------

    def _show(self) -> None:
        self.liquid.set_choices(
            [
                (self.tr("fixed, the ml as typed"), "fixed"),
                (self.tr("follows the fibre: only the parts count"), "follows fibre"),
            ],
            self._liquid,
        )
        self.lengths.set_choices(
            [(self.tr("all equal"), "equal"), (self.tr("in proportion to the ml"), "by amount")],
            self._lengths,
        )
        self._show_stocks()
        self.templates.stand_on(self._template())

    def _show_stocks(self) -> None:
        count = self._amounts_in_a_step()
        while len(self.stocks) < count:
            self._add_stock_choice()
        choices = [(one_line(stock.name), stock.id) for stock in self._plan.stocks]
        stock_ids = self._stock_ids(count)
        for place, choice in enumerate(self.stocks):
            choice.set_choices(choices, stock_ids[place] if place < len(stock_ids) else None)
            call(choice, self.tr("Stock {0}").format(place + 1))
            choice.setToolTip(self.tr("Stock of amount {0} in every step").format(place + 1))
            choice.setVisible(place < count)
        self._stock_room.updateGeometry()

    def _amounts_in_a_step(self) -> int:
        try:
            count = len(parse_ladder(self.line.toPlainText())[0])
        except RovingLayError:
            count = len([choice for choice in self.stocks if choice.isVisibleTo(self)]) or 2
        return max(min(count, len(self._plan.stocks), MOST_STOCKS_IN_LIQUOR), 1)

    def _add_stock_choice(self) -> None:
        choice = ChoiceField(self._stock_room)
        choice.setMinimumWidth(STOCK_WIDTH)
        choice.chosen.connect(partial(self._choose_stock, len(self.stocks)))
        self._stock_flow.addWidget(choice)
        QWidget.setTabOrder(self.stocks[-1] if self.stocks else self.line, choice)
        self.stocks.append(choice)

    def _template(self) -> LadderTemplate | None:
        line = "; ".join(
            line.strip().rstrip(";,") for line in self.line.toPlainText().splitlines() if line.strip()
        )
        try:
            parse_ladder(line)
            return LadderTemplate("-", line, self._lengths, self._liquid)
        except RovingLayError:
            return None

    def _stock_ids(self, count: int) -> tuple[str, ...]:
        """Return the stocks of `count` amounts: those chosen, and likely ones for the rest."""
        taken = [stock_id for place, stock_id in self._chosen.items() if place < count]
        free = [one for one in _likely_stocks(self._plan, self._first, count) if one not in taken]
        free += [stock.id for stock in self._plan.stocks if stock.id not in (*taken, *free)]
        places = iter(free)
        ids = (self._chosen[place] if place in self._chosen else next(places, "") for place in range(count))
        return tuple(one for one in ids if one)

    # -- editing -------------------------------------------------------------------------------------------

    def _choose_stock(self, place: int, stock_id: object) -> None:
        seen = self._stock_ids(self._amounts_in_a_step())
        self._chosen |= dict(enumerate(seen)) | {place: str(stock_id)}  # the others stay as they were seen
        self._change()

    def _choose_liquid(self, liquid: LiquidMode) -> None:
        self._liquid = liquid
        self._change()

    def _choose_lengths(self, lengths: Lengths) -> None:
        self._lengths = lengths
        self._change()

    def _change(self) -> None:
        self._show()
        self.changed.emit()


def _likely_stocks(plan: Plan, first: int, count: int) -> list[str]:
    """Return `count` stocks that a painter may mean: dyes, and a let-down for the last amount.

    Those of the section that the ladder begins on come before others.
    """
    used = plan.liquor(plan.sections[first].liquor_id).stock_ids
    by_use = sorted(plan.stocks, key=lambda stock: used.index(stock.id) if stock.id in used else len(used))
    dyes = [stock.id for stock in by_use if stock.is_dye]
    let_downs = [stock.id for stock in by_use if not stock.is_dye]
    last = let_downs[:1] if count > 1 else []
    return [*dyes[: count - len(last)], *last, *let_downs[1:]][:count]
