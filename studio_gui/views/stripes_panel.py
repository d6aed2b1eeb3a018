"""Stripes that are wanted of the yarn: how many rows of what, whether the roving is enough, and onto the lay.

The rule of this module: the answer follows every change; nothing on the lay moves before a button is pressed.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.document.stripe_model import StripeModel
from studio_gui.domain.edits.stripes import (
    set_knitting,
    set_sections_from_stripes,
    set_stripes_from_sections,
)
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.advice import short_stripes, structures_that_would_do
from studio_gui.domain.spinning.stripes import pattern_of_sections
from studio_gui.domain.spinning.yarn_map import governing_ply
from studio_gui.domain.worksheet import Worksheet
from studio_gui.domain.yarn import StripeMeasure
from studio_gui.views.choices import ChoiceField
from studio_gui.views.fields import QuantityField, edit_and_say, edit_at
from studio_gui.views.flow import FlowLayout
from studio_gui.views.labels import MessageLabel, TonedLabel, call, explain
from studio_gui.views.live import LiveWidget
from studio_gui.views.stripe_list import StripeList
from studio_gui.wording.fields import field_name
from studio_gui.wording.stripes import fit_words, place_words, ply_name, sections_words, short_words

FIELD_WIDTH = "99999.99 ml/g"


class StripesPanel(LiveWidget):
    """Wanted stripes, the yarn of a row, the answer, and what sets one from the other."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.measured = ChoiceField()
        self.knitted_width, self.row_length = QuantityField("knitted_width_m"), QuantityField("row_m")
        self.ply = ChoiceField()
        self.list = StripeList(document, StripeModel(document, self))
        self.answer, self.place, self.short = TonedLabel("text"), TonedLabel(), TonedLabel("under")
        self.painted = TonedLabel()
        self.set_sections, self.take_stripes = QPushButton(), QPushButton()
        self.message = MessageLabel()
        self._labels = {name: QLabel() for name in ("measured", "knitted_width_m", "row_m", "stripe_ply")}
        self._lay_out()
        self._connect()
        self._set_fonts()
        self._retranslate()

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(0, 1)
        fields: tuple[QWidget, ...] = (self.measured, self.knitted_width, self.row_length, self.ply)
        for line, (label, field) in enumerate(zip(self._labels.values(), fields, strict=True)):
            label.setBuddy(field)
            grid.addWidget(label, 2 * line, 0)
            grid.addWidget(field, 2 * line, 1)
            if isinstance(field, QuantityField):
                grid.addWidget(field.message, 2 * line + 1, 0, 1, 2)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 12)
        column.setSpacing(8)
        column.addLayout(grid)
        buttons = FlowLayout()
        for button in (self.set_sections, self.take_stripes):
            button.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
            buttons.addWidget(button)
        for words in (self.answer, self.place, self.short, self.painted):
            words.setWordWrap(True)
        column.addLayout(buttons)  # above what grows and shrinks: no button moves from under the hand
        for part in (self.message, self.answer, self.place, self.list, self.short, self.painted):
            column.addWidget(part)
        column.addStretch(1)

    def _connect(self) -> None:
        self._keep_up(self._document, self._show, turn=2)
        self.measured.chosen.connect(self._choose_measured)
        self.knitted_width.entered.connect(
            partial(self._knit, self.knitted_width, "knitted_width_m", "width_m")
        )
        self.row_length.entered.connect(partial(self._knit, self.row_length, "row_m", "row_m"))
        self.ply.chosen.connect(self._choose_ply)
        self.set_sections.clicked.connect(self._set_sections)
        self.take_stripes.clicked.connect(self._take_stripes)

    def _set_fonts(self) -> None:
        width = self.fontMetrics().horizontalAdvance(FIELD_WIDTH) + 16
        for field in (self.knitted_width, self.row_length):
            field.setFixedWidth(width)
        for choice in (self.measured, self.ply):
            choice.setMinimumContentsLength(len("3 × the width"))

    def _retranslate(self) -> None:
        words = {"measured": self.tr("Yarn of a row is")}
        for name, label in self._labels.items():
            label.setText(words.get(name) or field_name(name))
        call(self.measured, words["measured"])
        call(self.ply, field_name("stripe_ply"))
        explain(
            self.measured,
            self.tr(
                "Three times the width is common practice, without a source: knit a few rows and measure."
            ),
        )
        self.set_sections.setText(self.tr("Set sections from stripes"))
        explain(
            self.set_sections,
            self.tr(
                "Make the sections of the lay anew; those whose liquor comes at the same turn keep the rest"
            ),
        )
        self.take_stripes.setText(self.tr("Take stripes from sections"))
        explain(self.take_stripes, self.tr("Want the stripes that the sections give as they are painted"))
        self._show()

    # -- showing -------------------------------------------------------------------------------------------

    def _show(self) -> None:
        sheet = self._document.sheet
        self._show_knitting(sheet.plan)
        self._show_ply(sheet.plan)
        laid = sheet.stripes
        self.answer.show_text(fit_words(laid))
        self.answer.set_tone("text" if laid.fits else "over")
        self._say(self.place, place_words(laid))
        self._say(self.short, self._short_words(sheet))
        self.set_sections.setEnabled(bool(laid.yarn_m))
        self._say(self.painted, sections_words(sheet.plan, pattern_of_sections(sheet.plan)))

    def _show_knitting(self, plan: Plan) -> None:
        knitting = plan.yarn.knitting
        is_typed = knitting.row_m is not None
        choices = [(self.tr("3 × the width"), False), (self.tr("as measured"), True)]
        self.measured.set_choices(choices, is_typed)
        self.knitted_width.set_value(knitting.width_m)
        self.row_length.set_value(knitting.metres_a_row)

    def _show_ply(self, plan: Plan) -> None:
        governed, yarn = governing_ply(plan), plan.yarn
        count = 2 if yarn.structure == "fractal" else len(yarn.plies)
        is_chosen = governed is not None and count > 1
        self.ply.setVisible(is_chosen)
        self._labels["stripe_ply"].setVisible(is_chosen)
        if governed is not None:
            choices = [(ply_name(plan, number), number) for number in range(1, count + 1)]
            self.ply.set_choices(choices, governed + 1)

    def _short_words(self, sheet: Worksheet) -> str:
        laid = sheet.stripes
        short = short_stripes(laid, sheet.liquor_colours)
        if not short:
            return ""
        offers = structures_that_would_do(sheet.plan, min(short.values()), laid.needed_m)
        return short_words(laid, short, offers)

    def _say(self, label: TonedLabel, words: str) -> None:
        label.show_text(words)
        label.setVisible(bool(words))

    # -- editing -------------------------------------------------------------------------------------------

    def _choose_measured(self, is_typed: bool) -> None:
        row_m = self._document.plan.yarn.knitting.metres_a_row if is_typed else None
        self._edit(field_name("row_m"), partial(set_knitting, row_m=row_m))
        self._show()

    def _knit(self, field: QuantityField, name: str, part: str, value: float) -> None:
        edit_at(field, self._document, field_name(name), lambda plan: set_knitting(plan, **{part: value}))

    def _choose_ply(self, ply: int) -> None:
        self._edit(field_name("stripe_ply"), partial(set_yarn, stripe_ply=ply))
        self._show()

    def _set_sections(self) -> None:
        self._edit(self.tr("Set sections from stripes"), set_sections_from_stripes)

    def _take_stripes(self) -> None:
        stripes = self._document.plan.yarn.stripes
        in_metres = bool(stripes) and all(stripe.measure == "metres" for stripe in stripes)
        measure: StripeMeasure = "metres" if in_metres else "rows"
        self._edit(self.tr("Take stripes from sections"), partial(set_stripes_from_sections, measure=measure))

    def _edit(self, name: str, edit: Edit) -> None:
        edit_and_say(self._document, name, edit, self.message.say)
