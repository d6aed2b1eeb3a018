"""Labels of the panes: toned text, shortened text, swatches, and the mark of a section's wetness.

The rule of this module: a label follows the palette by itself, shows text as it is (never as markup), and
never makes its pane wider.
"""

from __future__ import annotations

from typing import Literal

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, QTimer
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPalette, QPen, QResizeEvent
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QSizePolicy, QWidget

from studio_gui.domain.figures import Saturation
from studio_gui.drawing.look import look_for
from studio_gui.drawing.marks import paint_saturation
from studio_gui.wording.quantities import unbroken

Tone = Literal["text", "secondary", "under", "over"]

SWATCH_RADIUS = 3.0


class TonedLabel(QLabel):
    """A line or paragraph in one of the look's colours."""

    def __init__(self, tone: Tone = "secondary", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._tone = tone
        self.setTextFormat(Qt.TextFormat.PlainText)
        self._colour()

    def set_tone(self, tone: Tone) -> None:
        """Use another of the look's colours."""
        if tone != self._tone:
            self._tone = tone
            self._colour()

    def show_text(self, text: str) -> None:
        """Show `text`; nothing is done when it is shown already."""
        if text != self.text():
            self.setText(text)

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.PaletteChange:
            self._colour()
        super().changeEvent(event)

    def _colour(self) -> None:
        around = self.parentWidget()
        look = look_for(self.palette() if around is None else around.palette())
        colour: QColor = getattr(look, self._tone)
        if self.palette().color(QPalette.ColorRole.WindowText) != colour:
            palette = QPalette()  # an empty one: every other colour still comes from the parent
            palette.setColor(QPalette.ColorRole.WindowText, colour)
            palette.setColor(QPalette.ColorRole.Text, colour)  # which labels use on a ground of Base
            self.setPalette(palette)


class MessageLabel(TonedLabel):
    """A sentence: why something was not taken, or what was done; scrolled to, hidden while there is none.

    One that `lasts` speaks of the plan as it stands, and is not forgotten when the plan moves on.
    """

    def __init__(self, tone: Tone = "over", parent: QWidget | None = None, *, lasts: bool = False) -> None:
        super().__init__(tone, parent)
        self.lasts = lasts
        self._said = ""
        self._usual_tone = tone
        self._soon = QTimer(self, singleShot=True, interval=0)
        self._soon.timeout.connect(self._come_into_sight)
        self.setWordWrap(True)
        self.hide()

    def say(self, sentence: str, tone: Tone | None = None) -> None:
        """Say a sentence, in the label's own tone or another; an empty one takes the last away."""
        self.set_tone(tone or self._usual_tone)
        if sentence != self._said:
            self._said = sentence
            self.setText(unbroken(sentence))
        self.setVisible(bool(sentence))
        self._fit()
        if sentence and not self.lasts:
            self._soon.start()  # once there is room for it

    def text(self) -> str:
        """Return the sentence as it was said."""
        return self._said

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _come_into_sight(self) -> None:
        around = self.parentWidget()
        while around is not None and not isinstance(around, QScrollArea):
            around = around.parentWidget()
        if around is not None and self.isVisible():
            around.ensureWidgetVisible(self, 0, 4)

    def _fit(self) -> None:
        # a form's rows do not ask how high a wrapped text is at their width
        self.setMinimumHeight(self.heightForWidth(self.width()) if self.text() else 0)


class ShortenedLabel(TonedLabel):
    """One line that is shortened where there is no room; the whole of it is in the tooltip."""

    def __init__(self, tone: Tone = "text", parent: QWidget | None = None) -> None:
        super().__init__(tone, parent)
        self._whole = ""
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def show_text(self, text: str) -> None:
        if text != self._whole:
            self._whole = text
            call(self, text)
            self._shorten()

    def minimumSizeHint(self) -> QSize:
        return QSize(self.fontMetrics().averageCharWidth() * 4, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._shorten()

    def _shorten(self) -> None:
        room = self.contentsRect().width()
        shown = self.fontMetrics().elidedText(self._whole, Qt.TextElideMode.ElideRight, room)
        if shown != self.text():
            self.setText(shown)
        explain(self, self._whole if shown != self._whole else "")


class SwatchLabel(QWidget):
    """A square of one colour with an edge, so that pale colours show on pale ground."""

    def __init__(self, side: int = 14, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._colour = QColor()
        self._outside = False
        self.setFixedSize(side, side)

    def show_colour(self, colour: QColor, *, outside: bool = False) -> None:
        """Show `colour`; an invalid one shows nothing. One that stands for one `outside` sRGB is marked."""
        if colour != self._colour or outside != self._outside:
            self._colour, self._outside = colour, outside
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            paint_swatch(painter, QRectF(self.rect()), self._colour, self.palette())
            if self._outside:
                paint_outside(painter, QRectF(self.rect()), self._colour)
        finally:
            painter.end()


class SaturationLabel(QWidget):
    """The mark of how wet a section is."""

    def __init__(self, side: int = 14, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._saturation: Saturation = "in range"
        self.setFixedSize(side, side)

    def show_saturation(self, saturation: Saturation) -> None:
        """Show the mark of `saturation`."""
        if saturation != self._saturation:
            self._saturation = saturation
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            box = QRectF(self.rect()).adjusted(1.0, 1.0, -1.0, -1.0)
            paint_saturation(painter, box, self._saturation, look_for(self.palette()))
        finally:
            painter.end()


def rule() -> QFrame:
    """Return a thin line between two parts of a pane."""
    line = QFrame()
    line.setFrameShape(QFrame.Shape.HLine)
    line.setFrameShadow(QFrame.Shadow.Plain)
    line.setForegroundRole(QPalette.ColorRole.Mid)
    return line


def call(widget: QWidget, name: str) -> None:
    """Give a widget a name for screen readers, which are told only of a new one."""
    if name != widget.accessibleName():
        widget.setAccessibleName(name)


def paint_line_below(widget: QWidget) -> None:
    """Paint the thin line that ends a row of a list at the bottom of `widget`."""
    painter = QPainter(widget)
    try:
        painter.setPen(widget.palette().color(QPalette.ColorRole.Midlight))
        painter.drawLine(widget.rect().bottomLeft(), widget.rect().bottomRight())
    finally:
        painter.end()


def explain(widget: QWidget, words: str) -> None:
    """Give a widget a tooltip, which Qt announces to everything around even where it is no new one."""
    if words != widget.toolTip():
        widget.setToolTip(words)


def paint_swatch(painter: QPainter, box: QRectF, colour: QColor, palette: QPalette) -> None:
    """Paint a swatch with its edge into `box`; nothing for an invalid colour."""
    if not colour.isValid():
        return
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(look_for(palette).film_edge, 1.0))
    painter.setBrush(colour)
    painter.drawRoundedRect(box.adjusted(0.5, 0.5, -0.5, -0.5), SWATCH_RADIUS, SWATCH_RADIUS)
    painter.restore()


def paint_outside(painter: QPainter, box: QRectF, colour: QColor) -> None:
    """Paint the mark of a colour that no screen shows into the corner of its swatch: a small triangle."""
    side = box.width() * 0.4
    corner = box.adjusted(1.5, 1.5, -1.5, -1.5).topRight()
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor("black" if colour.lightnessF() > 0.5 else "white"))
    painter.drawPolygon([corner, corner - QPointF(side, 0.0), corner + QPointF(0.0, side)])
    painter.restore()


def scaled_font(font: QFont, factor: float, *, bold: bool = False) -> QFont:
    """Return `font` at `factor` of its size."""
    scaled = QFont(font)
    if font.pointSizeF() > 0.0:
        scaled.setPointSizeF(font.pointSizeF() * factor)
    else:
        scaled.setPixelSize(round(font.pixelSize() * factor))
    scaled.setBold(bold)
    return scaled
