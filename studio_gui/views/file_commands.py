"""New, open, save, export, and the questions that go with them.

The rule of this module: nothing unsaved is thrown away, and no file changed by somebody else is written over,
without a choice.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.domain.errors import FileProblem, RovingLayError
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.paths import samples_dir
from studio_gui.storage.files import PLAN_SUFFIX
from studio_gui.storage.log import note
from studio_gui.views.questions import Button, ask, ask_about_holder, tell
from studio_gui.views.recent_menu import RecentMenu
from studio_gui.wording.naming import one_line

LONGEST_PATH = 160
HELD = ("plan-held", "plan-held-far")


class FileCommands(QObject):
    """The file actions of a window.

    Signals
    -------
    said
        A sentence for the status bar.
    """

    said = Signal(str)

    def __init__(self, document: OpenPlan, preferences: Preferences, window: QWidget) -> None:
        super().__init__(window)
        self._document, self._preferences, self._window = document, preferences, window
        standard = QKeySequence.StandardKey
        self.new_action = self._action(self.new, standard.New)
        self.open_action = self._action(self.open, standard.Open)
        self.sample_action = self._action(self.open_sample)
        self.save_action = self._action(self.save, standard.Save)
        self.save_as_action = self._action(self.save_as, standard.SaveAs, "Ctrl+Shift+S")
        self.export_action = self._action(
            self.export, fallback="Ctrl+Shift+E"
        )  # Ctrl+E is a text field's own
        self.print_action = self._action(self.print_sheets, standard.Print, "Ctrl+P")
        self.recent_menu = RecentMenu(preferences, window)
        self.recent_menu.picked.connect(self.open_path)
        if document.path is not None:
            preferences.remember_recent(document.path)
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
            if problem.code in HELD:
                self.open_held(path, problem)
                return
            if problem.code == "file-not-found":
                self._preferences.forget_recent(path)
            self._complain(self.tr("This file was not opened"), problem)
            return
        self._remember(path)
        note("plan-opened", sections=len(self._document.plan.sections))
        self.said.emit(self.tr("Opened {0}").format(_told(path)))

    def open_held(self, path: Path, problem: FileProblem) -> None:
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
                self._complain(self.tr("This file was not opened"), unread)
                return
            self.said.emit(self.tr("A copy of {0}, in no file yet").format(_told(path)))

    def save(self) -> bool:
        """Save to the plan's file, asking for one when it has none; return whether it was saved."""
        _finish_typing()
        if self._document.path is None:
            return self.save_as()
        if self._document.changed_outside() and not self._overwrite_foreign(self._document.path):
            return False
        return self._save_to(self._document.path)

    def save_as(self) -> bool:
        """Ask where to save; return whether it was saved."""
        _finish_typing()
        start = self._document.path or self._preferences.folder / (self._file_stem() + PLAN_SUFFIX)
        name, _ = QFileDialog.getSaveFileName(
            self._window, self.tr("Save plan"), str(start), self._plan_filter()
        )
        if not name:
            return False
        path = Path(name)
        if not name.endswith(PLAN_SUFFIX):
            path = path.with_name(path.name.removesuffix(".json").removesuffix(".roving") + PLAN_SUFFIX)
            if _is_file(path) and not self._overwrite_foreign(path):
                return False  # the dialog asked about the name as typed, not about this one
        return self._save_to(path)

    def export(self) -> None:
        """Ask for a file and export the plan by its ending."""
        # loaded when wanted: the start of the program does without it
        from studio_gui.export.registry import ending_of, export_plan  # noqa: PLC0415

        _finish_typing()
        kinds = self._export_kinds()
        start = self._preferences.folder / (self._file_stem() + next(iter(kinds)))
        filters = {f"{words} (*{ending})": ending for ending, words in kinds.items()}
        name, chosen = QFileDialog.getSaveFileName(
            self._window, self.tr("Export"), str(start), ";;".join(filters)
        )
        if not name:
            return
        path, typed, ending = Path(name), ending_of(name), filters.get(chosen, "")
        if not path.suffix and ending:
            path = path.with_name(path.name + ending)
            if _is_file(path) and not self._overwrite_foreign(path):
                return
        elif not (typed and ending.endswith(typed)):
            ending = typed  # what is typed says more than what was chosen
        try:
            export_plan(worksheet(self._document.plan), path, ending)
        except RovingLayError as error:
            self._complain(self.tr("Nothing was exported"), error)
            return
        self._preferences.remember_folder(path.parent)
        self.said.emit(self.tr("Exported to {0}").format(_told(path)))

    def print_sheets(self) -> None:
        """Show the sheets of the plan as they will be printed, and print them from there."""
        # loaded when wanted: the start of the program does without it
        from studio_gui.views.print_preview import PrintPreview  # noqa: PLC0415

        _finish_typing()
        sheet = worksheet(self._document.plan)
        preview = PrintPreview(sheet, self._preferences, self._file_stem(), self._window)
        preview.said.connect(self.said)
        preview.exec()
        preview.deleteLater()

    def _export_kinds(self) -> dict[str, str]:
        """Return what each kind of export is called, by its ending."""
        return {
            ".pdf": self.tr("Sheets to print"),
            ".svg": self.tr("Section map, drawing"),
            ".png": self.tr("Section map, picture"),
            ".lay.svg": self.tr("Lay as on the screen, drawing"),
            ".lay.png": self.tr("Lay as on the screen, picture"),
            ".json": self.tr("Section map for programs"),
            ".csv": self.tr("Table"),
        }

    def may_discard(self) -> bool:
        """Ask about unsaved changes; return whether the plan may be left."""
        _finish_typing()
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
        name, _ = QFileDialog.getOpenFileName(
            self._window, self.tr("Open plan"), str(folder), self._plan_filter()
        )
        if name:
            self.open_path(Path(name))

    def _save_to(self, path: Path) -> bool:
        try:
            kept = self._save_or_take_over(path)
        except RovingLayError as error:
            note("save-failed")
            self._complain(self.tr("The plan was not saved"), error)
            return False
        self._remember(path)
        note("plan-saved", sections=len(self._document.plan.sections))
        words = self.tr("Saved to {0}").format(_told(path))
        if kept is not None:
            words = self.tr("{0}. The file was of an older format, and is kept as {1}.").format(
                words, one_line(kept.name)
            )
        self.said.emit(words)
        return True

    def _save_or_take_over(self, path: Path) -> Path | None:
        """Save; where a holder on another computer may be gone, only after a question."""
        from studio_gui.wording.sentences import refusal  # noqa: PLC0415  (the first paint does without it)

        try:
            return self._document.save(path)
        except FileProblem as problem:
            if problem.code != "plan-held-far":
                raise
            question = self.tr("{0} Write over it?").format(refusal(problem))
            title = self.tr("This plan is open already")
            if not self._is_sure(title, question):
                raise
            return self._document.save(path, take_over=True)

    def _remember(self, path: Path) -> None:
        self._preferences.remember_folder(path.parent)
        self._preferences.remember_recent(path)

    def _overwrite_foreign(self, path: Path) -> bool:
        return self._is_sure(
            self.tr("Write over this file?"),
            self.tr("“{0}” holds something that did not come from this window. Write over it?").format(
                one_line(path.name)
            ),
        )

    def _is_sure(self, title: str, question: str) -> bool:
        warning = QMessageBox.Icon.Warning
        answer = ask(self._window, title, question, Button.Yes | Button.Cancel, Button.Cancel, warning)
        return answer == Button.Yes

    def _complain(self, title: str, error: RovingLayError) -> None:
        from studio_gui.wording.sentences import refusal  # noqa: PLC0415  (the first paint does without it)

        tell(self._window, title, f"{title}. {refusal(error)}")

    def _plan_filter(self) -> str:
        return self.tr("Plans (*{0})").format(PLAN_SUFFIX) + ";;" + self.tr("All files (*)")

    def _file_stem(self) -> str:
        if self._document.path is not None:
            return self._document.path.name.removesuffix(PLAN_SUFFIX)
        letters = "".join(c if c.isalnum() else "-" for c in self._document.plan.title.lower())
        return "-".join(filter(None, letters.split("-")))[:60] or "plan"

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


def _told(path: Path) -> str:
    """Return a path fit to stand in a sentence."""
    return one_line(str(path), LONGEST_PATH)


def _finish_typing() -> None:
    """Take what is still being typed in a field or a table's cell: it belongs to the plan."""
    from studio_gui.views.fields import finish_typing  # noqa: PLC0415  (the first paint does without fields)

    finish_typing()


def _is_file(path: Path) -> bool:
    """Whether a file would be written over; what cannot be asked is told on saving, as of a long name."""
    try:
        return path.is_file()
    except OSError:
        return False
