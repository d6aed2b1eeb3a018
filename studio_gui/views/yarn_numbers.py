"""The numbers of the yarn: length, looks, what is left over, its runs and its pairs of liquors.

The rule of this module: it only shows what the worksheet says, and holds the limits by which that is judged.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.yarn_models import LeftoverModel, PairModel, RunModel
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.spinning.figures import YarnFigures
from studio_gui.domain.yarn import MOST_PLIES, Yarn
from studio_gui.views.delegates import SeverityDelegate
from studio_gui.views.fields import QuantityField, edit_at
from studio_gui.views.figure_list import FigureList
from studio_gui.views.labels import TonedLabel, call, explain, scaled_font
from studio_gui.views.live import LiveWidget
from studio_gui.wording.counts import counts_words
from studio_gui.wording.fields import field_name
from studio_gui.wording.measured import where_from
from studio_gui.wording.quantities import SHARE, YARN_LENGTH, shown
from studio_gui.wording.yarn_words import yarn_figures_told

FIGURES = ("length", "grist", "solid", "barber_pole", "smear_each", "smear_all")
_OF_CHAINS = ("smear_each", "smear_all")
LIMITS = ("alike_difference", "note_share", "warn_share")
#: What a new plan starts with: common practice, without a source.
COMMON_PRACTICE = {name: getattr(Yarn(), name) for name in LIMITS}
FIELD_WIDTH = "9999.99 %"
_METRES = "9999.9"
ROWS_SEEN = 8


class YarnNumbers(LiveWidget):
    """Figures of the yarn on the screen."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._names = {name: TonedLabel("text") for name in FIGURES}
        self.values = {name: TonedLabel("text") for name in FIGURES}
        self.fields = {name: QuantityField(name) for name in LIMITS}
        self._labels = {name: QLabel() for name in LIMITS}
        self.leftovers = FigureList(
            LeftoverModel(document, self),
            5,
            {0: "9", **dict.fromkeys((1, 2), _METRES), 3: "999.9", 4: "99.9"},
            MOST_PLIES,
            (5,),
        )
        self.runs = FigureList(
            RunModel(document, self), 2, {0: _METRES, 1: _METRES, 3: "barber-pole"}, ROWS_SEEN
        )
        self.pairs = FigureList(
            PairModel(document, self), 0, {1: _METRES, 2: _METRES, 3: "99.9", 4: "barber-pole"}, ROWS_SEEN
        )
        self.leftovers.table.setItemDelegateForColumn(5, SeverityDelegate(self.leftovers.table))
        self._lay_out()
        self._keep_up(document, self._show, turn=2)
        for name, field in self.fields.items():
            field.entered.connect(partial(self._enter, name))
        self._set_fonts()
        self._retranslate()

    def _lay_out(self) -> None:
        figures = QGridLayout()
        figures.setHorizontalSpacing(8)
        figures.setVerticalSpacing(4)
        figures.setColumnStretch(1, 1)
        for row, name in enumerate(FIGURES):
            self.values[name].setWordWrap(True)
            figures.addWidget(self._names[name], row, 0, Qt.AlignmentFlag.AlignTop)
            figures.addWidget(self.values[name], row, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 12)
        column.setSpacing(12)
        column.addLayout(figures)
        column.addWidget(self.leftovers)
        column.addLayout(self._limits("note_share", "warn_share"))
        column.addWidget(self.pairs)
        column.addWidget(self.runs)
        column.addLayout(self._limits("alike_difference"))
        column.addStretch(1)

    def _limits(self, *names: str) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(0, 1)
        for row, name in enumerate(names):
            self._labels[name].setWordWrap(True)
            self._labels[name].setBuddy(self.fields[name])
            grid.addWidget(self._labels[name], 2 * row, 0)
            grid.addWidget(self.fields[name], 2 * row, 1)
            grid.addWidget(self.fields[name].message, 2 * row + 1, 0, 1, 2)
        return grid

    def _set_fonts(self) -> None:
        for value in self.values.values():
            value.setFont(scaled_font(self.font(), 1.0, bold=True))
        width = self.fontMetrics().horizontalAdvance(FIELD_WIDTH) + 16
        for field in self.fields.values():
            field.setFixedWidth(width)

    def _retranslate(self) -> None:
        words = {
            "length": (self.tr("Yarn"), self.tr("Length of the plied yarn")),
            "grist": (self.tr("Grist"), ""),
            "solid": (self.tr("Solid"), self.tr("Yarn in which all strands show one colour")),
            "barber_pole": (self.tr("Barber-pole"), self.tr("Yarn whose strands show several colours")),
            "smear_each": (
                self.tr("A change mixes"),
                self.tr("Yarn, before take-up, that one change of colour of the chain mixes"),
            ),
            "smear_all": (
                self.tr("All changes mix"),
                self.tr("Yarn, before take-up, that all changes of colour of the chain mix"),
            ),
        }
        for name, (said, meaning) in words.items():
            self._names[name].show_text(said)
            explain(self._names[name], meaning)
            explain(self.values[name], meaning)
        for name, label in self._labels.items():
            label.setText(field_name(name))
        self.leftovers.name(self.tr("Left over"))
        self.pairs.name(self.tr("Side by side"))
        self.runs.name(self.tr("From the start"))
        self._show()

    # -- showing -------------------------------------------------------------------------------------------

    def _show(self) -> None:
        sheet = self._document.sheet
        yarn = sheet.yarn
        for name, words in yarn_figures_told(yarn).items():
            self.values[name].show_text(words)
            call(self.values[name], f"{self._names[name].text()}: {words}")
            for label in (self.values[name], self._names[name]):
                label.setVisible(yarn.is_chain or name not in _OF_CHAINS)
        explain(self.values["grist"], counts_words(yarn.m_per_g))
        self._show_sums(yarn)
        for name, field in self.fields.items():
            value = getattr(sheet.plan.yarn, name)
            field.set_value(value)
            explain(field, f"{self._meaning(name)} {_where_from(name, value)}")

    def _show_sums(self, yarn: YarnFigures) -> None:
        in_all = shown(YARN_LENGTH, yarn.plied_m)
        most = self.tr("{0} of the longest at most").format(shown(SHARE, yarn.leftover_share))
        self.leftovers.sum.show_text(most if yarn.leftover_share > 0.0 else self.tr("nothing"))
        self.pairs.sum.show_text(self.tr("{0} of yarn").format(in_all))
        self.runs.sum.show_text(self.tr("{0} runs, {1} of yarn").format(len(yarn.runs), in_all))

    def _meaning(self, name: str) -> str:
        return {
            "alike_difference": self.tr(
                "CIEDE2000 below which two liquors count as one colour; 0 counts none."
            ),
            "note_share": self.tr("More than this share of the longest ply left over is noted."),
            "warn_share": self.tr("More than this share of the longest ply left over is warned of."),
        }[name]

    def _enter(self, name: str, value: float) -> None:
        edit_at(
            self.fields[name], self._document, field_name(name), lambda plan: set_yarn(plan, **{name: value})
        )


def _where_from(name: str, value: float) -> str:
    return where_from(name, value, COMMON_PRACTICE[name], measured=False)
