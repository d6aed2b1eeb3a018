"""The table of free plies: what each is spun from.

The rule of this module: a ply is what its row says, and every cell that is typed into is one edit. Which
strips are flipped is ticked beside their weights, and only told here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum
from functools import cached_property, partial

from PySide6.QtCore import Qt

from studio_gui.document.row_model import NO_WAY, RIGHT, Role, Row, RowModel
from studio_gui.domain.edits.yarn import set_ply, set_strip_count
from studio_gui.domain.yarn import Ply
from studio_gui.wording.fields import FIELD_KINDS, field_name
from studio_gui.wording.quantities import parse, shown, shown_bare
from studio_gui.wording.translation import TRANSLATED


class Column(IntEnum):
    """The columns of the table."""

    NUMBER = 0
    ROVING = 1
    FROM = 2
    TO = 3
    THICKNESS = 4
    OFFSET = 5
    STRIPS = 6
    FLIPPED = 7


#: The field of a ply that a column holds.
FIELDS: dict[int, str] = {
    Column.ROVING: "roving",
    Column.FROM: "from_share",
    Column.TO: "to_share",
    Column.THICKNESS: "cross_section",
    Column.OFFSET: "offset_m",
}
#: The name of its range, where that is another.
_RANGES = {"roving": "ply_roving", "strips": "strip_count"}
_NOT_TYPED = (Column.NUMBER, Column.FLIPPED)


@dataclass(frozen=True, slots=True)
class PlyRow(Row):
    """A free ply and its number, from 1."""

    number: int
    ply: Ply


class PlyModel(RowModel):
    """Free plies as rows; see `Column`. There are none while another structure is chosen."""

    turn = 2

    def read(self) -> Sequence[PlyRow]:
        yarn = self.document.sheet.plan.yarn
        plies = yarn.plies if yarn.structure == "free" else ()
        return [PlyRow(str(number), number, ply) for number, ply in enumerate(plies, start=1)]

    def headings(self) -> Sequence[str]:
        share, length = (FIELD_KINDS[name].shown_in(TRANSLATED)[0] for name in ("from_share", "offset_m"))
        return (
            self.tr("Ply"),
            self.tr("roving"),
            self.tr("from {0}").format(share),
            self.tr("to {0}").format(share),
            self.tr("thick {0}").format(share),
            self.tr("off {0}").format(length),
            self.tr("strips"),
            self.tr("flipped"),
        )

    def heading_explained(self, column: int) -> str | None:
        explained: dict[int, str] = {
            Column.ROVING: self.tr("Which roving of the set it is spun from"),
            Column.FROM: self.tr("Where it starts on the roving, as a share of the weight"),
            Column.TO: self.tr("Where it ends on the roving; before its start, it is spun backwards"),
            Column.THICKNESS: self.tr("Share of the roving’s thickness that it takes"),
            Column.OFFSET: self.tr("Singles that are wound off before plying"),
            Column.STRIPS: self.tr("How many strips it is split into, spun one after the other"),
            Column.FLIPPED: self.tr("Strips that are spun from their other end"),
        }
        return explained.get(column)

    def ways_to_change(self, row: PlyRow, column: int) -> Qt.ItemFlag:
        return NO_WAY if column in _NOT_TYPED else Qt.ItemFlag.ItemIsEditable

    def take(self, row: PlyRow, column: int, value: object, role: int) -> bool:
        typed = str(value)
        if role != Role.EditRole or typed == self._editable(row, column):
            return False
        if column == Column.STRIPS:
            count = int(parse(FIELD_KINDS["strip_count"], typed, "strip_count"))
            return self.edit(field_name("strip_count"), partial(set_strip_count, count=count, ply=row.number))
        field = FIELDS[column]
        range_name = _RANGES.get(field, field)
        number = parse(FIELD_KINDS[range_name], typed, range_name)
        given = int(number) if column == Column.ROVING else number
        return self.edit(field_name(range_name), lambda plan: set_ply(plan, row.number, **{field: given}))

    @cached_property
    def said(self) -> Mapping[int, Callable[[PlyRow, int], object]]:
        return {
            Role.DisplayRole: self._shown,
            Role.EditRole: self._editable,
            Role.TextAlignmentRole: lambda _, column: RIGHT if self.is_figure(column) else None,
        }

    def is_figure(self, column: int) -> bool:
        return column in FIELDS or column == Column.STRIPS

    def _shown(self, row: PlyRow, column: int) -> str:
        if column == Column.FLIPPED:
            flipped = (number for number, strip in enumerate(row.ply.strips, start=1) if strip.flipped)
            return ", ".join(map(str, flipped))
        if column not in FIELDS:
            return str(row.number if column == Column.NUMBER else len(row.ply.strips))
        field = FIELDS[column]
        return shown_bare(FIELD_KINDS[_RANGES.get(field, field)], getattr(row.ply, field))

    def _editable(self, row: PlyRow, column: int) -> str:
        if column not in FIELDS:
            return self._shown(row, column)
        field = FIELDS[column]
        return shown(FIELD_KINDS[_RANGES.get(field, field)], getattr(row.ply, field))
