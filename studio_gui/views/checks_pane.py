"""The checks: what is found, why it matters, and the ways out as buttons.

The rule of this module: a check keeps its row for as long as it is found, so that nothing under the pointer
or the keyboard turns into something else while a boundary is dragged. A mend is one click and one undo step.
What is shown, and in which order, is said by `studio_gui.views.check_list`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable
from itertools import pairwise

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.checks.check import SEVERITIES, Mend, Severity
from studio_gui.domain.plan import Plan
from studio_gui.views.check_groups import GroupHeading, MoreLikeIt
from studio_gui.views.check_list import Alike, Entry, Heading, More, One, listed
from studio_gui.views.check_row import CheckRow
from studio_gui.views.labels import TonedLabel
from studio_gui.views.live import LiveWidget
from studio_gui.wording.sentences import mend_label

MOST_SHOWN = 50

Item = CheckRow | GroupHeading | MoreLikeIt


class ChecksPane(LiveWidget):
    """All checks, the most serious first."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._items: dict[Hashable, Item] = {}
        self._order: list[Hashable] = []
        self._closed: set[Severity] = set()
        self._opened: set[Alike] = set()
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
        self._list.setMinimumWidth(1)  # that of the pane: else the widest button pushes words out of sight
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
        self._keep_up(document, self._show, turn=0)
        self._retranslate()

    @property
    def items(self) -> list[Item]:
        """All that is shown, from top to bottom."""
        return [self._items[key] for key in self._order]

    @property
    def rows(self) -> list[CheckRow]:
        """The checks that are shown, from top to bottom."""
        return [item for item in self.items if isinstance(item, CheckRow)]

    def sizeHint(self) -> QSize:
        return QSize(320, 280)

    def _retranslate(self) -> None:
        self._forget()
        self._list.setAccessibleName(self.tr("Checks"))
        self._show()

    def _show(self) -> None:
        sheet = self._document.sheet
        self._forget_old_names(sheet.plan)
        self._show_summary(Counter(check.severity for check in sheet.checks))
        entries, left = listed(sheet.checks, self._closed, self._opened, MOST_SHOWN)
        self._take_away(set(self._items) - {entry.key for entry in entries})
        for place, entry in enumerate(entries):
            item = self._shown_item(entry, sheet.plan)
            if self._column.indexOf(item) != place:
                self._column.removeWidget(item)
                self._column.insertWidget(place, item)
        self._order = [entry.key for entry in entries]
        self._order_tabs()
        self.more.setVisible(left > 0)
        self.more.show_text(self.tr("And {0} more. Mend some of these to see them.").format(left))

    def _shown_item(self, entry: Entry, plan: Plan) -> Item:
        """Return what stands for an entry, showing what the entry says now."""
        item = self._items.get(entry.key) or self._items.setdefault(entry.key, self._made(entry))
        match entry, item:
            case Heading(), GroupHeading():
                item.show_count(entry.count, opened=entry.is_open)
            case More(), MoreLikeIt():
                item.show_checks(entry.checks, opened=entry.is_open)
            case One(), CheckRow():
                item.show_check(entry.check, plan)
        return item

    def _made(self, entry: Entry) -> Item:
        if isinstance(entry, Heading):
            return GroupHeading(entry.severity, self._toggle_group)
        if isinstance(entry, More):
            alike = entry.alike
            return MoreLikeIt(self._document, lambda: self._toggle_alike(alike))
        return CheckRow(entry.check, self._document, self._step_name)

    def _toggle_group(self, severity: Severity) -> None:
        self._closed ^= {severity}
        self._show()

    def _toggle_alike(self, alike: Alike) -> None:
        self._opened ^= {alike}
        self._show()

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
            self._forget()

    def _forget(self) -> None:
        for row in self.rows:
            row.forget()

    def _take_away(self, keys: set[Hashable]) -> None:
        held = [place for place, item in enumerate(self.items) if _has_focus(item)]
        if held and self._order[held[0]] in keys:  # a mended check keeps the keyboard in the list
            below, above = self._order[held[0] :], self._order[held[0] :: -1]
            nearest = next((self._items[key] for key in (*below, *above) if key not in keys), self)
            nearest.setFocus()
        for key in keys:
            item = self._items.pop(key)
            self._column.removeWidget(item)
            item.hide()
            item.deleteLater()
        self._order = [key for key in self._order if key not in keys]

    def _order_tabs(self) -> None:
        """Let Tab go from a heading to its checks, from a check to its mends and on to the next check."""
        stops = [stop for item in self.items for stop in item.stops]
        if stops != self._stops:
            self._stops = stops
            for before, after in pairwise(stops):
                QWidget.setTabOrder(before, after)

    def _step_name(self, mend: Mend) -> str:
        return mend_label(mend, self._document.plan)


def _has_focus(item: QWidget) -> bool:
    """Whether the keyboard is at an entry or at one of its buttons."""
    focused = QApplication.focusWidget()
    return focused is not None and (focused is item or item.isAncestorOf(focused))
