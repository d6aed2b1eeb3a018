"""A table as high as its rows, up to a few, in a pane that scrolls.

The rule of this module: a short list has no empty ground under it, and a long one scrolls by itself.
"""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QSizePolicy, QWidget

from studio_gui.document.row_model import RowModel
from studio_gui.views.row_table import RowTable


class FittedTable(RowTable):
    """A `RowTable` with room for `most_rows` of its rows."""

    beside_text_px = 10

    def __init__(
        self,
        model: RowModel,
        name_column: int,
        widest: Mapping[int, str],
        most_rows: int,
        marked: tuple[int, ...] = (),
        name_at_least_px: int = 40,
        parent: QWidget | None = None,
    ) -> None:
        self._most_rows = most_rows
        super().__init__(model, name_column, widest, marked, name_at_least_px, parent)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        model.rearranged.connect(self.fit_rows)
        self.horizontalScrollBar().rangeChanged.connect(self.fit_rows)
        self.fit_rows()

    def fit_rows(self) -> None:
        """Take the height that the rows have."""
        row_px = self.verticalHeader().defaultSectionSize()
        height = self.horizontalHeader().sizeHint().height() + 2
        height += max(min(self.model().rowCount(), self._most_rows), 1) * row_px
        if self.horizontalScrollBar().maximum() > 0:
            height += self.horizontalScrollBar().sizeHint().height()
        if height != self.height():
            self.setFixedHeight(height)

    def fit_columns(self) -> None:
        super().fit_columns()
        self.fit_rows()

    def sizeHint(self) -> QSize:
        return QSize(super().sizeHint().width(), self.height())
