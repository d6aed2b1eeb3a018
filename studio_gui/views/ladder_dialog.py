"""Ladder and crossfade: a run of sections made anew in steps.

The rule of this module: what stands in the dialog is previewed in it and on the lay, and becomes one undo
step or nothing.
"""

from __future__ import annotations

import re
from typing import Protocol

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.ladder_shelf import LadderShelf
from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.errors import RovingLayError
from studio_gui.views.crossfade_form import CrossfadeForm
from studio_gui.views.fields import EntryField, edit_and_say
from studio_gui.views.labels import MessageLabel, ShortenedLabel, call
from studio_gui.views.ladder_form import LadderForm
from studio_gui.views.live import LiveDialog
from studio_gui.views.step_strip import StepStrip
from studio_gui.wording.naming import section_name
from studio_gui.wording.quantities import LAY_LENGTH, MASS, shown_briefly
from studio_gui.wording.sentences import refusal


class _Form(Protocol):
    """What both pages of the dialog can tell."""

    @property
    def is_blank(self) -> bool:
        """Whether there is nothing to lay yet."""

    def edit(self, first: int, last: int, name: str) -> Edit:
        """Return the edit that lays it."""

    def step_name(self) -> str:
        """Return the name of the undo step."""


class LadderDialog(LiveDialog):
    """Asks how sections `first` to `last` are to be laid anew."""

    def __init__(
        self,
        document: OpenPlan,
        first: int,
        last: int,
        shelf: LadderShelf | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._document, self._first, self._last = document, first, last
        self.ladder = LadderForm(document.plan, first, shelf or LadderShelf(parent=self))
        self.crossfade = CrossfadeForm(document.plan, first, last)
        self._forms: tuple[_Form, ...] = (self.ladder, self.crossfade)
        self.place = ShortenedLabel("secondary")
        self.tabs = QTabWidget()
        self.tabs.addTab(self.ladder, "")
        self.tabs.addTab(self.crossfade, "")
        self.called = QLineEdit(_without_number(document.plan.sections[first].name))
        self.called_name = QLabel()
        self.called_name.setBuddy(self.called)
        self.strip = StepStrip()
        self.message = MessageLabel()
        self.make = QPushButton()
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        buttons.button(QDialogButtonBox.StandardButton.Cancel).setAutoDefault(False)
        buttons.addButton(self.make, QDialogButtonBox.ButtonRole.AcceptRole)
        self._buttons = buttons
        self._lay_out()
        self.ladder.changed.connect(self._refresh)
        self.crossfade.changed.connect(self._refresh)
        self.tabs.currentChanged.connect(self._refresh)
        self.called.textChanged.connect(self._refresh)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        self.finished.connect(document.cancel_preview)
        self._retranslate()
        self.ladder.line.setFocus()

    # -- putting together ----------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        called = QFormLayout()
        called.setContentsMargins(10, 0, 10, 0)  # under the fields of the pages, which have a frame
        called.setHorizontalSpacing(12)
        called.addRow(self.called_name, self.called)
        column = QVBoxLayout(self)
        column.setSpacing(8)
        column.addWidget(self.place)
        column.addWidget(self.tabs)
        column.addLayout(called)
        column.addWidget(self.strip)
        column.addWidget(self.message)
        column.addStretch(1)
        column.addWidget(self._buttons)
        self.resize(680, 0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.accept()  # from the line too, where Enter alone begins the next step
            return
        if enter and isinstance(self.focusWidget(), EntryField):
            return  # it took the value that was typed; what comes of it is to be seen first
        super().keyPressEvent(event)

    def _retranslate(self) -> None:
        self.setWindowTitle(self.tr("Ladder or crossfade"))
        self.tabs.setTabText(0, self.tr("&Ladder"))
        self.tabs.setTabText(1, self.tr("Cross&fade"))
        self.called_name.setText(self.tr("&Name"))
        call(self.called, self.tr("Name of the steps"))
        labels = (*self.ladder.names, *self.crossfade.names)
        self.called_name.setMinimumWidth(max(label.sizeHint().width() for label in labels))
        self.called.setToolTip(self.tr("Sections and liquors are called so, with a number behind"))
        self.make.setText(self.tr("&Make the sections"))
        self.make.setToolTip(self.tr("From any field: Ctrl+Enter"))
        call(self.strip, self.tr("Steps as they will be"))
        self.place.show_text(self._place_words())
        self._refresh()

    def _place_words(self) -> str:
        plan, figures = self._document.plan, self._document.sheet.figures
        ids = [section.id for section in plan.sections[self._first : self._last + 1]]
        size = " · ".join(
            (
                shown_briefly(
                    LAY_LENGTH, float(figures.edges_m[self._last + 1] - figures.edges_m[self._first])
                ),
                shown_briefly(MASS, float(figures.fibre_g[self._first : self._last + 1].sum())),
            )
        )
        if len(ids) == 1:
            return self.tr("In place of {0}: {1}").format(section_name(plan, ids[0]), size)
        ends = (section_name(plan, ids[0]), section_name(plan, ids[-1]))
        return self.tr("In place of {0} to {1}, {2} sections: {3}").format(*ends, len(ids), size)

    # -- showing -------------------------------------------------------------------------------------------

    @property
    def _form(self) -> _Form:
        return self._forms[self.tabs.currentIndex()]

    def _edit(self) -> Edit:
        return self._form.edit(self._first, self._last, self.called.text().strip())

    def _refresh(self) -> None:
        plan, words, hint = self._document.plan, "", ""
        try:
            if self._form.is_blank:
                hint = self.tr("Type steps, or choose a ladder; they show here.")
            else:
                self._document.preview(self._edit()(plan))
        except RovingLayError as problem:
            words = refusal(problem, plan)
        self.message.say(words)
        if words or hint:
            self._document.cancel_preview()
            self.strip.clear(hint)
        else:
            self.strip.show_steps(self._document.sheet, self._first, self._new_last())
        self.make.setEnabled(not (words or hint))
        self.make.setDefault(True)  # which Qt takes from a button while it is disabled

    def _new_last(self) -> int:
        """Return the index of the run's last section in the plan that is shown."""
        return self._last + len(self._document.sheet.plan.sections) - len(self._document.plan.sections)

    # -- ending --------------------------------------------------------------------------------------------

    def accept(self) -> None:
        """Lay what stands in the dialog as one undo step, and select it."""
        if self._form.is_blank:
            return
        before = len(self._document.plan.sections)
        try:
            edit = self._edit()
        except RovingLayError as problem:
            self.message.say(refusal(problem, self._document.plan))
            return
        if not edit_and_say(self._document, self._form.step_name(), edit, self.message.say):
            return
        sections = self._document.plan.sections
        last = self._last + len(sections) - before
        self._document.select(*(section.id for section in sections[self._first : last + 1]))
        super().accept()


def _without_number(name: str) -> str:
    """Return "Tide" for "Tide 3": the steps get numbers of their own."""
    return re.sub(r"(?<=\S)\s+\d+$", "", name)
