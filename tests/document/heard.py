"""What a table announced to its views."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex

from studio_gui.document.row_model import RowModel
from studio_gui.domain.errors import RovingLayError


class Announced:
    """Runs of rows that changed with their columns, and how often the layout did.

    Also what was refused, and how often something was accepted.
    """

    def __init__(self, model: RowModel) -> None:
        self.rows: list[tuple[int, int]] = []
        self.columns: list[tuple[int, int]] = []
        self.layouts = self.accepted = 0
        self.refused: list[RovingLayError] = []
        model.dataChanged.connect(self._on_data)
        model.rearranged.connect(self._on_layout)
        model.refused.connect(self.refused.append)
        model.accepted.connect(self._on_accepted)

    @property
    def codes(self) -> list[str]:
        return [error.code for error in self.refused]

    def _on_data(self, first: QModelIndex, last: QModelIndex) -> None:
        self.rows.append((first.row(), last.row()))
        self.columns.append((first.column(), last.column()))

    def _on_layout(self) -> None:
        self.layouts += 1

    def _on_accepted(self) -> None:
        self.accepted += 1
