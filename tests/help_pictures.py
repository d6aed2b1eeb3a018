"""Makes the pictures of README.md and of the help, by running the program.

    .venv/bin/python tests/help_pictures.py [NAME ...]

Opens samples in the real window, without a display, waits until wool, yarn and knitting have their fibre, and
writes what is seen to resources/help/; then each kind of sheet as it is printed. With names, only pictures
whose names begin so.
"""

from __future__ import annotations

import os
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from PySide6.QtCore import QSettings, QSize, Qt
from PySide6.QtGui import QFont, QFontDatabase, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDockWidget, QWidget

from studio_gui.document.background import LatestRun
from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.book import SHEETS
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.export.sheet_files import image_of
from studio_gui.paths import font_path, resources_dir, samples_dir
from studio_gui.storage.files import PLAN_SUFFIX, read_plan
from studio_gui.views.appearance import use_appearance
from studio_gui.views.main_window import MainWindow
from studio_gui.views.print_preview import PrintPreview

WINDOW = QSize(1440, 900)
PREVIEW = QSize(1100, 740)
#: Yarn of a row of the knitted picture, m: wide enough that stripes are a few rows high.
ROW_M = 9.0
SHEET_DOTS_PER_INCH = 84
#: How long nothing may be at work before a picture is taken, ms, and how often that is looked at.
QUIET_MS, LOOK_MS = 400, 50
LONGEST_MS = 30_000
SHEETS_OF = "harbour-thaw"

Grab = Callable[[MainWindow], QWidget]


def dock(name: str, height: int) -> Grab:
    """Return what brings a dock to the front, so high, and gives its content."""

    def front(window: MainWindow) -> QWidget:
        found: QDockWidget = getattr(window.docks, name)
        found.show()
        found.raise_()
        window.resizeDocks([found], [height], Qt.Orientation.Vertical)
        content = found.widget()
        assert content is not None
        return content

    return front


#: name, sample, selected section, dark, what is seen
PICTURES: tuple[tuple[str, str, int, bool, Grab], ...] = (
    ("window", "two-shores", 1, False, lambda window: window),
    ("window-dark", "long-dusk", 9, True, lambda window: window),
    ("checks", "storm-kettle", 1, False, lambda window: window),
    ("yarn", "two-shores", 2, False, dock("strip", 300)),
    ("swatch", "two-shores", 2, False, dock("swatch", 400)),
)


def main() -> None:
    """Write the pictures."""
    application = QApplication(["roving-lay"])
    application.setStyle("fusion")
    for bold in (False, True):
        QFontDatabase.addApplicationFont(str(font_path(bold=bold)))
    application.setFont(QFont("Noto Sans", 10))
    folder = resources_dir() / "help"
    folder.mkdir(exist_ok=True)
    for name, image in pictures():
        image.save(str(folder / f"{name}.png"))


def pictures() -> Iterator[tuple[str, QImage]]:
    """Yield every picture that is wanted, with its name."""
    for name, sample, selected, dark, grab in PICTURES:
        if wanted(name):
            use_appearance("dark" if dark else "light")
            with open_window(sample, selected) as window:
                widget = grab(window)
                wait_for_fibre(window)
                yield name, widget.grab().toImage()
    use_appearance("light")
    if wanted("preview"):
        with preferences() as kept:
            preview = PrintPreview(worksheet(plan_of(SHEETS_OF)), kept, SHEETS_OF)
            preview.resize(PREVIEW)
            preview.show()
            wait_until(lambda: preview.is_laid_out and preview.view.is_painted)
            yield "preview", preview.grab().toImage()
            preview.close()
    yield from printed_sheets()


def printed_sheets() -> Iterator[tuple[str, QImage]]:
    """Yield the first page of each kind of sheet."""
    sheet = worksheet(plan_of(SHEETS_OF))
    for one in SHEETS:
        if wanted(f"print-{one.key}"):
            with lent_font():
                pages = one.pages(sheet, Choices())
            if pages:
                yield f"print-{one.key}", image_of(pages[0], SHEET_DOTS_PER_INCH)


def wanted(name: str) -> bool:
    """Whether the command line asks for a picture."""
    return not sys.argv[1:] or any(name.startswith(some) for some in sys.argv[1:])


def plan_of(sample: str) -> Plan:
    """Return a sample plan."""
    return read_plan(samples_dir() / f"{sample}{PLAN_SUFFIX}")


@contextmanager
def preferences() -> Iterator[Preferences]:
    """Lend preferences that nobody has changed."""
    with tempfile.TemporaryDirectory() as folder:
        yield Preferences(QSettings(str(Path(folder, "settings.ini")), QSettings.Format.IniFormat))


@contextmanager
def open_window(sample: str, selected: int) -> Iterator[MainWindow]:
    """Show a sample in the window, one of its sections selected."""
    with preferences() as kept:
        document = OpenPlan.from_file(samples_dir() / f"{sample}{PLAN_SUFFIX}")
        knitting = replace(document.plan.yarn.knitting, width_m=ROW_M / 3.0, row_m=ROW_M)
        document.preview(replace(document.plan, yarn=replace(document.plan.yarn, knitting=knitting)))
        window = MainWindow(document, kept)
        window.resize(WINDOW)
        window.show()
        document.select(document.plan.sections[selected].id)
        assert window.panes is not None  # made now, not after the first paint
        try:
            yield window
        finally:
            window.close()


def wait_for_fibre(window: MainWindow) -> None:
    """Wait until nothing has been at work behind the window for a while."""
    wait_until(lambda: not any(run.is_running for run in window.findChildren(LatestRun)))


def wait_until(done: Callable[[], bool]) -> None:
    """Wait until something has been true for `QUIET_MS`; what begins later than that is none of ours."""
    quiet_ms = waited_ms = 0
    while quiet_ms < QUIET_MS:
        QTest.qWait(LOOK_MS)
        waited_ms += LOOK_MS
        quiet_ms = quiet_ms + LOOK_MS if done() else 0
        if waited_ms > LONGEST_MS:
            raise TimeoutError("the window did not come to rest")


if __name__ == "__main__":
    main()
