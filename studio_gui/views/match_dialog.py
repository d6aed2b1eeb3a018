"""Liquors for a wanted colour, or for several: typed, picked, or taken off a photo.

The rule of this module: one colour gives a choice of liquors for the first selected section, several set the
selected run, one section to a colour. What is chosen is shown on the lay, and becomes one undo step or
nothing.
"""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QIcon, QKeyEvent, QPainter, QPixmap
from PySide6.QtWidgets import (
    QColorDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.colour.spaces import hex_from_lab
from studio_gui.domain.edits.matching import Matched, match_section, matched_run, paint_match, paint_matches
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.views.labels import MessageLabel, ShortenedLabel, call, explain, paint_swatch
from studio_gui.views.limits_link import LimitsLink
from studio_gui.views.live import LiveDialog
from studio_gui.views.photo_panel import PhotoPanel
from studio_gui.wording.colours import TypedColour
from studio_gui.wording.fade_words import (
    match_depth_words,
    match_difference_words,
    match_words,
    shortfall_words,
)
from studio_gui.wording.naming import section_name
from studio_gui.wording.palettes import outside_screen_words, parse_palette
from studio_gui.wording.quantities import MASS, shown_briefly
from studio_gui.wording.sentences import refusal

_SWATCH = QSize(56, 34)
_ONE, _MORE = "one", "more"


class MatchDialog(LiveDialog):
    """Asks for wanted colours on sections `first` to `last`."""

    def __init__(self, document: OpenPlan, first: int, last: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._first, self._last = document, first, last
        self._found: tuple[Matched, ...] = ()
        self._is_typing = False
        self.place = ShortenedLabel("secondary")
        self.wanted, self.wanted_name = QLineEdit(), QLabel()
        self.wanted_name.setBuddy(self.wanted)
        self.called, self.called_name = QLineEdit(self.tr("Palette")), QLabel()
        self.called_name.setBuddy(self.called)
        self.pick = QPushButton()
        self.pick.setAutoDefault(False)
        self.list = QListWidget()
        self.list.setIconSize(_SWATCH)
        self.list.setWordWrap(True)
        self.outside, self.shortfall = MessageLabel("under"), MessageLabel("under")
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
        asked = QHBoxLayout()
        asked.setSpacing(8)
        asked.addWidget(self.wanted_name)
        asked.addWidget(self.wanted, 1)
        asked.addWidget(self.pick)
        left = QVBoxLayout()
        left.setSpacing(8)
        left.addLayout(asked)
        called = QHBoxLayout()
        called.setSpacing(8)
        called.addWidget(self.called_name)
        called.addWidget(self.called, 1)
        left.addLayout(called)
        left.addWidget(self.outside)
        left.addWidget(self.list, 1)
        left.addWidget(self.shortfall)
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
        down = event.key() == Qt.Key.Key_Down
        if down and self.wanted.hasFocus() and self.list.count():
            self.list.setFocus()  # from the line straight into what it found
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
            if not self._found:
                self._match()

    # -- showing -------------------------------------------------------------------------------------------

    def _match(self) -> None:
        plan, words = self._document.plan, ""
        colours: tuple[TypedColour, ...] = ()
        self._found = ()
        try:
            colours = parse_palette(self.wanted.text())
            labs = [one.lab for one in colours]
            if len(labs) == 1:
                self._found = (match_section(plan, plan.sections[self._first].id, labs[0]),)
            elif labs:
                self._found = matched_run(plan, self._first, self._last, labs)
        except RovingLayError as problem:
            colours, words = (), refusal(problem, plan)
        if not self.wanted.text().strip():
            self.message.say(self.tr("Type a colour, pick one, or point at it in a photo."), "secondary")
        else:
            self.message.say("" if self._is_typing else words)  # half a colour is none yet, and no mistake
        self._fill(colours)
        for part in (self.called_name, self.called):
            part.setVisible(len(self._found) > 1)  # one colour is the section's own, and keeps its name
        self.make.setEnabled(bool(self._found))
        self.make.setDefault(True)  # which Qt takes from a button while it is disabled

    def _fill(self, colours: tuple[TypedColour, ...]) -> None:
        was_blocked = self.list.blockSignals(True)
        self.list.clear()
        if len(self._found) == 1:
            (matched,) = self._found
            for place in range(len(matched.found)):
                self.list.addItem(self._item(matched, place, colours[0].srgb))
        for matched, colour in zip(self._found, colours, strict=False):
            if len(self._found) > 1:
                self.list.addItem(self._item(matched, 0, colour.srgb))
        self.list.setCurrentRow(0)
        self.list.blockSignals(was_blocked)
        self.outside.say(outside_screen_words(colours))
        farthest = max(self._found, key=lambda one: one.found[0].difference, default=None)
        self.shortfall.say("" if farthest is None else shortfall_words(farthest))
        self._preview()

    def _item(self, matched: Matched, place: int, wanted: str) -> QListWidgetItem:
        match = matched.found[place]
        reached, is_clipped = hex_from_lab(match.lab)
        about = [match_depth_words(matched, place), match_difference_words(matched, place)]
        if is_clipped:
            about.append(self.tr("outside what a screen shows"))
        words = f"{match_words(matched, place)}\n{' · '.join(about)}"
        picture, icon = self._swatches(wanted, reached), QIcon()
        for mode in (QIcon.Mode.Normal, QIcon.Mode.Selected):  # else Qt tints what is selected
            icon.addPixmap(picture, mode)
        return QListWidgetItem(icon, words)

    def _swatches(self, wanted: str, reached: str) -> QPixmap:
        """Return the wanted colour beside the reached one."""
        ratio = self.devicePixelRatioF()
        picture = QPixmap(_SWATCH * ratio)
        picture.setDevicePixelRatio(ratio)
        picture.fill(Qt.GlobalColor.transparent)
        painter = QPainter(picture)
        try:
            half = _SWATCH.width() / 2.0
            for left, colour in ((0.0, wanted), (half, reached)):
                box = QRectF(left, 0.0, half, _SWATCH.height())
                paint_swatch(painter, box, QColor(colour), self.palette())
        finally:
            painter.end()
        return picture

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
        """Paint what is shown as one undo step, and select it."""
        plan = self._painted()
        if plan is None:
            return
        name = self.tr("Match colours") if len(self._found) > 1 else self.tr("Match a colour")
        self._document.edit(name, lambda _plan: plan)
        self._document.select(*(matched.section_id for matched in self._found))
        super().accept()
