"""If these fail, other colours are compared than were chosen, or a prediction passes for a measurement."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.colour.compare import compare
from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.edits.swatches import change_swatch
from studio_gui.views.compare_window import ComparePanel, CompareWindow
from studio_gui.views.limits_window import LimitsWindow
from studio_gui.views.main_window import MainWindow
from tests.views.keys import choose, shown, type_into
from tests.views.whole_window import whole_window

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def panel(document: OpenPlan, qtbot: QtBot) -> ComparePanel:
    return shown(ComparePanel(document), qtbot, 460, 400)


def colour_of(document: OpenPlan, index: int) -> str:
    return hex_from_srgb(document.sheet.colours.srgb[index])


def test_two_sections_are_compared(panel: ComparePanel, document: OpenPlan) -> None:
    first, second = (document.plan.sections[place].id for place in (0, 1))
    panel.compare_sections(first, second)
    there = compare(colour_of(document, 0), colour_of(document, 1))
    assert panel.difference.text().startswith(f"{there.difference:.1f}")
    assert panel.grade.text() == there.grade
    assert [field.edit.text() for field in panel.fields] == [colour_of(document, 0), colour_of(document, 1)]


def test_a_section_is_compared_with_a_swatch_which_is_followed(
    panel: ComparePanel, document: OpenPlan
) -> None:
    choose(panel.sides[1], "Swatch of Blue, 1 %")
    assert panel.fields[1].edit.text() == "#2a5d8f"
    document.edit("", lambda plan: change_swatch(plan, "k1", 0, srgb="#336699"))
    QApplication.processEvents()
    assert panel.fields[1].edit.text() == "#336699"
    assert compare(panel.fields[0].edit.text(), "#336699").grade == panel.grade.text()


def test_a_colour_is_typed_over_either_side(panel: ComparePanel) -> None:
    for field in panel.fields:
        type_into(field.edit, "52.1 34 -12")
    assert [side.currentText() for side in panel.sides] == ["typed or picked"] * 2
    assert (panel.grade.text(), panel.directions.text()) == ("5", "The second is the same.")


def test_a_colour_that_is_none_is_refused_and_the_old_one_stays(panel: ComparePanel) -> None:
    before = panel.fields[0].edit.text()
    type_into(panel.fields[0].edit, "300 0 0")
    assert panel.fields[0].edit.message.text()
    assert panel.fields[0].edit.text() == before


def test_typed_lab_is_compared_as_it_was_typed_whatever_screens_show(panel: ComparePanel) -> None:
    """A pair of G. Sharma, W. Wu, E. N. Dalal, Color Res. Appl. 30(1), 2005, 21-30, table 1: 2.0425."""
    for field, lab in zip(panel.fields, ("50 2.6772 -79.7751", "50 0 -82.7485"), strict=True):
        type_into(field.edit, lab)
    assert panel.difference.text().startswith("2.0")
    assert panel.told[0].text() == "L 50.0  a 2.7  b -79.8 · outside what screens show; the nearest is shown"


def test_what_was_said_of_other_colours_goes_with_them(panel: ComparePanel, document: OpenPlan) -> None:
    for field in panel.fields:
        type_into(field.edit, "banana")
        assert field.edit.message.text()
    panel.compare_sections(*(section.id for section in document.plan.sections[:2]))
    assert [field.edit.message.text() for field in panel.fields] == ["", ""]
    type_into(panel.fields[0].edit, "banana")
    choose(panel.sides[0], "Swatch of Blue, 1 %")
    assert panel.fields[0].edit.message.text() == ""


def test_a_colour_outside_what_screens_show_is_marked(panel: ComparePanel, document: OpenPlan) -> None:
    document.edit("", lambda plan: change_swatch(plan, "k1", 0, srgb="#00ffff"))
    document.edit("", lambda plan: change_swatch(plan, "k1", 0, depth_pct_owf=0.2))
    QApplication.processEvents()
    outside = [told for told in panel.told if "outside" in told.text()]
    assert bool(outside) == bool(document.sheet.colours.clipped[:2].any())


def test_by_key_the_selected_sections_come_up_and_limits_are_one_click_away(
    qtbot: QtBot, tmp_path: Path
) -> None:
    window: MainWindow = whole_window(qtbot, tmp_path)
    sections = window.document.plan.sections
    window.document.select(sections[2].id, sections[4].id)

    QTest.keyClick(window, Qt.Key.Key_K, Qt.KeyboardModifier.ControlModifier)
    QApplication.processEvents()

    (dialog,) = window.findChildren(CompareWindow)
    assert dialog.isVisible()
    assert [field.edit.text() for field in dialog.panel.fields] == [
        colour_of(window.document, 2),
        colour_of(window.document, 4),
    ]
    assert "indicative" in dialog.panel.indicative.words.text()
    QTest.mouseClick(dialog.panel.indicative.button, LEFT)
    (limits,) = window.findChildren(LimitsWindow)
    assert "Dye a sample" in limits.text.toPlainText()


def test_the_limits_are_one_click_away_from_every_colour(qtbot: QtBot, tmp_path: Path) -> None:
    window: MainWindow = whole_window(qtbot, tmp_path)
    assert window.indicative.text() == "Colours are indicative"
    QTest.mouseClick(window.indicative, LEFT)
    (limits,) = window.findChildren(LimitsWindow)
    assert limits.isVisible()
