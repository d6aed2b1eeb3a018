"""Strip and yarn: the roving unrolled, the yarn it becomes, and the map of what is solid in it.

The rule of this module: it only shows and points. What is under the pointer is told as a section, so that the
lay lights it too; looking closer or further along changes no plan.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QPointF, QSize, QSizeF, Qt, Signal
from PySide6.QtGui import (
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QNativeGestureEvent,
    QPainter,
    QPaintEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.spinning.figures import YarnFigures
from studio_gui.drawing.lay_view import LayView
from studio_gui.drawing.look import look_for
from studio_gui.drawing.strip_and_yarn import (
    RowWords,
    YarnWords,
    paint_line,
    paint_lit,
    paint_row_words,
    paint_selected,
    paint_sight,
    paint_stretches,
    paint_strip_letters,
)
from studio_gui.drawing.yarn_layout import YarnLayout, yarn_layout
from studio_gui.views.live import LiveWidget
from studio_gui.views.uneven_spinning import UnevenSpinning
from studio_gui.views.yarn_spinning import YarnSpinning
from studio_gui.wording.naming import section_name
from studio_gui.wording.numbers import shown_number
from studio_gui.wording.quantities import ROVING_LENGTH, YARN_LENGTH, shown, shown_briefly
from studio_gui.wording.spinning import structure_name
from studio_gui.wording.yarn_words import run_words, solid_words, spins_line, yarn_length, yarn_line

WHEEL_STEP = 1.2
#: Px that an arrow key moves along.
ARROW_PX = 60.0


class YarnStrip(LiveWidget):
    """The strip of one roving, the yarn and its map.

    Signals
    -------
    pointed
        The index of the section under the pointer, -1 for none.
    looked
        The yarn is looked at in another way.
    """

    pointed = Signal(int)
    looked = Signal()

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.view = LayView()
        self._layout: YarnLayout | None = None
        self._lit = -1
        self._told = ""
        self._panned_from: QPointF | None = None
        self.uneven = UnevenSpinning(document)
        self.uneven.changed.connect(self._take_up)
        self.spinning = YarnSpinning(self)
        self.spinning.done.connect(self.update)
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(104)
        self._keep_up(document, self._take_up)
        document.selected.connect(self.update)
        self._retranslate()

    def sizeHint(self) -> QSize:
        return QSize(900, 184)

    @property
    def lay(self) -> YarnLayout:
        """The picture as it is laid out now."""
        sheet, spun, size = self.document.sheet, self._spun, QSizeF(self.size())
        layout = self._layout
        if (
            layout is None
            or (layout.sheet is not sheet or layout.spun is not spun)
            or (layout.size != size or layout.view != self.view)
        ):
            layout = self._layout = yarn_layout(sheet, size, self.view, spun)
            self.view = layout.view
        return layout

    @property
    def _spun(self) -> YarnFigures:
        """The yarn that is shown: as planned, or as it is likely to be spun."""
        spins = self.uneven.spins
        return self.document.sheet.yarn if spins is None else spins.typical

    @property
    def lit(self) -> int:
        """The section that is lit; -1 for none."""
        return self._lit

    def light(self, section: int) -> None:
        """Light a section wherever it comes; -1 for none."""
        if section != self._lit:
            self._lit = section
            self.update()

    def _take_up(self) -> None:
        self._tell()
        self.update()

    # -- words ---------------------------------------------------------------------------------------------

    def _retranslate(self) -> None:
        self.setAccessibleName(self.tr("Strip and yarn"))
        self._tell()
        self.update()

    def _tell(self) -> None:
        self._told = self._line()
        self.setAccessibleDescription(self._told)

    def _line(self) -> str:
        told = self._yarn_line()
        if self.view.is_fitted:
            return told
        layout = self.lay
        ends = (layout.plied_m(layout.yarn.left()), layout.plied_m(layout.yarn.right()), self._spun.plied_m)
        words = self.tr("In sight: {0} to {1} of {2}")
        return f"{words.format(*(shown_briefly(YARN_LENGTH, end) for end in ends))} · {told}"

    def _yarn_line(self) -> str:
        spins, yarn = self.uneven.spins, self.document.sheet.yarn
        if spins is not None:
            return spins_line(spins)
        plan = yarn.plan
        return yarn_line(yarn, structure_name(plan.yarn.structure, folded=plan.lay.passes > 1))

    def _words(self) -> YarnWords:
        sheet, spun = self.document.sheet, self._spun
        name = self.tr("Yarn") if self.uneven.spins is None else self.tr("As spun")
        return YarnWords(
            RowWords(self.tr("Strip"), shown(ROVING_LENGTH, sheet.plan.fibre.length_m)),
            RowWords(name, yarn_length(spun)),
            RowWords(self.tr("Map"), solid_words(spun)),
            self.tr("fold"),
            self._told,
        )

    # -- painting ------------------------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        layout, look = self.lay, look_for(self.palette())
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.fillRect(self.rect(), look.table)
            self.spinning.paint(painter, layout, self.devicePixelRatioF())
            words = self._words()
            paint_row_words(painter, layout, look, words)
            paint_strip_letters(painter, layout, look, words)
            paint_stretches(painter, layout, look)
            paint_line(painter, layout, look, words)
            paint_sight(painter, layout, look)
            chosen = set(self.document.selected_ids)
            sections = enumerate(self.document.sheet.plan.sections)
            paint_selected(
                painter, layout, look, frozenset(index for index, one in sections if one.id in chosen)
            )
            if 0 <= self._lit < len(self.document.sheet.plan.sections):
                paint_lit(painter, layout, look, self._lit)
        finally:
            painter.end()

    # -- looking -------------------------------------------------------------------------------------------

    def look_at(self, view: LayView) -> None:
        """Look at the yarn in another way, as far as there is yarn."""
        view = self.lay.pane.clamped(view)
        if view != self.view:
            self.view = view
            self._tell()
            self.update()
            self.looked.emit()

    def look_at_all(self) -> None:
        """Look at the whole yarn."""
        self.look_at(self.view.fitted())

    def zoom(self, factor: float, at_x: float | None = None) -> None:
        """Look `factor` times as close; the place at pixel column `at_x` (by default the middle) stays."""
        yarn = self.lay.yarn
        at_px = yarn.width() / 2.0 if at_x is None else min(max(at_x - yarn.left(), 0.0), yarn.width())
        self.look_at(self.lay.pane.zoomed(self.view, factor, at_px))

    def pan(self, by_px: float) -> None:
        """Look further along the yarn; with `by_px` below 0 back."""
        self.look_at(self.lay.pane.moved(self.view, by_px))

    def wheelEvent(self, event: QWheelEvent) -> None:
        turn = event.angleDelta()
        if abs(turn.x()) > abs(turn.y()) or event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self.pan(-(turn.x() or turn.y()) / 2.0)
        else:
            self.zoom(WHEEL_STEP ** (turn.y() / 120.0), event.position().x())
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        keys: dict[Qt.Key, Callable[[], None]] = {
            Qt.Key.Key_Plus: lambda: self.zoom(1.5),
            Qt.Key.Key_Minus: lambda: self.zoom(1.0 / 1.5),
            Qt.Key.Key_0: self.look_at_all,
            Qt.Key.Key_Left: lambda: self.pan(-ARROW_PX),
            Qt.Key.Key_Right: lambda: self.pan(ARROW_PX),
            Qt.Key.Key_Home: lambda: self.pan(-1e9),
            Qt.Key.Key_End: lambda: self.pan(1e9),
        }
        if not self.view.is_fitted:
            keys[Qt.Key.Key_Escape] = self.look_at_all
        act = keys.get(Qt.Key(event.key()))
        if act is None:
            super().keyPressEvent(event)
            return
        act()

    # -- pointing ------------------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() not in (Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton):
            super().mousePressEvent(event)
            return
        section = self.lay.section_at(event.position())
        if section is not None and event.button() == Qt.MouseButton.LeftButton:
            self.document.select(self.document.sheet.plan.sections[section].id)
        elif event.position().y() >= self.lay.yarn.top():
            self._panned_from = event.position()
            if not self.view.is_fitted:
                self.setCursor(Qt.CursorShape.ClosedHandCursor)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._panned_from is not None:
            self.pan(self._panned_from.x() - event.position().x())
            self._panned_from = event.position()
            return
        self._point_at(self.lay.section_at(event.position()))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._panned_from = None
        self.unsetCursor()
        super().mouseReleaseEvent(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if event.position().y() >= self.lay.yarn.top():
            self.look_at_all()

    def leaveEvent(self, event: QEvent) -> None:
        self._point_at(None)
        super().leaveEvent(event)

    def _point_at(self, section: int | None) -> None:
        index = -1 if section is None else section
        if index != self._lit:
            self.light(index)
            self.pointed.emit(index)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            words = self._told_at(QPointF(event.pos()))
            if words:
                QToolTip.showText(event.globalPos(), words, self)
            else:
                QToolTip.hideText()
                event.ignore()
            return True
        if (
            isinstance(event, QNativeGestureEvent)
            and event.gestureType() == Qt.NativeGestureType.ZoomNativeGesture
        ):
            self.zoom(1.0 + event.value(), event.position().x())
            return True
        return super().event(event)

    def _told_at(self, point: QPointF) -> str:
        layout, plan = self.lay, self.document.sheet.plan
        if layout.line.contains(point):
            return self._told  # a small pane cuts it
        section = layout.section_at(point)
        if section is not None:
            places = [run for run in layout.strip_runs if run.section_index == section]
            length = shown(ROVING_LENGTH, sum(run.end_m - run.start_m for run in places))
            name = section_name(plan, plan.sections[section].id)
            words = self.tr("{0}: {1} of each roving; places: {2}")
            return words.format(name, length, shown_number(len(places), 0))
        run = layout.run_at(point)
        return "" if run is None else run_words(plan, run)
