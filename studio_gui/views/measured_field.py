"""A field for something measured that is not in the plan: it keeps what is typed into it.

The rule of this module: empty until something is typed, and empty again when that is deleted.
"""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from studio_gui.views.fields import QuantityField


class MeasuredField(QuantityField):
    """A quantity of the user's own; `value` is None while there is none.

    Signals
    -------
    changed
        Another value was typed, or the value was deleted.
    """

    changed = Signal()

    def __init__(self, field: str, parent: QWidget | None = None) -> None:
        super().__init__(field, parent=parent, may_be_unknown=True)
        self.entered.connect(self._keep)
        self.made_unknown.connect(lambda: self._keep(None))

    @property
    def value(self) -> float | None:
        """What was typed, in the plan's unit."""
        return self._value

    def _keep(self, value: float | None) -> None:
        self.set_value(value)
        self.changed.emit()

    def _words(self, value: float | None) -> str:
        return "" if value is None else super()._words(value)
