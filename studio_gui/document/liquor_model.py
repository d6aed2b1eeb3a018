"""The table of liquors: letter, name, and the jar to mix.

The rule of this module: a liquor that needs more than one jar shows their sum; the checks say that it does.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from enum import IntEnum
from functools import cached_property
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor

from studio_gui.document.row_model import RIGHT, Index, Role, RowModel
from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.edits.liquors import replace_liquor
from studio_gui.wording.quantities import VOLUME, shown_bare
from studio_gui.wording.translation import TRANSLATED


class Column(IntEnum):
    """The columns of the table."""

    LETTER = 0
    NAME = 1
    JAR = 2


class LiquorModel(RowModel):
    """Liquors as rows; see `Column`."""

    def read(self) -> tuple[tuple[str, ...], Sequence[object]]:
        sheet = self.document.sheet
        self._liquors = sheet.plan.liquors
        jars = dict.fromkeys((liquor.id for liquor in self._liquors), 0.0)
        for jar in sheet.make_up.jars:
            jars[jar.liquor_id] += jar.jar_ml
        self._jars_ml = list(jars.values())
        self._colours = [hex_from_srgb(srgb) for srgb in sheet.liquor_colours.srgb]
        rows = [
            (liquor.letter, liquor.name, round(jar_ml, 1), colour)
            for liquor, jar_ml, colour in zip(self._liquors, self._jars_ml, self._colours, strict=True)
        ]
        return tuple(jars), rows

    def headings(self) -> Sequence[str]:
        return (
            self.tr("Letter"),
            self.tr("Liquor"),
            self.tr("Jar {0}").format(VOLUME.shown_in(TRANSLATED)[0]),
        )

    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = super().flags(index)
        return flags if index.column() == Column.JAR else flags | Qt.ItemFlag.ItemIsEditable

    def is_figure(self, column: int) -> bool:
        return column == Column.JAR

    def data(self, index: Index, role: int = Role.DisplayRole) -> Any:  # noqa: ANN401  (Qt's variant)
        say = self._roles.get(role)
        return None if say is None else say(index.row(), Column(index.column()))

    def take(self, row: int, column: int, value: object, role: int) -> bool:
        typed = str(value)
        if role != Role.EditRole or typed == self._text(row, Column(column)):
            return False
        if column == Column.LETTER:
            liquor = replace(self._liquors[row], letter=typed.strip())
            name = self.tr("Change letter")
        else:
            liquor = replace(self._liquors[row], name=typed)
            name = self.tr("Rename liquor")
        return self.edit(name, lambda plan: replace_liquor(plan, liquor))

    @cached_property
    def _roles(self) -> dict[int, Callable[[int, Column], object]]:
        return {
            Role.DisplayRole: self._text,
            Role.EditRole: self._text,
            Role.TextAlignmentRole: lambda _, column: RIGHT if column == Column.JAR else None,
            Role.DecorationRole: self._colour,
            Role.ToolTipRole: lambda row, column: self._liquors[row].name if column == Column.NAME else None,
        }

    def _text(self, row: int, column: Column) -> str:
        if column == Column.JAR:
            return shown_bare(VOLUME, self._jars_ml[row])
        return self._liquors[row].letter if column == Column.LETTER else self._liquors[row].name

    def _colour(self, row: int, column: Column) -> QColor | None:
        return QColor(self._colours[row]) if column == Column.LETTER else None
