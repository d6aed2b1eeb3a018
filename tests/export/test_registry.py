"""If these fail, an export writes the wrong kind of file, or spoils one that was there."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.worksheet import worksheet
from studio_gui.export.registry import EXPORTS, export_plan
from studio_gui.wording.translation import install_units
from tests.drawing.plans import plain_plan

pytestmark = pytest.mark.usefixtures("qapp")

FIRST_BYTES = {
    ".pdf": b"%PDF-",
    ".svg": b"<?xml",
    ".png": b"\x89PNG",
    ".lay.svg": b"<?xml",
    ".lay.png": b"\x89PNG",
    ".json": b"{",
    ".csv": b"\xef\xbb\xbfsection",
}


def test_these_kinds_are_offered() -> None:
    assert set(EXPORTS) == set(FIRST_BYTES)


@pytest.mark.parametrize("ending", sorted(FIRST_BYTES))
def test_the_ending_names_the_kind_in_either_case(ending: str, tmp_path: Path) -> None:
    for name in (f"map{ending}", f"MAP{ending.upper()}"):
        export_plan(worksheet(plain_plan(2)), tmp_path / name)
        assert (tmp_path / name).read_bytes().startswith(FIRST_BYTES[ending])


@pytest.mark.parametrize("ending", [".json", ".csv"])
def test_what_other_programs_read_stays_metric(ending: str, tmp_path: Path) -> None:
    export_plan(worksheet(plain_plan(2)), tmp_path / f"metric{ending}")
    install_units("us")
    export_plan(worksheet(plain_plan(2)), tmp_path / f"us{ending}")
    assert (tmp_path / f"us{ending}").read_bytes() == (tmp_path / f"metric{ending}").read_bytes()


@pytest.mark.parametrize("name", ["map", "map.", "map.odt", "map.json.bak"])
def test_another_ending_is_refused_with_those_there_are(name: str, tmp_path: Path) -> None:
    with pytest.raises(FileProblem) as refused:
        export_plan(worksheet(plain_plan(2)), tmp_path / name)
    assert refused.value.code == "unknown-ending"
    assert refused.value.params["endings"] == ".pdf, .svg, .png, .lay.svg, .lay.png, .json, .csv"
    assert list(tmp_path.iterdir()) == []


def test_the_map_never_takes_the_place_of_a_plan(tmp_path: Path) -> None:
    plan = tmp_path / "mine.roving.json"
    plan.write_text("kept", encoding="utf-8")
    with pytest.raises(FileProblem, match="export-onto-plan"):
        export_plan(worksheet(plain_plan(2)), plan)
    assert plan.read_text(encoding="utf-8") == "kept"


SHORT_OF_ROOM = """
import resource, sys
from pathlib import Path
from PySide6.QtGui import QGuiApplication
from studio_gui.domain.errors import FileProblem
from studio_gui.domain.worksheet import worksheet
from studio_gui.export.registry import export_plan
from tests.drawing.plans import plain_plan
import signal
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
application = QGuiApplication([])
sheet = worksheet(plain_plan(2))
resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
try:
    export_plan(sheet, Path(sys.argv[1]))
except FileProblem as problem:
    print(problem.code)
"""


@pytest.mark.parametrize("ending", [".pdf", ".png"])
def test_a_file_too_large_for_the_disk_leaves_the_old_one_whole(ending: str, tmp_path: Path) -> None:
    target = tmp_path / f"map{ending}"
    target.write_text("kept", encoding="utf-8")
    run = subprocess.run(
        [sys.executable, "-c", SHORT_OF_ROOM, str(target)],
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
        check=True,
    )
    assert run.stdout.strip() in ("file-too-large", "disk-full")
    assert target.read_text(encoding="utf-8") == "kept"
    assert [path.name for path in tmp_path.iterdir()] == [target.name]
