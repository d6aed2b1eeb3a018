"""The swatch that the yarn makes, row above row, and words about what is under the pointer.

The rule of this module: it only shows and points; looking at other rows changes no plan.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QWheelEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.spinning.swatch import KnittedRows
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.fonts import sized
from studio_gui.drawing.knit.pictures import SwatchLayout, paint_row_figures, swatch_layout
from studio_gui.drawing.look import Look, look_for
from studio_gui.views.knitting import Knitting
from studio_gui.views.live import LiveWidget
from studio_gui.wording.knit_words import knitted_run, row_told, swatch_line

#: Rows that a notch of the wheel and an arrow key move along; even, so that no row turns round.
WHEEL_ROWS, ARROW_ROWS = 4, 2
LINE_HEIGHT, MARGIN = 20.0, 6.0
_KEYS = {
    Qt.Key.Key_Up: ARROW_ROWS,
    Qt.Key.Key_Down: -ARROW_ROWS,
    Qt.Key.Key_Home: -1_000_000,
    Qt.Key.Key_End: 1_000_000,
}
_PAGES = {Qt.Key.Key_PageUp: 1, Qt.Key.Key_PageDown: -1}


class KnittedSwatch(LiveWidget):
    """The picture of the knitting.

    Signals
    -------
    moved
        Other rows are seen, or more or fewer of them.
    """

    moved = Signal()

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._first_row = 0
        self._at: QPointF | None = None
        self._layout: tuple[Worksheet, QRectF, float, int, SwatchLayout] | None = None
        self._told: tuple[int, int] | None = None
        self.knitting = Knitting(self)
        self.knitting.done.connect(self.update)
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(120, 90)
        self._keep_up(document, self._take_up)
        self._retranslate()

    def sizeHint(self) -> QSize:
        return QSize(700, 190)

    @property
    def rows(self) -> KnittedRows:
        """The rows that the yarn on the screen makes."""
        return KnittedRows(self._document.sheet.yarn)

    @property
    def laid_out(self) -> SwatchLayout | None:
        """How the swatch is laid out now; None where the yarn makes no row."""
        sheet, ratio = self._document.sheet, self.devicePixelRatioF()
        box = QRectF(self.rect()).adjusted(MARGIN, 2.0, -MARGIN, -LINE_HEIGHT)
        kept = self._layout
        if kept is not None and kept[0] is sheet and kept[1:4] == (box, ratio, self._first_row):
            return kept[4]
        rows = KnittedRows(sheet.yarn)
        if rows.rows == 0:
            return None
        layout = swatch_layout(rows, box, ratio, self._first_row)
        self._first_row = layout.first_row
        self._layout = (sheet, box, ratio, layout.first_row, layout)
        return layout

    def _take_up(self) -> None:
        self._tell()
        self.update()

    # -- rows ----------------------------------------------------------------------------------------------

    def show_from(self, first_row: int) -> None:
        """Show the rows from `first_row` up, as far as there are so many."""
        before = self._first_row
        self._first_row = max(first_row, 0)
        layout = self.laid_out
        if layout is not None and layout.first_row != before:
            self.update()
            self._announce(layout)

    def wheelEvent(self, event: QWheelEvent) -> None:
        turn = event.angleDelta().y()
        steps = round(turn / 120.0) or (turn > 0) - (turn < 0)
        self.show_from(self._first_row + WHEEL_ROWS * steps)
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key, layout = Qt.Key(event.key()), self.laid_out
        if layout is not None and key in _KEYS:
            self.show_from(max(min(self._first_row, layout.total) + _KEYS[key], 0))
        elif layout is not None and key in _PAGES:
            self.show_from(self._first_row + _PAGES[key] * max(layout.place.rows // 2 * 2, ARROW_ROWS))
        else:
            super().keyPressEvent(event)

    def _announce(self, layout: SwatchLayout) -> None:
        told = (layout.first_row, layout.place.rows)
        if told != self._told:
            self._told = told
            self.moved.emit()

    # -- words ---------------------------------------------------------------------------------------------

    def _retranslate(self) -> None:
        self.setAccessibleName(self.tr("Knitted swatch"))
        self._take_up()

    def _tell(self) -> None:
        self.setAccessibleDescription(swatch_line(self.rows))

    def line(self) -> str:
        """Return the words beneath the swatch: what a row takes, and what is under the pointer."""
        rows, layout = self.rows, self.laid_out
        if layout is None:
            return ""
        parts = [swatch_line(rows)]
        place = None if self._at is None else layout.rows_at(self._at)
        run = None if place is None else rows.run_at(place)
        if place is not None and run is not None:
            parts += [row_told(int(place) + 1), knitted_run(rows, run)]
        return " · ".join(parts)

    # -- painting ------------------------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        layout, look = self.laid_out, look_for(self.palette())
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.fillRect(self.rect(), look.table)
            if layout is None:
                self._paint_reason(painter, look)
                return
            self.knitting.paint(painter, layout, self._document.sheet, look)
            paint_row_figures(painter, layout, look)
            self._paint_line(painter, look)
        finally:
            painter.end()
        self._announce(layout)

    def _paint_reason(self, painter: QPainter, look: Look) -> None:
        painter.setPen(look.text)
        room = QRectF(self.rect()).adjusted(24.0, 8.0, -24.0, -8.0)
        words = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
        painter.drawText(room, words, swatch_line(self.rows))

    def _paint_line(self, painter: QPainter, look: Look) -> None:
        painter.setFont(sized(painter, 0.92))
        painter.setPen(look.text)
        box = QRectF(self.rect()).adjusted(MARGIN, 0.0, -MARGIN, 0.0)
        box.setTop(box.bottom() - LINE_HEIGHT)
        metrics = QFontMetricsF(painter.font())
        fitting = metrics.elidedText(self.line(), Qt.TextElideMode.ElideRight, box.width())
        painter.drawText(box, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, fitting)

    # -- pointing ------------------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        layout = self.laid_out
        if layout is None or event.button() != Qt.MouseButton.LeftButton:
            super().mousePressEvent(event)
        elif layout.overview is not None and layout.overview.contains(event.position()):
            self.show_from(layout.overview_row(event.position().y()))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        layout = self.laid_out
        dragged = event.buttons() & Qt.MouseButton.LeftButton
        overview = None if layout is None else layout.overview
        if (
            layout is not None
            and overview is not None
            and dragged
            and event.position().x() >= overview.left()
        ):
            self.show_from(layout.overview_row(event.position().y()))
        self._at = event.position()
        self.update()

    def leaveEvent(self, event: QEvent) -> None:
        self._at = None
        self.update()
        super().leaveEvent(event)
