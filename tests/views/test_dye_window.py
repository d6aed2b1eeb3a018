"""If these fail, a colour off a photo goes to the wrong swatch, keeps the lamp in it, or is lost."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.stock_model import new_dye
from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.mixing import predicted_srgb
from studio_gui.domain.colour.patches import WHITE_PAPER_SRGB
from studio_gui.domain.colour.spaces import (
    hex_from_srgb,
    lab_from_hex,
    linear_from_srgb,
    srgb_from_hex,
    srgb_from_linear,
)
from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.edits.stocks import add_stock, change_stock
from studio_gui.domain.new_plan import new_plan
from studio_gui.views.dye_window import DyePanel, DyeWindow
from tests.views.dialogs import answering, choose_file
from tests.views.keys import choose, shown, steps, type_into

LEFT = Qt.MouseButton.LeftButton
PALE, DEEP = "#7fa3cc", "#1f3f73"
LAMP = (1.0, 0.85, 0.6)


def in_lamplight(srgb: str) -> QColor:
    return QColor(hex_from_srgb(srgb_from_linear(linear_from_srgb(srgb_from_hex(srgb)) * LAMP)))


@pytest.fixture
def photo(tmp_path: Path) -> Path:
    """Paper with a pale and a deep swatch on it, by lamplight."""
    image = QImage(300, 100, QImage.Format.Format_RGB888)
    for x in range(300):
        srgb = PALE if 20 <= x < 120 else DEEP if 180 <= x < 280 else WHITE_PAPER_SRGB
        for y in range(100):
            image.setPixelColor(x, y, in_lamplight(srgb))
    image.save(str(tmp_path / "swatches.png"))
    return tmp_path / "swatches.png"


@pytest.fixture
def panel(document: OpenPlan, qtbot: QtBot) -> DyePanel:
    made = shown(DyePanel(document), qtbot, 840, 560)
    made.show_stock("k1")
    return made


def of_blue(document: OpenPlan) -> tuple[Swatch, ...]:
    return document.plan.stock("k1").swatches


def click(panel: DyePanel, x: int, y: int = 50) -> None:
    view = panel.photo.view
    QTest.mouseClick(view, LEFT, pos=view.place_on_screen(QPoint(x, y)))
    QApplication.processEvents()


def predicted_swatches(document: OpenPlan, depths: tuple[float, ...]) -> list[Swatch]:
    """What the blue's only swatch leads one to expect at other depths."""
    stock = document.plan.stock("k1")
    fibre = stock.swatches[0].fibre_srgb
    colours = predicted_srgb(np.array([[depth] for depth in depths]), (stock.curve,), fibre).srgb
    return [Swatch(depth, hex_from_srgb(rgb), fibre) for depth, rgb in zip(depths, colours, strict=True)]


def off(one: str, other: str) -> float:
    return float(ciede2000(lab_from_hex(one), lab_from_hex(other)))


def test_white_first_then_swatches_one_by_one(panel: DyePanel, document: OpenPlan, photo: Path) -> None:
    QTest.mouseClick(panel.swatches.add, LEFT)
    panel.photo.open_path(photo)
    choose(panel.photo.takes, "something white, such as paper")
    click(panel, 150)
    assert "taken off" in panel.photo.white.text()

    click(panel, 70)
    choose(panel.photo.takes, "swatch 2")
    click(panel, 230)

    first, second = of_blue(document)
    assert off(first.srgb, PALE) < 0.6
    assert off(second.srgb, DEEP) < 0.6
    assert steps(document) == ["Add swatch", "Colour off a photo", "Colour off a photo"]
    assert panel.swatches.rows[1].colour.edit.text() == second.srgb


def test_without_white_the_lamp_stays_in_and_that_is_said(
    panel: DyePanel, document: OpenPlan, photo: Path
) -> None:
    panel.photo.open_path(photo)
    assert "not known" in panel.photo.white.text()
    choose(panel.photo.takes, "swatch 1")
    click(panel, 70)
    assert of_blue(document)[0].srgb == in_lamplight(PALE).name()


def test_the_fibre_of_a_swatch_is_taken_off_the_photo_too(
    panel: DyePanel, document: OpenPlan, photo: Path
) -> None:
    panel.photo.open_path(photo)
    choose(panel.photo.takes, "fibre of swatch 1")
    click(panel, 150)
    assert of_blue(document)[0].fibre_srgb == in_lamplight(WHITE_PAPER_SRGB).name()


def test_keys_move_the_patch_and_enter_takes_its_colour(
    panel: DyePanel, document: OpenPlan, photo: Path
) -> None:
    panel.photo.open_path(photo)
    choose(panel.photo.takes, "swatch 1")
    view = panel.photo.view
    view.setFocus()
    for _ in range(30):
        QTest.keyClick(view, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    QTest.keyClick(view, Qt.Key.Key_Return)
    assert of_blue(document)[0].srgb == in_lamplight(WHITE_PAPER_SRGB).name()  # at the right edge
    for _ in range(4):
        QTest.keyClick(view, Qt.Key.Key_Left, Qt.KeyboardModifier.ShiftModifier)
    assert in_lamplight(DEEP).name() in panel.photo.told.text()


def test_a_dark_white_is_refused_and_the_light_stays_as_it_was(
    panel: DyePanel, document: OpenPlan, photo: Path
) -> None:
    panel.photo.open_path(photo)
    choose(panel.photo.takes, "something white, such as paper")
    click(panel, 230)
    assert "too dark to tell the light" in panel.photo.message.text()
    assert "not known" in panel.photo.white.text()
    assert not document.is_modified


def test_a_photo_that_cannot_be_read_is_told_and_the_old_one_stays(panel: DyePanel, photo: Path) -> None:
    panel.photo.open_path(photo)
    bad = photo.with_name("torn.png")
    bad.write_bytes(photo.read_bytes()[:60])
    panel.photo.open_path(bad)
    assert "torn.png is a picture, but damaged or cut short" in panel.photo.message.text()
    assert panel.photo.view.photo is not None


def test_a_photo_is_asked_for(panel: DyePanel, photo: Path) -> None:
    with answering(choose_file(photo)):
        QTest.mouseClick(panel.photo.open, LEFT)
    assert panel.photo.view.photo is not None


def test_every_difference_is_told_in_its_tone(panel: DyePanel) -> None:
    row = panel.swatches.rows[0]
    assert row.difference.text() == "0.0"
    type_into(row.depth_field, "1")
    QTest.mouseClick(panel.swatches.add, LEFT)
    type_into(panel.swatches.rows[1].colour.edit, "#d0e0a0")
    assert float(panel.swatches.rows[1].difference.text()) > 1.5
    assert "off by up to" in panel.line.text()


def test_a_spectrum_is_added_and_what_was_read_is_said(
    panel: DyePanel, document: OpenPlan, tmp_path: Path
) -> None:
    table = tmp_path / "blue.csv"
    table.write_text(
        "nm;R %\n"
        + "\n".join(f"{nm};{60 - (nm - 380) / 10:.1f}".replace(".", ",") for nm in range(380, 710, 10))
    )
    panel.swatches.add_spectrum(table)
    waiting = panel.swatches.waiting
    assert not document.is_modified, "it has no say before its depth is known"
    assert "blue.csv waits for its depth" in waiting.words.text()
    assert "percent" in waiting.words.text()
    assert "2 beyond 400 to 700 nm" in waiting.words.text()

    type_into(waiting.depth_field, "0")
    assert waiting.isVisible()
    assert "more than 0" in waiting.depth_field.message.text()
    assert not document.is_modified
    type_into(waiting.depth_field, "1.5")
    assert of_blue(document)[1].is_measured
    assert of_blue(document)[1].depth_pct_owf == 1.5
    assert not waiting.isVisible()
    assert steps(document) == ["Add spectrum"]
    assert "disagree" in panel.swatches.rows[1].fit.text(), "one swatch has no more say than the other"

    type_into(panel.swatches.rows[1].colour.edit, "#336699")
    assert not of_blue(document)[1].is_measured


def test_a_spectrum_waits_with_its_dye_until_it_is_sent_away(
    panel: DyePanel, document: OpenPlan, tmp_path: Path
) -> None:
    table = tmp_path / "blue.csv"
    table.write_text("\n".join(f"{nm};0.4" for nm in range(400, 710, 10)))
    waiting = panel.swatches.waiting
    document.edit("Add", lambda plan: add_stock(plan, new_dye("k9", "Other", "#f2ebdc")))
    panel.swatches.add_spectrum(table)
    panel.show_stock("k9")
    assert not waiting.isVisible()
    panel.show_stock("k1")
    assert waiting.isVisible()
    QTest.mouseClick(waiting.close_button, LEFT)
    assert not waiting.isVisible()

    panel.swatches.add_spectrum(table)
    document.replace(new_plan())
    assert not waiting.isVisible(), "another plan's dye of the same id is another dye"


def test_of_two_swatches_that_disagree_neither_is_blamed_and_of_three_the_wrong_one(
    panel: DyePanel, document: OpenPlan
) -> None:
    swatches = predicted_swatches(document, (0.5, 1.0, 2.0))
    wrong = swatches[2].changed(depth_pct_owf=0.25)
    rows = panel.swatches.rows
    document.edit("Two", partial(change_stock, stock_id="k1", swatches=(swatches[0], wrong)))
    assert all("two cannot tell" in row.fit.text() for row in rows)
    document.edit("Three", partial(change_stock, stock_id="k1", swatches=(*swatches[:2], wrong)))
    assert "Check its colour, depth" in rows[2].fit.text()
    assert not any("Check" in row.fit.text() or "past this" in row.fit.text() for row in rows[:2])
    type_into(rows[2].depth_field, "2")
    assert [row.fit.text() for row in rows] == ["", "", ""]


def test_a_spectrum_that_is_none_is_told_with_its_row(
    panel: DyePanel, document: OpenPlan, tmp_path: Path
) -> None:
    table = tmp_path / "blue.csv"
    table.write_text("400;\n")
    panel.swatches.add_spectrum(table)
    assert panel.swatches.message.text().startswith("blue.csv: Row 1")
    assert not document.is_modified


def test_a_fluorescent_dye_is_met_at_its_swatches(panel: DyePanel, document: OpenPlan) -> None:
    type_into(panel.swatches.rows[0].colour.edit, "#eeff3c")
    assert float(panel.swatches.rows[0].difference.text()) > 0.5
    QTest.mouseClick(panel.swatches.fluorescent, LEFT, pos=QPoint(8, 12))
    assert document.plan.stock("k1").is_fluorescent
    assert panel.swatches.rows[0].difference.text() == "0.0"


def test_a_swatch_bluer_than_its_fibre_is_asked_about(panel: DyePanel) -> None:
    type_into(panel.swatches.rows[0].colour.edit, "#5a86ff")
    assert "bluer than its fibre" in panel.swatches.rows[0].fit.text()


def test_a_dye_that_is_gone_leaves_the_window_idle(panel: DyePanel) -> None:
    panel.show_stock("gone")
    assert not panel.isEnabled()


def test_enter_in_a_field_of_the_window_ends_the_field_alone(document: OpenPlan, qtbot: QtBot) -> None:
    window = DyeWindow(document)
    qtbot.addWidget(window)
    with qtbot.waitExposed(window):
        window.open_for("k1")
    panel = window.panel
    QTest.mouseClick(panel.swatches.add, LEFT)
    QApplication.processEvents()
    edit = panel.swatches.rows[1].colour.edit
    assert QApplication.focusWidget() is edit

    for text in ("#b9cbe0", "0.25"):
        field = QApplication.focusWidget()
        assert field is not None
        QTest.keyClicks(field, text)
        QTest.keyClick(field, Qt.Key.Key_Return)
        QTest.keyClick(field, Qt.Key.Key_Tab)

    assert window.isVisible()
    assert of_blue(document)[1] == Swatch(0.25, "#b9cbe0", of_blue(document)[0].fibre_srgb)
