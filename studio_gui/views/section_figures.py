"""What comes of a section's liquor and liquid, as a small table to read.

The rule of this module: it only shows what the worksheet has, and says in the tooltip what a figure means.
"""

from __future__ import annotations

import math

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.legs import section_on_legs
from studio_gui.domain.strands import strand_ml
from studio_gui.domain.worksheet import Worksheet
from studio_gui.views.labels import SaturationLabel, Tone, TonedLabel
from studio_gui.views.live import LiveWidget
from studio_gui.wording.naming import one_line
from studio_gui.wording.quantities import DEPTH, LAY_LENGTH, VOLUME, WETNESS, shown, shown_bare

PER_ROVING, PER_STRAND, ON_LEGS, APPLIED, HELD, STATE, DEPTHS, ACID, ACID_LINE = _ROWS = tuple(range(9))


class SectionFiguresView(LiveWidget):
    """The figures of the first selected section."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.names = [TonedLabel("secondary") for _ in _ROWS]
        self.values = [TonedLabel("text") for _ in _ROWS]
        self._mark = SaturationLabel()
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(3)
        self._grid.setColumnStretch(0, 1)
        for row, (name, value) in enumerate(zip(self.names, self.values, strict=True)):
            self._grid.addWidget(name, row, 0)
            if row == STATE:
                state = QHBoxLayout()
                state.setSpacing(6)
                state.addStretch(1)
                state.addWidget(self._mark)
                state.addWidget(value)
                self._grid.addLayout(state, row, 1)
            else:
                value.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
                self._grid.addWidget(value, row, 1)
        self._keep_up(document, self._show, selection=True)
        self._retranslate()

    def _retranslate(self) -> None:
        words = {
            PER_ROVING: (self.tr("Each roving"), self.tr("Liquor for one roving of the set")),
            PER_STRAND: (self.tr("Each strand"), self.tr("Liquor for each pass of one roving, in its order")),
            ON_LEGS: (
                self.tr("On each leg"),
                self.tr("From where to where, from the outer end of each leg, measured along it"),
            ),
            APPLIED: (self.tr("On the fibre"), self.tr("Liquor on the dry fibre")),
            HELD: (
                self.tr("Held, of limit"),
                self.tr("Soak and liquor at the fullest moment; the limit is your own measurement"),
            ),
            STATE: (self.tr("Wetness"), ""),
            ACID: (self.tr("Acid"), self.tr("Acid on the fibre, soak and liquor together, % of its weight")),
            ACID_LINE: (self.tr("Acid line"), self.tr("Acid stock that replaces let-down in every jar")),
            DEPTHS: (
                self.tr("Depth in all"),
                self.tr("Dye on the fibre, % of its weight, before any wiping"),
            ),
        }
        for row, (name, meaning) in words.items():
            self.names[row].show_text(name)
            self.names[row].setToolTip(meaning)
        self._show()

    def _show(self) -> None:
        sheet, index = self._document.sheet, self._document.selected_index
        plan, figures = sheet.plan, sheet.figures
        strands = strand_ml(figures, index)
        self._say(PER_ROVING, shown(VOLUME, float(figures.liquid_ml_per_roving[index])))
        self._say(PER_STRAND, _strands_shown(strands))
        self._show_row(PER_ROVING, plan.fibre.rovings > 1)
        self._show_row(PER_STRAND, len(strands) > 1)
        self._show_legs(sheet, index)
        self._say(APPLIED, shown(WETNESS, float(figures.applied_ml_per_g[index])))
        held, limit = float(figures.held_ml_per_g[index]), plan.liquid.limit_ml_per_g
        self._say(HELD, self.tr("{0} of {1}").format(shown_bare(WETNESS, held), shown(WETNESS, limit)))
        self._show_wetness(sheet, index)
        acid = float(figures.acid_pct_owf[index])
        self._say(ACID, self.tr("unknown") if math.isnan(acid) else shown(DEPTH, acid))
        self._show_acid_line(sheet, index)
        self._say(DEPTHS, shown(DEPTH, float(figures.depth_in_all_pct_owf[index])))

    def _show_legs(self, sheet: Worksheet, index: int) -> None:
        spans = section_on_legs(sheet.plan, index)
        self._show_row(ON_LEGS, bool(spans))
        words = self.tr("leg {0}: {1} to {2}")
        lines = [
            words.format(number, shown_bare(LAY_LENGTH, start_m), shown(LAY_LENGTH, end_m))
            for number, (start_m, end_m) in enumerate(spans, start=1)
        ]
        self._say(ON_LEGS, "\n".join(lines))

    def _show_wetness(self, sheet: Worksheet, index: int) -> None:
        saturation = sheet.figures.saturation(index)
        self._mark.show_saturation(saturation)
        free = shown(VOLUME, float(sheet.figures.free_ml[index]))
        words: dict[str, tuple[str, Tone]] = {
            "over": (self.tr("{0} over the brim").format(free), "over"),
            "under": (self.tr("core may stay white"), "under"),
            "in range": (self.tr("in range"), "text"),
        }
        text, tone = words[saturation]
        self.values[STATE].set_tone(tone)
        self._say(STATE, text)

    def _show_acid_line(self, sheet: Worksheet, index: int) -> None:
        line = sheet.plan.acid_line
        self._show_row(ACID_LINE, line is not None)
        if line is not None:
            column = [stock.id for stock in sheet.plan.stocks].index(line.stock_id)
            amount = shown(VOLUME, float(sheet.figures.amounts_ml[index, column]))
            self._say(ACID_LINE, f"{amount} {one_line(sheet.plan.stock(line.stock_id).name, 24)}")

    def _show_row(self, row: int, visible: bool) -> None:
        for label in (self.names[row], self.values[row]):
            label.setVisible(visible)

    def _say(self, row: int, words: str) -> None:
        self.values[row].show_text(words)


def _strands_shown(strands_ml: tuple[float, ...]) -> str:
    """Return what each strand takes: one amount where all take the same, else each in its order."""
    words = [shown_bare(VOLUME, ml) for ml in strands_ml]
    if len(set(words)) == 1:
        return shown(VOLUME, strands_ml[0])
    return " · ".join(words[:-1]) + " · " + shown(VOLUME, strands_ml[-1])
