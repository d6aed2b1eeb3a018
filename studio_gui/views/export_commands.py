"""Export and print: files and paper out of the open plan.

The rule of this module: the plan and its file stay as they are.
"""

from __future__ import annotations

import re
from pathlib import Path

from PySide6.QtWidgets import QFileDialog

from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.worksheet import worksheet
from studio_gui.views.file_manners import (
    CommandsOfFiles,
    complain,
    file_stem,
    finish_typing,
    may_replace,
    told_path,
)

#: A suffix that names a kind of file; that of "Kelp No. 4" is part of the name.
_FILE_TYPE = re.compile(r"\.[A-Za-z][A-Za-z0-9]{0,4}")


class ExportCommands(CommandsOfFiles):
    """Exports and prints the plan of a window."""

    def export(self) -> None:
        """Ask for a file and export the plan by its ending."""
        # loaded when wanted: the start of the program does without it
        from studio_gui.export.registry import ending_of, export_plan  # noqa: PLC0415

        finish_typing()
        kinds = self._kinds()
        start = self._preferences.folder / (file_stem(self._document) + next(iter(kinds)))
        filters = {f"{words} (*{ending})": ending for ending, words in kinds.items()}
        name, chosen = QFileDialog.getSaveFileName(
            self._window, self.tr("Export"), str(start), ";;".join(filters)
        )
        if not name:
            return
        path, typed, ending = Path(name), ending_of(name), filters.get(chosen, "")
        if not typed and ending and not _FILE_TYPE.fullmatch(path.suffix):
            path = path.with_name(path.name + ending)
            if not may_replace(self._window, path):
                return
        elif not (typed and ending.endswith(typed)):
            ending = typed  # what is typed says more than what was chosen
        try:
            export_plan(worksheet(self._document.plan), path, ending)
        except RovingLayError as error:
            complain(self._window, self.tr("Nothing was exported"), error)
            return
        self._preferences.remember_folder(path.parent)
        self.said.emit(self.tr("Exported to {0}").format(told_path(path)))

    def print_sheets(self) -> None:
        """Show the sheets of the plan as they will be printed, and print them from there."""
        # loaded when wanted: the start of the program does without it
        from studio_gui.views.print_preview import PrintPreview  # noqa: PLC0415

        finish_typing()
        sheet = worksheet(self._document.plan)
        preview = PrintPreview(sheet, self._preferences, file_stem(self._document), self._window)
        preview.said.connect(self.said)
        preview.exec()
        preview.deleteLater()

    def _kinds(self) -> dict[str, str]:
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
