"""Colours off a photo: open one, point at something white, then at what is wanted.

The rule of this module: a colour is handed on with the light taken off as soon as something white was pointed
at; nothing is guessed about the light before.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QPoint, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from studio_gui.document.photos import open_photo, patch_at
from studio_gui.document.preferences import Preferences
from studio_gui.domain.colour.patches import WHITE_PAPER_SRGB, Patch, corrected
from studio_gui.domain.errors import RovingLayError
from studio_gui.views.choices import ChoiceField
from studio_gui.views.labels import MessageLabel, SwatchLabel, TonedLabel, call, explain
from studio_gui.views.live import LiveWidget
from studio_gui.views.photo_view import PhotoView
from studio_gui.wording.colours import shown_lab
from studio_gui.wording.sentences import refusal

#: Sides of the patch that is averaged, pixels of the photo.
SIDES = (9, 25, 75)
#: Pixels of a patch that are farther than this from its mean, CIE Lab, show shadows or two colours.
UNEVEN_FROM = 12.0


class PhotoPanel(LiveWidget):
    """A photo and what is picked from it.

    Signals
    -------
    taken
        A colour was picked, ``#rrggbb``, for what is chosen in `takes`.
    """

    taken = Signal(str, object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._white: Patch | None = None
        self._targets: list[tuple[str, object]] = []
        self._target: object = None
        self.open = QPushButton()
        self.open.clicked.connect(self._ask)
        self.takes = ChoiceField()
        self.takes.chosen.connect(self._choose)
        self.side = ChoiceField()
        self.view = PhotoView()
        self._swatch = SwatchLabel(18)
        self.told = TonedLabel("secondary")
        self.told.setWordWrap(True)
        self.white = TonedLabel("secondary")
        self.white.setWordWrap(True)
        self.message = MessageLabel()
        self.side.chosen.connect(self._set_side)
        self.view.pointed.connect(self._tell)
        self.view.picked.connect(self._pick)
        self._lay_out()
        self._retranslate()

    def set_targets(self, targets: list[tuple[str, object]], current: object = None) -> None:
        """Offer what a colour may be taken for (words and a value); something white is always among them."""
        self._targets = targets
        values = [value for _, value in targets]
        if current in values:
            self._target = current
        elif self._target not in (*values, "white"):
            self._target = values[0] if values else "white"
        white = (self.tr("something white, such as paper"), "white")
        self.takes.set_choices([*targets, white], self._target)

    def open_path(self, path: Path) -> None:
        """Open a photo; say why where it cannot be."""
        try:
            photo = open_photo(path)
        except RovingLayError as problem:
            self.message.say(refusal(problem))
            return
        self.message.say("")
        self._white = None
        self.view.show_photo(photo)
        self._say_white()
        self._show_parts()
        self.view.setFocus()

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(6)
        head.addWidget(self.open)
        head.addWidget(self.takes, 1)
        head.addWidget(self.side)
        head.addStretch(0)
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self._swatch)
        row.addWidget(self.told, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addLayout(head)
        column.addWidget(self.view, 1)
        column.addLayout(row)
        column.addWidget(self.white)
        column.addWidget(self.message)

    def _show_parts(self) -> None:
        for part in (self.takes, self.side):
            part.setEnabled(self.view.photo is not None)
        for label in (self._swatch, self.told, self.white):
            label.setVisible(self.view.photo is not None)

    def _retranslate(self) -> None:
        self.open.setText(self.tr("Open &photo…"))
        explain(self.open, self.tr("Take colours from a photo of your swatches, in one even light"))
        call(self.takes, self.tr("A click takes the colour for"))
        explain(self.takes, self.tr("What a click on the photo gives its colour to"))
        call(self.side, self.tr("Size of the patch"))
        explain(self.side, self.tr("How much of the photo is averaged around the place"))
        sizes = (self.tr("small patch"), self.tr("patch"), self.tr("large patch"))
        self.side.set_choices(list(zip(sizes, SIDES, strict=True)), self.view.side)
        call(self.view, self.tr("Photo: arrows move the patch, Enter takes its colour"))
        self.set_targets(self._targets)
        self._say_white()
        self._show_parts()

    def _say_white(self) -> None:
        if self._white is None:
            words = self.tr(
                "The light of the photo is not known: take something white first, such as the paper under"
                " the swatches."
            )
        else:
            words = self.tr("The light is taken off by the white at {0}, as matt paper.").format(
                self._white.srgb
            )
        self.white.show_text(words)

    # -- picking -------------------------------------------------------------------------------------------

    def _ask(self) -> None:
        preferences = Preferences()
        kinds = self.tr("Photos (*.jpg *.jpeg *.png *.webp *.bmp *.tif *.tiff)")
        name, _ = QFileDialog.getOpenFileName(
            self, self.tr("Open photo"), str(preferences.photo_folder), kinds
        )
        if name:
            preferences.remember_photo_folder(Path(name).parent)
            self.open_path(Path(name))

    def _choose(self, target: object) -> None:
        self._target = target

    def _set_side(self, side: object) -> None:
        self.view.set_side(int(str(side)))

    def _tell(self, place: QPoint) -> None:
        patch = self._patch(place)
        if patch is None:
            return
        srgb, clipped = corrected(patch, self._white)
        self._swatch.show_colour(QColor(srgb))
        words = f"{srgb} · {shown_lab(srgb)}"
        if patch.burnt or clipped:
            words += " · " + self.tr("too bright for the camera")
        elif patch.spread > UNEVEN_FROM:
            words += " · " + self.tr("uneven: shadows, or two colours")
        self.told.show_text(words)

    def _pick(self, place: QPoint) -> None:
        patch = self._patch(place)
        if patch is None:
            return
        try:
            if self._target == "white":
                corrected(patch, patch, WHITE_PAPER_SRGB)
                self._white = patch
                self.view.mark(place)
                self._say_white()
                self._target = self._targets[0][1] if self._targets else "white"
                self.set_targets(self._targets)
            else:
                self.taken.emit(corrected(patch, self._white)[0], self._target)
        except RovingLayError as problem:
            self.message.say(refusal(problem))
            return
        self.message.say("")
        self._tell(place)

    def _patch(self, place: QPoint) -> Patch | None:
        return None if self.view.photo is None else patch_at(self.view.photo, place, self.view.side)
