"""If these fail, a photo is looked for in the wrong folder, or what is wrong with it is not said."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QDir, QSettings, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QFileDialog
from pytestqt.qtbot import QtBot

from studio_gui.document.preferences import APPLICATION, ORGANISATION, Preferences
from studio_gui.views.photo_panel import PhotoPanel
from tests.views.dialogs import answering, cancel, choose_file
from tests.views.keys import shown

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def panel(qtbot: QtBot) -> PhotoPanel:
    QSettings(ORGANISATION, APPLICATION).clear()
    return shown(PhotoPanel(), qtbot, 500, 400)


def test_the_next_photo_is_looked_for_where_the_last_one_was(panel: PhotoPanel, tmp_path: Path) -> None:
    image = QImage(20, 20, QImage.Format.Format_RGB888)
    image.fill(QColor("#3a6ea5"))
    (tmp_path / "lots").mkdir()
    assert image.save(str(tmp_path / "lots" / "one.png"))
    began_in: list[Path] = []

    def look_and_leave(dialog: QDialog) -> None:
        assert isinstance(dialog, QFileDialog)
        began_in.append(Path(dialog.directory().path()))
        cancel(dialog)

    with answering(choose_file(tmp_path / "lots" / "one.png"), look_and_leave):
        QTest.mouseClick(panel.open, LEFT)
        assert panel.view.photo is not None
        QTest.mouseClick(panel.open, LEFT)
    assert began_in == [tmp_path / "lots"]
    assert Preferences().folder == Path(QDir.homePath())  # that of plans is another


def test_where_there_is_no_such_folder_any_more_it_is_that_of_plans(tmp_path: Path, qapp: object) -> None:  # noqa: ARG001
    preferences = Preferences(QSettings(str(tmp_path / "kept.ini"), QSettings.Format.IniFormat))
    preferences.remember_folder(tmp_path)
    assert preferences.photo_folder == tmp_path
    preferences.remember_photo_folder(tmp_path / "gone")
    assert preferences.photo_folder == tmp_path


@pytest.mark.parametrize(
    ("content", "words"),
    [(b"", "lot.png is empty"), (b"text", "lot.png holds no picture"), (b"\x89PNG\r\n\x1a\n", "damaged")],
)
def test_what_is_wrong_with_a_photo_is_said(
    panel: PhotoPanel, tmp_path: Path, content: bytes, words: str
) -> None:
    (tmp_path / "lot.png").write_bytes(content)
    with answering(choose_file(tmp_path / "lot.png")):
        QTest.mouseClick(panel.open, LEFT)
    assert words in panel.message.text()
    assert panel.view.photo is None
