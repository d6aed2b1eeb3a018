"""If these fail, the program starts without its font, its tables or its samples."""

from pathlib import Path

from PySide6.QtGui import QFontInfo, QFontMetricsF
from PySide6.QtWidgets import QApplication

from studio_gui import paths

ROOT = Path(__file__).resolve().parent.parent


def test_a_checkout_reads_the_folders_beside_the_package() -> None:
    assert paths.resources_dir() == ROOT / "resources"
    assert paths.samples_dir() == ROOT / "sample_projects"


def test_an_installed_program_reads_the_copies_inside_the_package(tmp_path: Path) -> None:
    package = tmp_path / "studio_gui"
    (tmp_path / "resources").mkdir()

    assert paths.data_folder("resources", package) == package / "_resources"


def test_a_stray_project_file_beside_an_installed_package_misleads_nothing(tmp_path: Path) -> None:
    package = tmp_path / "studio_gui"
    (tmp_path / "pyproject.toml").touch()

    assert paths.data_folder("resources", package) == package / "_resources"


def test_the_bundled_font_has_both_weights_and_its_licence() -> None:
    assert paths.font_path().is_file()
    assert paths.font_path(bold=True).is_file()
    assert paths.font_path() != paths.font_path(bold=True)
    assert "SIL OPEN FONT LICENSE" in (paths.font_path().parent / "OFL.txt").read_text(encoding="utf-8")


def test_text_is_drawn_in_the_bundled_font(qapp: QApplication) -> None:
    assert QFontInfo(qapp.font()).family() == "Noto Sans"
    assert QFontMetricsF(qapp.font()).horizontalAdvance("12 ml") > 0
