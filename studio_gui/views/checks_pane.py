"""The checks: what is found, why it matters, and the ways out as buttons.

The rule of this module: a check keeps its row for as long as it is found, so that nothing under the pointer
or the keyboard turns into something else while a boundary is dragged. A mend is one click and one undo step.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from itertools import pairwise

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QStyle,
    QStyleOptionFocusRect,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.checks.check import SEVERITIES, Check, Mend, Severity
from studio_gui.domain.edits.mends import apply_mend
from studio_gui.domain.plan import Plan
from studio_gui.drawing.look import look_for
from studio_gui.drawing.marks import paint_severity
from studio_gui.views.fields import edit_and_say
from studio_gui.views.flow import FlowLayout
from studio_gui.views.labels import MessageLabel, TonedLabel
from studio_gui.wording.sentences import check_reason, check_title, mend_cost, mend_label

MOST_SHOWN = 50

#: What makes a check the same one from worksheet to worksheet: its code, and whom it speaks of.
Key = tuple[str, tuple[str, ...], object, object]


class SeverityLabel(QWidget):
    """The mark of how serious a check is."""

    def __init__(self, severity: Severity, side: int = 16, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.severity = severity
        self.setFixedSize(side, side)

    def show_severity(self, severity: Severity) -> None:
        """Show the mark of `severity`."""
        if severity != self.severity:
            self.severity = severity
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            paint_severity(painter, QRectF(self.rect()), self.severity, look_for(self.palette()))
        finally:
            painter.end()


class CheckRow(QFrame):
    """One check. Clicked, or with Enter or Space, it selects its sections."""

    def __init__(self, check: Check, document: OpenPlan, name_mend: Callable[[Mend], str]) -> None:
        super().__init__()
        self._mark = SeverityLabel(check.severity)
        self._document = document
        self._name_mend = name_mend
        self._check: Check | None = None
        self._buttons: dict[str, QPushButton] = {}
        self._advice: dict[str, TonedLabel] = {}
        self.title = TonedLabel("text")
        self.reason = TonedLabel("secondary")
        self.message = MessageLabel()
        for label in (self.title, self.reason):
            label.setWordWrap(True)
        self.title.setFont(_bold(self.font()))
        self._mends = FlowLayout()
        words = QVBoxLayout()
        words.setSpacing(2)
        words.addWidget(self.title)
        words.addWidget(self.reason)
        words.addLayout(self._mends)
        words.addWidget(self.message)
        row = QHBoxLayout(self)
        row.setContentsMargins(8, 8, 8, 9)
        row.setSpacing(8)
        row.addWidget(self._mark, 0, Qt.AlignmentFlag.AlignTop)
        row.addLayout(words, 1)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    @property
    def severity(self) -> Severity:
        """How serious the check is."""
        return self._mark.severity

    @property
    def buttons(self) -> list[QPushButton]:
        """The mends that one click applies."""
        return list(self._buttons.values())

    @property
    def advice(self) -> list[TonedLabel]:
        """The mends that only the bench can do."""
        return list(self._advice.values())

    def show_check(self, check: Check, plan: Plan) -> None:
        """Show a check; nothing is done when it is shown already."""
        if check == self._check:
            return
        self._check = check
        self.message.say("")
        self._mark.show_severity(check.severity)
        self.title.show_text(check_title(check, plan))
        self.reason.show_text(check_reason(check, plan))
        self.setAccessibleName(f"{self.title.text()}. {self.reason.text()}")
        self._show_mends(check.mends, plan)

    def forget(self) -> None:
        """Say everything anew at the next check, because the language changed or a name did."""
        self._check = None

    def mousePressEvent(self, event: QMouseEvent) -> None:
        super().mousePressEvent(event)
        if event.button() == Qt.MouseButton.LeftButton:
            self._select_sections()
            event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self._select_sections()
            event.accept()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        try:
            painter.setPen(self.palette().color(QPalette.ColorRole.Midlight))
            painter.drawLine(self.rect().bottomLeft(), self.rect().bottomRight())
            if not self.hasFocus():
                return
            option = QStyleOptionFocusRect()
            option.initFrom(self)
            option.rect = self.rect().adjusted(2, 2, -2, -2)
            option.backgroundColor = self.palette().color(QPalette.ColorRole.Base)
            self.style().drawPrimitive(QStyle.PrimitiveElement.PE_FrameFocusRect, option, painter, self)
        finally:
            painter.end()

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.FontChange:
            self.title.setFont(_bold(self.font()))
        super().changeEvent(event)

    def _select_sections(self) -> None:
        if self._check is not None and self._check.section_ids:
            self._document.select(*self._check.section_ids)

    def _show_mends(self, mends: tuple[Mend, ...], plan: Plan) -> None:
        wanted = {mend.code: mend for mend in mends}
        for code in [*self._buttons, *self._advice]:
            mend = wanted.get(code)
            kept = self._buttons if code in self._buttons else self._advice
            if mend is None or mend.one_click != (kept is self._buttons):
                self._mends.removeWidget(kept[code])
                kept.pop(code).deleteLater()
        for mend in mends:
            label, cost = mend_label(mend, plan), mend_cost(mend, plan)
            if mend.one_click:
                self._show_button(mend, label, cost)
            else:
                self._advice_for(mend).show_text(f"{label}: {cost}.")

    def _show_button(self, mend: Mend, label: str, cost: str) -> None:
        button = self._buttons.get(mend.code)
        if button is None:
            button = QPushButton()
            button.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
            button.setCursor(Qt.CursorShape.ArrowCursor)
            button.clicked.connect(lambda _=False, code=mend.code: self._mend(code))
            self._buttons[mend.code] = button
            self._mends.addWidget(button)
        if button.text() != label:
            button.setText(label)
        button.setToolTip(cost)
        button.setAccessibleDescription(cost)

    def _advice_for(self, mend: Mend) -> TonedLabel:
        label = self._advice.get(mend.code)
        if label is None:
            label = TonedLabel("secondary")
            label.setWordWrap(True)
            self._advice[mend.code] = label
            self._mends.addWidget(label)
        return label

    def _mend(self, code: str) -> None:
        if self._check is not None:
            mend = next(mend for mend in self._check.mends if mend.code == code)
            name = self._name_mend(mend)
            edit_and_say(self._document, name, lambda plan: apply_mend(plan, mend), self.message.say)


class ChecksPane(QWidget):
    """All checks, the most serious first."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._rows: dict[Key, CheckRow] = {}
        self._order: list[Key] = []
        self._stops: list[QWidget] = []
        self._names: object = None
        self.summary = TonedLabel("text")
        self.summary.setContentsMargins(8, 4, 8, 4)
        self.more = TonedLabel("secondary")
        self.more.setContentsMargins(8, 8, 8, 8)
        self.more.setWordWrap(True)
        self._list = QWidget()
        self._list.setBackgroundRole(QPalette.ColorRole.Base)
        self._list.setAutoFillBackground(True)
        self._column = QVBoxLayout(self._list)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self._column.addWidget(self.more)
        self._column.addStretch(1)
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setWidget(self._list)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.summary)
        column.addWidget(self._scroll, 1)
        document.shown.connect(self._show)
        self._retranslate()

    @property
    def rows(self) -> list[CheckRow]:
        """The checks that are shown, from top to bottom."""
        return [self._rows[key] for key in self._order]

    def sizeHint(self) -> QSize:
        return QSize(320, 280)

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
        super().changeEvent(event)

    def _retranslate(self) -> None:
        for row in self._rows.values():
            row.forget()
        self._list.setAccessibleName(self.tr("Checks"))
        self._show()

    def _show(self) -> None:
        sheet = self._document.sheet
        self._forget_old_names(sheet.plan)
        checks = sheet.checks
        counts = Counter(check.severity for check in checks)
        self._show_summary(counts)
        shown = {_key(check): check for check in checks[:MOST_SHOWN]}
        self._take_away(set(self._rows) - set(shown))
        for place, (key, check) in enumerate(shown.items()):
            row = self._rows.get(key)
            if row is None:
                row = self._rows[key] = CheckRow(check, self._document, self._step_name)
            row.show_check(check, sheet.plan)
            if self._column.indexOf(row) != place:
                self._column.removeWidget(row)
                self._column.insertWidget(place, row)
        self._order = list(shown)
        self._order_tabs()
        left = len(checks) - len(shown)
        self.more.setVisible(left > 0)
        self.more.show_text(self.tr("And {0} more. Mend some of these to see them.").format(left))

    def _show_summary(self, counts: Counter[Severity]) -> None:
        words = {
            "error": self.tr("Errors: {0}"),
            "warning": self.tr("Warnings: {0}"),
            "note": self.tr("Notes: {0}"),
        }
        said = [words[severity].format(counts[severity]) for severity in SEVERITIES if counts[severity]]
        self.summary.show_text(" · ".join(said) or self.tr("Nothing to mend."))

    def _forget_old_names(self, plan: Plan) -> None:
        """Have all rows say their names anew when a section, liquor or stock was renamed."""
        names = (
            [(one.name, one.liquor_id) for one in plan.sections],
            [(one.letter, one.name) for one in plan.liquors],
            [one.name for one in plan.stocks],
        )
        if names != self._names:
            self._names = names
            for row in self._rows.values():
                row.forget()

    def _take_away(self, keys: set[Key]) -> None:
        for key in keys:
            row = self._rows.pop(key)
            self._column.removeWidget(row)
            row.hide()
            row.deleteLater()

    def _order_tabs(self) -> None:
        """Let Tab go from a check to its mends and on to the next check."""
        stops: list[QWidget] = [stop for row in self.rows for stop in (row, *row.buttons)]
        if stops != self._stops:
            self._stops = stops
            for before, after in pairwise(stops):
                QWidget.setTabOrder(before, after)

    def _step_name(self, mend: Mend) -> str:
        return mend_label(mend, self._document.plan)


def _key(check: Check) -> Key:
    return (check.code, check.section_ids, check.params.get("stock_id"), check.params.get("liquor_id"))


def _bold(font: QFont) -> QFont:
    bold = QFont(font)
    bold.setBold(True)
    return bold
