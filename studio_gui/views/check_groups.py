"""What stands between the checks of the list: headings of seriousness, and findings that are like another.

The rule of this module: both say how many there are and open by a click or a key; nothing is left out without
being counted.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QFont, QPaintEvent
from PySide6.QtWidgets import QPushButton, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.checks.check import Check, Mend, Severity
from studio_gui.domain.edits.mends import apply_mends, mends_for_all
from studio_gui.drawing.lay_layout import TARGET
from studio_gui.views.fields import edit_and_say
from studio_gui.views.flow import FlowLayout
from studio_gui.views.labels import MessageLabel, paint_line_below
from studio_gui.wording.sentences import mend_all_label


class Folder(QToolButton):
    """A line of text with an arrow, which opens and closes what stands below it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setCheckable(True)
        self.setAutoRaise(True)
        self.setMinimumHeight(round(TARGET))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.toggled.connect(self._point)
        self._point(opened=False)

    def show_state(self, words: str, *, opened: bool) -> None:
        """Show what is in it, and whether it is open."""
        if words != self.text():
            self.setText(words)
        if opened != self.isChecked():
            self.setChecked(opened)

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._point(opened=self.isChecked())
        super().changeEvent(event)

    def _point(self, opened: bool) -> None:
        self.setArrowType(Qt.ArrowType.DownArrow if opened else Qt.ArrowType.RightArrow)
        self.setAccessibleDescription(self.tr("open") if opened else self.tr("closed"))


class GroupHeading(Folder):
    """How many findings of one seriousness there are."""

    def __init__(self, severity: Severity, toggle: Callable[[Severity], None]) -> None:
        super().__init__()
        self.severity = severity
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        font = QFont(self.font())
        font.setBold(True)
        self.setFont(font)
        self.clicked.connect(lambda _checked: toggle(severity))

    @property
    def stops(self) -> list[QWidget]:
        """What Tab stops at, in order."""
        return [self]

    def show_count(self, count: int, *, opened: bool) -> None:
        """Show how many there are, and whether they are shown."""
        words = {
            "error": self.tr("Errors: {0}"),
            "warning": self.tr("Warnings: {0}"),
            "note": self.tr("Notes: {0}"),
        }
        self.show_state(words[self.severity].format(count), opened=opened)


class MoreLikeIt(QWidget):
    """How many more findings there are like the one above, and the mends that can be done for all of them."""

    def __init__(self, document: OpenPlan, toggle: Callable[[], None]) -> None:
        super().__init__()
        self._document = document
        self._ways: dict[str, tuple[Mend, ...]] = {}
        self._buttons: dict[str, QPushButton] = {}
        self.folder = Folder()
        self.folder.clicked.connect(lambda _checked: toggle())
        self.message = MessageLabel()
        self._flow = FlowLayout()
        self._flow.addWidget(self.folder)
        column = QVBoxLayout(self)
        column.setContentsMargins(26, 2, 8, 6)
        column.addLayout(self._flow)
        column.addWidget(self.message)

    @property
    def buttons(self) -> list[QPushButton]:
        """The mends that one click applies to all."""
        return list(self._buttons.values())

    @property
    def stops(self) -> list[QWidget]:
        """What Tab stops at, in order."""
        return [self.folder, *self.buttons]

    def show_checks(self, checks: Sequence[Check], *, opened: bool) -> None:
        """Show how many more `checks` there are than the first, and the ways to mend all of them."""
        self.folder.show_state(self.tr("and {0} more like it").format(len(checks) - 1), opened=opened)
        self._ways = {way[0].code: way for way in mends_for_all(checks)}
        for code in set(self._buttons) - set(self._ways):
            button = self._buttons.pop(code)
            self._flow.removeWidget(button)
            button.deleteLater()
        for code, way in self._ways.items():
            self._show_button(code, mend_all_label(way))

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        paint_line_below(self)

    def _show_button(self, code: str, label: str) -> None:
        button = self._buttons.get(code)
        if button is None:
            button = self._buttons[code] = QPushButton()
            button.clicked.connect(lambda _checked: self._mend(code))
            self._flow.addWidget(button)
        if label != button.text():
            button.setText(label)

    def _mend(self, code: str) -> None:
        way = self._ways[code]
        edit_and_say(
            self._document, mend_all_label(way), lambda plan: apply_mends(plan, way), self.message.say
        )
