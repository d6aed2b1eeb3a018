"""One colour of a fade: up to three dyes, each with its depth.

The rule of this module: what stands in the fields is the colour; a dye that is taken out takes its depth
along, and no dye at all is the undyed fibre.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

import numpy as np
from PySide6.QtCore import Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from studio_gui.domain.at_hand import AtHand
from studio_gui.domain.colour.spaces import hex_from_lab
from studio_gui.domain.edits.fades import MOST_DYES_AT_A_STOP
from studio_gui.domain.liquors import DyeDepth
from studio_gui.domain.stocks import Stock
from studio_gui.views.fields import QuantityField
from studio_gui.views.finding_field import FindingField
from studio_gui.views.flow import FlowLayout
from studio_gui.views.labels import SwatchLabel, call
from studio_gui.views.live import LiveWidget
from studio_gui.wording.naming import one_line

DYE_WIDTH, DEPTH_WIDTH = 138, 66
#: What a dye is given when it is chosen, % owf.
FIRST_DEPTH_PCT_OWF = 0.5


class StopField(LiveWidget):
    """Chooses the dyes and depths of one colour.

    Signals
    -------
    changed
        Another colour stands in the field.
    """

    changed = Signal()

    def __init__(self, hand: AtHand, depths: Sequence[DyeDepth] | None, *, optional: bool = False) -> None:
        super().__init__()
        self._hand, self._optional = hand, optional
        self._is_asked = not optional
        self._depths: list[DyeDepth] = list(depths or ())
        self._name = ""
        self.swatch = SwatchLabel(20)
        self.dyes = [FindingField() for _ in range(MOST_DYES_AT_A_STOP)]
        self.amounts = [QuantityField("depth_pct_owf") for _ in range(MOST_DYES_AT_A_STOP)]
        self._pairs = [QWidget() for _ in range(MOST_DYES_AT_A_STOP)]
        self._lay_out()
        for place, (dye, amount) in enumerate(zip(self.dyes, self.amounts, strict=True)):
            dye.chosen.connect(partial(self._choose, place))
            amount.entered.connect(partial(self._weigh, place))
        self._retranslate()

    @property
    def value(self) -> tuple[DyeDepth, ...] | None:
        """The colour, None where the colour is optional and none is asked for."""
        return tuple(self._depths) if self._is_asked else None

    def set_name(self, name: str) -> None:
        """Give the colour a name for screen readers."""
        self._name = name
        self._retranslate()

    def forget_refusals(self) -> None:
        """Take away what was said of depths that were not taken: another colour stands now."""
        for amount in self.amounts:
            amount.clear_message()

    def _lay_out(self) -> None:
        room = QWidget()
        flow = FlowLayout(room)
        flow.setContentsMargins(0, 0, 0, 0)
        messages = QVBoxLayout()
        messages.setSpacing(0)
        for pair, dye, amount in zip(self._pairs, self.dyes, self.amounts, strict=True):
            dye.setFixedWidth(DYE_WIDTH)
            amount.setFixedWidth(DEPTH_WIDTH)
            row = QHBoxLayout(pair)
            row.setContentsMargins(0, 0, 0, 0)
            row.setSpacing(4)
            row.addWidget(dye)
            row.addWidget(amount)
            flow.addWidget(pair)
            messages.addWidget(amount.message)
        line = QHBoxLayout()
        line.setSpacing(8)
        line.addWidget(self.swatch)
        line.addWidget(room, 1)
        room.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addLayout(line)
        column.addLayout(messages)

    def _retranslate(self) -> None:
        for place, (dye, amount) in enumerate(zip(self.dyes, self.amounts, strict=True), start=1):
            call(dye, self.tr("{0}: dye {1}").format(self._name, place))
            call(amount, self.tr("{0}: depth of dye {1}").format(self._name, place))
            dye.setToolTip(self.tr("Up to three dyes make the colour; take one out by choosing none"))
        self._show()

    def _show(self) -> None:
        taken = [depth.stock_id for depth in self._depths]
        for place, (pair, dye, amount) in enumerate(zip(self._pairs, self.dyes, self.amounts, strict=True)):
            own = taken[place] if place < len(taken) else None
            others = [stock_id for stock_id in taken if stock_id != own]
            none = self.tr("undyed") if place == 0 else self.tr("and no more")
            choices: list[tuple[str, object]] = [(none, "")]
            if place == 0 and self._optional:
                choices.insert(0, (self.tr("no colour between"), None))
            choices += [
                (one_line(stock.name), stock.id) for stock in self._first_bottles() if stock.id not in others
            ]
            shown: object = own if own is not None else ("" if self._is_asked else None)
            dye.set_choices(choices, shown)
            pair.setVisible(place <= len(taken) and (place == 0 or len(choices) > 1))
            amount.setVisible(own is not None)
            if own is not None:
                amount.set_value(self._depths[place].depth_pct_owf)
        self._show_swatch()

    def _first_bottles(self) -> list[Stock]:
        """Return one bottle of each dye: the others of it are for the solver to choose."""
        dye_of = self._hand.dye_of
        return [
            stock for place, stock in enumerate(self._hand.bottles) if dye_of.index(dye_of[place]) == place
        ]

    def _show_swatch(self) -> None:
        if not self._is_asked:
            self.swatch.show_colour(QColor())
            return
        lab = self._hand.palette.lab(np.asarray(self._hand.doses(self._depths)))
        self.swatch.show_colour(QColor(hex_from_lab(lab)[0]))

    def _choose(self, place: int, stock_id: object) -> None:
        self._is_asked = stock_id is not None
        kept = list(self._depths)
        if not stock_id:
            del kept[place : None if place == 0 else place + 1]
        else:
            depth = kept[place].depth_pct_owf if place < len(kept) else FIRST_DEPTH_PCT_OWF
            kept[place : place + 1] = [DyeDepth(str(stock_id), depth)]
        self._depths = kept
        self._show()
        self.changed.emit()

    def _weigh(self, place: int, depth_pct_owf: float) -> None:
        self._depths[place] = DyeDepth(self._depths[place].stock_id, depth_pct_owf)
        self._show()
        self.changed.emit()
