"""Liquors for a wanted colour, or for several: typed, picked, or taken off a photo.

The rule of this module: one colour gives a choice of liquors for the first selected section, several set the
selected run, one section to a colour. What is chosen is shown on the lay, and becomes one undo step or
nothing. Matching goes on off the window's thread: what stands in the list stays until it is done, and who
says to paint before gets then what was asked for.
"""

from __future__ import annotations

import numpy as np
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QKeyEvent
from PySide6.QtWidgets import (
    QColorDialog,
    QDialogButtonBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.matching import Matched, paint_match, paint_matches
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.views.labels import MessageLabel, ShortenedLabel, call, explain
from studio_gui.views.limits_link import LimitsLink
from studio_gui.views.live import LiveDialog
from studio_gui.views.match_list import MatchList
from studio_gui.views.matching import Matching, Wanted
from studio_gui.views.photo_panel import PhotoPanel
from studio_gui.views.progress_row import ProgressRow
from studio_gui.wording.colours import TypedColour
from studio_gui.wording.fade_words import guess_words, shortfall_words
from studio_gui.wording.naming import section_name
from studio_gui.wording.palettes import outside_screen_words, parse_palette
from studio_gui.wording.quantities import MASS, shown_briefly
from studio_gui.wording.sentences import refusal

_ONE, _MORE = "one", "more"


class MatchDialog(LiveDialog):
    """Asks for wanted colours on sections `first` to `last`."""

    def __init__(self, document: OpenPlan, first: int, last: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._first, self._last = document, first, last
        self._colours: tuple[TypedColour, ...] = ()
        self._found: tuple[Matched, ...] = ()
        self._is_typing = self._paints_when_done = False
        self.matching = Matching(self)
        self.place = ShortenedLabel("secondary")
        self.wanted, self.wanted_name = QLineEdit(), QLabel()
        self.wanted_name.setBuddy(self.wanted)
        self.called, self.called_name = QLineEdit(self.tr("Palette")), QLabel()
        self.called_name.setBuddy(self.called)
        self.pick = QPushButton()
        self.pick.setAutoDefault(False)
        self.list = MatchList()
        self.outside, self.shortfall = MessageLabel("under"), MessageLabel("under")
        self.guess = MessageLabel("under")
        self.progress = ProgressRow()
        self.message = MessageLabel()
        self.indicative = LimitsLink()
        self.photo = PhotoPanel()
        self.photo.open.setAutoDefault(False)
        self.make = QPushButton()
        self._lay_out()
        self.wanted.textEdited.connect(self._type)
        self.wanted.textChanged.connect(self._match)
        self.called.textChanged.connect(self._preview)
        self.wanted.editingFinished.connect(self._finish_typing)
        self.pick.clicked.connect(self._pick)
        self.photo.taken.connect(self._take)
        self.list.currentRowChanged.connect(self._preview)
        self.matching.went_on.connect(self._show_progress)
        self.matching.done.connect(self._take_found)
        self.matching.failed.connect(self._refuse)
        self.progress.stopped.connect(self._stop)
        self.finished.connect(self.matching.stop)
        self.finished.connect(document.cancel_preview)
        self._retranslate()
        self.wanted.setFocus()

    # -- putting together ----------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        buttons.button(QDialogButtonBox.StandardButton.Cancel).setAutoDefault(False)
        buttons.addButton(self.make, QDialogButtonBox.ButtonRole.AcceptRole)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        asked = QGridLayout()
        asked.setHorizontalSpacing(8)
        asked.setVerticalSpacing(8)
        asked.addWidget(self.wanted_name, 0, 0)
        asked.addWidget(self.wanted, 0, 1)
        asked.addWidget(self.pick, 0, 2)
        asked.addWidget(self.called_name, 1, 0)
        asked.addWidget(self.called, 1, 1, 1, 2)
        left = QVBoxLayout()
        left.setSpacing(8)
        left.addLayout(asked)
        left.addWidget(self.outside)
        left.addWidget(self.list, 1)
        left.addWidget(self.shortfall)
        left.addWidget(self.guess)
        left.addWidget(self.progress)
        left.addWidget(self.message)
        sides = QHBoxLayout()
        sides.setSpacing(12)
        sides.addLayout(left, 3)
        sides.addWidget(self.photo, 2)
        column = QVBoxLayout(self)
        column.setSpacing(8)
        column.addWidget(self.place)
        column.addLayout(sides, 1)
        column.addWidget(self.indicative)
        column.addWidget(buttons)
        self.resize(900, 520)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.wanted.hasFocus():
            if event.key() == Qt.Key.Key_Down and self.list.count():
                self.list.setFocus()  # from the line straight into what it found
                return
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                if self._colours:
                    self.list.setFocus()  # Enter takes what was typed; only the next one paints
                return
        super().keyPressEvent(event)

    def _retranslate(self) -> None:
        self.setWindowTitle(self.tr("Match a colour"))
        self.wanted_name.setText(self.tr("&Wanted"))
        self.wanted.setPlaceholderText("#5d7a4a")
        call(self.wanted, self.tr("Wanted colours"))
        explain(
            self.wanted,
            self.tr(
                "One colour, as #rrggbb or as CIE Lab like 52 34 -12; or several with semicolons between, one"
                " for each section of the run"
            ),
        )
        self.pick.setText(self.tr("Pi&ck…"))
        explain(self.pick, self.tr("Pick one more colour"))
        self.called_name.setText(self.tr("&Name"))
        call(self.called, self.tr("Name of the colours"))
        self.called.setToolTip(self.tr("New sections and liquors are called so, with a number behind"))
        call(self.list, self.tr("Liquors found, best first"))
        self.photo.set_targets(
            [(self.tr("the wanted colour"), _ONE), (self.tr("one more colour"), _MORE)], _ONE
        )
        self.make.setText(self.tr("&Paint it so"))
        self.place.show_text(self._place_words())
        self._match()

    def _place_words(self) -> str:
        plan, figures = self._document.plan, self._document.sheet.figures
        ids = [section.id for section in plan.sections[self._first : self._last + 1]]
        grams = shown_briefly(MASS, figures.run_fibre_g(self._first, self._last))
        first = section_name(plan, ids[0])
        if len(ids) == 1:
            return self.tr("For {0}: {1}").format(first, grams)
        return self.tr("One colour: for {0}. Several: for {0} to {1}, {2} sections, {3}").format(
            first, section_name(plan, ids[-1]), len(ids), grams
        )

    # -- colours -------------------------------------------------------------------------------------------

    def _pick(self) -> None:
        colour = QColorDialog.getColor(QColor(), self, self.wanted.accessibleName())
        if colour.isValid():
            self._take(colour.name(), _MORE)

    def _take(self, srgb: str, target: object) -> None:
        """Take a colour from a photo or a dialog: instead of what is there, or after it."""
        before = self.wanted.text().strip().rstrip(";") if target == _MORE else ""
        self.wanted.setText(f"{before}; {srgb}" if before else srgb)

    def _type(self) -> None:
        self._is_typing = True

    def _finish_typing(self) -> None:
        if self._is_typing:
            self._is_typing = False
            if not self._colours:
                self._match()

    # -- matching ------------------------------------------------------------------------------------------

    def _match(self) -> None:
        """Read the colours, and have them matched."""
        self._paints_when_done = False
        try:
            self._colours = parse_palette(self.wanted.text())
        except RovingLayError as problem:
            self._refuse(problem)
            return
        if not self._colours:
            self._show_nothing()
            self.message.say(
                self.tr(
                    "Type a colour, or several with semicolons between; pick one, or point at it in a photo."
                ),
                "secondary",
            )
            return
        self.message.say("")
        labs = tuple(colour.lab for colour in self._colours)
        self.matching.ask(Wanted(self._document.plan, self._first, self._last, labs))
        self._show_make()

    def _take_found(self, found: tuple[Matched, ...]) -> None:
        self._found = found
        self.progress.finish()
        self._fill()
        self._show_make()
        if self._paints_when_done:
            self.accept()

    def _refuse(self, problem: RovingLayError) -> None:
        self._colours = ()
        self._show_nothing()
        # half a colour is none yet, and no mistake
        self.message.say("" if self._is_typing else refusal(problem, self._document.plan))

    def _stop(self) -> None:
        self._show_nothing()
        self.message.say(self.tr("Stopped. “Paint it so” matches them again."), "secondary")

    def _show_progress(self, matched: int, count: int) -> None:
        words = self.tr("{0} of {1} colours matched").format(matched, count)
        self.progress.show_progress(matched, count, words)

    # -- showing -------------------------------------------------------------------------------------------

    def _show_nothing(self) -> None:
        self.matching.stop()
        self.progress.finish()
        self._paints_when_done = False
        self._found = ()
        self._fill()
        self._show_make()

    def _show_make(self) -> None:
        self.make.setEnabled(bool(self._colours))
        self.make.setDefault(True)  # which Qt takes from a button while it is disabled

    def _fill(self) -> None:
        self.list.show_found(self._found, [one.srgb for one in self._colours] if self._found else [])
        for part in (self.called_name, self.called):
            part.setVisible(len(self._found) > 1)  # one colour is the section's own, and keeps its name
        self.outside.say(outside_screen_words(self._colours) if self._found else "")
        self.shortfall.say(self._shortfall_words())
        self.guess.say(self._guess_words())
        self._preview()

    def _shortfall_words(self) -> str:
        """Return what the colour that is missed most lacks."""
        farthest = max(self._found, key=lambda one: one.found[0].difference, default=None)
        words = "" if farthest is None else shortfall_words(farthest)
        if not words or len(self._found) == 1:
            return words
        places = [matched is farthest for matched in self._found]
        return self.tr("Colour {0} is missed most. {1}").format(places.index(True) + 1, words)

    def _guess_words(self) -> str:
        """Return what is a guess of the liquors in the list."""
        if not self._found:
            return ""
        shown = self._found[0].found if len(self._found) == 1 else [one.found[0] for one in self._found]
        return guess_words(self._found[0].hand, np.stack([match.counts for match in shown]))

    def _painted(self) -> Plan | None:
        """Return the plan with what is chosen in the list; None while there is nothing."""
        if not self._found:
            return None
        if len(self._found) > 1:
            name, count = self.called.text().strip(), len(self._found)
            names = [f"{name} {number}" for number in range(1, count + 1)] if name else []
            return paint_matches(self._found, names, renamed=count != self._last - self._first + 1)
        return paint_match(self._found[0], max(self.list.currentRow(), 0))

    def _preview(self) -> None:
        plan = self._painted()
        if plan is None:
            self._document.cancel_preview()
        else:
            self._document.preview(plan)

    # -- ending --------------------------------------------------------------------------------------------

    def accept(self) -> None:
        """Paint what was asked for as one undo step, and select it."""
        if self.matching.is_running:
            self._paints_when_done = True
            return
        plan = self._painted()
        if plan is None:
            self._match()
            return
        name = self.tr("Match colours") if len(self._found) > 1 else self.tr("Match a colour")
        self._document.edit(name, lambda _plan: plan)
        self._document.select(*(matched.section_id for matched in self._found))
        super().accept()
