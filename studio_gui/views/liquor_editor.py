"""What a section is painted with: "12 + 38", stock by stock, by parts or by depth.

The rule of this module: what is typed is ml for the whole set, in the order of the liquor's stocks, and one
undo step. A change of the liquor changes every section that shares it; the pane above says so.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import pairwise

from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.edits.amounts import shift_amount
from studio_gui.domain.edits.contents import put_in, take_out
from studio_gui.domain.edits.liquors import (
    paint_amounts,
    set_depths,
    to_depth_basis,
    to_parts_basis,
)
from studio_gui.domain.figures import SectionFigures, section_figures
from studio_gui.domain.liquors import Liquor
from studio_gui.views.amounts_field import AmountsField
from studio_gui.views.choices import ChoiceField
from studio_gui.views.fields import EntryField, edit_and_say, edit_at
from studio_gui.views.labels import MessageLabel, ShortenedLabel, TonedLabel, explain, scaled_font
from studio_gui.views.liquor_grid import LiquorGrid
from studio_gui.views.live import LiveWidget
from studio_gui.views.undo_note import UndoNote
from studio_gui.wording.amounts import shown_amounts, shown_total
from studio_gui.wording.naming import one_line


class LiquorEditor(LiveWidget):
    """The liquor of the first selected section."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._section_id = ""
        self.line = AmountsField()
        self.line.entered.connect(self._paint)
        self.total = TonedLabel("text")
        self.line_names = ShortenedLabel("secondary")
        self.note = UndoNote(document.undo_stack)
        self.add = ChoiceField()
        self.add.chosen.connect(self._add)
        self.basis = ChoiceField()
        self.basis.chosen.connect(self._change_basis)
        self.basis_name = QLabel()
        self.basis_name.setBuddy(self.basis)
        self.message = MessageLabel()
        self.grid = LiquorGrid()
        self.grid.made.connect(self._order_tabs)
        self.grid.amount_typed.connect(self._type_amount)
        self.grid.depth_typed.connect(self._type_depth)
        self.grid.amount_slid.connect(self._slide_amount)
        self.grid.depth_slid.connect(self._slide_depth)
        self.grid.settled.connect(self._settle)
        self.grid.dropped.connect(self._document.cancel_preview)
        self.grid.removed.connect(self._remove)
        self._lay_out()
        self._keep_up(document, self.refresh, selection=True)
        self._set_fonts()
        self._retranslate()

    def refresh(self) -> None:
        """Show the liquor of the selected section as the worksheet has it."""
        sheet = self._document.sheet
        index = self._document.selected_index
        section = sheet.plan.sections[index]
        if section.id != self._section_id:
            self._section_id = section.id
            self._drop_typing()
        liquor = sheet.plan.liquor(section.liquor_id)
        figures = self._figures_as_typed()
        columns = {stock.id: column for column, stock in enumerate(sheet.plan.stocks)}
        amounts = [float(figures.amounts_ml[index, columns[one]]) for one in liquor.stock_ids]
        names = [sheet.plan.stock(one).name for one in liquor.stock_ids]
        self.line.set_amounts(amounts, names)
        self.line.setEnabled(bool(names))
        self.total.show_text("= " + shown_total(amounts))
        self._show_line_names(names)
        self._show_line_meaning(liquor)
        self.grid.show_liquor(sheet, index, amounts)
        self._show_choices(liquor)

    # -- putting together ----------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        line = QHBoxLayout()
        line.setSpacing(8)
        line.addWidget(self.line, 1)
        line.addWidget(self.total)
        basis = QHBoxLayout()
        basis.setSpacing(8)
        basis.addWidget(self.basis_name)
        basis.addWidget(self.basis, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addLayout(line)
        column.addWidget(self.line.message)
        column.addWidget(self.line_names)
        column.addWidget(self.note)
        column.addSpacing(4)
        column.addWidget(self.grid)
        column.addWidget(self.add)
        column.addWidget(self.message)
        column.addLayout(basis)

    def _order_tabs(self) -> None:
        for before, after in pairwise((self.line, *self.grid.stops, self.add)):
            QWidget.setTabOrder(before, after)

    def _set_fonts(self) -> None:
        self.line.set_usual_font(self.font())
        self.total.setFont(scaled_font(self.font(), 1.3, bold=True))

    def _retranslate(self) -> None:
        self.line.setAccessibleName(self.tr("Amounts for the whole set, ml"))
        self.add.setPlaceholderText(self.tr("Add a stock…"))
        self.add.setAccessibleName(self.tr("Add a stock to the liquor"))
        self.basis_name.setText(self.tr("Keeps"))
        self.basis.setToolTip(
            self.tr("Parts: the jar stays; wetter fibre comes out darker. Depth: the shade stays.")
        )
        self.refresh()

    # -- showing -------------------------------------------------------------------------------------------

    def _figures_as_typed(self) -> SectionFigures:
        """Return the figures without the acid line, which replaces let-down after the amounts are typed."""
        plan = self._document.sheet.plan
        if plan.acid_line is None:
            return self._document.sheet.figures
        return section_figures(replace(plan, acid_line=None))

    def _show_line_names(self, names: Sequence[str]) -> None:
        if names:
            self.line_names.show_text(" + ".join(one_line(name, 300) for name in names))
        else:
            self.line_names.show_text(self.tr("Nothing in it yet: add a stock."))

    def _show_line_meaning(self, liquor: Liquor) -> None:
        if liquor.basis == "depth":
            meaning = self.tr(
                "ml for the whole set, one for each stock. This liquor keeps its depth: amounts typed here"
                " make it keep its parts instead, and fix the liquid of this section."
            )
        else:
            meaning = self.tr(
                "ml for the whole set, one for each stock. Typing them sets the liquor’s parts and fixes the"
                " liquid of this section."
            )
        explain(self.line, meaning)

    def _show_choices(self, liquor: Liquor) -> None:
        plan = self._document.sheet.plan
        by_depth = liquor.basis == "depth"
        fill, add = self.tr("Fill with {0}"), self.tr("Add {0}")
        self.add.set_choices(
            [
                ((fill if by_depth and not stock.is_dye else add).format(one_line(stock.name)), stock.id)
                for stock in plan.stocks
                if stock.id not in liquor.stock_ids
            ],
            None,
        )
        self.add.setEnabled(self.add.count() > 0)
        self.basis.set_choices(
            [(self.tr("parts (the jar stays)"), "parts"), (self.tr("depth (the shade stays)"), "depth")],
            liquor.basis,
        )

    def _drop_typing(self) -> None:
        self.message.say("")
        self.note.tell("")
        self.line.drop()
        self.grid.drop_typing()

    # -- editing -------------------------------------------------------------------------------------------

    @property
    def _liquor(self) -> Liquor:
        plan = self._document.plan
        return plan.liquor(plan.section(self._section_id).liquor_id)

    def _paint(self, amounts_ml: tuple[float, ...]) -> None:
        amounts = dict(zip(self._liquor.stock_ids, amounts_ml, strict=True))
        name = self.tr("Paint {0} ml").format(shown_amounts(amounts_ml))
        self._paint_at(self.line, name, amounts)

    def _type_amount(self, stock_id: str, amount_ml: float) -> None:
        index = self._document.plan.section_index(self._section_id)
        row = self._figures_as_typed().amounts_ml[index].tolist()
        columns = {stock.id: column for column, stock in enumerate(self._document.plan.stocks)}
        amounts = {one: float(row[columns[one]]) for one in self._liquor.stock_ids} | {stock_id: amount_ml}
        field = self.grid.field(stock_id)
        if field is not None:
            self._paint_at(field, self.tr("Paint {0} ml").format(shown_amounts(amounts.values())), amounts)

    def _paint_at(self, field: EntryField, name: str, amounts_ml: Mapping[str, float]) -> None:
        before, liquor = self._document.plan.section(self._section_id), self._liquor
        paint = partial(paint_amounts, section_id=self._section_id, amounts_ml=amounts_ml)
        if not edit_at(field, self._document, name, paint) or liquor.basis == "parts":
            return
        if before.fixed_ml is None:
            words = self.tr(
                "Liquor {0} kept its depth. It keeps its parts now, and this section’s liquid no longer"
                " follows the fibre."
            )
        else:
            words = self.tr("Liquor {0} kept its depth. It keeps its parts now.")
        self.note.tell(words.format(liquor.letter))

    def _type_depth(self, stock_id: str, depth_pct_owf: float) -> None:
        self._edit_in_row(stock_id, self.tr("Change depth"), self._at_depth(stock_id, depth_pct_owf))

    def _at_depth(self, stock_id: str, depth_pct_owf: float) -> Edit:
        liquor = self._liquor
        depths = {one.stock_id: one.depth_pct_owf for one in liquor.depths} | {stock_id: depth_pct_owf}
        return partial(set_depths, liquor_id=liquor.id, depths=depths)

    def _slide_amount(self, stock_id: str, amount_ml: float) -> None:
        self._document.preview(shift_amount(self._document.plan, self._section_id, stock_id, amount_ml))

    def _slide_depth(self, stock_id: str, depth_pct_owf: float) -> None:
        self._document.preview(self._at_depth(stock_id, depth_pct_owf)(self._document.plan))

    def _settle(self) -> None:
        by_depth = self._liquor.basis == "depth"
        self._document.commit_preview(self.tr("Change depth") if by_depth else self.tr("Share the liquid"))

    def _edit_in_row(self, stock_id: str, name: str, edit: Edit) -> None:
        field = self.grid.field(stock_id)
        if field is not None:
            edit_at(field, self._document, name, edit)

    def _add(self, stock_id: object) -> None:
        stock = self._document.plan.stock(str(stock_id))
        self._edit(
            self.tr("Add {0} to the liquor").format(one_line(stock.name)),
            partial(put_in, liquor_id=self._liquor.id, stock_id=stock.id),
        )

    def _remove(self, stock_id: str) -> None:
        stock = self._document.plan.stock(stock_id)
        self._edit(
            self.tr("Take {0} out of the liquor").format(one_line(stock.name)),
            partial(take_out, liquor_id=self._liquor.id, stock_id=stock_id),
        )

    def _change_basis(self, basis: object) -> None:
        change = to_depth_basis if basis == "depth" else to_parts_basis
        name = self.tr("Keep the depth") if basis == "depth" else self.tr("Keep the parts")
        self._edit(name, partial(change, liquor_id=self._liquor.id))

    def _edit(self, name: str, edit: Edit) -> None:
        edit_and_say(self._document, name, edit, self.message.say)
        self.refresh()  # a choice that was refused goes back to what stands
