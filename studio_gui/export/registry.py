"""Every kind of file that a plan is exported to, by its ending.

The rule of this module: a new kind is one function from `Worksheet` to bytes, listed here. A file is complete
before anything on disk is touched, and takes its place in one step.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.worksheet import Worksheet
from studio_gui.export.picture import png_bytes, svg_bytes
from studio_gui.export.plan_sheets import section_map_png, section_map_svg, sheets_pdf
from studio_gui.export.section_map import section_map_bytes
from studio_gui.export.table import table_bytes
from studio_gui.storage.files import PLAN_SUFFIX, write_atomically

#: The longest ending that fits counts: the lay as the screen shows it has an ending of two parts.
EXPORTS: dict[str, Callable[[Worksheet], bytes]] = {
    ".pdf": sheets_pdf,
    ".svg": section_map_svg,
    ".png": section_map_png,
    ".lay.svg": svg_bytes,
    ".lay.png": png_bytes,
    ".json": section_map_bytes,
    ".csv": table_bytes,
}


def ending_of(name: str) -> str:
    """Return the ending of a file's name by which it is exported, "" where there is none.

    >>> ending_of("Thaw.PDF"), ending_of("thaw.lay.svg"), ending_of("thaw.odt")
    ('.pdf', '.lay.svg', '')
    """
    fitting = (ending for ending in EXPORTS if Path(name).name.lower().endswith(ending))
    return max(fitting, key=len, default="")


def export_plan(sheet: Worksheet, path: Path, ending: str = "") -> None:
    """Write the export of `sheet` that the ending of `path` names, in either case; replaces what is there.

    `ending` says what is written where the name does not tell, or not all.

    Raises
    ------
    FileProblem
        ``unknown-ending`` with ``ending`` and ``endings``; ``export-onto-plan`` for a plan's own name, since
        the map would take the place of the plan; ``picture-failed``, ``picture-too-large``; those
        of `write_atomically`.
    """
    if path.name.lower().endswith(PLAN_SUFFIX):
        raise FileProblem("export-onto-plan", path=str(path))
    export = EXPORTS.get(ending or ending_of(path.name))
    if export is None:
        raise FileProblem("unknown-ending", path=str(path), ending=path.suffix, endings=", ".join(EXPORTS))
    write_atomically(path, export(sheet))
