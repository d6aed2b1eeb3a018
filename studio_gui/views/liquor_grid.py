"""The fields of a liquor's amounts and depths, stock by stock.

The rule of this module: what the liquor holds (its parts, or its depths) can be typed and slid; what follows
from it is shown. Fields are made anew only for other stocks or another basis, never while something is
dragged.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QGridLayout, QToolButton, QWidget

from studio_gui.domain.cards import in_jars_ml
from studio_gui.domain.liquors import Liquor
from studio_gui.domain.reach import reach_pct_owf
from studio_gui.domain.stocks import Stock
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.lay_layout import TARGET
from studio_gui.views.fields import QuantityField
from studio_gui.views.graduated_slider import GraduatedSlider
from studio_gui.views.labels import ShortenedLabel, SwatchLabel, TonedLabel, call, explain
from studio_gui.wording.bench_words import of_the_jar
from studio_gui.wording.naming import one_line
from studio_gui.wording.quantities import DEPTH, PLAIN, VOLUME, shown, shown_briefly

#: Depth is shown to this, so a key moves it by this, % owf.
DEPTH_STEP_PCT_OWF = 0.01

_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


@dataclass(frozen=True)
class GridRow:
    """The widgets of one stock of the liquor; figures that cannot be typed are labels."""

    stock_id: str
    swatch: SwatchLabel
    name: ShortenedLabel
    amount: QuantityField | TonedLabel
    depth: QuantityField | TonedLabel | None
    remove: QToolButton
    slider: GraduatedSlider
    reach: TonedLabel

    @property
    def is_by_depth(self) -> bool:
        """Whether its depth is entered, and not its amount."""
        return isinstance(self.depth, QuantityField)

    @property
    def field(self) -> QuantityField | None:
        """The field that can be typed into, None for a let-down of a liquor by depth."""
        for widget in (self.amount, self.depth):
            if isinstance(widget, QuantityField):
                return widget
        return None


class LiquorGrid(QWidget):
    """Amount and depth of every stock of a liquor.

    Signals
    -------
    made
        The fields were made anew.
    amount_typed, depth_typed
        A value was typed for a stock; carry its id, and ml for the whole set or % of the fibre's weight.
    amount_slid, depth_slid
        A slider is being moved; carry the same.
    settled, dropped
        The hand let go of the slider; Esc was pressed while it held it.
    removed
        A stock is to be taken out; carries its id.
    """

    made = Signal()
    amount_typed = Signal(str, float)
    depth_typed = Signal(str, float)
    amount_slid = Signal(str, float)
    depth_slid = Signal(str, float)
    settled = Signal()
    dropped = Signal()
    removed = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: list[GridRow] = []
        self._shown: tuple[Worksheet, str, Sequence[float]] | None = None
        self._made_for: object = None
        self._headings = (TonedLabel("secondary"), TonedLabel("secondary"))
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(6)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(1, 1)
        for place, heading in enumerate(self._headings, start=2):
            self._grid.addWidget(heading, 0, place, Qt.AlignmentFlag.AlignRight)
        self._retranslate()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip:  # cards are not made for every frame of a drag
            self._explain_amount(watched)
        return super().eventFilter(watched, event)

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
        super().changeEvent(event)

    @property
    def stops(self) -> list[QWidget]:
        """Where Tab stops, from top to bottom."""
        stops = (stop for row in self.rows for stop in (row.field, row.remove, row.slider))
        return [stop for stop in stops if stop is not None]

    def field(self, stock_id: str) -> QuantityField | None:
        """Return the field of a stock, None where it has none."""
        return next((row.field for row in self.rows if row.stock_id == stock_id), None)

    def drop_typing(self) -> None:
        """Forget what was typed and what was said about it."""
        for row in self.rows:
            if row.field is not None:
                row.field.drop()

    def show_liquor(self, sheet: Worksheet, index: int, amounts_ml: Sequence[float]) -> None:
        """Show the liquor of section `index`; `amounts_ml` are those of its stocks, for the whole set."""
        liquor = sheet.plan.liquor(sheet.plan.sections[index].liquor_id)
        self._shown = (sheet, liquor.id, amounts_ml)
        stocks = [sheet.plan.stock(stock_id) for stock_id in liquor.stock_ids]
        if self._made_for != (liquor.basis, liquor.stock_ids):
            self._made_for = (liquor.basis, liquor.stock_ids)
            self._make_rows(stocks, by_depth=liquor.basis == "depth")
        columns = {stock.id: column for column, stock in enumerate(sheet.plan.dyes)}
        reach = reach_pct_owf(sheet.figures, liquor.id).tolist() if liquor.basis == "depth" else []
        graduation_ml, total_ml = sheet.plan.bench.graduation_ml, sum(amounts_ml)
        for row, stock, amount_ml in zip(self.rows, stocks, amounts_ml, strict=True):
            self._show_stock(row, stock, sheet)
            self._show_amount(row, stock, amount_ml)
            if stock.is_dye:
                depth = float(sheet.figures.depth_pct_owf[index, columns[stock.id]])
                self._show_depth(row, stock, liquor, depth)
            if row.is_by_depth:
                self._show_reach(row, liquor, reach[columns[stock.id]])
            elif liquor.basis == "parts":
                row.slider.show_amount(amount_ml, total_ml, graduation_ml)
                row.slider.setEnabled(len(stocks) > 1 and total_ml > 0.0)

    def _retranslate(self) -> None:
        for heading, words in zip(self._headings, (self.tr("whole set"), self.tr("depth")), strict=True):
            heading.show_text(words)

    # -- showing -------------------------------------------------------------------------------------------

    def _show_stock(self, row: GridRow, stock: Stock, sheet: Worksheet) -> None:
        srgb = sheet.seen_srgb(stock.swatches[0].srgb) if stock.is_dye else "transparent"
        row.swatch.show_colour(QColor(srgb))
        row.name.show_text(one_line(stock.name, 300))
        call(row.remove, self.tr("Take {0} out of the liquor").format(one_line(stock.name)))
        explain(row.remove, row.remove.accessibleName())
        slides = self.tr("{0}, depth by slider") if row.is_by_depth else self.tr("{0}, amount by slider")
        call(row.slider, slides.format(one_line(stock.name)))
        if row.is_by_depth:
            explain(row.slider, self.tr("Depth of this dye. Arrow keys: 0.01 %, Page keys: 0.1 %"))
        else:
            explain(
                row.slider,
                self.tr(
                    "What this stock gains the others give. Arrow keys: one graduation of the bench, Page"
                    " keys: ten"
                ),
            )

    def _show_amount(self, row: GridRow, stock: Stock, amount_ml: float) -> None:
        if isinstance(row.amount, QuantityField):
            row.amount.set_value(amount_ml)
            call(row.amount, self.tr("{0}, ml for the whole set").format(one_line(stock.name)))
        else:
            row.amount.show_text(shown(VOLUME, amount_ml))

    def _explain_amount(self, widget: QObject) -> None:
        """Say what of the jar an amount is, and what the jar's card measures."""
        if self._shown is None:
            return
        sheet, liquor_id, amounts_ml = self._shown
        for row, amount_ml in zip(self.rows, amounts_ml, strict=True):
            if row.amount is widget:
                in_jars = in_jars_ml(sheet.cards, liquor_id, row.stock_id)
                explain(row.amount, of_the_jar(amount_ml, in_jars, sheet.plan) if in_jars[0] > 0.0 else "")

    def _show_depth(self, row: GridRow, stock: Stock, liquor: Liquor, depth_pct_owf: float) -> None:
        if isinstance(row.depth, QuantityField):
            wanted = {depth.stock_id: depth.depth_pct_owf for depth in liquor.depths}
            row.depth.set_value(wanted[stock.id])
            call(row.depth, self.tr("{0}, depth").format(one_line(stock.name)))
        elif row.depth is not None:
            row.depth.show_text(shown(DEPTH, depth_pct_owf))

    def _show_reach(self, row: GridRow, liquor: Liquor, reach_pct_owf: float) -> None:
        wanted = next(depth.depth_pct_owf for depth in liquor.depths if depth.stock_id == row.stock_id)
        row.slider.show_amount(wanted, reach_pct_owf, DEPTH_STEP_PCT_OWF)
        row.slider.setEnabled(reach_pct_owf > 0.0)
        row.reach.show_text(
            self.tr("{0} to {1}").format(shown_briefly(PLAIN, 0.0), shown(DEPTH, reach_pct_owf))
        )
        explain(
            row.reach,
            self.tr(
                "As deep as neat stock gets on the driest section of this liquor, beside its other dyes. A"
                " stronger stock or more liquid goes deeper."
            ),
        )

    # -- making --------------------------------------------------------------------------------------------

    def _make_rows(self, stocks: Sequence[Stock], *, by_depth: bool) -> None:
        for old in self.rows:
            self._discard(old)
        self.rows = [self._new_row(stock, by_depth=by_depth) for stock in stocks]
        for place, row in enumerate(self.rows):
            self._place(row, 3 * place + 1)
        for heading in self._headings:
            heading.setVisible(bool(self.rows))
        self.made.emit()

    def _new_row(self, stock: Stock, *, by_depth: bool) -> GridRow:
        amount: QuantityField | TonedLabel = TonedLabel("text") if by_depth else QuantityField("fixed_ml")
        depth: QuantityField | TonedLabel | None = None
        if stock.is_dye:
            depth = QuantityField("depth_pct_owf") if by_depth else TonedLabel("secondary")
        amount.installEventFilter(self)
        if isinstance(amount, QuantityField):
            amount.entered.connect(partial(self.amount_typed.emit, stock.id))
        if isinstance(depth, QuantityField):
            depth.entered.connect(partial(self.depth_typed.emit, stock.id))
        remove = QToolButton()
        remove.setText("×")
        remove.setMinimumSize(round(TARGET), round(TARGET))
        remove.setAutoRaise(True)
        remove.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        remove.clicked.connect(lambda: self.removed.emit(stock.id))
        name, slider = ShortenedLabel("text"), GraduatedSlider()
        slid = self.depth_slid if isinstance(depth, QuantityField) else self.amount_slid
        slider.moved.connect(partial(slid.emit, stock.id))
        slider.settled.connect(self.settled)
        slider.dropped.connect(self.dropped)
        return GridRow(stock.id, SwatchLabel(), name, amount, depth, remove, slider, TonedLabel("secondary"))

    def _place(self, row: GridRow, line: int) -> None:
        wide = self.fontMetrics().horizontalAdvance("99999.9 ml") + 12
        self._grid.addWidget(row.swatch, line, 0)
        self._grid.addWidget(row.name, line, 1)
        for place, widget in ((2, row.amount), (3, row.depth)):
            if isinstance(widget, QuantityField):
                widget.setFixedWidth(wide)
                self._grid.addWidget(widget, line, place)
                self._grid.addWidget(widget.message, line + 2, 0, 1, 5)
            elif widget is not None:
                widget.setAlignment(_RIGHT)
                self._grid.addWidget(widget, line, place)
        self._grid.addWidget(row.remove, line, 4)
        self._grid.addWidget(row.slider, line + 1, 1, 1, 2 if row.is_by_depth else 3)
        self._grid.addWidget(row.reach, line + 1, 3, 1, 2)
        row.slider.setVisible(row.field is not None)
        row.reach.setVisible(row.is_by_depth)

    def _discard(self, row: GridRow) -> None:
        message = None if row.field is None else row.field.message
        owned = (row.swatch, row.name, row.amount, row.depth, row.remove, row.slider, row.reach, message)
        for widget in owned:
            if widget is not None:
                self._grid.removeWidget(widget)
                widget.hide()
                widget.deleteLater()
