"""Saved ladders: one to begin with, and what stands now saved for another day.

The rule of this module: the ladder that is chosen is the one that stands in the form to the letter; once
something is typed over it, none is.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QInputDialog, QPushButton, QVBoxLayout, QWidget

from studio_gui.document.ladder_shelf import LadderShelf
from studio_gui.domain.errors import RovingLayError
from studio_gui.storage.ladder_templates import LadderTemplate
from studio_gui.views.choices import ChoiceField
from studio_gui.views.labels import MessageLabel, call
from studio_gui.views.live import LiveWidget
from studio_gui.views.questions import Button, ask
from studio_gui.wording.naming import one_line
from studio_gui.wording.sentences import refusal


class TemplateBar(LiveWidget):
    """A list of ladders with Save, Rename and Remove.

    Signals
    -------
    chosen
        A ladder was chosen; carries the `LadderTemplate`.
    """

    chosen = Signal(LadderTemplate)

    def __init__(self, shelf: LadderShelf, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shelf = shelf
        self._standing: LadderTemplate | None = None
        self.list = ChoiceField()
        self.list.chosen.connect(self._choose)
        self.save, self.rename, self.remove = QPushButton(), QPushButton(), QPushButton()
        self.save.clicked.connect(self._save)
        self.rename.clicked.connect(self._rename)
        self.remove.clicked.connect(self._remove)
        self.message = MessageLabel()
        row = QHBoxLayout()
        row.setSpacing(6)
        row.addWidget(self.list, 1)
        for button in (self.save, self.rename, self.remove):
            button.setAutoDefault(False)
            row.addWidget(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addLayout(row)
        column.addWidget(self.message)
        shelf.changed.connect(self._show)
        self._retranslate()

    def stand_on(self, ladder: LadderTemplate | None) -> None:
        """Take note of what stands in the form, under whatever name; None for nothing that could be saved."""
        if ladder != self._standing:
            self._standing = ladder
            self._show()

    def _retranslate(self) -> None:
        self.list.setPlaceholderText(self.tr("Choose a ladder…"))
        call(self.list, self.tr("Saved ladders"))
        self.save.setText(self.tr("Save…"))
        self.save.setToolTip(self.tr("Save this line and its options under a name, to use with any stocks"))
        self.rename.setText(self.tr("Rename…"))
        self.remove.setText(self.tr("Remove"))
        self._show()

    def _show(self) -> None:
        ladders = [*self._shelf.own(), *self._shelf.saved]
        standing = self._standing
        same = (
            one for one in ladders if standing is not None and replace(one, name=standing.name) == standing
        )
        current = next(same, None)
        self.list.set_choices([(one_line(one.name), one) for one in ladders], current)
        self.save.setEnabled(standing is not None and current is None)
        is_saved = current in self._shelf.saved
        self.rename.setEnabled(is_saved)
        self.remove.setEnabled(is_saved)
        problem = self._shelf.problem
        self.message.say("" if problem is None else self._damaged(refusal(problem)))

    def _damaged(self, reason: str) -> str:
        return self.tr(
            "Saved ladders could not be read. {0} The file stays as it is; before another ladder is saved it"
            " is set aside under another name."
        ).format(reason)

    def _choose(self, ladder: object) -> None:
        if isinstance(ladder, LadderTemplate):
            self.chosen.emit(ladder)

    def _save(self) -> None:
        standing = self._standing
        name = self._ask(self.tr("Save the ladder"), "")
        if name and standing is not None:
            self._try(lambda: self._shelf.save(replace(standing, name=name)))

    def _rename(self) -> None:
        old = self._current_name()
        name = self._ask(self.tr("Rename the ladder"), old)
        if name and name != old:
            self._try(lambda: self._shelf.rename(old, name))

    def _remove(self) -> None:
        name = self._current_name()
        answer = ask(
            self,
            self.tr("Remove the ladder"),
            self.tr("Remove “{0}” from the saved ladders? This cannot be undone.").format(one_line(name)),
            Button.Yes | Button.Cancel,
            Button.Cancel,
            yes=self.tr("&Remove"),
        )
        if answer == Button.Yes:
            self._try(lambda: self._shelf.remove(name))

    def _current_name(self) -> str:
        place = self.list.currentIndex() - len(self._shelf.own())
        return self._shelf.saved[place].name

    def _ask(self, title: str, text: str) -> str:
        name, _ = QInputDialog.getText(self, title, self.tr("Name"), text=text)
        return name.strip()

    def _try(self, change: Callable[[], None]) -> None:
        try:
            change()
        except RovingLayError as problem:
            self._show()
            self.message.say(refusal(problem))
