"""An even fade over a run of sections, beside what is painted without a solver.

The rule of this module: what stands in the dialog is solved, shown in it and on the lay, and becomes one undo
step or nothing. What a weak stock would mend is reckoned off the window's thread when the hands rest, and
dropped where another fade stands by then.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QKeyEvent
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
from studio_gui.domain.colour.fades import Fade
from studio_gui.domain.colour.spaces import hex_from_lab
from studio_gui.domain.edits.fades import (
    PlannedFade,
    WeakOffer,
    WeakStock,
    lay_fade,
    paint_fade,
    plan_fade,
    weak_stock_that_mends,
)
from studio_gui.domain.errors import RovingLayError
from studio_gui.views.fade_bars import FadeBars, FadeRow
from studio_gui.views.fade_form import FadeForm
from studio_gui.views.fields import EntryField, edit_and_say
from studio_gui.views.labels import MessageLabel, ShortenedLabel, call
from studio_gui.views.limits_link import LimitsLink
from studio_gui.views.live import LiveDialog
from studio_gui.views.recipe_table import Recipe, RecipeTable
from studio_gui.wording.fade_words import (
    coarse_words,
    end_words,
    equal_words,
    evenness_words,
    fade_depth_words,
    jar_stocks,
    jar_words,
    offer_words,
    undyed_words,
    weak_name,
)
from studio_gui.wording.naming import section_name
from studio_gui.wording.quantities import LAY_LENGTH, MASS, shown_briefly
from studio_gui.wording.sentences import refusal

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
        self.offer = MessageLabel("text")
        self.add_weak = QPushButton()
        self.message = MessageLabel()
        self.indicative = LimitsLink()
        self.make = QPushButton()
        self._weak = RestedRun(self._wanted_weak, self)
        self._weak.done.connect(self._take_weak)
        self._lay_out()
        self.form.changed.connect(self._refresh)
        self.called.textChanged.connect(self._refresh)
        self.add_weak.clicked.connect(self._add_weak)
        self.finished.connect(document.cancel_preview)
        self.finished.connect(self._weak.stop)
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
        for said in (self.undyed, self.ends, self.coarse, self.alike):
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
        words = ""
        self._fade, self._offer = None, None
        try:
            fade = plan_fade(self._document.plan, self._first, self._last, self.form.wish)
            self._document.preview(
                paint_fade(fade, self.called.text().strip(), renamed=self.form.wish.sections is not None)
            )
            self._fade = fade
        except RovingLayError as problem:
            words = refusal(problem, self._document.plan)
            self._document.cancel_preview()
        self.message.say(words)
        self._show_fade()
        self._show_offer()
        self.make.setEnabled(self._fade is not None)
        self.make.setDefault(True)  # which Qt takes from a button while it is disabled
        self._weak.ask_at_rest()

    def _show_fade(self) -> None:
        fade = self._fade
        self.undyed.say(undyed_words(fade) if fade is not None else "")
        self.ends.say(end_words(fade) if fade is not None else "")
        self.coarse.say(coarse_words(fade) if fade is not None else "")
        self.alike.say(equal_words(fade) if fade is not None else "")
        if fade is None:
            self.bars.show_rows((), 1.0)
            self.recipes.show_recipes(())
            return
        equal, halved = fade.naive
        self.recipes.show_recipes(
            [_recipe(fade, place, colour) for place, colour in enumerate(_colours(fade.solved))]
        )
        rows = (
            _row(self.tr("Even steps"), fade.solved),
            _row(self.tr("Equal shares"), equal),
            _row(self.tr("Halving"), halved),
        )
        self.bars.show_rows(rows, fade.ideal.step)
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
        wish, name = self.form.wish, self.called.text().strip()
        edit = partial(lay_fade, first=self._first, last=self._last, wish=wish, name=name)
        if not edit_and_say(self._document, self.tr("Lay an even fade"), edit, self.message.say):
            return
        last = self._last if wish.sections is None else self._first + wish.sections - 1
        sections = self._document.plan.sections[self._first : last + 1]
        self._document.select(*(section.id for section in sections))
        super().accept()


def _weak_of(fade: PlannedFade) -> _Weak:
    return fade, weak_stock_that_mends(fade)


def _row(name: str, fade: Fade) -> FadeRow:
    return FadeRow(name, evenness_words(fade.evenness), _colours(fade), fade.evenness.steps)


def _recipe(fade: PlannedFade, place: int, colour: QColor) -> Recipe:
    return Recipe(colour, jar_words(fade, place), jar_stocks(fade, place), fade_depth_words(fade, place))


def _colours(fade: Fade) -> tuple[QColor, ...]:
    return tuple(QColor(hex_from_lab(lab)[0]) for lab in fade.labs)
