"""What the tables of sections, stocks and liquors have in common.

The rule of this module: a table announces what changed on the screen and nothing else, because views pay for
every cell that is announced. Rows are compared as they are shown; nothing else moves when rows come,
go or change places. While a gesture previews, a table may lag behind by `LATE_MS`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import groupby
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt, Signal

from studio_gui.document.follower import Follower
from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.errors import RovingLayError

Index = QModelIndex | QPersistentModelIndex
Role = Qt.ItemDataRole

RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
NO_WAY = Qt.ItemFlag(0)
_READABLE = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemNeverHasChildren
LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter

#: Role of the state of a section's wetness, a `Saturation`.
SATURATION_ROLE = int(Role.UserRole) + 1
#: Role of how bad something is, a `Severity`; anything else is not bad at all.
SEVERITY_ROLE = int(Role.UserRole) + 2


@dataclass(frozen=True, slots=True)
class Row:
    """One row: whose it is, and all that is shown of it. Rows that show the same are equal."""

    id: str


class RowModel(QAbstractTableModel):
    """A table of identified rows of the worksheet on the screen.

    Signals
    -------
    rearranged
        Rows came, went or changed places, and everything is in its place again.
    refused
        Something typed into a cell was not taken; carries the `RovingLayError`.
    accepted
        Something typed into a cell was taken.
    """

    #: When it follows a preview; see `Follower`.
    turn = 1
    #: The field of a row that moves with every boundary, and the column that shows it.
    moving: tuple[str, int] | None = None

    rearranged = Signal()
    refused = Signal(RovingLayError)
    accepted = Signal()

    def __init__(self, document: OpenPlan, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self._rows: list[Row] = []
        self._is_rearranging = False
        self._headings: tuple[str, ...] = ()
        self.followers = [Follower(document, self.refresh, self, turn=self.turn)]
        self.refresh()

    # -- what a table of its own says ----------------------------------------------------------------------

    def read(self) -> Sequence[Row]:
        """Return the rows of the worksheet on the screen."""
        raise NotImplementedError

    def headings(self) -> Sequence[str]:
        """Return the headings of the columns in the language of the program."""
        raise NotImplementedError

    @cached_property
    def said(self) -> Mapping[int, Callable[[Any, int], object]]:
        """What is said of a cell, given its row and column, for each of Qt's roles that the table answers."""
        raise NotImplementedError

    def ways_to_change(self, row: Any, column: int) -> Qt.ItemFlag:  # noqa: ANN401  (the table's own kind of row)
        """Return whether a cell can be typed into or ticked, as Qt's flags."""
        raise NotImplementedError

    def take(self, row: Any, column: int, value: object, role: int) -> bool:  # noqa: ANN401  (as above)
        """Make an edit of what was typed, picked or ticked in a cell; `RovingLayError` where it is none."""
        raise NotImplementedError

    def is_figure(self, column: int) -> bool:
        """Tell whether a column holds figures, which stand on the right."""
        raise NotImplementedError

    def changed_columns(
        self,
        before: Sequence[Any],
        after: Sequence[Any],
    ) -> Sequence[tuple[int, int] | None]:
        """Return first and last column that each row shows differently, None where nothing does.

        `before` and `after` are the same rows in the same order.
        """
        return [
            None if old == new else self._changed_span(old, new)
            for old, new in zip(before, after, strict=True)
        ]

    def _changed_span(self, before: Row, after: Row) -> tuple[int, int]:
        if self.moving is not None:
            name, column = self.moving
            if replace(before, **{name: getattr(after, name)}) == after:
                return column, column
        return 0, self.columnCount() - 1

    def heading_explained(self, column: int) -> str | None:
        """Return what a column holds, for the tooltip of its heading."""
        return None

    # -- rows ----------------------------------------------------------------------------------------------

    @property
    def is_rearranging(self) -> bool:
        """Whether rows are coming, going or changing places; what is selected meanwhile means nothing."""
        return self._is_rearranging

    def row_id(self, row: int) -> str:
        """Return the id of what stands in a row."""
        return self._rows[row].id

    def row_of(self, item_id: str) -> int:
        """Return the row of an id, -1 where it has none."""
        return next((place for place, row in enumerate(self._rows) if row.id == item_id), -1)

    def refresh(self) -> None:
        """Take up the worksheet on the screen."""
        rows = list(self.read())
        is_rearranged = [row.id for row in rows] != [row.id for row in self._rows]
        if is_rearranged:
            self._rearrange(rows)
        before, self._rows = self._rows, rows
        for first, last, (left, right) in _runs_alike(self.changed_columns(before, rows)):
            self.dataChanged.emit(self.index(first, left), self.index(last, right))
        if is_rearranged:
            self.rearranged.emit()

    def retranslate(self) -> None:
        """Say everything anew, in another language or other units."""
        self._headings = ()
        if self._rows:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self._rows) - 1, self.columnCount() - 1))
        self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, self.columnCount() - 1)

    def edit(self, name: str, edit: Edit) -> bool:
        """Apply an edit as one named undo step; where it is refused, say so."""
        problem = self.document.try_edit(name, edit)
        if problem is None:
            self.accepted.emit()
        else:
            self.refused.emit(problem)
        return problem is None

    # -- Qt's side -----------------------------------------------------------------------------------------

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  (Qt's own signature)
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  (Qt's own signature)
        return 0 if parent.isValid() else len(self._kept_headings())

    def data(self, index: Index, role: int = Role.DisplayRole) -> Any:  # noqa: ANN401  (Qt's variant)
        say = self.said.get(role) if index.isValid() else None
        return None if say is None else say(self._rows[index.row()], index.column())

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return NO_WAY
        way = self.ways_to_change(self._rows[index.row()], index.column())
        return _READABLE if way is NO_WAY else _READABLE | way

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Role.DisplayRole) -> Any:  # noqa: ANN401  (Qt's variant)
        if orientation != Qt.Orientation.Horizontal:
            return None
        if role == Role.DisplayRole:
            return self._kept_headings()[section]
        if role == Role.TextAlignmentRole:
            return RIGHT if self.is_figure(section) else LEFT
        return self.heading_explained(section) if role == Role.ToolTipRole else None

    def setData(self, index: Index, value: Any, role: int = Role.EditRole) -> bool:  # noqa: ANN401  (Qt's variant)
        if not index.isValid():
            return False
        try:
            return self.take(self._rows[index.row()], index.column(), value, role)
        except RovingLayError as problem:
            self.refused.emit(problem)
            return False

    def _kept_headings(self) -> tuple[str, ...]:
        """Return the headings; views ask how many there are at every cell."""
        if not self._headings:
            self._headings = tuple(self.headings())
        return self._headings

    def _rearrange(self, wanted: list[Row]) -> None:
        """Bring the rows into the order of `wanted`: some go, the others change places, some come."""
        self._is_rearranging = True
        try:
            ids = [row.id for row in wanted]
            staying = set(ids)
            for first, last in reversed(_runs([row.id not in staying for row in self._rows])):
                self.beginRemoveRows(QModelIndex(), first, last)
                del self._rows[first : last + 1]
                self.endRemoveRows()
            kept = {row.id: row for row in self._rows}
            self._change_places([kept[item_id] for item_id in ids if item_id in kept])
            for first, last in _runs([item_id not in kept for item_id in ids]):
                self.beginInsertRows(QModelIndex(), first, last)
                self._rows[first:first] = wanted[first : last + 1]
                self.endInsertRows()
        finally:
            self._is_rearranging = False

    def _change_places(self, rows: list[Row]) -> None:
        if rows == self._rows:
            return
        self.layoutAboutToBeChanged.emit()
        before = self.persistentIndexList()
        places = {row.id: place for place, row in enumerate(rows)}
        after = [self.index(places[self._rows[index.row()].id], index.column()) for index in before]
        self._rows = rows
        self.changePersistentIndexList(before, after)
        self.layoutChanged.emit()


def _runs(marked: Sequence[bool]) -> list[tuple[int, int]]:
    """Return first and last place of every run of neighbours that are marked.

    >>> _runs([False, True, True, False, True])
    [(1, 2), (4, 4)]
    """
    runs: list[tuple[int, int]] = []
    for place, is_marked in enumerate(marked):
        if is_marked and runs and runs[-1][1] == place - 1:
            runs[-1] = (runs[-1][0], place)
        elif is_marked:
            runs.append((place, place))
    return runs


def _runs_alike(spans: Sequence[tuple[int, int] | None]) -> Iterator[tuple[int, int, tuple[int, int]]]:
    """Yield first and last place of every run of neighbours with the same span, and the span.

    >>> list(_runs_alike([None, (2, 5), (2, 2), (2, 2), None]))
    [(1, 1, (2, 5)), (2, 3, (2, 2))]
    """
    first = 0
    for span, run in groupby(spans):
        last = first + sum(1 for _ in run) - 1
        if span is not None:
            yield first, last, span
        first = last + 1
