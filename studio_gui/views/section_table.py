"""The table of all sections."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from studio_gui.document.open_plan import OpenPlan


class SectionTable(QWidget):
    """The table of all sections."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
