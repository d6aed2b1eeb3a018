"""Stocks and liquors."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from studio_gui.document.open_plan import OpenPlan


class StocksPane(QWidget):
    """Stocks and liquors."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
