"""Save and save as, and what is asked where a save would surprise somebody.

The rule of this module: what was not read or written by this window is never lost by saving. A file that
something else has changed stays as it is, or is kept beside; what is open here can be had back by undoing.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import QFileDialog

from studio_gui.document.plan_file import Outside
from studio_gui.domain.errors import FileProblem, RovingLayError
from studio_gui.storage.files import PLAN_SUFFIX
from studio_gui.storage.log import note
from studio_gui.views.file_manners import (
    CommandsOfFiles,
    complain,
    file_stem,
    finish_typing,
    free_path,
    may_replace,
    told_path,
)
from studio_gui.views.questions import Choice, choose, tell
from studio_gui.wording.naming import one_line
from studio_gui.wording.translation import translate

#: Of a plan that no file of it may hold: no other name would help.
TOO_LARGE = ("file-too-large", "too-many-values")


def plan_filter() -> str:
    """Return the kinds of files that a dialog about plans offers."""
    plans = translate("SaveCommands", "Plans (*{0})").format(PLAN_SUFFIX)
    return f"{plans};;{translate('SaveCommands', 'All files (*)')}"


class SaveCommands(CommandsOfFiles):
    """Saves the plan of a window."""

    def save(self) -> bool:
        """Save to the plan's file, asking for one when it has none; return whether it was saved."""
        finish_typing()
        return self.save_as() if self._document.path is None else self._save_with_care(self._document.path)

    def save_as(self, instead_of: Path | None = None) -> bool:
        """Ask where to save; return whether it was saved.

        Proposed is the plan's own file, but a free name where it has none, or `instead_of` was of no use.
        """
        finish_typing()
        start = self._document.path
        if start is None or instead_of is not None:
            named = self._preferences.folder / (file_stem(self._document) + PLAN_SUFFIX)
            start = free_path(instead_of or named)
        name, _ = QFileDialog.getSaveFileName(self._window, self.tr("Save plan"), str(start), plan_filter())
        if not name:
            return False
        path = Path(name)
        if not name.endswith(PLAN_SUFFIX):
            path = path.with_name(path.name.removesuffix(".json").removesuffix(".roving") + PLAN_SUFFIX)
            if not may_replace(self._window, path):
                return False
        return self._save_with_care(path)

    def _save_with_care(self, path: Path) -> bool:
        """Save, and ask first where something else has changed the file that the plan was read from."""
        outside = self._document.file.outside() if self._document.file.is_at(path) else None
        if outside is None:
            return self._save_to(path)
        answer = self._ask_about_change(path, outside)
        if answer == "save-as":
            return self.save_as(instead_of=path)
        if answer == "reload":
            self._reload(path)
        return answer == "keep-both" and self._save_to(path, keep_other=True)

    def _ask_about_change(self, path: Path, outside: Outside) -> str:
        from studio_gui.wording.outside_words import changed_outside  # noqa: PLC0415  (seldom needed)

        can_be_kept = outside.changed_at is not None
        can_be_shown = not isinstance(outside.found, FileProblem)
        choices = (  # every answer in its place, whatever is possible
            Choice("save-as", self.tr("Save &as…")),
            Choice("keep-both", self.tr("&Keep both"), can_be_kept),
            Choice("reload", self.tr("&Reload"), can_be_shown),
        )
        more = []
        if can_be_kept:
            more.append(self.tr("Keep both saves here, and puts what stands in the file now beside it."))
        if can_be_shown:
            more.append(self.tr("Reload brings the file’s plan here; Undo gives yours back."))
        words = changed_outside(path, outside.changed_at, outside.found, self._document.plan)
        return choose(self._window, self.tr("The file was changed"), words, *choices, more=" ".join(more))

    def _reload(self, path: Path) -> None:
        try:
            self._document.reload(self.tr("Reload"))
        except FileProblem as problem:
            complain(self._window, self.tr("This file was not opened"), problem)
            return
        self.said.emit(self.tr("This is what stands in {0}. Undo gives yours back.").format(told_path(path)))

    def _save_to(self, path: Path, *, take_over: bool = False, keep_other: bool = False) -> bool:
        was_gone = self._document.file.is_at(path) and self._document.file.is_gone()
        try:
            kept = self._document.save(path, take_over=take_over, keep_other=keep_other)
        except RovingLayError as error:
            note("save-failed")
            return self._save_elsewhere(path, error, keep_other=keep_other)
        self._preferences.remember_file(path)
        note("plan-saved", sections=len(self._document.plan.sections))
        words = self.tr("Saved to {0}").format(told_path(path))
        if keep_other and kept is not None:
            words = self.tr("{0}. What stood there is kept as {1}.").format(words, one_line(kept.name))
        elif kept is not None:
            words = self.tr("{0}. The file was of an older format, and is kept as {1}.").format(
                words, one_line(kept.name)
            )
        elif was_gone:
            words = self.tr("{0}. The file was not there any more, and was made anew.").format(words)
        self.said.emit(words)
        return True

    def _save_elsewhere(self, path: Path, error: RovingLayError, *, keep_other: bool) -> bool:
        """Say why nothing was saved, and offer what would help; return whether it was saved then."""
        from studio_gui.wording.sentences import refusal_to_save  # noqa: PLC0415  (seldom needed)

        title = self.tr("The plan was not saved")
        words = f"{title}. {refusal_to_save(error)}"
        if error.code in TOO_LARGE and "path" not in error.params:
            tell(self._window, title, words)
            return False
        choices = [Choice("save-as", self.tr("Save &as…"))]
        if error.code == "plan-held-far":
            choices.append(Choice("take-over", self.tr("&Write over it")))
        answer = choose(self._window, title, words, *choices)
        if answer == "take-over":
            return self._save_to(path, take_over=True, keep_other=keep_other)
        return answer == "save-as" and self.save_as(instead_of=path)
