"""Fibre, lay, liquid, bench and acid limits."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from studio_gui.document.open_plan import OpenPlan


class InputsPane(QWidget):
    """Fibre, lay, liquid, bench and acid limits."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
