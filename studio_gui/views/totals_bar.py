"""Fibre, liquid, film and jars: the sums of the whole set, always in view.

The rule of this module: it only shows; every sum comes from the worksheet.
"""

from __future__ import annotations

from PySide6.QtWidgets import QGridLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.labels import TonedLabel, scaled_font
from studio_gui.views.live import LiveWidget
from studio_gui.wording.quantities import MASS, ROVING_LENGTH, VOLUME, shown


class TotalsBar(LiveWidget):
    """Four sums side by side."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._names = [TonedLabel("secondary") for _ in range(4)]
        self.values = [TonedLabel("text") for _ in range(4)]
        grid = QGridLayout(self)
        grid.setContentsMargins(12, 4, 12, 6)
        grid.setHorizontalSpacing(24)
        grid.setVerticalSpacing(0)
        for column, (name, value) in enumerate(zip(self._names, self.values, strict=True)):
            name.setBuddy(value)
            grid.addWidget(name, 0, column)
            grid.addWidget(value, 1, column)
            grid.setColumnStretch(column, 1)
        document.shown.connect(self._show)
        self._set_fonts()
        self._retranslate()

    def _set_fonts(self) -> None:
        for name, value in zip(self._names, self.values, strict=True):
            name.setFont(scaled_font(self.font(), 0.85))
            value.setFont(scaled_font(self.font(), 1.15, bold=True))

    def _retranslate(self) -> None:
        names = (self.tr("Fibre"), self.tr("Liquid"), self.tr("Film"), self.tr("Jars"))
        meanings = (
            self.tr("Dry fibre of the whole set"),
            self.tr("Liquor painted on the whole set"),
            self.tr("Film to cut, with the extra at both ends"),
            self.tr("Liquor to mix, with the spare and the dead volume of every jar"),
        )
        for name, value, words, meaning in zip(self._names, self.values, names, meanings, strict=True):
            name.show_text(words)
            name.setToolTip(meaning)
            value.setToolTip(meaning)
        self._show()

    def _show(self) -> None:
        totals = self._document.sheet.totals
        sums = (
            shown(MASS, totals.fibre_g),
            shown(VOLUME, totals.liquid_ml),
            shown(ROVING_LENGTH, totals.film_length_m),
            shown(VOLUME, totals.jars_ml),
        )
        for name, value, words in zip(self._names, self.values, sums, strict=True):
            value.show_text(words)
            value.setAccessibleName(f"{name.text()}: {words}")
