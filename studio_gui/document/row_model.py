"""What the tables of sections, stocks and liquors have in common.

The rule of this module: a table announces what changed on the screen and nothing else, because views pay for
every cell that is announced. Rows are compared as they are shown; the layout changes only when rows come, go
or change places.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cached_property
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt, Signal

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.errors import RovingLayError

Index = QModelIndex | QPersistentModelIndex
Role = Qt.ItemDataRole

RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
NO_WAY = Qt.ItemFlag(0)
LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter

#: Role of the state of a section's wetness, a `Saturation`.
SATURATION_ROLE = int(Role.UserRole) + 1


class RowModel(QAbstractTableModel):
    """A table of identified rows of the worksheet on the screen.

    Signals
    -------
    refused
        Something typed into a cell was not taken; carries the `RovingLayError`.
    accepted
        Something typed into a cell was taken.
    """

    refused = Signal(RovingLayError)
    accepted = Signal()

    def __init__(self, document: OpenPlan, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self._ids: tuple[str, ...] = ()
        self._rows: Sequence[object] = ()
        document.shown.connect(self.refresh)
        self.refresh()

    # -- what a table of its own says ----------------------------------------------------------------------

    def read(self) -> tuple[tuple[str, ...], Sequence[object]]:
        """Return the ids of the rows and, for each, everything of it that is shown, to be compared."""
        raise NotImplementedError

    def headings(self) -> Sequence[str]:
        """Return the headings of the columns in the language of the program."""
        raise NotImplementedError

    @cached_property
    def said(self) -> Mapping[int, Callable[[int, int], object]]:
        """What is said of a cell, given row and column, for each of Qt's roles that the table answers."""
        raise NotImplementedError

    def ways_to_change(self, row: int, column: int) -> Qt.ItemFlag:
        """Return whether a cell can be typed into or ticked, as Qt's flags."""
        raise NotImplementedError

    def take(self, row: int, column: int, value: object, role: int) -> bool:
        """Make an edit of what was typed, picked or ticked in a cell; `RovingLayError` where it is none."""
        raise NotImplementedError

    def is_figure(self, column: int) -> bool:
        """Tell whether a column holds figures, which stand on the right."""
        raise NotImplementedError

    def heading_explained(self, column: int) -> str | None:
        """Return what a column holds, for the tooltip of its heading."""
        return None

    # -- rows ----------------------------------------------------------------------------------------------

    def row_id(self, row: int) -> str:
        """Return the id of what stands in a row."""
        return self._ids[row]

    def row_of(self, item_id: str) -> int:
        """Return the row of an id, -1 where it has none."""
        return self._ids.index(item_id) if item_id in self._ids else -1

    def refresh(self) -> None:
        """Take up the worksheet on the screen."""
        ids, rows = self.read()
        if ids != self._ids:
            self._lay_out(ids, rows)
            return
        before, self._rows = self._rows, rows
        for first, last in _runs(before, rows):
            self.dataChanged.emit(self.index(first, 0), self.index(last, self.columnCount() - 1))

    def retranslate(self) -> None:
        """Say everything anew, in another language or other units."""
        if self._ids:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self._ids) - 1, self.columnCount() - 1))
        self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, self.columnCount() - 1)

    def edit(self, name: str, edit: Edit) -> bool:
        """Apply an edit as one named undo step; where it is refused, say so."""
        refusals: list[RovingLayError] = []

        def keep(error: RovingLayError) -> None:
            refusals.append(error)

        self.document.refused.connect(keep)
        try:
            done = self.document.edit(name, edit)
        finally:
            self.document.refused.disconnect(keep)
        if refusals:
            self.refused.emit(refusals[0])
        else:
            self.accepted.emit()
        return done

    # -- Qt's side -----------------------------------------------------------------------------------------

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  (Qt's own signature)
        return 0 if parent.isValid() else len(self._ids)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  (Qt's own signature)
        return 0 if parent.isValid() else len(self.headings())

    def data(self, index: Index, role: int = Role.DisplayRole) -> Any:  # noqa: ANN401  (Qt's variant)
        say = self.said.get(role) if index.isValid() else None
        return None if say is None else say(index.row(), index.column())

    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = super().flags(index)
        return flags | self.ways_to_change(index.row(), index.column()) if index.isValid() else flags

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Role.DisplayRole) -> Any:  # noqa: ANN401  (Qt's variant)
        if orientation != Qt.Orientation.Horizontal:
            return None
        if role == Role.DisplayRole:
            return self.headings()[section]
        if role == Role.TextAlignmentRole:
            return RIGHT if self.is_figure(section) else LEFT
        return self.heading_explained(section) if role == Role.ToolTipRole else None

    def setData(self, index: Index, value: Any, role: int = Role.EditRole) -> bool:  # noqa: ANN401  (Qt's variant)
        if not index.isValid():
            return False
        try:
            return self.take(index.row(), index.column(), value, role)
        except RovingLayError as problem:
            self.refused.emit(problem)
            return False

    def _lay_out(self, ids: tuple[str, ...], rows: Sequence[object]) -> None:
        self.layoutAboutToBeChanged.emit()
        before = self.persistentIndexList()
        old_ids = [self._ids[index.row()] for index in before]
        self._ids, self._rows = ids, rows
        places = {item_id: row for row, item_id in enumerate(ids)}
        after = [
            self.index(places[item_id], index.column()) if item_id in places else QModelIndex()
            for index, item_id in zip(before, old_ids, strict=True)
        ]
        self.changePersistentIndexList(before, after)
        self.layoutChanged.emit()


def _runs(before: Sequence[object], after: Sequence[object]) -> list[tuple[int, int]]:
    """Return first and last place of every run of neighbours that differ.

    >>> _runs("abcdef", "aBCdeF")
    [(1, 2), (5, 5)]
    """
    runs: list[tuple[int, int]] = []
    for place, (old, new) in enumerate(zip(before, after, strict=True)):
        if old == new:
            continue
        if runs and runs[-1][1] == place - 1:
            runs[-1] = (runs[-1][0], place)
        else:
            runs.append((place, place))
    return runs
