"""A choice of many, found by typing.

The rule of this module: what is typed is looked for at the beginning of what is offered, and else at the
beginning of any word of it: a shelf has many a "... red". The same key again goes on to the next.
"""

from __future__ import annotations

import re

from PySide6.QtCore import QElapsedTimer, QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QWidget

from studio_gui.views.choices import ChoiceField

_COMMAND = (
    Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.MetaModifier
)


class FindingField(ChoiceField):
    """A `ChoiceField` whose entries are found by any of their words, open or closed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._typed, self._since = "", QElapsedTimer()
        self.view().installEventFilter(self)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not _is_typing(event):
            super().keyPressEvent(event)
            return
        row = self._find(event.text(), self.currentIndex())
        if row is not None and row != self.currentIndex():
            self.setCurrentIndex(row)
            self.activated.emit(row)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            return self._find_in_list(event)
        return super().eventFilter(watched, event)

    def _find_in_list(self, event: QKeyEvent) -> bool:
        if not _is_typing(event):
            return False
        view = self.view()
        row = self._find(event.text(), view.currentIndex().row())
        if row is not None:
            view.setCurrentIndex(self.model().index(row, self.modelColumn()))
        return True

    def _find(self, key: str, current: int) -> int | None:
        late = not self._since.isValid() or self._since.hasExpired(QApplication.keyboardInputInterval())
        self._typed = key if late else self._typed + key
        self._since.start()
        return found([self.itemText(row) for row in range(self.count())], self._typed, max(current, 0))


def _is_typing(event: QKeyEvent) -> bool:
    """Tell whether a key writes a sign, and is no command; a space opens the list, as in every other."""
    text = event.text()
    return bool(text) and text.isprintable() and not text.isspace() and not event.modifiers() & _COMMAND


def found(offered: list[str], typed: str, current: int) -> int | None:
    """Return which of the entries what is typed means, None for none.

    One key alone, once or more often, goes on from the `current` entry to the next; more keys look at it too.

    >>> offered = ["undyed", "Harbour blue", "Brick red", "Rose", "Fox red"]
    >>> found(offered, "r", 0), found(offered, "red", 0), found(offered, "rr", 3), found(offered, "x", 0)
    (3, 2, 4, None)
    """
    is_one_key = len(set(typed.casefold())) == 1
    wanted = typed[:1].casefold() if is_one_key else typed.casefold()
    start = current + 1 if is_one_key else current
    rows = [(start + step) % len(offered) for step in range(len(offered))]
    at_start = [row for row in rows if offered[row].casefold().startswith(wanted)]
    in_words = [row for row in rows if any(word.startswith(wanted) for word in _words(offered[row]))]
    if is_one_key and len(typed) > 1:
        at_start = []  # whoever goes on with the same key wants every entry that has it
    return next(iter((*at_start, *in_words)), None)


def _words(entry: str) -> list[str]:
    """Return an entry from the beginning of each of its words on, in small letters.

    >>> _words("Sea-green 0.5 %")
    ['sea-green 0.5 %', 'green 0.5 %', '0.5 %', '5 %']
    """
    small = entry.casefold()
    return [small[match.start() :] for match in re.finditer(r"(?<!\w)\w", small)]
