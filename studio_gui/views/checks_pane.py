"""The checks: what is found, why it matters, and the ways out as buttons.

The rule of this module: a check keeps its row for as long as it is found, so that nothing under the pointer
or the keyboard turns into something else while a boundary is dragged. A mend is one click and one undo step.
"""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import (
    QFrame,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.checks.check import SEVERITIES, Check, Mend, Severity
from studio_gui.domain.plan import Plan
from studio_gui.views.check_row import CheckRow
from studio_gui.views.labels import TonedLabel
from studio_gui.views.live import LiveWidget
from studio_gui.wording.sentences import mend_label

MOST_SHOWN = 50

#: What makes a check the same one from worksheet to worksheet: its code, and whom it speaks of.
Key = tuple[str, tuple[str, ...], object, object]


class ChecksPane(LiveWidget):
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
