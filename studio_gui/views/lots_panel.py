"""Lots that were painted, and what they tell of when the core wets and how much the fibre holds.

The rule of this module: a lot counts as soon as its fibre and its liquid are known; what lots tell is
computed by `studio_gui.domain.lots`.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.lots import (
    SEEN,
    Lot,
    Seen,
    learn,
    limit_to_use,
    penetration_to_use,
    uptake_to_use,
)
from studio_gui.views.choices import ChoiceField
from studio_gui.views.labels import MessageLabel, TonedLabel, call
from studio_gui.views.live import LiveWidget
from studio_gui.views.measured_field import MeasuredField
from studio_gui.views.proposals import Proposals
from studio_gui.wording.measured import told_by_lots
from studio_gui.wording.sentences import refusal

MOST_LOTS = 12
COLUMNS = 6


class LotRow(QObject):
    """The fields of one lot; they stand in the grid of the panel.

    Signals
    -------
    changed
        Something of the lot was typed or chosen.
    """

    changed = Signal()

    def __init__(self, soak_ml_per_g: float, remove: Callable[[LotRow], None], parent: QWidget) -> None:
        super().__init__(parent)
        self.number = QLabel(parent)
        self.fibre = MeasuredField("lot_g", parent)
        self.liquid = MeasuredField("lot_ml", parent)
        self.soak = MeasuredField("soak_ml_per_g", parent)
        self.seen = ChoiceField(parent)
        self.drop = QToolButton(parent)
        self.drop.setText("−")
        self.drop.clicked.connect(lambda _checked: remove(self))
        self.chosen: Seen = "right"
        self.soak.set_value(soak_ml_per_g)
        for field in self.fields:
            field.changed.connect(self.changed)
        self.seen.chosen.connect(self._choose)

    @property
    def fields(self) -> tuple[MeasuredField, MeasuredField, MeasuredField]:
        """Fibre, liquid, soak."""
        return self.fibre, self.liquid, self.soak

    @property
    def widgets(self) -> tuple[QWidget, ...]:
        """What stands in the grid, from left to right."""
        return (self.number, *self.fields, self.seen, self.drop)

    @property
    def lot(self) -> Lot | None:
        """The lot, once it is known; `RovingLayError` where it cannot be."""
        fibre, liquid, soak = (field.value for field in self.fields)
        if fibre is None or liquid is None or soak is None:
            return None
        return Lot(fibre, liquid, soak, self.chosen)

    def name(self, number: int) -> None:
        """Show its number, and say it to screen readers."""
        self.number.setText(str(number))
        words = {"white core": self.tr("white core"), "right": self.tr("right"), "pooled": self.tr("pooled")}
        self.seen.set_choices([(words[seen], seen) for seen in SEEN], self.chosen)
        lot = self.tr("lot {0}").format(number)
        called = (self.tr("Fibre"), self.tr("Liquid"), self.tr("Soak"), self.tr("Seen"))
        for widget, column in zip((*self.fields, self.seen), called, strict=True):
            call(widget, f"{column}, {lot}")
        call(self.drop, self.tr("Take {0} off the list").format(lot))
        self.drop.setToolTip(self.drop.accessibleName())

    def _choose(self, seen: Seen) -> None:
        self.chosen = seen
        self.changed.emit()


class LotsPanel(LiveWidget):
    """A row of fields for each lot, and what all lots tell together."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.rows: list[LotRow] = []
        self.how = TonedLabel("secondary")
        self.how.setWordWrap(True)
        self._headings = [TonedLabel("secondary") for _ in range(COLUMNS)]
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(6)
        for column, heading in enumerate(self._headings):
            self._grid.addWidget(heading, 0, column)
        self.add = QPushButton()
        self.add.setAutoDefault(False)
        self.add.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.add.clicked.connect(lambda _checked: self.add_lot())
        self.told = TonedLabel("text")
        self.told.setWordWrap(True)
        self.message = MessageLabel()
        fields = ("penetration_ml_per_g", "limit_ml_per_g", "uptake_ml_per_g")
        self.proposals = Proposals(document, fields)
        column_of_all = QVBoxLayout(self)
        column_of_all.addWidget(self.how)
        column_of_all.addLayout(self._grid)
        for widget in (self.add, self.message, self.told, self.proposals):
            column_of_all.addWidget(widget)
        column_of_all.addStretch(1)
        document.settled.connect(self._reckon)
        self.add_lot()
        self._retranslate()

    def add_lot(self) -> None:
        """Put an empty lot at the end, on the plan's soak, and go to its first field."""
        row = LotRow(self._document.plan.liquid.soak_ml_per_g, self._remove, self)
        row.changed.connect(self._reckon)
        self.rows.append(row)
        self._lay_out()
        row.fibre.setFocus()

    def _remove(self, row: LotRow) -> None:
        self.rows.remove(row)
        for widget in (*row.widgets, *(field.message for field in row.fields)):
            self._grid.removeWidget(widget)
            widget.hide()
            widget.deleteLater()
        row.deleteLater()
        self._lay_out()
        self.add.setFocus()
        self._reckon()

    def _lay_out(self) -> None:
        """Put every lot into its row of the grid; below it, what its fields have to say."""
        for number, row in enumerate(self.rows):
            for column, widget in enumerate(row.widgets):
                self._grid.addWidget(widget, 4 * number + 1, column)
                widget.show()
            for line, field in enumerate(row.fields, start=2):
                self._grid.addWidget(field.message, 4 * number + line, 1, 1, COLUMNS - 1)
            row.name(number + 1)
        self.add.setEnabled(len(self.rows) < MOST_LOTS)
        self._order_tabs()

    def _order_tabs(self) -> None:
        """Let Tab go from lot to lot, then to what they give."""
        fields = (widget for row in self.rows for widget in row.widgets[1:])
        for before, after in pairwise(
            [*fields, self.add, *self.proposals.ticks.values(), self.proposals.use]
        ):
            QWidget.setTabOrder(before, after)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._order_tabs()  # which coming into a window has put aside

    def _retranslate(self) -> None:
        self.how.show_text(
            self.tr(
                "Enter lots that you painted on this fibre. A white core says that there was too little"
                " liquid; a pool, that there was more than the fibre holds."
            )
        )
        words = ("", self.tr("Fibre"), self.tr("Liquid"), self.tr("Soak"), self.tr("Seen"), "")
        for heading, text in zip(self._headings, words, strict=True):
            heading.show_text(text)
        self.add.setText(self.tr("&Add a lot"))
        for number, row in enumerate(self.rows, start=1):
            row.name(number)
        self._reckon()

    def _reckon(self) -> None:
        """Show what the lots tell, and offer what follows from it."""
        self.message.say("")
        try:
            numbered = {number: lot for number, row in enumerate(self.rows) if (lot := row.lot) is not None}
        except RovingLayError as problem:
            self.message.say(refusal(problem))
            return
        lots = list(numbered.values())
        learned = learn(lots)
        self.told.show_text("\n".join(told_by_lots(learned, lots, [number + 1 for number in numbered])))
        liquid = self._document.sheet.plan.liquid
        wanted = {
            "penetration_ml_per_g": penetration_to_use(learned.penetration, liquid.penetration_ml_per_g),
            "limit_ml_per_g": limit_to_use(learned.limit, liquid.limit_ml_per_g),
            "uptake_ml_per_g": uptake_to_use(learned, liquid.soak_ml_per_g, liquid.uptake_ml_per_g),
        }
        figures = {
            field: figure
            for field, figure in wanted.items()
            if figure is not None and figure != getattr(liquid, field)
        }
        self.proposals.propose(figures, ("penetration_ml_per_g", "limit_ml_per_g"))
