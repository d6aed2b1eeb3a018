"""The table of liquors: letter, name, and the jar to mix.

The rule of this module: a liquor that needs more than one jar shows their sum; the checks say that it does.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import IntEnum
from functools import cached_property

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor

from studio_gui.document.row_model import NO_WAY, RIGHT, Role, Row, RowModel
from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.edits.liquors import replace_liquor
from studio_gui.domain.liquors import Liquor
from studio_gui.wording.quantities import VOLUME, shown_bare
from studio_gui.wording.translation import TRANSLATED


class Column(IntEnum):
    """The columns of the table."""

    LETTER = 0
    NAME = 1
    JAR = 2


@dataclass(frozen=True, slots=True)
class LiquorRow(Row):
    """A liquor with its predicted colour and its jar, as shown and in full."""

    letter: str
    name: str
    srgb: str
    shown_jar_ml: float
    liquor: Liquor = field(compare=False)
    jar_ml: float = field(compare=False)


class LiquorModel(RowModel):
    """Liquors as rows; see `Column`."""

    def read(self) -> Sequence[LiquorRow]:
        sheet = self.document.sheet
        jars = dict.fromkeys((liquor.id for liquor in sheet.plan.liquors), 0.0)
        for jar in sheet.make_up.jars:
            jars[jar.liquor_id] += jar.jar_ml
        colours = [hex_from_srgb(srgb) for srgb in sheet.liquor_colours.srgb]
        return [
            LiquorRow(liquor.id, liquor.letter, liquor.name, colour, round(jar_ml, 1), liquor, jar_ml)
            for liquor, jar_ml, colour in zip(sheet.plan.liquors, jars.values(), colours, strict=True)
        ]

    def headings(self) -> Sequence[str]:
        return (
            self.tr("Letter"),
            self.tr("Liquor"),
            self.tr("Jar {0}").format(VOLUME.shown_in(TRANSLATED)[0]),
        )

    def ways_to_change(self, row: LiquorRow, column: int) -> Qt.ItemFlag:
        return NO_WAY if column == Column.JAR else Qt.ItemFlag.ItemIsEditable

    def is_figure(self, column: int) -> bool:
        return column == Column.JAR

    def take(self, row: LiquorRow, column: int, value: object, role: int) -> bool:
        typed = str(value)
        if role != Role.EditRole or typed == self._text(row, column):
            return False
        if column == Column.LETTER:
            liquor = replace(row.liquor, letter=typed.strip())
            name = self.tr("Change letter")
        else:
            liquor = replace(row.liquor, name=typed)
            name = self.tr("Rename liquor")
        return self.edit(name, lambda plan: replace_liquor(plan, liquor))

    @cached_property
    def said(self) -> Mapping[int, Callable[[LiquorRow, int], object]]:
        return {
            Role.DisplayRole: self._text,
            Role.EditRole: self._text,
            Role.TextAlignmentRole: lambda _, column: RIGHT if column == Column.JAR else None,
            Role.DecorationRole: self._colour,
            Role.ToolTipRole: lambda row, column: row.name if column == Column.NAME else None,
        }

    def _text(self, row: LiquorRow, column: int) -> str:
        if column == Column.JAR:
            return shown_bare(VOLUME, row.jar_ml)
        return row.letter if column == Column.LETTER else row.name

    def _colour(self, row: LiquorRow, column: int) -> QColor | None:
        return QColor(row.srgb) if column == Column.LETTER else None
