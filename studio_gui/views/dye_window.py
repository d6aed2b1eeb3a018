"""The window of one dye: its swatches, colours off a photo, and how it builds up.

The rule of this module: it stays beside the plan, follows the stock that is selected on the shelf, and edits
as the pane of stocks does, one undo step an entry.
"""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.swatches import change_swatch
from studio_gui.views.build_up_view import BuildUpView
from studio_gui.views.fields import edit_and_say
from studio_gui.views.labels import ShortenedLabel, TonedLabel, scaled_font
from studio_gui.views.live import LiveDialog, LiveWidget
from studio_gui.views.photo_panel import PhotoPanel
from studio_gui.views.swatch_list import SwatchList
from studio_gui.wording.colours import build_up_line
from studio_gui.wording.naming import one_line

SWATCHES_PX = 370


class DyePanel(LiveWidget):
    """Swatches on the left; curve and photo on the right."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._stock_id = ""
        self.name = ShortenedLabel("text")
        self.swatches = SwatchList(document)
        self.curve = BuildUpView()
        self.line = TonedLabel("secondary")
        self.line.setWordWrap(True)
        self.photo = PhotoPanel()
        self.photo.taken.connect(self._take)
        room = QScrollArea()
        room.setWidgetResizable(True)
        room.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        room.setFrameShape(QFrame.Shape.NoFrame)
        room.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, 8, 0)
        column.addWidget(self.swatches)
        column.addStretch(1)
        room.setWidget(inside)
        left = QVBoxLayout()
        left.addWidget(self.name)
        left.addWidget(room, 1)
        right = QVBoxLayout()
        right.setSpacing(6)
        right.addWidget(self.curve, 4)
        right.addWidget(self.line)
        right.addWidget(self.photo, 7)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addLayout(left, 4)
        row.addLayout(right, 5)
        room.setMinimumWidth(SWATCHES_PX)
        self._keep_up(document, self.refresh, turn=2)
        self._set_fonts()

    def show_stock(self, stock_id: str) -> None:
        """Show another dye."""
        self._stock_id = stock_id
        self.refresh()

    def refresh(self) -> None:
        """Show the dye as the plan has it; nothing of one that is gone."""
        plan = self._document.sheet.plan
        dye = next((stock for stock in plan.dyes if stock.id == self._stock_id), None)
        self.setEnabled(dye is not None)
        if dye is None:
            return
        self.name.show_text(one_line(dye.name))
        self.swatches.show_stock(dye, plan.fibre.undyed_srgb)
        self.curve.show_stock(dye)
        self.line.show_text(build_up_line(dye.curve))
        self._offer(len(dye.swatches))

    def _offer(self, count: int) -> None:
        words = {"srgb": self.tr("swatch {0}"), "fibre_srgb": self.tr("fibre of swatch {0}")}
        self.photo.set_targets(
            [
                (word.format(place + 1), (field, place))
                for field, word in words.items()
                for place in range(count)
            ]
        )

    def _take(self, srgb: str, target: tuple[str, int]) -> None:
        field, place = target
        changes: dict[str, Any] = {field: srgb}
        edit = partial(change_swatch, stock_id=self._stock_id, place=place, **changes)
        edit_and_say(self._document, self.tr("Colour off a photo"), edit, self.photo.message.say)

    def _retranslate(self) -> None:
        self.refresh()

    def _set_fonts(self) -> None:
        self.name.setFont(scaled_font(self.font(), 1.15, bold=True))


class DyeWindow(LiveDialog):
    """A window around the panel of a dye."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.panel = DyePanel(document)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(self.panel, 1)
        column.addWidget(buttons)
        for button in self.findChildren(QPushButton):
            button.setAutoDefault(False)  # Enter ends a field, and presses none of them
        room = self.screen().availableSize()
        self.resize(QSize(900, 600).boundedTo(QSize(room.width() - 64, room.height() - 96)))
        self._retranslate()

    def open_for(self, stock_id: str) -> None:
        """Show a dye and come to the front."""
        self.panel.show_stock(stock_id)
        self.show()
        self.raise_()
        self.activateWindow()

    def _retranslate(self) -> None:
        self.setWindowTitle(self.tr("Colour of a dye"))
