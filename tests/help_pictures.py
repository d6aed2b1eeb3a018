"""Makes the pictures of README.md and of the help, by running the program.

    .venv/bin/python tests/help_pictures.py

Opens samples in the real window, without a display, and writes what it shows to resources/help/.
"""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QSettings, QSize
from PySide6.QtGui import QFont, QFontDatabase
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.paths import font_path, resources_dir, samples_dir
from studio_gui.storage.files import PLAN_SUFFIX
from studio_gui.views.appearance import palette_of
from studio_gui.views.main_window import MainWindow

WINDOW = QSize(1440, 900)
FIBRE_MS = 2_000
#: file name, sample, selected section, dark
PICTURES = (
    ("window.png", "two-shores", 1, False),
    ("window-dark.png", "long-dusk", 9, True),
    ("checks.png", "storm-kettle", 1, False),
)


def main() -> None:
    """Write every picture."""
    application = QApplication(["roving-lay"])
    application.setStyle("fusion")
    for bold in (False, True):
        QFontDatabase.addApplicationFont(str(font_path(bold=bold)))
    application.setFont(QFont("Noto Sans", 10))
    folder = resources_dir() / "help"
    folder.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as settings_folder:
        settings = QSettings(str(Path(settings_folder, "settings.ini")), QSettings.Format.IniFormat)
        for name, sample, selected, dark in PICTURES:
            application.setPalette(palette_of("dark" if dark else "light"))
            document = OpenPlan.from_file(samples_dir() / f"{sample}{PLAN_SUFFIX}")
            window = MainWindow(document, Preferences(settings))
            window.resize(WINDOW)
            window.show()
            document.select(document.plan.sections[selected].id)
            assert window.panes is not None  # made now, not after the first paint
            QTest.qWait(FIBRE_MS)  # until the wool is fibre
            window.grab().save(str(folder / name))
            window.close()


if __name__ == "__main__":
    main()
