"""The commands about files of a window; new and open, and the questions that go with them.

The rule of this module: nothing unsaved is thrown away without a choice.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QFileDialog, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.domain.errors import FileProblem
from studio_gui.domain.new_plan import new_plan
from studio_gui.paths import samples_dir
from studio_gui.storage.locks import HELD
from studio_gui.storage.log import note
from studio_gui.views.export_commands import ExportCommands
from studio_gui.views.file_manners import CommandsOfFiles, complain, finish_typing, told_path
from studio_gui.views.questions import Button, ask, ask_about_holder
from studio_gui.views.recent_menu import RecentMenu
from studio_gui.views.save_commands import SaveCommands, plan_filter
from studio_gui.wording.naming import one_line


class FileCommands(CommandsOfFiles):
    """The file actions of a window."""

    def __init__(self, document: OpenPlan, preferences: Preferences, window: QWidget) -> None:
        super().__init__(document, preferences, window)
        saving = SaveCommands(document, preferences, window)
        exports = ExportCommands(document, preferences, window)
        for commands in (saving, exports):
            commands.said.connect(self.said)
        self.save = saving.save
        standard = QKeySequence.StandardKey
        self.new_action = self._action(self.new, standard.New)
        self.open_action = self._action(self.open, standard.Open)
        self.sample_action = self._action(self.open_sample)
        self.save_action = self._action(saving.save, standard.Save)
        self.save_as_action = self._action(saving.save_as, standard.SaveAs, "Ctrl+Shift+S")
        self.export_action = self._action(
            exports.export, fallback="Ctrl+Shift+E"
        )  # Ctrl+E is a text field's own
        self.print_action = self._action(exports.print_sheets, standard.Print, "Ctrl+P")
        self.recent_menu = RecentMenu(preferences, window)
        self.recent_menu.picked.connect(self.open_path)
        if document.path is not None:
            preferences.remember_file(document.path)
        self.retranslate()

    @property
    def actions(self) -> list[QAction]:
        """The actions in the order of the menu."""
        return [
            self.new_action,
            self.open_action,
            self.sample_action,
            self.save_action,
            self.save_as_action,
            self.export_action,
            self.print_action,
        ]

    def retranslate(self) -> None:
        """Put the actions into the language of the program."""
        self.new_action.setText(self.tr("&New"))
        self.open_action.setText(self.tr("&Open…"))
        self.recent_menu.retranslate()
        self.sample_action.setText(self.tr("Open a sa&mple…"))
        self.save_action.setText(self.tr("&Save"))
        self.save_as_action.setText(self.tr("Save &as…"))
        self.export_action.setText(self.tr("&Export…"))
        self.print_action.setText(self.tr("&Print…"))

    def new(self) -> None:
        """Start a new plan."""
        if self.may_discard():
            self._document.replace(new_plan())
            self.said.emit(self.tr("A new plan"))

    def open(self) -> None:
        """Ask for a plan's file and open it."""
        self._ask_and_open(self._preferences.folder)

    def open_sample(self) -> None:
        """Ask for one of the sample plans and open it."""
        self._ask_and_open(samples_dir())

    def open_path(self, path: Path) -> None:
        """Open a plan's file, after asking about unsaved changes; a bad file is one dialog and no change."""
        if self.may_discard():
            self._open(path)

    def _open(self, path: Path, *, take_over: bool = False) -> None:
        try:
            self._document.open_file(path, take_over=take_over)
        except FileProblem as problem:
            self.say_not_opened(path, problem)
            return
        self._preferences.remember_file(path)
        note("plan-opened", sections=len(self._document.plan.sections))
        self.said.emit(self.tr("Opened {0}").format(told_path(path)))

    def say_not_opened(self, path: Path, problem: FileProblem) -> None:
        """Say why a plan was not opened; where somebody else has it open, ask what to do."""
        if problem.code in HELD:
            self._open_held(path, problem)
            return
        if problem.code == "file-not-found":
            self._preferences.forget_recent(path)
        complain(self._window, self.tr("This file was not opened"), problem)

    def _open_held(self, path: Path, problem: FileProblem) -> None:
        """Ask what to do with a plan that somebody else has open, and do it."""
        from studio_gui.wording.sentences import refusal  # noqa: PLC0415  (the first paint does without it)

        answer = ask_about_holder(
            self._window, self.tr("This plan is open already"), refusal(problem), problem
        )
        if answer == "take-over":
            self._open(path, take_over=True)
        elif answer == "copy":
            try:
                self._document.open_copy(path)
            except FileProblem as unread:
                complain(self._window, self.tr("This file was not opened"), unread)
                return
            self.said.emit(self.tr("A copy of {0}, in no file yet").format(told_path(path)))

    def may_discard(self) -> bool:
        """Ask about unsaved changes; return whether the plan may be left."""
        finish_typing()
        if not self._document.is_modified:
            return True
        answer = ask(
            self._window,
            self.tr("Unsaved changes"),
            self.tr("Save the changes to “{0}” first?").format(
                one_line(self._document.plan.title) or self.tr("Untitled")
            ),
            Button.Save | Button.Discard | Button.Cancel,
            Button.Save,
        )
        if answer == Button.Save:
            return self.save()
        return answer == Button.Discard

    def _ask_and_open(self, folder: Path) -> None:
        name, _ = QFileDialog.getOpenFileName(self._window, self.tr("Open plan"), str(folder), plan_filter())
        if name:
            self.open_path(Path(name))

    def _action(
        self,
        slot: Callable[[], object],
        key: QKeySequence.StandardKey | None = None,
        fallback: str = "",
    ) -> QAction:
        action = QAction(self._window)
        keys = QKeySequence.keyBindings(key) if key is not None else []
        action.setShortcuts(keys or ([QKeySequence(fallback)] if fallback else []))
        action.triggered.connect(lambda _checked: slot())
        return action
