"""The table of liquors: letter, name, what it is made of, the jar to mix, and where it is painted.

The rule of this module: a liquor that needs more than one jar shows their sum; the checks say that it does.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import IntEnum
from functools import cached_property, partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor

from studio_gui.document.row_model import NO_WAY, RIGHT, Role, Row, RowModel
from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.edits.letters import set_letter
from studio_gui.domain.edits.liquors import replace_liquor
from studio_gui.domain.liquors import Liquor
from studio_gui.wording.naming import MOST_NAMES_IN_A_ROW, one_line, some_in_a_row
from studio_gui.wording.quantities import VOLUME, shown, shown_bare
from studio_gui.wording.recipes import named_recipe, shown_recipe
from studio_gui.wording.translation import TRANSLATED


class Column(IntEnum):
    """The columns of the table."""

    LETTER = 0
    NAME = 1
    MADE = 2
    SECTIONS = 3
    JAR = 4


_NOT_TYPED = (Column.MADE, Column.JAR, Column.SECTIONS)


@dataclass(frozen=True, slots=True)
class LiquorRow(Row):
    """A liquor with its predicted colour, the names of its sections and its jar, as shown and in full."""

    liquor: Liquor
    srgb: str
    section_names: tuple[str, ...]
    shown_jar_ml: float
    jar_ml: float = field(compare=False)


class LiquorModel(RowModel):
    """Liquors as rows; see `Column`."""

    moving = ("shown_jar_ml", Column.JAR)

    def read(self) -> Sequence[LiquorRow]:
        sheet = self.document.sheet
        jars = dict.fromkeys((liquor.id for liquor in sheet.plan.liquors), 0.0)
        for jar in sheet.make_up.jars:
            jars[jar.liquor_id] += jar.jar_ml
        names: dict[str, list[str]] = {liquor_id: [] for liquor_id in jars}
        for section in sheet.plan.sections:
            names[section.liquor_id].append(section.name)
        colours = [hex_from_srgb(srgb) for srgb in sheet.liquor_colours.srgb]
        return [
            LiquorRow(liquor.id, liquor, colour, tuple(names[liquor.id]), round(jar_ml, 1), jar_ml)
            for liquor, jar_ml, colour in zip(sheet.plan.liquors, jars.values(), colours, strict=True)
        ]

    def headings(self) -> Sequence[str]:
        return (
            "",
            self.tr("Liquor"),
            self.tr("Made of"),
            self.tr("Painted on"),
            VOLUME.shown_in(TRANSLATED)[0],
        )

    def heading_explained(self, column: int) -> str | None:
        explained: dict[int, str] = {
            Column.LETTER: self.tr("Letter, and the predicted colour"),
            Column.MADE: self.tr("Parts of its stocks in their order, or depths on the weight of the fibre"),
            Column.JAR: self.tr("The jar: what its sections take, and the spare"),
            Column.SECTIONS: self.tr("Sections that are painted with it"),
        }
        return explained.get(column)

    def ways_to_change(self, row: LiquorRow, column: int) -> Qt.ItemFlag:
        return NO_WAY if column in _NOT_TYPED else Qt.ItemFlag.ItemIsEditable

    def is_figure(self, column: int) -> bool:
        return column == Column.JAR

    def take(self, row: LiquorRow, column: int, value: object, role: int) -> bool:
        typed = str(value)
        if role != Role.EditRole or typed == self._text(row, column):
            return False
        if column == Column.LETTER:
            return self.edit(self.tr("Change letter"), partial(set_letter, liquor_id=row.id, letter=typed))
        liquor = replace(row.liquor, name=typed)
        return self.edit(self.tr("Rename liquor"), partial(replace_liquor, liquor=liquor))

    @cached_property
    def said(self) -> Mapping[int, Callable[[LiquorRow, int], object]]:
        return {
            Role.DisplayRole: self._text,
            Role.EditRole: self._text,
            Role.TextAlignmentRole: lambda _, column: RIGHT if column == Column.JAR else None,
            Role.DecorationRole: self._colour,
            Role.ToolTipRole: self._explained,
            Role.AccessibleTextRole: self._spoken,
        }

    def _text(self, row: LiquorRow, column: int) -> str:
        words: dict[int, Callable[[], str]] = {
            Column.LETTER: lambda: row.liquor.letter,
            Column.MADE: lambda: shown_recipe(row.liquor),
            Column.JAR: lambda: shown_bare(VOLUME, row.jar_ml),
            Column.SECTIONS: lambda: self._painted_on(row),
        }
        return words.get(column, lambda: row.liquor.name)()

    def _painted_on(self, row: LiquorRow) -> str:
        if not row.section_names:
            return self.tr("not painted")
        names = [one_line(name) or self.tr("no name") for name in row.section_names[:MOST_NAMES_IN_A_ROW]]
        return some_in_a_row(names, len(row.section_names))

    def _explained(self, row: LiquorRow, column: int) -> str | None:
        words: dict[int, Callable[[], str]] = {
            Column.NAME: lambda: row.liquor.name,
            Column.MADE: lambda: named_recipe(self.document.sheet.plan, row.liquor),
            Column.SECTIONS: lambda: self._painted_on(row),
            Column.JAR: lambda: self._poured(row),
        }
        return words[column]() if column in words else None

    def _poured(self, row: LiquorRow) -> str:
        """Return what to pour into each jar of a liquor, with its spare, a line to a jar."""
        sheet = self.document.sheet
        lines = []
        for jar in sheet.make_up.jars:
            if jar.liquor_id == row.id:
                amounts = zip(sheet.plan.stocks, jar.amounts_ml.tolist(), strict=True)
                poured = [f"{shown(VOLUME, ml)} {one_line(stock.name)}" for stock, ml in amounts if ml > 0.0]
                lines.append(shown(VOLUME, jar.jar_ml) + " = " + " + ".join(poured))
        return "\n".join(lines) or self.tr("not painted")

    def _spoken(self, row: LiquorRow, column: int) -> str | None:
        return named_recipe(self.document.sheet.plan, row.liquor) if column == Column.MADE else None

    def _colour(self, row: LiquorRow, column: int) -> QColor | None:
        return QColor(row.srgb) if column == Column.LETTER else None
