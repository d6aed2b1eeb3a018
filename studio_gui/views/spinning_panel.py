"""How the yarn is spun: its structure, and the numbers that this structure needs.

The rule of this module: what a structure does without is not shown, and keeps its value for the next one.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.yarn import (
    flip_strip,
    set_offset,
    set_roving_count,
    set_split_count,
    set_split_weight,
    set_strip_count,
    set_strip_weight,
    set_yarn,
)
from studio_gui.domain.worksheet import Worksheet
from studio_gui.domain.yarn import MOST_PLIES, MOST_STRIPS, STRUCTURES, Structure, Yarn
from studio_gui.views.choices import ChoiceField
from studio_gui.views.fields import QuantityField, edit_and_say, edit_at
from studio_gui.views.labels import MessageLabel, TonedLabel, call, explain
from studio_gui.views.live import LiveWidget
from studio_gui.views.numbered_rows import NumberedRows
from studio_gui.views.ply_list import PlyList
from studio_gui.wording.counts import counts_words, draft_words
from studio_gui.wording.fields import field_name
from studio_gui.wording.measured import where_from
from studio_gui.wording.spinning import strand_note, strip_notes, structure_explained, structure_name

NUMBERS = ("singles_m_per_g", "take_up", "staple_m", "loop_m")
FIELD_WIDTH = "99999.99 ml/g"
#: What a new plan starts with, where that is common practice without a source.
COMMON_PRACTICE = {name: getattr(Yarn(), name) for name in ("take_up", "staple_m", "loop_m")}


class SpinningPanel(LiveWidget):
    """Structure and numbers of the yarn."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.structure = ChoiceField()
        self.explained = TonedLabel()
        self.message = MessageLabel()
        self.fields = {name: QuantityField(name) for name in NUMBERS}
        self._labels = {name: QLabel() for name in ("structure", *NUMBERS)}
        self.splits = NumberedRows("split_weight")
        self.strips = NumberedRows("strip_weight", ticked=True)
        self.offsets = NumberedRows("offset_m")
        self.plies = PlyList(document)
        self._lay_out()
        self._connect()
        self._set_fonts()
        self._retranslate()

    def _lay_out(self) -> None:
        self.explained.setWordWrap(True)
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(0, 1)
        for row, widget in enumerate(
            (self._labels["structure"], self.structure, self.explained, self.message)
        ):
            grid.addWidget(widget, row, 0, 1, 2)
        for row, (name, field) in enumerate(self.fields.items(), start=2):
            grid.addWidget(self._labels[name], 2 * row, 0)
            grid.addWidget(field, 2 * row, 1)
            grid.addWidget(field.message, 2 * row + 1, 0, 1, 2)
            self._labels[name].setBuddy(field)
        self._labels["structure"].setBuddy(self.structure)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 12)
        column.setSpacing(12)
        column.addLayout(grid)
        for part in (self.splits, self.strips, self.offsets, self.plies):
            column.addWidget(part)
        column.addStretch(1)

    def _connect(self) -> None:
        self._keep_up(self._document, self._show, turn=2)
        self.structure.chosen.connect(self._set_structure)
        for name, field in self.fields.items():
            field.entered.connect(partial(self._enter, name))
        self.splits.counted.connect(self._count_splits)
        self.splits.entered.connect(self._weigh_split)
        self.strips.counted.connect(self._count_strips)
        self.strips.entered.connect(self._weigh_strip)
        self.strips.ticked.connect(self._flip_strip)
        self.offsets.counted.connect(self._count_rovings)
        self.offsets.entered.connect(self._set_offset)

    def _set_fonts(self) -> None:
        width = self.fontMetrics().horizontalAdvance(FIELD_WIDTH) + 16
        for field in self.fields.values():
            field.setFixedWidth(width)

    def _retranslate(self) -> None:
        for name, label in self._labels.items():
            label.setText(field_name(name))
        call(self.structure, field_name("structure"))
        ply = self.tr("Ply {0}")
        weight = self.tr("Its weight beside the others: grams, where they were weighed")
        self.splits.name(field_name("splits"), ply, weight)
        self.strips.name(self.tr("Strips of ply 2"), self.tr("Strip {0}"), weight, self.tr("flipped"))
        self.offsets.name(
            self.tr("Rovings, and what is wound off"),
            ply,
            self.tr("Singles that are wound off this bobbin before plying"),
        )
        self._show()

    # -- showing -------------------------------------------------------------------------------------------

    def _show(self) -> None:
        sheet = self._document.sheet
        yarn = sheet.plan.yarn
        folded = self._document.plan.lay.passes > 1
        choices = [(structure_name(one, folded=folded), one) for one in STRUCTURES]
        self.structure.set_choices(choices, yarn.structure)
        self.explained.show_text(structure_explained(yarn.structure))
        for name, field in self.fields.items():
            is_needed = _needs(yarn.structure, name)
            field.setVisible(is_needed)
            self._labels[name].setVisible(is_needed)
            value = getattr(yarn, name)
            field.set_value(value)
            explain(field, self._meaning(name, value))
        is_split = yarn.structure in ("lengthwise", "fractal")
        self.splits.setVisible(is_split)
        self.strips.setVisible(yarn.structure == "fractal")
        self.offsets.setVisible(yarn.structure == "rovings")
        self.plies.setVisible(yarn.structure == "free")
        if is_split:
            self._show_splits(sheet)
        elif yarn.structure == "rovings":
            self._show_rovings(sheet)

    def _show_splits(self, sheet: Worksheet) -> None:
        yarn, strands = sheet.plan.yarn, sheet.yarn.strands
        self.splits.count.setVisible(yarn.structure == "lengthwise")
        self.splits.offer_counts(2, MOST_PLIES, len(yarn.splits))
        self.splits.show_rows(yarn.splits[: len(strands)], [strand_note(strand) for strand in strands])
        if yarn.structure == "fractal":
            self.strips.offer_counts(1, MOST_STRIPS, len(yarn.strips))
            self.strips.show_rows(
                [strip.weight for strip in yarn.strips],
                strip_notes(strands[1]),
                [strip.flipped for strip in yarn.strips],
            )

    def _show_rovings(self, sheet: Worksheet) -> None:
        plan, strands = sheet.plan, sheet.yarn.strands
        self.offsets.offer_counts(1, min(plan.fibre.rovings, MOST_PLIES), len(strands))
        self.offsets.show_rows(
            plan.yarn.offsets_m[: len(strands)], [strand_note(strand) for strand in strands]
        )

    def _meaning(self, name: str, value: float) -> str:
        top_g_per_m = self._document.plan.fibre.g_per_m
        meanings = {
            "singles_m_per_g": f"{counts_words(value)} · {draft_words(top_g_per_m, value)}",
            "take_up": self.tr("Share of the length that plying takes"),
            "staple_m": self.tr("Length of the fibre"),
            "loop_m": self.tr("Length of one loop, in yarn before take-up; a change of colour mixes so much"),
        }
        if name not in COMMON_PRACTICE:
            return meanings[name]
        return f"{meanings[name]}. {where_from(name, value, COMMON_PRACTICE[name], measured=False)}"

    # -- editing -------------------------------------------------------------------------------------------

    def _enter(self, name: str, value: float) -> None:
        edit_at(
            self.fields[name], self._document, field_name(name), lambda plan: set_yarn(plan, **{name: value})
        )

    def _set_structure(self, structure: str) -> None:
        edit_and_say(
            self._document, field_name("structure"), partial(set_yarn, structure=structure), self.message.say
        )
        self._show()  # a choice that was refused goes back to what stands

    def _count_splits(self, count: int) -> None:
        edit = partial(set_split_count, count=count)
        edit_and_say(self._document, field_name("splits"), edit, self.splits.message.say)
        self._show()

    def _weigh_split(self, place: int, weight: float) -> None:
        edit = partial(set_split_weight, number=place, weight=weight)
        edit_at(self.splits.fields[place], self._document, field_name("split_weight"), edit)

    def _count_strips(self, count: int) -> None:
        edit = partial(set_strip_count, count=count)
        edit_and_say(self._document, field_name("strip_count"), edit, self.strips.message.say)
        self._show()

    def _weigh_strip(self, place: int, weight: float) -> None:
        edit = partial(set_strip_weight, strip=place, weight=weight)
        edit_at(self.strips.fields[place], self._document, field_name("strip_weight"), edit)

    def _flip_strip(self, place: int, flipped: bool) -> None:
        edit = partial(flip_strip, strip=place, flipped=flipped)
        edit_and_say(self._document, self.tr("Flip a strip"), edit, self.strips.message.say)

    def _count_rovings(self, count: int) -> None:
        edit = partial(set_roving_count, count=count)
        edit_and_say(self._document, field_name("offsets_m"), edit, self.offsets.message.say)
        self._show()

    def _set_offset(self, place: int, offset_m: float) -> None:
        edit = partial(set_offset, number=place, offset_m=offset_m)
        edit_at(self.offsets.fields[place], self._document, field_name("offset_m"), edit)


def _needs(structure: Structure, name: str) -> bool:
    """Tell whether a structure needs a number: a single is not plied, and only a chain has loops."""
    if name == "take_up":
        return structure != "single"
    return name != "loop_m" or structure == "chain"
