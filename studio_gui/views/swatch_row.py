"""One dyed sample of a dye: its colour, its depth, and the fibre it was dyed on.

The rule of this module: a row shows one swatch and hands on what is entered; how well the dye's curve meets
the swatch is said only where it does not.
"""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QColorDialog, QHBoxLayout, QLayout, QMenu, QToolButton, QVBoxLayout, QWidget

from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.colour.undyed import bluer_than_fibre
from studio_gui.domain.colour.verdict import DOUBTFUL_LIMIT, MISSED_LIMIT, Verdict, verdicts
from studio_gui.domain.ranges import exceeds
from studio_gui.domain.stocks import Stock
from studio_gui.views.choices import ColourField, swatch_button
from studio_gui.views.depth_field import DepthField
from studio_gui.views.fibre_entries import FibreEntries
from studio_gui.views.labels import MessageLabel, Tone, TonedLabel, call, explain
from studio_gui.views.live import LiveWidget
from studio_gui.views.menu_entries import add_entry
from studio_gui.wording.colours import shown_difference, shown_lab

REMOVE_PX = 24
_UNBLAMED: tuple[Verdict, ...] = ("met", "whiter fibre", "led astray")


class SwatchRow(LiveWidget):
    """The fields of one swatch.

    Signals
    -------
    removed
        The swatch is to be taken away.
    fibre_chosen
        The colour of its fibre was chosen, ``#rrggbb``.
    """

    removed = Signal()
    fibre_chosen = Signal(str)

    def __init__(self, place: int, parent: QWidget | None = None, *, tells_all: bool = True) -> None:
        """Make the row of a swatch, counted from 0; one that `tells_all` says every difference."""
        super().__init__(parent)
        self._place, self._tells_all = place, tells_all
        self._swatch: Swatch | None = None
        self._undyed_srgb = ""
        self.colour = ColourField("srgb")
        self.depth_field = DepthField()
        self.fibre, self._fibre_swatch = swatch_button()
        self.fibre_menu = QMenu(self.fibre)
        self.as_plan = add_entry(self.fibre_menu)
        self.as_plan.triggered.connect(lambda _checked: self.fibre_chosen.emit(self._undyed_srgb))
        self.kinds = FibreEntries(self.fibre_menu)
        self.kinds.chosen.connect(self.fibre_chosen)
        self.another = add_entry(self.fibre_menu)
        self.another.triggered.connect(lambda _checked: self._pick_fibre())
        self.fibre.setMenu(self.fibre_menu)
        self.fibre.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.remove = QToolButton()
        self.remove.setFixedSize(REMOVE_PX, REMOVE_PX)
        self.remove.setAutoRaise(True)
        self.remove.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.remove.clicked.connect(self.removed)
        self.difference = TonedLabel("secondary", self)
        self.difference.setVisible(tells_all)
        self.difference.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.fit = MessageLabel(lasts=True)
        self._lay_out()
        self._set_fonts()
        self._retranslate()

    @property
    def stops(self) -> tuple[QWidget, ...]:
        """What takes the keyboard, in the order of the row."""
        return (self.colour.button, self.colour.edit, self.depth_field, self.fibre, self.remove)

    def show_swatch(self, stock: Stock, undyed_srgb: str) -> None:
        """Show the row's swatch of a dye, on a plan whose fibre is `undyed_srgb`."""
        swatch, count = stock.swatches[self._place], len(stock.swatches)
        self.depth_field.strength_pct = stock.strength_pct
        self._swatch, self._undyed_srgb = swatch, undyed_srgb
        self.colour.set_value(swatch.srgb)
        self.depth_field.set_value(swatch.depth_pct_owf)
        self._fibre_swatch.show_colour(QColor(swatch.fibre_srgb))
        self.remove.setVisible(count > 1)
        self._say_fit(stock)
        self._name_colours()

    def drop(self) -> None:
        """Forget what is being typed."""
        self.colour.edit.drop()
        self.depth_field.drop()

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(4)
        row.addWidget(self.colour, 3)
        row.addWidget(self.depth_field, 2)
        row.addWidget(self.fibre)
        if self._tells_all:
            row.addWidget(self.difference)
        row.addWidget(self.remove)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.setSizeConstraint(QLayout.SizeConstraint.SetMinimumSize)  # not a pixel of a message is cut
        column.addLayout(row)
        for label in (self.colour.edit.message, self.depth_field.message, self.fit):
            column.addWidget(label)

    def _retranslate(self) -> None:
        number = self._place + 1
        self.colour.set_name(self.tr("Colour of swatch {0}").format(number))
        call(self.depth_field, self.tr("Depth of swatch {0}").format(number))
        self.depth_field.setToolTip(
            self.tr(
                "Depth the sample was dyed at, on the weight of the fibre. Or what was painted, such as"
                " 12 + 38 on 18 g: ml of this stock, ml of let-down, and the fibre. How much let-down"
                " there was makes no difference to the depth."
            )
        )
        call(self.fibre, self.tr("Fibre of swatch {0}").format(number))
        self.remove.setText("×")
        call(self.remove, self.tr("Remove swatch {0}").format(number))
        self.remove.setToolTip(self.tr("Remove this swatch"))
        self.another.setText(self.tr("Another colour…"))
        self.kinds.retranslate()
        self._name_colours()

    def _set_fonts(self) -> None:
        self.difference.setMinimumWidth(self.fontMetrics().horizontalAdvance("88.8"))

    def _name_colours(self) -> None:
        if self._swatch is None:
            return
        words = self.tr("Colour of the dyed sample, as #rrggbb or as CIE Lab (D65, 2°). Now: {0}")
        if self._swatch.is_measured:
            words = self.tr(
                "Measured, and its spectrum is kept; a colour typed here takes its place. Now: {0}"
            )
        explain(self.colour.edit, words.format(shown_lab(self._swatch.srgb)))
        self.fibre.setToolTip(
            self.tr("Colour of the fibre before it was dyed: {0}").format(self._swatch.fibre_srgb)
        )
        self.as_plan.setText(self.tr("As the undyed fibre of this plan: {0}").format(self._undyed_srgb))

    def _say_fit(self, stock: Stock) -> None:
        place, curve = self._place, stock.curve
        outshining = [bluer_than_fibre(one) and not stock.is_fluorescent for one in stock.swatches]
        judged = verdicts(curve.misses, curve.odd_one, outshining)[place]
        miss = curve.misses[place]
        figure = shown_difference(miss)
        odd_one = 0 if curve.odd_one is None else curve.odd_one
        words = {
            "met": self.tr("From its measured spectrum.") if self._is_measured else "",
            "whiter fibre": self.tr("Missed by {0}. Was it dyed on whiter fibre?"),
            "doubtful": self.tr("The other swatches lead {0} past this one (CIEDE2000)."),
            "missed": self.tr("Missed by {0} (CIEDE2000). Check its colour, depth and fibre."),
            "led astray": self.tr("Missed by {0}, led astray by swatch {1}: mend that one first."),
            "one of two": self.tr(
                "Swatches 1 and 2 disagree, this one by {0} (CIEDE2000). Which is wrong, two cannot tell; a"
                " third would."
            ),
            "at odds": self.tr("Missed by {0} (CIEDE2000). The swatches disagree, and no one of them alone."),
        }[judged]
        if judged == "whiter fibre" and outshining[place]:
            words = self.tr("Missed by {0}: bluer than its fibre can be. Was it dyed on whiter fibre?")
        tone: Tone = "secondary" if judged in _UNBLAMED else tone_of(miss)
        self.fit.say(words.format(figure, odd_one + 1), tone)
        self.difference.show_text(figure)
        self.difference.set_tone("secondary" if judged == "led astray" else tone_of(miss))
        meaning = self.tr("How far the curve is from this swatch (CIEDE2000): {0}").format(figure)
        explain(self.difference, meaning)
        call(self.difference, meaning)

    @property
    def _is_measured(self) -> bool:
        return self._swatch is not None and self._swatch.is_measured

    def _pick_fibre(self) -> None:
        if self._swatch is None:
            return
        title = self.fibre.accessibleName()
        colour = QColorDialog.getColor(QColor(self._swatch.fibre_srgb), self, title)
        if colour.isValid():
            self.fibre_chosen.emit(colour.name())


def tone_of(miss: float) -> Tone:
    """Return the tone that a difference is told in: red over 3, amber over 1.5."""
    if exceeds(miss, MISSED_LIMIT):
        return "over"
    return "under" if exceeds(miss, DOUBTFUL_LIMIT) else "secondary"
