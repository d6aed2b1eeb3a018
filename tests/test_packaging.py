"""If these fail, the program works in its checkout but an installed one lacks modules, data or samples."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
DATA_FOLDERS = {"resources": "_resources", "sample_projects": "_sample_projects"}


def python(*arguments: str | Path) -> str:
    """What this interpreter prints when it is run on `arguments` in the checkout."""
    return subprocess.run(
        [sys.executable, *map(str, arguments)], cwd=ROOT, check=True, capture_output=True, text=True
    ).stdout


def files_of(folder: Path) -> set[str]:
    """Paths, relative to `folder`, of its files, without what running the program leaves there."""
    return {
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }


@pytest.fixture(scope="module")
def source_distribution(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The archive that the project's build backend makes of the checkout."""
    folder = tmp_path_factory.mktemp("dist")
    python("-m", "hatchling", "build", "--target", "sdist", "--directory", folder)
    (archive,) = folder.iterdir()
    return archive


@pytest.fixture(scope="module", params=["checkout", "source distribution"])
def site(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Folder into which a wheel, built from the checkout or from the source distribution, is installed."""
    source = ROOT if request.param == "checkout" else request.getfixturevalue("source_distribution")
    folder: Path = tmp_path_factory.mktemp("site")
    offline = ("--no-index", "--no-deps", "--no-build-isolation")
    python("-m", "pip", "install", *offline, "--no-compile", "--target", folder, source)
    return folder


def test_it_has_every_module_of_the_package(site: Path) -> None:
    installed = files_of(site / "studio_gui")
    data = {path for path in installed if path.split("/")[0] in DATA_FOLDERS.values()}
    assert installed - data == files_of(ROOT / "studio_gui")


@pytest.mark.parametrize("folder", DATA_FOLDERS)
def test_it_has_every_data_file_inside_the_package(site: Path, folder: str) -> None:
    assert files_of(site / "studio_gui" / DATA_FOLDERS[folder]) == files_of(ROOT / folder)


def test_it_has_the_sample_that_the_readme_opens(site: Path) -> None:
    assert (site / "studio_gui/_sample_projects/harbour-thaw.roving.json").is_file()


def test_it_puts_nothing_else_beside_the_package(site: Path) -> None:
    names = {path.name for path in site.iterdir() if path.suffix != ".dist-info"}
    assert names == {"studio_gui", "bin"}


def test_it_finds_its_own_data(site: Path) -> None:
    program = (
        f"import sys; sys.path.insert(0, {str(site)!r}); from studio_gui import paths; "
        "print(paths.font_path()); print(paths.samples_dir())"
    )
    assert python("-I", "-c", program).splitlines() == [
        str(site / "studio_gui/_resources/fonts/NotoSans-Regular.ttf"),
        str(site / "studio_gui/_sample_projects"),
    ]


def test_it_has_its_command(site: Path) -> None:
    assert "studio_gui.app" in (site / "bin" / "roving-lay").read_text(encoding="utf-8")
