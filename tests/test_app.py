"""If these fail, the command line does not do what the README says, or fails in somebody's face."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import ORGANISATION
from studio_gui.paths import samples_dir
from studio_gui.storage.recovery import SnapshotFile

ROOT = Path(__file__).parents[1]
SAMPLE = samples_dir() / "two-shores.roving.json"
ENDINGS = [".pdf", ".svg", ".png", ".lay.svg", ".lay.png", ".json", ".csv"]


def run(*arguments: object, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run the program without a display."""
    kept = {
        key: value
        for key, value in os.environ.items()
        if key not in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    }
    return subprocess.run(
        [sys.executable, "-m", "studio_gui", *map(str, arguments)],
        cwd=ROOT,
        env=kept | environment,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )


#: Says what the program says at its start, recovers what it offers, and ends once that is over.
BEGINNING = """
import os, sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QDialog, QMessageBox
from studio_gui.app import main
from studio_gui.views.main_window import MainWindow
from studio_gui.views.recovery_dialog import RecoveryDialog

def say(box):
    print(box.text())
    return QMessageBox.StandardButton.Ok

def recover(dialog):
    print("offered", dialog.list.count())
    dialog.recover.click()
    return QDialog.DialogCode(dialog.result())

def leave(window):
    print(window.windowTitle().replace("[*]", ""), flush=True)
    os._exit(0)  # what is recovered is not saved, and quitting would ask

show = MainWindow.show
def shown(window):
    QTimer.singleShot(500, window, lambda: leave(window))
    show(window)

QMessageBox.exec, RecoveryDialog.exec, MainWindow.show = say, recover, shown
sys.exit(main(sys.argv[1:]))
"""


def opened_by(
    script: str, plan: Path = SAMPLE, state: Path | None = None
) -> subprocess.CompletedProcess[str]:
    """Run a script that opens the window on a plan, without a display; `state` is the person's state."""
    kept = {} if state is None else {"XDG_STATE_HOME": str(state)}
    return subprocess.run(
        [sys.executable, "-c", script, str(plan)],
        cwd=ROOT,
        env=os.environ | {"QT_QPA_PLATFORM": "offscreen"} | kept,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )


def refused(result: subprocess.CompletedProcess[str]) -> str:
    """The one line that a refusal is."""
    assert result.returncode == 2
    assert result.stdout == ""
    lines = result.stderr.splitlines()
    assert len(lines) == 1, result.stderr
    assert lines[0].startswith("roving-lay: ")
    return lines[0]


@pytest.mark.parametrize("ending", ENDINGS)
def test_a_plan_is_exported_without_a_display(ending: str, tmp_path: Path) -> None:
    out = tmp_path / f"map{ending}"
    result = run(SAMPLE, "--export", out)
    assert (result.returncode, result.stdout, result.stderr) == (0, "", "")
    assert out.stat().st_size > 500
    if ending == ".json":
        assert json.loads(out.read_text(encoding="utf-8"))["title"] == "Two Shores"


def test_without_a_display_the_window_is_refused_and_the_way_out_named() -> None:
    assert "--export" in refused(run(SAMPLE))
    assert "--export" in refused(run(DISPLAY=":987"))


BAD: dict[str, tuple[bytes, str]] = {
    "empty": (b"", ""),
    "cut": (SAMPLE.read_bytes()[:700], "line"),
    "foreign": (b'{"some": "other document"}', "does not say that it is a plan"),
    "nested": (b"[" * 100_000, "32 deep"),
    "oversized": (b" " * 9_000_000, "8 MB"),
    "nan": (SAMPLE.read_bytes().replace(b"150.0", b"NaN"), "mass_g"),
    "newer": (SAMPLE.read_bytes().replace(b'"version": 4', b'"version": 99'), "99"),
    "unknown key": (SAMPLE.read_bytes().replace(b'"title"', b'"tilte"'), "tilte"),
}


@pytest.mark.parametrize("kind", BAD)
def test_a_bad_plan_is_one_line_and_no_file(kind: str, tmp_path: Path) -> None:
    content, told = BAD[kind]
    bad = tmp_path / "bad.roving.json"
    bad.write_bytes(content)
    line = refused(run(bad, "--export", tmp_path / "out.json"))
    assert told in line
    assert [path.name for path in tmp_path.iterdir()] == ["bad.roving.json"]
    assert bad.read_bytes() == content


@pytest.mark.parametrize("kind", ["cut", "unknown key"])
def test_the_window_opens_without_a_bad_plan_and_says_why(kind: str, tmp_path: Path) -> None:
    bad = tmp_path / "bad.roving.json"
    bad.write_bytes(BAD[kind][0])
    result = opened_by(BEGINNING, bad, tmp_path / "state")
    said, title = result.stdout.splitlines()
    assert said.startswith("This file was not opened. ")
    assert BAD[kind][1] in said
    assert title.startswith("Harbour Thaw")
    assert result.stderr.splitlines()[0] == f"roving-lay: {said.removeprefix('This file was not opened. ')}"
    assert result.returncode == 0
    assert bad.read_bytes() == BAD[kind][0]


def test_what_a_crash_left_of_a_plan_that_was_damaged_since_is_offered(tmp_path: Path) -> None:
    path = tmp_path / "mine.roving.json"
    path.write_bytes(SAMPLE.read_bytes())
    document = OpenPlan.from_file(path)
    document.edit("Title", lambda plan: replace(plan, title="Not saved"))
    kept = SnapshotFile(tmp_path / "state" / ORGANISATION / "recovery")
    kept.write(document.plan, document.path, document.was)
    kept.let_go()
    document.let_go()
    path.write_bytes(BAD["cut"][0])
    result = opened_by(BEGINNING, path, tmp_path / "state")
    said, offered, title = result.stdout.splitlines()
    assert said.startswith("This file was not opened. ")
    assert offered == "offered 1"
    assert title.startswith("Not saved (mine.roving.json)")
    assert path.read_bytes() == BAD["cut"][0]


@pytest.mark.parametrize(
    ("plan", "out"),
    [
        ("missing.roving.json", "out.json"),
        (".", "out.json"),
        (str(SAMPLE), "out.doc"),
        (str(SAMPLE), "no/such/folder/out.json"),
        (str(SAMPLE), "."),
        (str(SAMPLE), "x" * 300 + ".json"),
    ],
)
def test_what_cannot_be_read_or_written_is_one_line(plan: str, out: str, tmp_path: Path) -> None:
    refused(run(tmp_path / plan, "--export", tmp_path / out))
    assert list(tmp_path.iterdir()) == []


def test_a_system_without_a_locale_changes_no_line(tmp_path: Path) -> None:
    """Qt complains of such a locale by itself."""
    assert "no/out.svg" in refused(run(SAMPLE, "--export", tmp_path / "no" / "out.svg", LC_ALL="C"))


def test_a_system_without_fonts_gives_the_same_picture(tmp_path: Path) -> None:
    fontless = tmp_path / "fonts.conf"
    fontless.write_text("<fontconfig></fontconfig>", encoding="utf-8")
    with_fonts, without = tmp_path / "with.png", tmp_path / "without.png"
    run(SAMPLE, "--export", with_fonts)
    run(SAMPLE, "--export", without, FONTCONFIG_FILE=str(fontless))
    assert with_fonts.read_bytes() == without.read_bytes()


def test_an_export_never_takes_the_place_of_its_plan(tmp_path: Path) -> None:
    plan = tmp_path / "mine.roving.json"
    plan.write_bytes(SAMPLE.read_bytes())
    (tmp_path / "alias.json").symlink_to(plan)
    for out in (plan, tmp_path / "alias.json"):
        refused(run(plan, "--export", out))
    assert plan.read_bytes() == SAMPLE.read_bytes()


def test_slips_of_the_command_line_are_one_line() -> None:
    assert "PLAN" in refused(run("--export", "out.json"))
    refused(run("--colour"))
    refused(run(SAMPLE, SAMPLE))


def test_version_and_help() -> None:
    version, usage = run("--version"), run("--help")
    assert version.stdout.startswith("roving-lay ")
    assert "--export" in usage.stdout
    assert (version.returncode, usage.returncode) == (0, 0)


def test_neither_pint_nor_masked_arrays_are_loaded_by_the_first_paint() -> None:
    script = (
        "import sys\n"
        "from PySide6.QtCore import QTimer\n"
        "from PySide6.QtWidgets import QApplication\n"
        "from studio_gui.views.lay_canvas import LayCanvas\n"
        "from studio_gui.app import main\n"
        "paint = LayCanvas.paintEvent\n"
        "def painted(self, event):\n"
        "    paint(self, event)\n"
        "    print('pint' in sys.modules, 'numpy.ma' in sys.modules)\n"
        "    QTimer.singleShot(0, QApplication.quit)\n"
        "LayCanvas.paintEvent = painted\n"
        "sys.exit(main(sys.argv[1:]))\n"
    )
    result = opened_by(script)
    assert result.returncode == 0
    assert result.stdout.split()[:2] == ["False", "False"], "numpy.unique loads masked arrays"


def test_what_stays_is_not_searched_for_garbage_again_and_again() -> None:
    script = (
        "import gc, sys\n"
        "from PySide6.QtCore import QTimer\n"
        "from PySide6.QtWidgets import QApplication\n"
        "from studio_gui.views.main_window import MainWindow\n"
        "from studio_gui.app import main\n"
        "show = MainWindow.show\n"
        "def say_and_quit():\n"
        "    print(gc.get_freeze_count() > len(gc.get_objects()))\n"
        "    QTimer.singleShot(0, QApplication.quit)\n"
        "def watched(self):\n"
        "    self.furnished.connect(say_and_quit)\n"
        "    show(self)\n"
        "MainWindow.show = watched\n"
        "sys.exit(main(sys.argv[1:]))\n"
    )
    result = opened_by(script)
    assert (result.returncode, result.stdout.split()) == (0, ["True"])


def test_quitting_after_an_edit_says_nothing() -> None:
    script = (
        "import sys\n"
        "from PySide6.QtCore import QTimer\n"
        "from studio_gui.app import main\n"
        "from studio_gui.domain.edits.boundaries import move_boundary\n"
        "from studio_gui.views.lay_canvas import LayCanvas\n"
        "paint = LayCanvas.paintEvent\n"
        "def painted(self, event):\n"
        "    paint(self, event)\n"
        "    LayCanvas.paintEvent = paint\n"
        "    QTimer.singleShot(0, lambda: edit_and_close(self.window()))\n"
        "def edit_and_close(window):\n"
        "    assert window.panes.checks is not None\n"
        "    assert window.document.edit('Move', lambda plan: move_boundary(plan, 0, 0.5))\n"
        "    window.document.undo_stack.setClean()\n"
        "    window.close()\n"
        "LayCanvas.paintEvent = painted\n"
        "sys.exit(main(sys.argv[1:]))\n"
    )
    result = opened_by(script)
    assert result.returncode == 0
    assert "Traceback" not in result.stderr


@pytest.mark.parametrize("units", ["us", "mixed"])
def test_kept_units_stand_at_the_first_paint_and_load_no_converter(tmp_path: Path, units: str) -> None:
    script = (
        "import sys\n"
        "from PySide6.QtCore import QSettings, QTimer\n"
        "from PySide6.QtWidgets import QApplication\n"
        f"QSettings.setPath(QSettings.Format.NativeFormat, QSettings.Scope.UserScope, {str(tmp_path)!r})\n"
        "from studio_gui.app import main\n"
        "from studio_gui.document.preferences import Preferences\n"
        f"Preferences().remember_units({units!r})\n"
        "from studio_gui.views.lay_canvas import LayCanvas\n"
        "paint = LayCanvas.paintEvent\n"
        "def painted(self, event):\n"
        "    paint(self, event)\n"
        "    LayCanvas.paintEvent = paint\n"
        "    print(self.window().totals.values[0].text(), 'pint' in sys.modules, flush=True)\n"
        "    QTimer.singleShot(0, QApplication.quit)\n"
        "LayCanvas.paintEvent = painted\n"
        "sys.exit(main(sys.argv[1:]))\n"
    )
    result = opened_by(script)
    assert result.returncode == 0, result.stderr
    assert result.stdout.split() == ["5.29", "oz", "False"]
