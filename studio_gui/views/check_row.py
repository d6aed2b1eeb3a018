"""One check of the list: its mark, what is found and why it matters, and its mends.

The rule of this module: a row stays what it is while its figures move; a button keeps its mend.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QRectF, Qt
from PySide6.QtGui import QFont, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QPushButton,
    QSizePolicy,
    QStyle,
    QStyleOptionFocusRect,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.checks.check import Check, Mend, Severity
from studio_gui.domain.edits.mends import apply_mend
from studio_gui.domain.plan import Plan
from studio_gui.drawing.look import look_for
from studio_gui.drawing.marks import paint_severity
from studio_gui.views.fields import edit_and_say
from studio_gui.views.flow import FlowLayout
from studio_gui.views.labels import MessageLabel, TonedLabel, explain, paint_line_below
from studio_gui.wording.quantities import unbroken
from studio_gui.wording.sentences import check_reason, check_title, mend_cost, mend_label


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
        self._parts: list[QPushButton | TonedLabel] = []
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
        return [part for part in self._parts if isinstance(part, QPushButton)]

    @property
    def stops(self) -> list[QWidget]:
        """What Tab stops at, in order."""
        return [self, *self.buttons]

    @property
    def advice(self) -> list[TonedLabel]:
        """The mends that only the bench can do."""
        return [part for part in self._parts if isinstance(part, TonedLabel)]

    def show_check(self, check: Check, plan: Plan) -> None:
        """Show a check; nothing is done when it is shown already."""
        if check == self._check:
            return
        self._check = check
        self.message.say("")
        self._mark.show_severity(check.severity)
        title, reason = check_title(check, plan), check_reason(check, plan)
        self.title.show_text(unbroken(title))
        self.reason.show_text(unbroken(reason))
        self.setAccessibleName(f"{title}. {reason}")
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
        paint_line_below(self)
        if not self.hasFocus():
            return
        painter = QPainter(self)
        try:
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
                if kept[code].hasFocus():
                    self.setFocus()  # Qt would hand the keyboard to anything
                self._mends.removeWidget(kept[code])
                kept.pop(code).deleteLater()
        for mend in mends:
            label, cost = mend_label(mend, plan), mend_cost(mend, plan)
            if mend.one_click:
                self._show_button(mend, label, cost)
            else:
                self._advice_for(mend).show_text(unbroken(f"{label}: {cost}."))
        parts = [self._buttons.get(mend.code) or self._advice[mend.code] for mend in mends]
        if parts != self._parts:
            self._parts = parts
            for part in parts:  # a mend that came later stands where it belongs
                self._mends.removeWidget(part)
                self._mends.addWidget(part)

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
        explain(button, cost)
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


def _bold(font: QFont) -> QFont:
    bold = QFont(font)
    bold.setBold(True)
    return bold
