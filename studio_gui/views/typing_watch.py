"""What is being typed in a window, and not entered yet.

The rule of this module: it only looks. What stands in a field may be the half of a value, so it is nobody's
business to enter it; but a crash should not cost it either.
"""

from __future__ import annotations

from PySide6.QtCore import QMetaObject, QObject, Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QApplication, QLineEdit, QWidget

from studio_gui.storage.recovery import Typed


class TypingWatch(QObject):
    """Follows the keyboard from field to field, and tells what stands there.

    Signals
    -------
    changed
        Carries the `Typed`, None when nothing is being typed.
    """

    changed = Signal(object)

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._field: QLineEdit | None = None
        self._links: tuple[QMetaObject.Connection, ...] = ()
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._follow)

    def _follow(self, _before: QWidget | None, now: QWidget | None) -> None:
        for link in self._links:  # by their handles: the field may be on its way out
            QObject.disconnect(link)
        self._field, self._links = None, ()
        if isinstance(now, QLineEdit) and self._is_mine(now):
            self._field = now
            self._links = (now.textChanged.connect(self._tell), now.editingFinished.connect(self._tell))
        self._tell()

    def _is_mine(self, field: QWidget) -> bool:
        """Tell whether a field is in the window, or in one of its own windows."""
        around: QWidget | None = field
        while around is not None and around is not self._window:
            around = around.parentWidget()
        return around is not None

    def _tell(self) -> None:
        field = self._field
        is_typed = field is not None and field.isModified() and bool(field.text())
        self.changed.emit(Typed(_name(field), field.text()) if field is not None and is_typed else None)


def _name(field: QLineEdit) -> str:
    """Return what a field is called; the editor of a table's cell is called by its column."""
    name, around = field.accessibleName(), field.parentWidget()
    while not name and around is not None and not around.isWindow():
        if isinstance(around, QAbstractItemView):
            return _column(around)
        around = around.parentWidget()
    return name


def _column(view: QAbstractItemView) -> str:
    title = view.model().headerData(view.currentIndex().column(), Qt.Orientation.Horizontal)
    return title if isinstance(title, str) else ""
