"""The selected section: its liquor, its liquid, and what comes of them.

The rule of this module: of several selected sections it shows the first, and says so. It only shows and asks;
every figure comes from the worksheet.
"""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import (
    QFormLayout,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.edits.boundaries import set_gap
from studio_gui.domain.edits.liquors import own_liquor
from studio_gui.domain.edits.sections import change_section, set_locked
from studio_gui.domain.plan import Plan
from studio_gui.views.choices import ChoiceField
from studio_gui.views.fields import QuantityField, TextField, edit_and_say, edit_at, with_message
from studio_gui.views.labels import (
    MessageLabel,
    ShortenedLabel,
    SwatchLabel,
    TonedLabel,
    call,
    explain,
    rule,
    scaled_font,
)
from studio_gui.views.liquor_editor import LiquorEditor
from studio_gui.views.live import LiveWidget
from studio_gui.views.section_figures import SectionFiguresView
from studio_gui.views.tick_box import TickBox
from studio_gui.wording.naming import one_line
from studio_gui.wording.quantities import LAY_LENGTH, MASS, shown


class SectionPane(LiveWidget):
    """The liquor editor of the first selected section."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._section_id = ""
        self.swatch = SwatchLabel(28)
        self.letter = TonedLabel("text")
        self.name = TextField()
        self.place = ShortenedLabel("secondary")
        self.liquor_name = QLabel()
        self.liquor = ChoiceField()
        self.own = QPushButton()
        self.shared = TonedLabel("secondary")
        self.shared.setWordWrap(True)
        self.editor = LiquorEditor(document)
        self.mode_name = QLabel()
        self.mode = ChoiceField()
        self.liquid = QuantityField("fixed_ml")
        self.wiped_name, self.second_name = QLabel(), QLabel()
        self.wiped = QuantityField("wiped_ml")
        self.second = QuantityField("second_pass_ml")
        self.gap_name = QLabel()
        self.gap = QuantityField("gap_m")
        self.locked = TickBox()
        self.message = MessageLabel()
        self.figures = SectionFiguresView(document)
        self._lay_out()
        self._connect()
        self._set_fonts()
        self._retranslate()

    # -- putting together ----------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 12)
        column.setSpacing(6)
        column.addLayout(self._head())
        column.addLayout(self._liquor_choice())
        column.addWidget(self.shared)
        column.addWidget(self.editor)
        column.addWidget(rule())
        column.addLayout(self._liquid_form())
        column.addWidget(self.message)
        column.addWidget(rule())
        column.addWidget(self.figures)
        column.addStretch(1)

    def _head(self) -> QGridLayout:
        head = QGridLayout()
        head.setHorizontalSpacing(8)
        head.setVerticalSpacing(2)
        head.addWidget(self.swatch, 0, 0)
        head.addWidget(self.letter, 0, 1)
        head.addWidget(self.name, 0, 2)
        head.addWidget(self.name.message, 1, 0, 1, 3)
        head.addWidget(self.place, 2, 0, 1, 3)
        head.setColumnStretch(2, 1)
        return head

    def _liquor_choice(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(8)
        self.liquor_name.setBuddy(self.liquor)
        row.addWidget(self.liquor_name)
        row.addWidget(self.liquor, 1)
        row.addWidget(self.own)
        return row

    def _liquid_form(self) -> QFormLayout:
        form = QFormLayout()
        form.setHorizontalSpacing(12)
        form.setVerticalSpacing(6)
        form.setLabelAlignment(Qt.AlignmentFlag.AlignLeft)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        liquid = QHBoxLayout()
        liquid.setSpacing(6)
        liquid.addWidget(self.mode, 3)
        liquid.addWidget(self.liquid, 2)
        liquid_column = QVBoxLayout()
        liquid_column.setSpacing(2)
        liquid_column.addLayout(liquid)
        liquid_column.addWidget(self.liquid.message)
        form.addRow(self.mode_name, liquid_column)
        rows = ((self.wiped_name, self.wiped), (self.second_name, self.second), (self.gap_name, self.gap))
        for name, field in rows:
            form.addRow(name, with_message(field))
            name.setBuddy(field)
        self.mode_name.setBuddy(self.mode)
        form.addRow(self.locked)
        return form

    def _connect(self) -> None:
        self._keep_up(self._document, self._show, selection=True)
        self.name.entered.connect(self._rename)
        self.liquor.chosen.connect(self._choose_liquor)
        self.own.clicked.connect(self._own_copy)
        self.mode.chosen.connect(self._choose_mode)
        self.liquid.entered.connect(self._fix_liquid)
        self.wiped.entered.connect(self._set_wiped)
        self.second.entered.connect(self._set_second)
        self.gap.entered.connect(self._set_gap)
        self.locked.clicked.connect(self._lock)

    def _set_fonts(self) -> None:
        self.letter.setFont(scaled_font(self.font(), 1.3, bold=True))
        self.name.setFont(scaled_font(self.font(), 1.15, bold=True))

    def _retranslate(self) -> None:
        self.name.setAccessibleName(self.tr("Name of the section"))
        self.name.setPlaceholderText(self.tr("no name"))
        self.liquor_name.setText(self.tr("&Liquor"))
        self.own.setText(self.tr("Own &copy"))
        self.own.setToolTip(
            self.tr("Give this section a liquor of its own, so that the others stay as they are")
        )
        self.mode_name.setText(self.tr("Li&quid"))
        self.wiped_name.setText(self.tr("&Wiped out"))
        self.wiped.setToolTip(self.tr("Liquid wiped or pressed out cold after painting; it takes dye along"))
        self.second_name.setText(self.tr("Second &pass"))
        self.second.setToolTip(
            self.tr("Part of the liquid that is painted after a first heating and pressing out")
        )
        self.gap_name.setText(self.tr("&Gap after"))
        self.locked.setText(self.tr("Loc&ked in place"))
        self._show()

    # -- showing -------------------------------------------------------------------------------------------

    def _show(self) -> None:
        sheet = self._document.sheet
        index = self._document.selected_index
        section = sheet.plan.sections[index]
        if section.id != self._section_id:
            self._section_id = section.id
            for field in (self.name, self.liquid, self.wiped, self.second, self.gap):
                field.drop()
            self.message.say("")
        liquor = sheet.plan.liquor(section.liquor_id)
        outside = bool(sheet.colours.clipped[index])
        self.swatch.show_colour(QColor.fromRgbF(*sheet.colours.srgb[index].tolist()), outside=outside)
        words = self.tr("Predicted, and so indicative.")
        if outside:
            words = self.tr(
                "No screen shows this colour; the nearest stands for it. Predicted, and so indicative."
            )
        explain(self.swatch, words)
        call(self.swatch, words)
        self.letter.show_text(liquor.letter)
        self.name.set_value(section.name)
        self._show_place(index)
        self._show_sharing(sheet.plan, liquor.id)
        self.liquor.set_choices(
            [(f"{one.letter}  {one_line(one.name)}", one.id) for one in sheet.plan.liquors], liquor.id
        )
        self.mode.set_choices(
            [(self.tr("follows fibre"), False), (self.tr("fixed"), True)], section.fixed_ml is not None
        )
        self.liquid.set_value(float(sheet.figures.liquid_ml[index]))
        self.wiped.set_value(section.wiped_ml)
        self.second.set_value(section.second_pass_ml)
        self._show_gap(sheet.plan, index)
        self.locked.setChecked(section.locked)

    def _show_gap(self, plan: Plan, index: int) -> None:
        is_last = index == len(plan.boundaries)
        self.gap.set_value(0.0 if is_last else plan.boundaries[index].gap_m)
        self.gap_name.setDisabled(is_last)
        self.gap.setDisabled(is_last)
        if is_last:
            meaning = self.tr("Nothing comes after the last section")
        else:
            meaning = self.tr(
                "Width centred on the boundary to the next section. Above 0 the fibre there stays unpainted;"
                " below 0 both colours are painted there. Weights, ml/g and depths still count the whole"
                " section."
            )
        explain(self.gap, meaning)

    def _show_place(self, index: int) -> None:
        figures = self._document.sheet.figures
        words = f"{shown(MASS, float(figures.fibre_g[index]))} · {shown(LAY_LENGTH, figures.length_m(index))}"
        several = len(self._document.selected_ids)
        if several > 1:
            words += " · " + self.tr("first of {0} selected").format(several)
        self.place.show_text(words)

    def _show_sharing(self, plan: Plan, liquor_id: str) -> None:
        users = sum(section.liquor_id == liquor_id for section in plan.sections)
        self.own.setVisible(users > 1)
        self.shared.setVisible(users > 1)
        self.shared.show_text(
            self.tr("Shared by {0} sections; what is changed here changes all.").format(users)
        )
        call(self.liquor, self.tr("Liquor of the section"))
        call(self.mode, self.tr("How the section’s liquid is set"))

    # -- editing -------------------------------------------------------------------------------------------

    def _rename(self, name: str) -> None:
        self._edit_at(self.name, self.tr("Rename section"), {"name": name})

    def _fix_liquid(self, liquid_ml: float) -> None:
        self._edit_at(self.liquid, self.tr("Fix liquid"), {"fixed_ml": liquid_ml})

    def _set_wiped(self, wiped_ml: float) -> None:
        self._edit_at(self.wiped, self.tr("Plan a wipe"), {"wiped_ml": wiped_ml})

    def _set_second(self, second_pass_ml: float) -> None:
        self._edit_at(self.second, self.tr("Plan a second pass"), {"second_pass_ml": second_pass_ml})

    def _set_gap(self, gap_m: float) -> None:
        index = self._document.plan.section_index(self._section_id)
        edit_at(self.gap, self._document, self.tr("Set gap"), partial(set_gap, index=index, gap_m=gap_m))

    def _edit_at(self, field: TextField | QuantityField, name: str, changes: dict[str, Any]) -> None:
        edit_at(field, self._document, name, partial(change_section, section_id=self._section_id, **changes))

    def _choose_mode(self, fixed: object) -> None:
        index = self._document.plan.section_index(self._section_id)
        fixed_ml = float(self._document.sheet.figures.liquid_ml[index]) if fixed else None
        name = self.tr("Fix liquid") if fixed else self.tr("Let liquid follow the fibre")
        self._edit(name, partial(change_section, section_id=self._section_id, fixed_ml=fixed_ml))

    def _choose_liquor(self, liquor_id: object) -> None:
        self._edit(
            self.tr("Choose liquor"),
            partial(change_section, section_id=self._section_id, liquor_id=str(liquor_id)),
        )

    def _own_copy(self) -> None:
        self._edit(self.tr("Own copy of the liquor"), partial(own_liquor, section_id=self._section_id))

    def _lock(self, locked: bool) -> None:
        name = self.tr("Lock section") if locked else self.tr("Unlock section")
        self._edit(name, partial(set_locked, section_ids=(self._section_id,), locked=locked))

    def _edit(self, name: str, edit: Edit) -> None:
        edit_and_say(self._document, name, edit, self.message.say)
        self._show()  # a choice that was refused goes back to what stands
