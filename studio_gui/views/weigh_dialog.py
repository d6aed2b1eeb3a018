"""Rovings weighed one by one, in pieces, or by their thickness here and there.

The rule of this module: what is typed changes nothing until it is taken, and is then one undo step. What
cannot be read is told with its row.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.edits.rovings import (
    half_weights_g,
    pieces_of,
    roving_of_pieces,
    roving_of_thickness,
    set_all_rovings,
    set_one_roving,
    thickness_of,
)
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.fibre import Fibre, Roving
from studio_gui.views.choices import ChoiceField
from studio_gui.views.fields import edit_and_say
from studio_gui.views.labels import MessageLabel, TonedLabel, call
from studio_gui.wording.quantities import MASS, SHARE, shown_briefly
from studio_gui.wording.sentences import refusal
from studio_gui.wording.weighed import PIECES, THICKNESS, RowProblem, parse_rows, rows_told

ALL = -1


class WeighDialog(QDialog):
    """Which roving, how it was measured, the rows, and what they come to."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._which, self._how = ALL, "pieces"
        self.which, self.how = ChoiceField(), ChoiceField()
        self.rows = QPlainTextEdit()
        self.rows.setTabChangesFocus(True)
        self.told = TonedLabel("text")
        self.told.setWordWrap(True)
        self.message = MessageLabel()
        self.explained = TonedLabel("secondary")
        self.explained.setWordWrap(True)
        self._labels = [QLabel(), QLabel()]
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        self.take, self.even = QPushButton(), QPushButton()
        self.buttons.addButton(self.take, QDialogButtonBox.ButtonRole.ActionRole)
        self.buttons.addButton(self.even, QDialogButtonBox.ButtonRole.ActionRole)
        for button in self.buttons.buttons():
            button.setProperty("autoDefault", False)  # Enter is for the rows, not the window
        self._lay_out()
        self.which.chosen.connect(self._choose_which)
        self.how.chosen.connect(self._choose_how)
        self.rows.textChanged.connect(self._reckon)
        self.take.clicked.connect(self._take)
        self.even.clicked.connect(self._take_even)
        self.buttons.rejected.connect(self.reject)
        document.settled.connect(self._show_choices)
        self.resize(420, 460)
        self._retranslate()
        self.fill()

    def _lay_out(self) -> None:
        form = QFormLayout()
        for label, field in zip(self._labels, (self.which, self.how), strict=True):
            label.setBuddy(field)
            form.addRow(label, field)
        column = QVBoxLayout(self)
        column.addLayout(form)
        column.addWidget(self.explained)
        column.addWidget(self.rows, 1)
        column.addWidget(self.told)
        column.addWidget(self.message)
        column.addWidget(self.buttons)

    def open_for_weighing(self) -> None:
        """Show the window, ready for rows, with what the plan says now."""
        self._show_choices()
        self.fill()
        self.show()
        self.raise_()
        self.activateWindow()
        self.rows.setFocus()

    def fill(self) -> None:
        """Put in what the plan says of the roving, as rows."""
        fibre = self._fibre()
        how, rows = (PIECES, pieces_of(fibre)) if self._how == "pieces" else (THICKNESS, thickness_of(fibre))
        self.rows.setPlainText(rows_told(how, rows))

    # -- what the rows come to -----------------------------------------------------------------------------

    def _fibre(self) -> Fibre:
        """Return the roving that is chosen, or the mean one."""
        fibre = self._document.plan.fibre
        return fibre if self._which == ALL else fibre.roving(self._which)

    def _roving(self) -> Roving | None:
        """Return what the rows say; None, with the reason told, where they say nothing that can be."""
        fibre = self._fibre()
        self.message.say("")
        try:
            if self._how == "pieces":
                rows = parse_rows(PIECES, self.rows.toPlainText())
                return roving_of_pieces(fibre.length_m, rows) if rows else None
            rows = parse_rows(THICKNESS, self.rows.toPlainText())
            return roving_of_thickness(fibre.mass_g, fibre.length_m, rows) if rows else None
        except RowProblem as problem:
            self.message.say(self.tr("Row {0}: {1}").format(problem.row, refusal(problem.problem)))
        except RovingLayError as problem:
            self.message.say(refusal(problem))
        return None

    def _reckon(self) -> None:
        roving = self._roving()
        self.take.setEnabled(roving is not None)
        if roving is None:
            self.told.show_text("")
            return
        first_g, second_g = half_weights_g(roving)
        apart_g = abs(first_g - second_g)
        self.told.show_text(
            self.tr("Weighs {0}: halves {1} and {2}, {3} apart ({4}).").format(
                *(shown_briefly(MASS, g) for g in (roving.mass_g, first_g, second_g, apart_g)),
                shown_briefly(SHARE, apart_g / (roving.mass_g / 2.0)),
            )
        )

    def _take(self) -> None:
        roving = self._roving()
        if roving is not None:
            self._edit(roving)

    def _take_even(self) -> None:
        self._edit(Roving(self._fibre().mass_g))
        self.fill()

    def _edit(self, roving: Roving) -> None:
        one: Edit = partial(set_one_roving, index=self._which, roving=roving)
        edit: Edit = partial(set_all_rovings, roving=roving) if self._which == ALL else one
        edit_and_say(self._document, self.tr("Weigh rovings"), edit, self.message.say)

    # -- words ---------------------------------------------------------------------------------------------

    def _choose_which(self, which: int) -> None:
        self._which = which
        self._show_choices()
        self.fill()

    def _choose_how(self, how: str) -> None:
        self._how = how
        self._show_choices()
        self.fill()

    def _show_choices(self) -> None:
        count = self._document.plan.fibre.rovings
        self._which = min(self._which, count - 1)
        each = [(self.tr("Roving {0}").format(number + 1), number) for number in range(count)]
        self.which.set_choices([(self.tr("All rovings alike"), ALL), *each], self._which)
        self.how.set_choices(
            [(self.tr("Pieces: length and weight"), "pieces"), (self.tr("Thickness at places"), "thickness")],
            self._how,
        )
        self.explained.show_text(
            self.tr(
                "One row a piece, from the roving’s start: its length, then its weight, like 1.5 m; 39 g."
            )
            if self._how == "pieces"
            else self.tr(
                "One row a place: metres from the roving’s start, then weight by length, like 1.5 m; 26 g/m."
                " It says how the weight is spread; the roving still weighs what it weighs."
            )
        )

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
            self.fill()
        super().changeEvent(event)

    def _retranslate(self) -> None:
        self.setWindowTitle(self.tr("Weigh rovings"))
        for label, words in zip(self._labels, (self.tr("&Of"), self.tr("&Measured as")), strict=True):
            label.setText(words)
        call(self.which, self.tr("Of"))
        call(self.how, self.tr("Measured as"))
        call(self.rows, self.tr("Rows"))
        self.take.setText(self.tr("&Take"))
        self.even.setText(self.tr("&Even top"))
        self._show_choices()
        self._reckon()
