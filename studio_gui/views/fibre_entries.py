"""Undyed fibres as entries of a menu.

The rule of this module: an entry shows the colour that it stands for, and says that it is common practice.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QEvent, QObject, QRectF, Signal
from PySide6.QtGui import QAction, QColor, QIcon, QPainter, QPixmap
from PySide6.QtWidgets import QMenu, QToolButton, QWidget

from studio_gui.domain.colour.undyed import UNDYED, FibreName
from studio_gui.views.choices import ColourField
from studio_gui.views.labels import paint_swatch
from studio_gui.views.menu_entries import add_entry
from studio_gui.wording.colours import fibre_words

ICON_PX = 16


class FibreEntries(QObject):
    """The fibres at the end of a menu; `chosen` carries the colour, ``#rrggbb``."""

    chosen = Signal(str)

    def __init__(self, menu: QMenu) -> None:
        super().__init__(menu)
        self._menu = menu
        menu.addSeparator()
        self.entries: dict[FibreName, QAction] = {}
        for name, srgb in UNDYED.items():
            entry = self.entries[name] = add_entry(menu)
            entry.triggered.connect(partial(self._choose, srgb))
        menu.addSeparator()
        menu.aboutToShow.connect(self._draw_icons)
        self.retranslate()

    def retranslate(self) -> None:
        """Put the entries into the language of the program."""
        for name, entry in self.entries.items():
            entry.setText(fibre_words(name))
            entry.setToolTip(self.tr("{0}: common practice, no source").format(UNDYED[name]))

    def _choose(self, srgb: str, _checked: bool = False) -> None:
        self.chosen.emit(srgb)

    def _draw_icons(self) -> None:
        """Draw the icons for the palette that stands now."""
        for name, entry in self.entries.items():
            ratio = self._menu.devicePixelRatioF()
            pixmap = QPixmap(round(ICON_PX * ratio), round(ICON_PX * ratio))
            pixmap.setDevicePixelRatio(ratio)
            pixmap.fill(QColor(0, 0, 0, 0))
            painter = QPainter(pixmap)
            try:
                paint_swatch(
                    painter, QRectF(0.0, 0.0, ICON_PX, ICON_PX), QColor(UNDYED[name]), self._menu.palette()
                )
            finally:
                painter.end()
            entry.setIcon(QIcon(pixmap))


class FibreField(ColourField):
    """The colour of undyed fibre: typed, or one of the kinds that the button offers, or any other."""

    def __init__(self, field: str, parent: QWidget | None = None) -> None:
        super().__init__(field, parent)
        self.menu = QMenu(self.button)
        self.kinds = FibreEntries(self.menu)
        self.kinds.chosen.connect(self.entered)
        self.another = add_entry(self.menu)
        self.another.triggered.connect(lambda _checked: self._pick())
        self.button.setMenu(self.menu)
        self.button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self._name_entries()

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._name_entries()
        super().changeEvent(event)

    def _name_entries(self) -> None:
        self.another.setText(self.tr("Another colour…"))
        self.kinds.retranslate()
