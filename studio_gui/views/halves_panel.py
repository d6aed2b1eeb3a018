"""Half against half: what each weighs, where colours slide apart, from which end to spin, and the mends.

The rule of this module: it only shows what the worksheet says. A mend that does not apply says why not, and
each is one undo step.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QGridLayout, QPushButton, QVBoxLayout, QWidget

from studio_gui.document.halves_model import NAME, HalvesModel
from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.edits.halves import equal_halves, fold_halves_by_weight, mirror_half
from studio_gui.domain.edits.unfolding import unfold_as_painted
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.halves import Halves
from studio_gui.views.fields import edit_and_say
from studio_gui.views.figure_list import FigureList
from studio_gui.views.flow import FlowLayout
from studio_gui.views.labels import MessageLabel, TonedLabel, call, explain, scaled_font
from studio_gui.views.live import LiveWidget
from studio_gui.wording.halves_words import (
    difference_words,
    half_words,
    slide_words,
    spin_words,
    unmatched_words,
)
from studio_gui.wording.sentences import refusal

FIGURES = ("first", "second", "difference", "slide")
MENDS: dict[str, Edit] = {
    "fold": fold_halves_by_weight,
    "equal": equal_halves,
    "mirror first": partial(mirror_half, keep="first"),
    "mirror second": partial(mirror_half, keep="second"),
    "unfold": unfold_as_painted,
}
_METRES, _GRAMS = "9999.9", "999.9"
ROWS_SEEN = 10


class HalvesPanel(LiveWidget):
    """The halves of the roving whose halves differ most."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._names = {name: TonedLabel("text") for name in FIGURES}
        self.values = {name: TonedLabel("text") for name in FIGURES}
        self.roving, self.spin, self.unmatched, self.why_not = (TonedLabel("secondary") for _ in range(4))
        for label in (self.roving, self.spin, self.unmatched, self.why_not, *self.values.values()):
            label.setWordWrap(True)
        self.colours = FigureList(
            HalvesModel(document, self),
            NAME,
            {1: _GRAMS, 2: _METRES, 3: _GRAMS, 4: _METRES, 5: "+999.9"},
            ROWS_SEEN,
        )
        self.mends = {name: QPushButton() for name in MENDS}
        self.message = MessageLabel()
        self._lay_out()
        for name, button in self.mends.items():
            button.clicked.connect(partial(self._mend, name))
        self._keep_up(document, self._show, turn=2)
        self._set_fonts()
        self._retranslate()

    def _lay_out(self) -> None:
        figures = QGridLayout()
        figures.setHorizontalSpacing(8)
        figures.setVerticalSpacing(4)
        figures.setColumnStretch(1, 1)
        for row, name in enumerate(FIGURES):
            figures.addWidget(self._names[name], row, 0)
            figures.addWidget(self.values[name], row, 1)
        buttons = FlowLayout()
        for button in self.mends.values():
            buttons.addWidget(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 12)
        column.setSpacing(12)
        column.addWidget(self.roving)
        column.addLayout(figures)
        column.addLayout(buttons)
        column.addWidget(self.message)
        column.addWidget(self.why_not)
        column.addWidget(self.spin)
        column.addWidget(self.colours)
        column.addWidget(self.unmatched)
        column.addStretch(1)

    def _set_fonts(self) -> None:
        for value in self.values.values():
            value.setFont(scaled_font(self.font(), 1.0, bold=True))

    def _retranslate(self) -> None:
        words = {
            "first": (self.tr("Half 1"), self.tr("From the end marked start to the break")),
            "second": (self.tr("Half 2"), self.tr("From the other end of the roving to the break")),
            "difference": (self.tr("Heavier"), ""),
            "slide": (self.tr("Slide"), self.tr("How far the same colour lies apart, in singles")),
        }
        for name, (said, meaning) in words.items():
            self._names[name].show_text(said)
            explain(self._names[name], meaning)
            explain(self.values[name], meaning)
        labels = {
            "fold": self.tr("&Fold by weight"),
            "equal": self.tr("&Equal grams"),
            "mirror first": self.tr("Mirror half &1 on 2"),
            "mirror second": self.tr("Mirror half &2 on 1"),
            "unfold": self.tr("&Unfold as painted"),
        }
        for name, button in self.mends.items():
            button.setText(labels[name])
        self.colours.name(self.tr("Colour by colour"))
        self._show()

    # -- showing -------------------------------------------------------------------------------------------

    def _show(self) -> None:
        sheet = self._document.sheet
        found = sheet.halves
        figures = {
            "first": half_words(found, 0),
            "second": half_words(found, 1),
            "difference": difference_words(found),
            "slide": slide_words(found),
        }
        for name, words in figures.items():
            self.values[name].show_text(words)
            call(self.values[name], f"{self._names[name].text()}: {words}")
        self._show_roving(found)
        self.spin.show_text(spin_words(found))
        self.unmatched.show_text(unmatched_words(found))
        self.unmatched.setVisible(bool(found.unmatched))
        self.colours.sum.show_text(self.tr("from the outer ends"))
        self._show_mends(sheet.plan)

    def _show_roving(self, found: Halves) -> None:
        words = self.tr("Roving {0} of {1}, whose halves differ most in weight")
        self.roving.show_text(words.format(found.roving + 1, found.plan.fibre.rovings))
        self.roving.setVisible(bool(found.plan.fibre.measured))

    def _show_mends(self, plan: Plan) -> None:
        """Enable each mend where it would change something; else say why it would not."""
        refused: dict[str, list[str]] = {}
        for name, button in self.mends.items():
            try:
                is_wanted, words = MENDS[name](plan) is not plan, self._meaning(name)
            except RovingLayError as problem:
                is_wanted, words = False, refusal(problem, plan)
                refused.setdefault(words, []).append(button.text().replace("&", ""))
            else:
                words = words if is_wanted else self._done_already(name)
            button.setEnabled(is_wanted)
            explain(button, words)
        lines = [f"{', '.join(names)}: {words}" for words, names in refused.items()]
        self.why_not.show_text("\n".join(lines))
        self.why_not.setVisible(bool(lines))

    def _meaning(self, name: str) -> str:
        return {
            "fold": self.tr(
                "Folds move to where the legs weigh the same; each leg gets marks of its own, by weight."
            ),
            "equal": self.tr(
                "Boundaries move until each colour weighs the same in both halves; locked ones stay, and"
                " those that answer them follow."
            ),
            "mirror first": self.tr("Half 1 stays, and half 2 is painted as its mirror, by weight."),
            "mirror second": self.tr("Half 2 stays, and half 1 is painted as its mirror, by weight."),
            "unfold": self.tr("The lay becomes straight, with a section for each stretch of the strip."),
        }[name]

    def _done_already(self, name: str) -> str:
        return {
            "fold": self.tr("The legs are folded by weight already."),
            "equal": self.tr("Each colour weighs the same in both halves already."),
            "unfold": self.tr("The lay is straight already."),
        }.get(name, self.tr("The halves mirror one another already."))

    # -- mending -------------------------------------------------------------------------------------------

    def _mend(self, name: str) -> None:
        step = {
            "fold": self.tr("Fold by weight"),
            "equal": self.tr("Move boundaries to equal grams"),
            "mirror first": self.tr("Mirror half 1"),
            "mirror second": self.tr("Mirror half 2"),
            "unfold": self.tr("Unfold as painted"),
        }[name]
        if self.mends[name].hasFocus():
            self.colours.table.setFocus()  # Qt hands the keyboard of a button that is disabled to anything
        edit_and_say(self._document, step, MENDS[name], self.message.say)
