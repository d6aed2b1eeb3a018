"""A look around: the parts of the program in pictures, with a sentence or two to each.

The rule of this module: pictures come from the program itself (`tests/help_pictures.py`); words are about
what is seen on them, in the order in which a plan comes about.
"""

from __future__ import annotations

from html import escape
from pathlib import Path

from PySide6.QtCore import QSize, Qt, QUrl
from PySide6.QtGui import QColor, QFontMetricsF, QImage, QPainter, QTextDocument
from PySide6.QtWidgets import QTextBrowser, QWidget

from studio_gui.drawing.sheets.book import SHEETS, Sheet
from studio_gui.paths import resources_dir
from studio_gui.views.help_windows import HelpWindow
from studio_gui.wording.translation import translate

#: Width of a picture, in letters: pictures grow with the words about them.
_PICTURE_LETTERS = 84.0


class TourWindow(HelpWindow):
    """Pictures of the program, and what they show."""

    def __init__(self, window: QWidget) -> None:
        self.text = QTextBrowser()
        super().__init__(self.text, QSize(820, 680), window)

    def _retranslate(self) -> None:
        self.setWindowTitle(self.tr("A look around"))
        self.text.setAccessibleName(self.tr("A look around"))
        width = round(_PICTURE_LETTERS * QFontMetricsF(self.text.font()).averageCharWidth())
        for _, _, picture in tour():
            name = QUrl(picture)
            self.text.document().addResource(
                QTextDocument.ResourceType.ImageResource, name, _shown(picture, width)
            )
        self.text.setHtml("".join(_stop(*stop) for stop in tour()))


def tour() -> tuple[tuple[str, str, str], ...]:
    """Return heading, words and picture of each stop."""
    return (
        (
            translate("Tour", "The lay"),
            translate(
                "Tour",
                "Wool as it lies on the film, to scale, in the colours it will have. Pegs on the tape are the"
                " boundaries. Beneath each section a trough shows what its fibre holds: its area is"
                " millilitres, dashes mark what the core needs, the brim what the fibre holds.",
            ),
            "window.png",
        ),
        (
            translate("Tour", "Checks"),
            translate(
                "Tour",
                "White cores, free liquid, uneven acid, depths that no jar reaches: what is wrong, where, and"
                " ways to mend it at one click.",
            ),
            "checks.png",
        ),
        (
            translate("Tour", "The yarn"),
            translate(
                "Tour",
                "The roving unrolled, the yarn that it is spun into, and where its colours come out solid or"
                " as a barber-pole.",
            ),
            "yarn.png",
        ),
        (
            translate("Tour", "A swatch"),
            translate("Tour", "The yarn knitted up, row by row, as wide as you knit."),
            "swatch.png",
        ),
        (
            translate("Tour", "Prints"),
            translate(
                "Tour",
                "File > Print shows every sheet as it comes out: what is painted where, with a box to tick"
                " for each roving; a tape at true scale to lie under the film; what goes into each jar; the"
                " stocks to make; the order of work.",
            ),
            "preview.png",
        ),
        *(("", sheet.title(), _print_of(sheet)) for sheet in SHEETS if _has_picture(sheet)),
    )


def _has_picture(sheet: Sheet) -> bool:
    return (_folder() / _print_of(sheet)).exists()


def _print_of(sheet: Sheet) -> str:
    """Return the picture of the first page of a sheet."""
    return f"print-{sheet.key}.png"


def _stop(heading: str, words: str, picture: str) -> str:
    head = f"<h3>{escape(heading)}</h3>" if heading else ""
    return f'{head}<p>{escape(words)}</p><p><img src="{escape(picture)}"></p>'


def _shown(picture: str, width: int) -> QImage:
    """Return a picture no wider than `width` px, with an edge: a sheet of paper is as white as its ground."""
    image = QImage(str(_folder() / picture)).convertToFormat(QImage.Format.Format_RGB32)
    if image.width() > width:
        image = image.scaledToWidth(width, Qt.TransformationMode.SmoothTransformation)
    painter = QPainter(image)
    try:
        painter.setPen(QColor("#9a9a9a"))
        painter.drawRect(image.rect().adjusted(0, 0, -1, -1))
    finally:
        painter.end()
    return image


def _folder() -> Path:
    return resources_dir() / "help"
