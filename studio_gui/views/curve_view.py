"""The fade curve: lightness, chroma, hue and steps along the strip.

The rule of this module: it shows and selects, and edits nothing. A click selects the section there, Ctrl or
Shift one more; arrows go from run to run, Home and End to the ends.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QSize, QSizeF, Qt
from PySide6.QtGui import QColor, QHelpEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.strip_curve import StripCurve, strip_curve
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.fade_curve import LINE_HEIGHT, MARGIN_LEFT, CurveLayout, paint_curve
from studio_gui.drawing.look import look_for
from studio_gui.views.labels import call, explain
from studio_gui.views.live import LiveWidget
from studio_gui.wording.curve_words import row_names, run_words
from studio_gui.wording.fade_words import indicative_words

LEAST = QSize(260, 132)


class CurveView(LiveWidget):
    """The fade curve of an open plan."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._sheet: Worksheet | None = None
        self._curve: StripCurve | None = None
        self._place = 0
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self._keep_up(document, self._show, turn=2, selection=True)
        self._retranslate()

    def sizeHint(self) -> QSize:
        return QSize(600, 190)

    def minimumSizeHint(self) -> QSize:
        return LEAST

    @property
    def curve(self) -> StripCurve:
        """The curve of the worksheet on the screen."""
        sheet = self._document.sheet
        if self._curve is None or sheet is not self._sheet:
            self._sheet, self._curve = sheet, strip_curve(sheet.figures)
        return self._curve

    @property
    def laid_out(self) -> CurveLayout:
        """Where everything is."""
        return CurveLayout(self.curve, QSizeF(self.size()))

    def _retranslate(self) -> None:
        explain(self, indicative_words())
        self._show()

    def _show(self) -> None:
        chosen = self._chosen()
        if chosen and self._place not in chosen:
            self._place = chosen[0]
        self._place = min(self._place, len(self.curve.runs) - 1)
        call(self, self.tr("Fade curve: {0}").format(self._words()))
        self.update()

    def _words(self) -> str:
        return run_words(self._document.sheet.plan, self.curve, self._place)

    def _chosen(self) -> list[int]:
        """Return the runs of the selected sections."""
        plan, chosen = self._document.sheet.plan, self._document.selected_ids
        return [
            place
            for place, run in enumerate(self.curve.runs)
            if plan.sections[run.section_index].id in chosen
        ]

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        layout, look = self.laid_out, look_for(self.palette())
        srgb = self._document.sheet.colours.srgb
        colours = [QColor.fromRgbF(*srgb[run.section_index].tolist()) for run in layout.curve.runs]
        painter = QPainter(self)
        try:
            painter.fillRect(self.rect(), look.table)
            paint_curve(painter, layout, colours, look, row_names(), self._chosen())
            line = layout.strip.translated(0.0, layout.strip.height() + 3.0)
            line.setHeight(LINE_HEIGHT)
            painter.setPen(look.secondary)
            painter.setFont(self.font())
            words = painter.fontMetrics().elidedText(
                self._words(), Qt.TextElideMode.ElideRight, round(line.width())
            )
            painter.drawText(line, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)
        finally:
            painter.end()

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            words = run_words(self._document.sheet.plan, self.curve, self.laid_out.run_at(event.pos().x()))
            QToolTip.showText(event.globalPos(), f"{words}\n{indicative_words()}", self)
            return True
        return super().event(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton and event.position().x() >= MARGIN_LEFT:
            several = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
            self._go_to(self.laid_out.run_at(event.position().x()), more=bool(event.modifiers() & several))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        last = len(self.curve.runs) - 1
        places = {
            Qt.Key.Key_Left: self._place - 1,
            Qt.Key.Key_Right: self._place + 1,
            Qt.Key.Key_Home: 0,
            Qt.Key.Key_End: last,
        }
        place = places.get(Qt.Key(event.key()))
        if place is None:
            super().keyPressEvent(event)
            return
        more = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        self._go_to(min(max(place, 0), last), more=more)

    def _go_to(self, place: int, *, more: bool) -> None:
        self._place = place
        section_id = self._document.sheet.plan.sections[self.curve.runs[place].section_index].id
        before = self._document.selected_ids if more else ()
        self._document.select(*dict.fromkeys((*before, section_id)))
        self._show()
