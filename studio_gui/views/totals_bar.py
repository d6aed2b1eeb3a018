"""Fibre, liquid, film, jars and sections: the sums of the whole set, always in view.

The rule of this module: it only shows; every sum comes from the worksheet. Sums stand in columns of one
width, in as many rows as they need, so that none is cut and none moves while a boundary is dragged.
"""

from __future__ import annotations

from PySide6.QtCore import QSize
from PySide6.QtGui import QFontMetrics, QResizeEvent
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.labels import TonedLabel, call, scaled_font
from studio_gui.views.live import LiveWidget
from studio_gui.wording.numbers import shown_number
from studio_gui.wording.quantities import MASS, ROVING_LENGTH, VOLUME, shown

SPACING_PX = 16
SIDE_PX = 12
COUNT = 6
#: The place of liquid for one roving, which one roving alone does without.
_PER_ROVING = 2
#: What every sum has room for, in the plan's unit.
_WIDEST = ((MASS, 99_999.9), (VOLUME, 99_999.9), (ROVING_LENGTH, 99.99))


class TotalsBar(LiveWidget):
    """The sums side by side."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._names = [TonedLabel("secondary", self) for _ in range(COUNT)]
        self.values = [TonedLabel("text", self) for _ in range(COUNT)]
        self._arranged: tuple[bool, int] | None = None
        self._cell_px = 0
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(SIDE_PX, 4, SIDE_PX, 6)
        self._grid.setHorizontalSpacing(SPACING_PX)
        self._grid.setVerticalSpacing(0)
        for name, value in zip(self._names, self.values, strict=True):
            name.setBuddy(value)
            for label in (name, value):
                label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self._keep_up(document, self._show)
        self._set_fonts()
        self._retranslate()

    def minimumSizeHint(self) -> QSize:
        return QSize(2 * self._cell_px + SPACING_PX + 2 * SIDE_PX, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def _set_fonts(self) -> None:
        for name, value in zip(self._names, self.values, strict=True):
            name.setFont(scaled_font(self.font(), 0.85))
            value.setFont(scaled_font(self.font(), 1.15, bold=True))
        self._measure()
        self._arrange()

    def _retranslate(self) -> None:
        names = (
            self.tr("Fibre"),
            self.tr("Liquid"),
            self.tr("for each roving"),
            self.tr("Film"),
            self.tr("Jars"),
            self.tr("Sections"),
        )
        meanings = (
            self.tr("Dry fibre of the whole set"),
            self.tr("Liquor painted on the whole set"),
            self.tr("Liquor painted on each roving of the set"),
            self.tr("Film to cut, with the extra at both ends"),
            self.tr("Liquor to mix, with the spare and the dead volume of every jar"),
            self.tr("Sections along the lay"),
        )
        for name, value, words, meaning in zip(self._names, self.values, names, meanings, strict=True):
            name.show_text(words)
            name.setToolTip(meaning)
            value.setToolTip(meaning)
        self._measure()
        self._show()

    def _show(self) -> None:
        totals = self._document.sheet.totals
        sums = (
            shown(MASS, totals.fibre_g),
            shown(VOLUME, totals.liquid_ml),
            shown(VOLUME, totals.liquid_ml_per_roving),
            shown(ROVING_LENGTH, totals.film_length_m),
            shown(VOLUME, totals.jars_ml),
            shown_number(totals.sections, 0),
        )
        for name, value, words in zip(self._names, self.values, sums, strict=True):
            value.show_text(words)
            call(value, f"{name.text()}: {words}")
        self._arrange()

    # -- columns -------------------------------------------------------------------------------------------

    def _arrange(self) -> None:
        """Put the sums into as many columns as have room."""
        several = self._document.sheet.plan.fibre.rovings > 1
        shown_places = [place for place in range(COUNT) if several or place != _PER_ROVING]
        room = self.width() - 2 * SIDE_PX + SPACING_PX
        most = max(room // (self._cell_px + SPACING_PX), 1)
        rows = -(-len(shown_places) // most)
        columns = -(-len(shown_places) // rows)
        if (several, columns) == self._arranged:
            return
        self._arranged = several, columns
        places = [(place, divmod(number, columns)) for number, place in enumerate(shown_places)]
        for place in range(COUNT):
            self._names[place].setVisible(place in shown_places)
            self.values[place].setVisible(place in shown_places)
        for place, (row, column) in places:
            self._grid.addWidget(self._names[place], 2 * row, column)
            self._grid.addWidget(self.values[place], 2 * row + 1, column)
        for column in range(COUNT):
            self._grid.setColumnStretch(column, 1 if column < columns else 0)
        self.updateGeometry()

    def _measure(self) -> None:
        """Take the width that the widest name and the largest sums need, px."""
        name, value = QFontMetrics(self._names[0].font()), QFontMetrics(self.values[0].font())
        names = max(name.horizontalAdvance(label.text()) for label in self._names)
        self._cell_px = (
            max(names, *(value.horizontalAdvance(shown(kind, most)) for kind, most in _WIDEST)) + 2
        )
