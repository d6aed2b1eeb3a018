"""Every kind of file that a plan is exported to, by its ending.

The rule of this module: a new kind is one function from `Worksheet` to bytes, listed here. A file is complete
before anything on disk is touched, and takes its place in one step.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.book import pages_of
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.export.picture import png_bytes, svg_bytes
from studio_gui.export.section_map import section_map_bytes
from studio_gui.export.sheet_files import pdf_of
from studio_gui.export.table import table_bytes
from studio_gui.storage.files import PLAN_SUFFIX, write_atomically


def _sheets_bytes(sheet: Worksheet) -> bytes:
    """Return all sheets of a plan as PDF, for who chose nothing."""
    with lent_font():
        pages = pages_of(sheet, Choices())
    return pdf_of(pages, sheet.plan.title)


EXPORTS: dict[str, Callable[[Worksheet], bytes]] = {
    ".pdf": _sheets_bytes,
    ".json": section_map_bytes,
    ".csv": table_bytes,
    ".svg": svg_bytes,
    ".png": png_bytes,
}


def export_plan(sheet: Worksheet, path: Path) -> None:
    """Write the export of `sheet` that the ending of `path` names, in either case; replaces what is there.

    Raises
    ------
    FileProblem
        ``unknown-ending`` with ``ending`` and ``endings``; ``export-onto-plan`` for a plan's own name, since
        the map would take the place of the plan; ``picture-failed``; those of `write_atomically`.
    """
    if path.name.lower().endswith(PLAN_SUFFIX):
        raise FileProblem("export-onto-plan", path=str(path))
    export = EXPORTS.get(path.suffix.lower())
    if export is None:
        raise FileProblem("unknown-ending", path=str(path), ending=path.suffix, endings=", ".join(EXPORTS))
    write_atomically(path, export(sheet))
