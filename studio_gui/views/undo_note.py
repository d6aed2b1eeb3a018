"""A quiet line that says what else an edit has changed, with a button that takes it back.

The rule of this module: it speaks of the last undo step only, and goes when the plan moves on.
"""

from __future__ import annotations

from PySide6.QtGui import QUndoStack
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSizePolicy, QWidget

from studio_gui.views.labels import TonedLabel
from studio_gui.views.live import LiveWidget


class UndoNote(LiveWidget):
    """A sentence and Undo; out of sight while there is nothing to tell."""

    def __init__(self, stack: QUndoStack, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.words = TonedLabel("secondary")
        self.words.setWordWrap(True)
        self.undo = QPushButton()
        self.undo.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.undo.clicked.connect(stack.undo)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(self.words, 1)
        row.addWidget(self.undo)
        stack.indexChanged.connect(self.hide)
        self._retranslate()
        self.hide()

    def tell(self, sentence: str) -> None:
        """Say what the edit just made has changed besides what was asked for; nothing hides the line."""
        self.words.show_text(sentence)
        self.setVisible(bool(sentence))

    def _retranslate(self) -> None:
        self.undo.setText(self.tr("Undo"))
        self.hide()  # the sentence is of a moment, and in the old language
