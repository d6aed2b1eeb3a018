"""An even fade over a run of sections, beside what is painted without a solver.

The rule of this module: what stands in the dialog is solved, shown in it and on the lay, and becomes one undo
step or nothing. Long fades are solved off the window's thread, and what a weak stock would mend is reckoned
there, when the hands rest; what comes of it is dropped where another fade stands by then. Who makes a fade
before it is solved gets it when it is.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QFormLayout,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.background import RestedRun
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.fades import (
    FadeWish,
    PlannedFade,
    WeakOffer,
    WeakStock,
    paint_fade,
    plan_fade,
    weak_stock_that_mends,
)
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.views.fade_bars import FadeBars
from studio_gui.views.fade_form import FadeForm
from studio_gui.views.fade_rows import recipes_of, rows_of
from studio_gui.views.fields import EntryField, edit_and_say
from studio_gui.views.labels import MessageLabel, ShortenedLabel, call
from studio_gui.views.limits_link import LimitsLink
from studio_gui.views.live import LiveDialog
from studio_gui.views.progress_row import ProgressRow
from studio_gui.views.recipe_table import RecipeTable
from studio_gui.wording.fade_words import (
    coarse_words,
    end_words,
    equal_words,
    guess_words,
    offer_words,
    undyed_words,
    weak_name,
)
from studio_gui.wording.naming import section_name
from studio_gui.wording.quantities import LAY_LENGTH, MASS, shown_briefly
from studio_gui.wording.sentences import refusal

#: Longer fades are solved off the window's thread: so many sections take about 10 ms.
SECTIONS_AT_ONCE = 24

#: A fade, or what it is refused with.
_Result = PlannedFade | RovingLayError
#: A fade, and the weak stock that would mend it.
_Weak = tuple[PlannedFade, WeakOffer | None]


class FadeDialog(LiveDialog):
    """Asks for a fade over sections `first` to `last`."""

    def __init__(self, document: OpenPlan, first: int, last: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._first, self._last = document, first, last
        self._fade: PlannedFade | None = None
        self._offer: WeakOffer | None = None
        self.place = ShortenedLabel("secondary")
        self.form = FadeForm(document.plan, first, last)
        self.called, self.called_name = QLineEdit(self.tr("Fade")), QLabel()
        self.called_name.setBuddy(self.called)
        self.bars, self.recipes = FadeBars(), RecipeTable()
        self.undyed, self.ends = MessageLabel("over"), MessageLabel("under")
        self.coarse, self.alike = MessageLabel("under"), MessageLabel("under")
        self.guess = MessageLabel("under")
        self.offer = MessageLabel("text")
        self.add_weak = QPushButton()
        self.message = MessageLabel()
        self.indicative = LimitsLink()
        self.make = QPushButton()
        self.progress = ProgressRow()
        self._is_refused = self._paints_when_done = False
        self._solving = RestedRun(self._wanted_fade, self)
        self._solving.done.connect(self._take_result)
        self._solving.failed.connect(_tell)
        self._weak = RestedRun(self._wanted_weak, self)
        self._weak.done.connect(self._take_weak)
        self._lay_out()
        self.form.changed.connect(self._refresh)
        self.called.textChanged.connect(self._preview)
        self.progress.stopped.connect(self._stop)
        self.add_weak.clicked.connect(self._add_weak)
        self.finished.connect(document.cancel_preview)
        self.finished.connect(self._weak.stop)
        self.finished.connect(self._solving.stop)
        self._retranslate()
        self.form.start.dyes[0].setFocus()

    # -- putting together ----------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        buttons.button(QDialogButtonBox.StandardButton.Cancel).setAutoDefault(False)
        buttons.addButton(self.make, QDialogButtonBox.ButtonRole.AcceptRole)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        self.add_weak.setAutoDefault(False)
        called = QFormLayout()
        called.setContentsMargins(0, 0, 0, 0)
        called.setHorizontalSpacing(12)
        called.addRow(self.called_name, self.called)
        mend = QHBoxLayout()
        mend.addWidget(self.offer, 1)
        mend.addWidget(self.add_weak)
        told = QWidget()
        column = QVBoxLayout(told)
        column.setContentsMargins(0, 0, 8, 0)
        column.setSpacing(8)
        column.addWidget(self.form)
        column.addLayout(called)
        column.addSpacing(4)
        column.addWidget(self.bars)
        for said in (self.undyed, self.ends, self.coarse, self.alike, self.guess):
            column.addWidget(said)
        column.addLayout(mend)
        column.addWidget(self.message)
        column.addWidget(self.recipes, 1)
        room = QScrollArea()  # a low screen shows a part of it, and always the buttons
        room.setWidgetResizable(True)
        room.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        room.setFrameShape(QFrame.Shape.NoFrame)
        room.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        room.setWidget(told)
        whole = QVBoxLayout(self)
        whole.setSpacing(8)
        whole.addWidget(self.place)
        whole.addWidget(room, 1)
        whole.addWidget(self.progress)
        whole.addWidget(self.indicative)
        whole.addWidget(buttons)
        self.resize(720, 700)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if enter and isinstance(self.focusWidget(), EntryField):
            return  # it took the value that was typed; what comes of it is to be seen first
        super().keyPressEvent(event)

    def _retranslate(self) -> None:
        self.setWindowTitle(self.tr("Even fade"))
        self.called_name.setText(self.tr("&Name"))
        call(self.called, self.tr("Name of the steps"))
        self.called.setToolTip(self.tr("New sections and liquors are called so, with a number behind"))
        widest = max(label.sizeHint().width() for label in self.form.names)
        self.called_name.setMinimumWidth(widest)
        self.make.setText(self.tr("&Make the fade"))
        self.place.show_text(self._place_words())
        self._refresh()

    def _place_words(self) -> str:
        plan, figures = self._document.plan, self._document.sheet.figures
        ids = [section.id for section in plan.sections[self._first : self._last + 1]]
        length_m = figures.run_length_m(self._first, self._last)
        fibre_g = figures.run_fibre_g(self._first, self._last)
        size = f"{shown_briefly(LAY_LENGTH, length_m)} · {shown_briefly(MASS, fibre_g)}"
        if len(ids) == 1:
            return self.tr("On {0}: {1}").format(section_name(plan, ids[0]), size)
        ends = (section_name(plan, ids[0]), section_name(plan, ids[-1]))
        return self.tr("On {0} to {1}, {2} sections: {3}").format(*ends, len(ids), size)

    # -- showing -------------------------------------------------------------------------------------------

    def _refresh(self) -> None:
        """Solve the fade that stands in the form: at once, or off the window's thread where it is long."""
        self._paints_when_done = self._is_refused = False
        self._solving.stop()
        self.progress.finish()
        if self._count <= SECTIONS_AT_ONCE:
            self._take_result(self._wanted_fade()())
            return
        self._offer = None
        self._show_offer()
        self._weak.stop()
        self._show_make()
        self._solving.ask_at_rest()
        self.progress.show_if_it_lasts(self.tr("Solving {0} sections").format(self._count))

    @property
    def _count(self) -> int:
        """How many sections the fade that stands in the form has."""
        kept = self._last - self._first + 1
        return kept if self.form.wish.sections is None else self.form.wish.sections

    def _wanted_fade(self) -> Callable[[], _Result]:
        return partial(_solved, self._document.plan, self._first, self._last, self.form.wish)

    def _take_result(self, result: _Result) -> None:
        self.progress.finish()
        self._fade, self._offer = None, None
        if isinstance(result, RovingLayError):
            self._refuse(result)
        else:
            self._fade = result
            self.message.say("")
            self._preview()
        self._show_fade()
        self._show_offer()
        self._show_make()
        self._weak.ask_at_rest()
        if self._paints_when_done and self._fade is not None:
            self.accept()

    def _refuse(self, problem: RovingLayError) -> None:
        self._fade, self._is_refused = None, True
        self.message.say(refusal(problem, self._document.plan))
        self._document.cancel_preview()

    def _stop(self) -> None:
        """Show no fade, until another or the same is asked for."""
        self._solving.stop()
        self.progress.finish()
        self._paints_when_done = False
        self._fade = None
        self._document.cancel_preview()
        self._show_fade()
        self._show_make()
        self.message.say(self.tr("Stopped. “Make the fade” solves it again."), "secondary")

    def _painted(self, fade: PlannedFade) -> Plan:
        return paint_fade(fade, self.called.text().strip(), renamed=self.form.wish.sections is not None)

    def _preview(self) -> None:
        """Show the fade on the lay, if there is one that stands and can be painted."""
        if self._fade is None or self._solving.is_running:
            return
        try:
            self._document.preview(self._painted(self._fade))
        except RovingLayError as problem:
            self._refuse(problem)

    def _show_make(self) -> None:
        self.make.setEnabled(not self._is_refused)
        self.make.setDefault(True)  # which Qt takes from a button while it is disabled

    def _show_fade(self) -> None:
        fade = self._fade
        self.undyed.say(undyed_words(fade) if fade is not None else "")
        self.ends.say(end_words(fade) if fade is not None else "")
        self.coarse.say(coarse_words(fade) if fade is not None else "")
        self.alike.say(equal_words(fade) if fade is not None else "")
        self.guess.say(guess_words(fade.hand, fade.solved.counts) if fade is not None else "")
        if fade is None:
            self.bars.show_rows((), 1.0)
            self.recipes.show_recipes(())
            return
        self.recipes.show_recipes(recipes_of(fade))
        self.bars.show_rows(rows_of(fade), fade.ideal.step)
        self.bars.setToolTip(
            self.tr("Bars are steps of colour (CIEDE2000); the dashed line is an even step.")
        )

    def _wanted_weak(self) -> Callable[[], _Weak] | None:
        return None if self._fade is None or not self.isVisible() else partial(_weak_of, self._fade)

    def _take_weak(self, found: _Weak) -> None:
        fade, offer = found
        if fade is self._fade:  # else it is out of date
            self._offer = offer
            self._show_offer()

    def _show_offer(self) -> None:
        fade, offer = self._fade, self._offer
        self.add_weak.setVisible(fade is not None and offer is not None)
        if fade is None or offer is None:
            self.offer.say("")
            return
        self.offer.say(offer_words(fade, offer))
        self.add_weak.setText(self.tr("&Put it on the shelf"))
        self.add_weak.setToolTip(self.tr("Together with the fade, when it is made"))

    def _add_weak(self) -> None:
        if self._fade is None or self._offer is None:
            return
        name = weak_name(self._fade, self._offer)
        self.form.weak += (WeakStock(self._offer.stock_id, self._offer.strength_g_per_l, name),)
        self._refresh()

    # -- ending --------------------------------------------------------------------------------------------

    def accept(self) -> None:
        """Paint what stands in the dialog as one undo step, and select it."""
        if self._solving.is_running:
            self._paints_when_done = True
            return
        fade = self._fade
        if fade is None:
            self._refresh()
            return
        name = self.tr("Lay an even fade")
        if not edit_and_say(self._document, name, lambda _plan: self._painted(fade), self.message.say):
            return
        sections = self._document.plan.sections[fade.first : fade.last + 1]
        self._document.select(*(section.id for section in sections))
        super().accept()


def _tell(fault: Exception) -> None:
    """Let a fault of the program come to where all of them are told."""
    raise fault


def _solved(plan: Plan, first: int, last: int, wish: FadeWish) -> _Result:
    """Return the fade, or what it is refused with, which is no fault of the work."""
    try:
        return plan_fade(plan, first, last, wish)
    except RovingLayError as problem:
        return problem


def _weak_of(fade: PlannedFade) -> _Weak:
    return fade, weak_stock_that_mends(fade)
