"""If these fail, what is printed is not what the preview shows, or what was chosen is forgotten."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMessageBox
from pytestqt.qtbot import QtBot

from studio_gui.document.preferences import Preferences
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.sheets.book import SHEETS
from studio_gui.drawing.sheets.paper import A4, LETTER
from studio_gui.views import print_preview, print_run
from studio_gui.views.live import use_units
from studio_gui.views.print_preview import PrintPreview
from studio_gui.wording.translation import install_units
from tests.drawing.plans import plain_plan
from tests.views.dialogs import answering, choose_file, press

Button = QMessageBox.StandardButton
KEYS = [sheet.key for sheet in SHEETS]


class Desk:
    """A preview of a plan of many sections."""

    def __init__(self, qtbot: QtBot, folder: Path, count: int = 24) -> None:
        self.qtbot, self.folder = qtbot, folder
        settings = QSettings(str(folder / "settings.ini"), QSettings.Format.IniFormat)
        self.preferences = Preferences(settings)
        self.preferences.remember_folder(folder)
        self.said: list[str] = []
        self.preview = self.open(count)

    def open(self, count: int = 24) -> PrintPreview:
        preview = PrintPreview(worksheet(plain_plan(count, rovings=2)), self.preferences, "plain", None)
        self.qtbot.addWidget(preview)
        preview.said.connect(self.said.append)
        preview.show()
        self.qtbot.waitUntil(lambda: preview.is_laid_out)
        return preview

    def names(self) -> list[str]:
        names = self.preview.list
        return [names.item(row).text() for row in range(names.count())]

    def tick(self, key: str) -> None:
        box = self.preview.choices.sheets[key]
        QTest.mouseClick(
            box, Qt.MouseButton.LeftButton, pos=box.rect().center() - box.rect().topRight() / 2.2
        )
        self.qtbot.waitUntil(lambda: self.preview.is_laid_out)


@pytest.fixture
def desk(qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.setattr(print_run, "PROGRESS_AFTER_MS", 600_000)  # however slow the machine is
    return Desk(qtbot, tmp_path)


def only(desk: Desk, key: str) -> None:
    """Leave all sheets out but one."""
    for other in KEYS:
        if other != key and desk.preview.choices.sheets[other].isChecked():
            desk.tick(other)


def test_all_pages_of_the_sheets_are_listed_and_the_first_is_seen(desk: Desk) -> None:
    assert desk.names()[:3] == [f"Section map, {number} of 3" for number in (1, 2, 3)]
    assert [page.name for page in desk.preview.view.pages] == desk.names()
    assert desk.preview.where.text() == f"Page 1 of {len(desk.names())}"
    desk.qtbot.waitUntil(lambda: desk.preview.view.is_painted)


def test_page_keys_list_and_buttons_move_alike(desk: Desk) -> None:
    preview = desk.preview
    QTest.keyClick(preview.view, Qt.Key.Key_PageDown)
    assert (preview.list.currentRow(), preview.where.text()[:6]) == (1, "Page 2")
    QTest.mouseClick(preview.forth, Qt.MouseButton.LeftButton)
    assert preview.view.index == 2
    QTest.mouseClick(
        preview.list.viewport(),
        Qt.MouseButton.LeftButton,
        pos=preview.list.visualItemRect(preview.list.item(0)).center(),
    )
    assert preview.view.index == 0
    assert not preview.back.isEnabled()


def test_a_sheet_is_left_out_and_stays_so(desk: Desk) -> None:
    desk.tick("section-map")
    assert not any("Section map" in name for name in desk.names())
    assert not desk.preview.choices.mirrored.isEnabled()
    assert desk.preferences.print_choices.left_out == frozenset({"section-map"})
    again = desk.open()
    assert not again.choices.sheets["section-map"].isChecked()


def test_without_any_sheet_nothing_can_be_printed(desk: Desk) -> None:
    for key in KEYS:
        desk.tick(key)
    assert desk.names() == []
    assert not desk.preview.print_button.isEnabled()
    assert not desk.preview.save_button.isEnabled()
    assert desk.preview.where.text() == "No page"
    desk.preview.save()  # by its keys
    desk.preview.print_out()


def test_the_other_side_comes_as_a_second_map(desk: Desk) -> None:
    before = len(desk.names())
    QTest.keyClick(desk.preview.choices.mirrored, Qt.Key.Key_Space)
    desk.qtbot.waitUntil(lambda: desk.preview.is_laid_out)
    assert len(desk.names()) > before
    assert "Section map, other side, 1 of 3" in desk.names()
    assert desk.preferences.print_choices.mirrored


def test_the_paper_is_remembered(desk: Desk) -> None:
    assert desk.preview.pages[0].paper == A4.landscape()
    desk.preview.choices.paper.setFocus()
    QTest.keyClick(desk.preview.choices.paper, Qt.Key.Key_Down)
    desk.qtbot.waitUntil(lambda: desk.preview.is_laid_out)
    assert desk.preview.pages[0].paper == LETTER.landscape()
    assert desk.preferences.print_choices.paper == LETTER
    assert desk.open().pages[0].paper == LETTER.landscape()


def test_other_units_come_at_once(desk: Desk) -> None:
    try:
        use_units("us")
        desk.qtbot.waitUntil(lambda: desk.preview.is_laid_out)
        words = [line for page in desk.preview.pages for one in page.words() for line in one.lines]
        assert "oz" in words
    finally:
        install_units("metric")


def test_pages_are_seen_in_their_true_size(desk: Desk) -> None:
    zoom = desk.preview.zoom
    zoom.setFocus()
    QTest.keyClick(zoom, Qt.Key.Key_Home)
    for _ in range(4):
        QTest.keyClick(zoom, Qt.Key.Key_Down)
    assert (zoom.currentText(), desk.preview.view.factor) == ("100 %", 1.0)
    QTest.keyClick(desk.preview.view, Qt.Key.Key_Plus)
    assert zoom.placeholderText() == "125 %"


def test_the_pages_that_are_shown_are_saved(desk: Desk) -> None:
    only(desk, "section-map")
    with answering(choose_file(desk.folder / "mine.pdf")):
        QTest.mouseClick(desk.preview.save_button, Qt.MouseButton.LeftButton)
    document = pypdfium2.PdfDocument(desk.folder / "mine.pdf")
    assert len(document) == len(desk.names()) == 3
    assert desk.said[-1].endswith("mine.pdf")


def test_a_name_without_ending_gets_one(desk: Desk) -> None:
    with answering(choose_file(desk.folder / "mine")):
        QTest.keyClick(desk.preview, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    assert (desk.folder / "mine.pdf").exists()


@pytest.mark.parametrize(
    ("name", "words"), [("mine.odt", "does not say what to write"), ("folder.pdf", "is a folder")]
)
def test_what_cannot_be_saved_is_said_and_spoils_nothing(desk: Desk, name: str, words: str) -> None:
    (desk.folder / "folder.pdf").mkdir()
    with answering(press(Button.Ok)) as said:
        desk.preview.save_to(desk.folder / name)
    assert words in said[0]
    assert said[0].startswith("Nothing was saved.")
    assert not (desk.folder / "mine.odt").exists()
    assert desk.said == []


def test_printing_goes_to_the_printer_that_was_chosen(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    only(desk, "section-map")
    target = desk.folder / "printed.pdf"

    class Chosen(QPrintDialog):
        """A dialog in which somebody asks for pages 2 and 3."""

        def __init__(self, printer: QPrinter, parent: PrintPreview) -> None:
            super().__init__(printer, parent)
            self._printer = printer

        def exec(self) -> int:
            self._printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
            self._printer.setOutputFileName(str(target))
            self._printer.setFromTo(2, 3)
            return 1

    monkeypatch.setattr(print_preview, "QPrintDialog", Chosen)
    QTest.mouseClick(desk.preview.print_button, Qt.MouseButton.LeftButton)
    document = pypdfium2.PdfDocument(target)
    assert len(document) == 2
    assert "Section 9" in document[0].get_textpage().get_text_bounded()
    assert desk.said == ["Pages sent to the printer: 2"]


def test_the_printers_dialog_can_be_left(desk: Desk) -> None:
    with answering(lambda dialog: dialog.reject()):
        QTest.keyClick(desk.preview, Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier)
    assert desk.said == []


@pytest.mark.parametrize(("button", "goes_on"), [(Button.Yes, True), (Button.Cancel, False)])
def test_an_edge_that_is_cut_off_is_asked_about(desk: Desk, button: Button, goes_on: bool) -> None:
    with answering(press(button)) as said:
        assert desk.preview._accepts_edge(12.7) is goes_on
    assert "12.7 mm" in said[0]
