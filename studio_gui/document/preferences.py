"""What the program remembers between sessions, apart from plans.

The rule of this module: everything here may be lost without harm.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QByteArray, QSettings

from studio_gui.wording.translation import UNITS, Units

ORGANISATION = "roving-lay"
APPLICATION = "roving-lay"


class Preferences:
    """Window geometry, the last folder and the units, kept by the platform's settings."""

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

    def _bytes(self, key: str) -> QByteArray:
        value = self._settings.value(key)
        return value if isinstance(value, QByteArray) else QByteArray()
