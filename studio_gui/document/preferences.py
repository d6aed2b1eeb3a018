"""What the program remembers between sessions, apart from plans.

The rule of this module: everything here may be lost without harm.
"""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from PySide6.QtCore import QByteArray, QLocale, QSettings

from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.paper import PAPERS, usual_paper
from studio_gui.paths import samples_dir
from studio_gui.wording.translation import UNITS, Units

ORGANISATION = "roving-lay"
APPLICATION = "roving-lay"

MOST_RECENT = 10

Appearance = Literal["system", "light", "dark"]
APPEARANCES: tuple[Appearance, ...] = ("system", "light", "dark")


class Preferences:
    """Window, folder, recent plans, units, appearance and prints, kept by the platform's settings."""

    def __init__(self, settings: QSettings | None = None) -> None:
        self._settings = QSettings(ORGANISATION, APPLICATION) if settings is None else settings

    @property
    def folder(self) -> Path:
        """The folder that file dialogs start in: the last one used, else the person's home."""
        kept = self._settings.value("folder", "")
        folder = Path(str(kept)) if kept else Path.home()
        return folder if folder.is_dir() else Path.home()

    def remember_folder(self, folder: Path) -> None:
        """Keep the folder of the file just used."""
        self._settings.setValue("folder", str(folder))

    def remember_file(self, path: Path) -> None:
        """Keep a plan's file among the recent ones, and its folder; that of samples is nobody's choice."""
        self.remember_recent(path)
        if samples_dir() not in path.absolute().parents:
            self.remember_folder(path.absolute().parent)

    @property
    def photo_folder(self) -> Path:
        """The folder that photos are looked for in: the last one used, else that of other files."""
        kept = self._settings.value("photo-folder", "")
        folder = Path(str(kept)) if kept else self.folder
        return folder if folder.is_dir() else self.folder

    def remember_photo_folder(self, folder: Path) -> None:
        """Keep the folder of the photo just opened."""
        self._settings.setValue("photo-folder", str(folder))

    def window_geometry(self) -> QByteArray:
        """Return the kept geometry of the main window; empty at the first start."""
        return self._bytes("window/geometry")

    def window_state(self) -> QByteArray:
        """Return the kept places of docks and tool bars; empty at the first start."""
        return self._bytes("window/state")

    def remember_window(self, geometry: QByteArray, state: QByteArray) -> None:
        """Keep geometry and docks of the main window."""
        self._settings.setValue("window/geometry", geometry)
        self._settings.setValue("window/state", state)

    @property
    def units(self) -> Units:
        """The units that quantities are shown in; metric at the first start."""
        kept = self._settings.value("units")
        return next((units for units in UNITS if units == kept), "metric")

    def remember_units(self, units: Units) -> None:
        """Keep the units chosen."""
        self._settings.setValue("units", units)

    @property
    def appearance(self) -> Appearance:
        """Light, dark, or as the system is; the last at the first start."""
        kept = self._settings.value("appearance")
        return next((appearance for appearance in APPEARANCES if appearance == kept), "system")

    def remember_appearance(self, appearance: Appearance) -> None:
        """Keep the appearance chosen."""
        self._settings.setValue("appearance", appearance)

    @property
    def print_choices(self) -> Choices:
        """What was chosen for the last print; at first the paper that is usual in the country."""
        kept = self._settings.value("print/paper")
        country = QLocale.territoryToCode(QLocale().territory())
        left_out = self._settings.value("print/left_out", "")
        return Choices(
            paper=PAPERS.get(str(kept), usual_paper(country)),
            left_out=frozenset(str(left_out).split()),
            mirrored=self._settings.value("print/mirrored") in (True, "true"),
            tape_on_a_roll=self._settings.value("print/tape_on_a_roll") in (True, "true"),
        )

    def remember_print_choices(self, choices: Choices) -> None:
        """Keep what was chosen in a preview."""
        self._settings.setValue("print/paper", choices.paper.name)
        self._settings.setValue("print/left_out", " ".join(sorted(choices.left_out)))
        self._settings.setValue("print/mirrored", choices.mirrored)
        self._settings.setValue("print/tape_on_a_roll", choices.tape_on_a_roll)

    @property
    def recent(self) -> tuple[Path, ...]:
        """The plans opened or saved last, the last one first; at most `MOST_RECENT`."""
        kept = self._settings.value("recent", [])
        # a list of one comes back from some files as its only entry
        names = [kept] if isinstance(kept, str) else kept if isinstance(kept, list) else []
        return tuple(Path(name) for name in names if isinstance(name, str) and name)[:MOST_RECENT]

    def remember_recent(self, path: Path) -> None:
        """Put a plan's file at the head of the list."""
        path = path.absolute()
        self._keep_recent([path, *(one for one in self.recent if one != path)])

    def forget_recent(self, path: Path | None = None) -> None:
        """Take a file off the list, or all of them."""
        self._keep_recent([] if path is None else [one for one in self.recent if one != path.absolute()])

    def _keep_recent(self, paths: list[Path]) -> None:
        names = [str(path) for path in paths]
        # a name that is no Unicode cannot be written down
        whole = [name for name in names if name.encode(errors="replace").decode() == name]
        self._settings.setValue("recent", whole[:MOST_RECENT])

    def _bytes(self, key: str) -> QByteArray:
        value = self._settings.value(key)
        return value if isinstance(value, QByteArray) else QByteArray()
