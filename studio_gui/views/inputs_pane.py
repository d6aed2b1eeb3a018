"""The inputs of the plan: title, fibre, lay, liquid, bench, and when to warn of acid.

The rule of this module: every number is somebody's own measurement or a common practice that they may change;
its tooltip says which.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property, partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QToolButton, QVBoxLayout, QWidget

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.edits.inputs import set_fibre, set_lay, set_passes
from studio_gui.domain.edits.pieces import piece_masses_g, set_pieces
from studio_gui.domain.fibre import MATCHINGS, MOST_FOLDS
from studio_gui.domain.plan import Plan
from studio_gui.drawing.lay_layout import TARGET
from studio_gui.views.choices import ChoiceField, ColourField
from studio_gui.views.fibre_entries import FibreField
from studio_gui.views.fields import (
    EntryField,
    QuantityField,
    QuantityListField,
    TextField,
    edit_and_say,
    edit_at,
)
from studio_gui.views.labels import MessageLabel, TonedLabel, call, scaled_font
from studio_gui.views.live import LiveWidget
from studio_gui.views.plan_inputs import (
    ACID,
    BENCH,
    COMMON_PRACTICE,
    FIBRE,
    FROM_LOTS,
    LAY,
    LIQUID,
    WEIGHED,
    Input,
)
from studio_gui.wording.fields import field_name
from studio_gui.wording.measured import where_from
from studio_gui.wording.quantities import MASS, shown

if TYPE_CHECKING:
    from studio_gui.views.measuring_dialog import MeasuringDialog
    from studio_gui.views.weigh_dialog import WeighDialog

FIELD_WIDTH = "99999.99 ml/g"


class InputsPane(LiveWidget):
    """Fields of the plan's inputs, group by group."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.title = TextField()
        self.undyed = FibreField("undyed_srgb")
        self.pieces = QuantityListField("mass_g", " + ", example=(78.0, 72.0))
        self.passes = ChoiceField()
        self.folds = QuantityListField("fold_position_m", example=(1.5, 3.0))
        self.matching = ChoiceField()
        self.message = MessageLabel()
        self.fields: dict[str, QuantityField] = {}
        self._inputs = {one.field: one for one in (*FIBRE, *LAY, *LIQUID, *BENCH, *ACID)}
        self._labels: dict[str, QLabel] = {}
        self.measure = {name: QToolButton() for name in ("pieces", *WEIGHED, *FROM_LOTS)}
        self._measured: dict[str, float] = {}
        self._headings = [TonedLabel("text") for _ in range(5)]
        self._grid = QGridLayout()
        self._lay_out()
        self._connect()
        self._set_fonts()
        self._retranslate()

    # -- putting together ----------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        self._grid.setHorizontalSpacing(8)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(0, 1)
        fibre, lay, liquid, bench, acid = self._headings
        self._add_group(fibre, FIBRE)
        self._add_row("pieces", self.pieces)
        self._add_row("undyed_srgb", self.undyed)
        self._add_group(lay, ())
        self._add_row("passes", self.passes)
        self._add_row("fold_positions_m", self.folds)
        self._add_row("matching", self.matching)
        self._add_group(None, LAY)
        self._add_group(liquid, LIQUID)
        self._add_group(bench, BENCH)
        self._add_group(acid, ACID)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 12)
        title = QHBoxLayout()
        title.setSpacing(8)
        title.addWidget(self._label("title", self.title))
        title.addWidget(self.title, 1)
        column.addLayout(title)
        column.addWidget(self.title.message)
        column.addLayout(self._grid)
        column.addWidget(self.message)
        column.addStretch(1)

    def _add_group(self, heading: TonedLabel | None, inputs: Sequence[Input]) -> None:
        if heading is not None:
            row = self._grid.rowCount()
            self._grid.setRowMinimumHeight(row, 8)
            self._grid.addWidget(heading, row + 1, 0, 1, 2)
        for one in inputs:
            field = QuantityField(one.field, one.kind, may_be_unknown=one.may_be_unknown)
            field.entered.connect(partial(self._enter, one.field))
            field.made_unknown.connect(partial(self._enter, one.field, None))
            self.fields[one.field] = field
            self._add_row(one.field, field)

    def _add_row(self, name: str, field: EntryField | ColourField | ChoiceField) -> None:
        row = self._grid.rowCount()
        label = self._label(name, field)
        if name in self.measure:
            beside = QHBoxLayout()
            beside.addWidget(label, 1)
            beside.addWidget(self.measure[name])
            self._grid.addLayout(beside, row, 0)
        else:
            self._grid.addWidget(label, row, 0)
        self._grid.addWidget(field, row, 1)
        if not isinstance(field, ChoiceField):
            line = field.edit if isinstance(field, ColourField) else field
            self._grid.addWidget(line.message, row + 1, 0, 1, 2)

    def _label(self, name: str, field: EntryField | ColourField | ChoiceField) -> QLabel:
        label = self._labels[name] = QLabel()
        label.setWordWrap(True)
        label.setBuddy(field.edit if isinstance(field, ColourField) else field)
        return label

    def _connect(self) -> None:
        self._keep_up(self._document, self._show, turn=2)
        self.title.entered.connect(self._set_title)
        self.undyed.entered.connect(self._set_undyed)
        self.pieces.entered.connect(self._set_pieces)
        self.passes.chosen.connect(self._set_passes)
        self.folds.entered.connect(self._set_folds)
        self.matching.chosen.connect(self._set_matching)
        for name, button in self.measure.items():
            button.setText("…")
            button.setMinimumHeight(round(TARGET))
            button.clicked.connect(partial(self._open_measuring, name))

    def _set_fonts(self) -> None:
        for heading in self._headings:
            heading.setFont(scaled_font(self.font(), 1.0, bold=True))
        width = self.fontMetrics().horizontalAdvance(FIELD_WIDTH) + 16
        for field in (
            *self.fields.values(),
            self.pieces,
            self.undyed,
            self.passes,
            self.folds,
            self.matching,
        ):
            field.setFixedWidth(width)

    def _retranslate(self) -> None:
        headings = (self.tr("Fibre"), self.tr("Lay"), self.tr("Liquid"), self.tr("Bench"), self.tr("Acid"))
        for heading, words in zip(self._headings, headings, strict=True):
            heading.show_text(words)
        for name, label in self._labels.items():
            label.setText(self._words(name))
        for row in ("title", "pieces", "passes", "fold_positions_m", "matching"):
            call(self._labels[row].buddy(), self._words(row))
        for name, button in self.measure.items():
            words = self.tr("Weigh a tuft") if name in WEIGHED else self.tr("Go by lots that were painted")
            if name == "pieces":
                words = self.tr("Weigh rovings one by one, in pieces, or by their thickness")
            button.setToolTip(words)
            call(button, f"{self._words(name)}: {words}")
        self.pieces.setToolTip(
            self.tr(
                "An uneven top, cut or measured into pieces of equal length: the weight of each in order,"
                " like 78 + 72. Their sum is what a roving weighs."
            )
        )
        self.folds.setToolTip(self.tr("Places along the roving, from its start; between them a semicolon"))
        self._show()

    def _words(self, name: str) -> str:
        own = {
            "pieces": self.tr("Equal lengths weigh"),
            "passes": self.tr("Folded into"),
            "undyed_srgb": self.tr("Undyed colour"),
        }
        return own.get(name) or field_name(name)

    def _meaning(self, name: str) -> str:
        meanings = {
            "mass_g": self.tr("Air-dry, each roving of the set"),
            "length_m": self.tr("Of each roving, unrolled"),
            "rovings": self.tr("How many are painted alike, side by side"),
            "overhang_m": self.tr("Film beyond the lay, both ends together"),
            "uptake_ml_per_g": self.tr("Liquor painted on dry fibre, where a section follows it"),
            "soak_ml_per_g": self.tr("Water in the fibre before painting"),
            "limit_ml_per_g": self.tr("What the wrapped fibre holds with no free liquid"),
            "penetration_ml_per_g": self.tr("Least liquor that wets the core"),
            "soak_acid_g_per_l": self.tr("Type ? while it is not known, 0 where there is none."),
            "wicking_mm": self.tr("Width over which two colours run together"),
            "spare_share": self.tr("Added to every jar"),
            "dead_ml": self.tr("Left behind in every jar and syringe"),
            "graduation_ml": self.tr("Smallest step of the syringe or cylinder"),
            "acid_ratio_limit": self.tr("Sections that differ by more are warned of"),
            "acid_floor_pct_owf": self.tr("Sections with less are warned of"),
        }
        return meanings[name]

    def _explain(self, name: str, value: float | None) -> None:
        """Say what a number means and where it is from: measured, common practice, or somebody's own."""
        words = self._meaning(name)
        if name in COMMON_PRACTICE and value is not None:
            measured = self._measured.get(name) == value
            words = f"{words}. {where_from(name, value, COMMON_PRACTICE[name], measured=measured)}"
        if words != self.fields[name].toolTip():
            self.fields[name].setToolTip(words)

    # -- measuring -----------------------------------------------------------------------------------------

    @cached_property
    def measuring(self) -> MeasuringDialog:
        """The window of measurements, made when it is first wanted; it keeps what was entered."""
        from studio_gui.views.measuring_dialog import MeasuringDialog  # noqa: PLC0415  (few need it at once)

        dialog = MeasuringDialog(self._document, self.window())  # beside the panes, which forget refusals
        dialog.taken.connect(self._remember_measured)
        return dialog

    @cached_property
    def weighing(self) -> WeighDialog:
        """The window of rovings and pieces that were weighed, made when it is first wanted."""
        from studio_gui.views.weigh_dialog import WeighDialog  # noqa: PLC0415  (few need it at once)

        return WeighDialog(self._document, self.window())

    def _open_measuring(self, name: str) -> None:
        if name == "pieces":
            self.weighing.open_for_weighing()
        elif name in WEIGHED:
            self.measuring.show_weighings()
        else:
            self.measuring.show_lots()

    def _remember_measured(self, figures: dict[str, float]) -> None:
        self._measured |= figures
        self._show()

    # -- showing -------------------------------------------------------------------------------------------

    def _show(self) -> None:
        plan = self._document.sheet.plan
        self.title.set_value(plan.title)
        self.undyed.set_value(plan.fibre.undyed_srgb)
        for name, field in self.fields.items():
            value = self._inputs[name].read(plan)
            field.set_value(value)
            self._explain(name, value)
        self._show_pieces(plan)
        self._show_folds(plan)

    def _show_pieces(self, plan: Plan) -> None:
        masses = piece_masses_g(plan.fibre)
        self.pieces.set_values(masses if masses is not None and len(masses) > 1 else ())
        self.pieces.setPlaceholderText(self.tr("uneven, by marks") if masses is None else self.tr("the same"))

    def _show_folds(self, plan: Plan) -> None:
        choices = [(self.tr("1: straight"), 1)] + [(str(count), count) for count in range(2, MOST_FOLDS + 2)]
        self.passes.set_choices(choices, plan.lay.passes)
        self.folds.set_values(plan.lay.fold_positions_m)
        words = {"by length": self.tr("by length"), "by weight": self.tr("by weight")}
        self.matching.set_choices([(words[one], one) for one in MATCHINGS], plan.lay.matching)
        for name, field in (("fold_positions_m", self.folds), ("matching", self.matching)):
            self._labels[name].setVisible(plan.lay.passes > 1)
            field.setVisible(plan.lay.passes > 1)

    # -- editing -------------------------------------------------------------------------------------------

    def _enter(self, name: str, value: float | None) -> None:
        write = self._inputs[name].write
        edit_at(self.fields[name], self._document, field_name(name), lambda plan: write(plan, value))

    def _set_title(self, title: str) -> None:
        edit_at(self.title, self._document, field_name("title"), partial(replace, title=title))

    def _set_undyed(self, srgb: str) -> None:
        edit_at(
            self.undyed.edit, self._document, field_name("undyed_srgb"), partial(set_fibre, undyed_srgb=srgb)
        )

    def _set_pieces(self, masses_g: tuple[float, ...]) -> None:
        edit: Edit = partial(set_pieces, masses_g=masses_g) if masses_g else partial(set_fibre, mass_marks=())
        before_g = self._document.plan.fibre.mass_g
        if not edit_at(self.pieces, self._document, self._words("pieces"), edit):
            return
        before, now = (shown(MASS, mass_g) for mass_g in (before_g, self._document.plan.fibre.mass_g))
        if before != now:
            self.pieces.note(self.tr("A roving weighs {0} now, and weighed {1}.").format(now, before))

    def _set_folds(self, folds_m: tuple[float, ...]) -> None:
        edit_at(
            self.folds,
            self._document,
            field_name("fold_positions_m"),
            partial(set_lay, fold_positions_m=folds_m),
        )

    def _set_passes(self, passes: int) -> None:
        before = self._document.plan.lay.passes
        self._choose(self._words("passes"), partial(set_passes, passes=passes))
        if self._document.plan.lay.passes == 1 < before:
            self.message.say(
                self.tr(
                    "The sections reach along the whole roving now. To keep the strip as it was painted, undo"
                    " this and choose Unfold as painted under Yarn, Halves."
                ),
                "secondary",
            )

    def _set_matching(self, matching: str) -> None:
        self._choose(field_name("matching"), partial(set_lay, matching=matching))

    def _choose(self, name: str, edit: Edit) -> None:
        edit_and_say(self._document, name, edit, self.message.say)
        self._show()  # a choice that was refused goes back to what stands
