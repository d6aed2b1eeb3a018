"""If these fail, strip and yarn do not follow the plan, or what is pointed at is lit elsewhere."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QHelpEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QToolTip
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.inputs import set_passes
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.drawing.lay_view import LayView
from studio_gui.views import uneven_spinning
from studio_gui.views.main_window import MainWindow
from studio_gui.views.strip_pane import StripPane
from studio_gui.views.yarn_strip import YarnStrip
from tests.views.keys import ESC, shown


@pytest.fixture
def strip(document: OpenPlan, qtbot: QtBot) -> YarnStrip:
    document.edit("", partial(set_passes, passes=2))
    return shown(YarnStrip(document), qtbot, 900, 190)


def on_strip(strip: YarnStrip, place_m: float) -> QPoint:
    return QPointF(strip.lay.strip_x(place_m), strip.lay.strip.center().y()).toPoint()


def turn_wheel(strip: YarnStrip, point: QPointF, by: int) -> None:
    there = QPointF(strip.mapToGlobal(point.toPoint()))
    none = (Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase, False)
    QApplication.sendEvent(strip, QWheelEvent(point, there, QPoint(), QPoint(0, by), *none))


def picture(strip: YarnStrip) -> bytes:
    image = strip.grab().toImage()
    return bytes(image.constBits())


def test_pointing_at_the_strip_tells_which_section(strip: YarnStrip, qtbot: QtBot) -> None:
    with qtbot.waitSignal(strip.pointed) as told:
        QTest.mouseMove(strip, on_strip(strip, 3.9))
    assert told.args == [0]
    before = picture(strip)
    with qtbot.waitSignal(strip.pointed) as told:
        QTest.mouseMove(strip, QPoint(5, 5))
    assert told.args == [-1]
    assert picture(strip) != before


def test_a_click_selects_the_section(strip: YarnStrip, document: OpenPlan) -> None:
    QTest.mouseClick(strip, Qt.MouseButton.LeftButton, pos=on_strip(strip, 2.0))
    assert document.selected_index == 3


def test_wheel_and_keys_look_closer_and_back(strip: YarnStrip) -> None:
    middle = strip.lay.yarn.center()
    place = strip.lay.plied_m(middle.x())
    turn_wheel(strip, middle, 240)
    assert strip.view != LayView()
    assert strip.lay.plied_m(middle.x()) == pytest.approx(place)
    left_m = strip.view.left_m
    QTest.keyClick(strip, Qt.Key.Key_Right)
    assert strip.view.left_m > left_m
    QTest.keyClick(strip, Qt.Key.Key_Home)
    assert strip.view.left_m == 0.0
    QTest.keyClick(strip, Qt.Key.Key_0)
    assert strip.view == LayView()
    QTest.keyClick(strip, Qt.Key.Key_Plus)
    assert strip.view != LayView()
    QTest.mouseDClick(strip, Qt.MouseButton.LeftButton, pos=middle.toPoint())
    assert strip.view == LayView()


def test_a_part_in_sight_says_so_and_there_are_four_ways_back(pane: StripPane) -> None:
    strip = pane.strip
    whole = strip.accessibleDescription()
    assert not pane.whole.isEnabled()
    ways: tuple[Callable[[], None], ...] = (
        lambda: QTest.mouseClick(pane.whole, Qt.MouseButton.LeftButton),
        lambda: QTest.mouseDClick(strip, Qt.MouseButton.LeftButton, pos=strip.lay.yarn.center().toPoint()),
        lambda: QTest.keyClick(strip, Qt.Key.Key_0),
        lambda: QTest.keyClick(strip, ESC),
    )
    for way_back in ways:
        at_all = picture(strip)
        strip.look_at(LayView(strip.lay.px_per_m * 4.0, 100.0))
        assert pane.whole.isEnabled()
        assert strip.accessibleDescription().startswith("In sight: 100 m to ")
        assert picture(strip) != at_all
        way_back()
        assert (strip.view.is_fitted, pane.whole.isEnabled()) == (True, False)
        assert strip.accessibleDescription() == whole


def test_the_yarn_is_drawn_along_by_hand(strip: YarnStrip) -> None:
    strip.zoom(8.0)
    left_m, middle = strip.view.left_m, strip.lay.yarn.center().toPoint()
    QTest.mousePress(strip, Qt.MouseButton.LeftButton, pos=middle)
    QTest.mouseMove(strip, middle - QPoint(50, 0))
    QTest.mouseRelease(strip, Qt.MouseButton.LeftButton, pos=middle - QPoint(50, 0))
    assert strip.view.left_m == pytest.approx(left_m + 50.0 / strip.lay.px_per_m)


def test_another_structure_is_told_and_drawn(strip: YarnStrip, document: OpenPlan) -> None:
    before = picture(strip)
    document.edit("", partial(set_yarn, structure="chain"))
    assert "Chain" in strip.accessibleDescription()
    assert "Changes mix" in strip.accessibleDescription()
    assert picture(strip) != before
    document.undo_stack.undo()
    assert "Chain" not in strip.accessibleDescription()


def test_fibre_comes_when_nobody_waits(strip: YarnStrip, qtbot: QtBot) -> None:
    with qtbot.waitSignal(strip.spinning.done, timeout=20_000):
        strip.update()
    before = picture(strip)
    assert len(set(before)) > 60, "there are many shades in it"


@pytest.mark.parametrize(("place_m", "words"), [(0.5, "A Section"), (-1.0, "")])
def test_what_is_under_the_pointer_is_told(strip: YarnStrip, place_m: float, words: str) -> None:
    point = on_strip(strip, place_m) if place_m >= 0.0 else QPoint(2, 2)
    QToolTip.hideText()
    QApplication.sendEvent(strip, QHelpEvent(QEvent.Type.ToolTip, point, strip.mapToGlobal(point)))
    assert words[:1] in QToolTip.text()
    assert bool(QToolTip.text()) == bool(words)


def test_a_stretch_of_the_yarn_is_told(strip: YarnStrip) -> None:
    point = strip.lay.map.center().toPoint()
    QApplication.sendEvent(strip, QHelpEvent(QEvent.Type.ToolTip, point, strip.mapToGlobal(point)))
    assert QToolTip.text().startswith(("Solid", "Barber-pole"))
    QToolTip.hideText()


def test_lay_and_strip_light_each_other(document: OpenPlan, qtbot: QtBot) -> None:
    window = MainWindow(document)
    qtbot.addWidget(window)
    window.resize(1300, 900)
    with qtbot.waitExposed(window):
        window.show()
    strip = window.panes.strip
    QTest.mouseMove(window.canvas, window.canvas.lay.item("section", 2).rect.center().toPoint())
    assert strip.lit == 2
    strip.pointed.emit(1)
    assert window.canvas.hovered == ("section", 1)


@pytest.fixture
def pane(document: OpenPlan, qtbot: QtBot) -> StripPane:
    document.edit("", partial(set_passes, passes=2))
    return shown(StripPane(document), qtbot, 900, 230)


def test_spun_by_hand_the_yarn_is_another_and_its_bands_are_told(pane: StripPane) -> None:
    strip = pane.strip
    even = strip.lay.spun
    QTest.mouseClick(strip.uneven.tick, Qt.MouseButton.LeftButton, pos=QPoint(8, 10))
    assert strip.uneven.is_on
    assert strip.lay.spun is not even
    assert strip.accessibleDescription().startswith("Four spins of five: solid ")
    assert "colours slide" in strip.accessibleDescription()
    QTest.keyClick(strip.uneven.tick, Qt.Key.Key_Space)
    assert strip.lay.spun is even
    assert strip.uneven.spins is None


def test_how_uneven_is_one_step(pane: StripPane, document: OpenPlan) -> None:
    uneven, steps = pane.strip.uneven, document.undo_stack.count()
    assert not uneven.slider.isEnabled()
    uneven.tick.setChecked(True)
    before = pane.strip.accessibleDescription()
    QTest.keyClick(uneven.slider, Qt.Key.Key_PageUp)
    assert document.plan.yarn.spread == pytest.approx(0.2)
    assert document.undo_stack.count() == steps + 1
    assert pane.strip.accessibleDescription() != before
    document.undo_stack.undo()
    assert document.plan.yarn.spread == pytest.approx(0.1)
    assert uneven.value.text() == "± 10 %"


def test_a_drag_is_looked_at_and_esc_takes_it_back(pane: StripPane, document: OpenPlan) -> None:
    strip, uneven, steps = pane.strip, pane.strip.uneven, document.undo_stack.count()
    uneven.tick.setChecked(True)
    before, told = strip.lay.spun, strip.accessibleDescription()
    from_px = uneven.slider.width() // 3
    QTest.mousePress(uneven.slider, Qt.MouseButton.LeftButton, pos=QPoint(from_px, 12))
    QTest.mouseMove(uneven.slider, QPoint(from_px + 70, 12))
    assert document.plan.yarn.spread == pytest.approx(0.1), "so far it is only looked at"
    assert strip.lay.spun is not before
    assert strip.accessibleDescription() != told
    QTest.keyClick(uneven.slider, ESC)
    QTest.mouseRelease(uneven.slider, Qt.MouseButton.LeftButton, pos=QPoint(from_px + 70, 12))
    assert strip.accessibleDescription() == told
    assert uneven.value.text() == "± 10 %"
    assert document.undo_stack.count() == steps


def test_spins_are_had_once_a_plan(pane: StripPane, document: OpenPlan) -> None:
    uneven = pane.strip.uneven
    uneven.tick.setChecked(True)
    spins = uneven.spins
    assert spins is not None
    document.select(document.plan.sections[1].id)
    pane.strip.zoom(2.0)
    assert uneven.spins is spins


def test_spins_of_a_yarn_of_many_cuts_come_when_nobody_waits(
    pane: StripPane, document: OpenPlan, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(uneven_spinning, "CUTS_AT_ONCE", 8)
    assert sum(len(one.cuts_m) for one in document.sheet.yarn.strands) > uneven_spinning.CUTS_AT_ONCE
    strip, uneven = pane.strip, pane.strip.uneven
    with qtbot.waitSignal(uneven.changed, timeout=20_000, check_params_cb=lambda: uneven.spins is not None):
        uneven.tick.setChecked(True)
        assert strip.lay.spun is document.sheet.yarn, "the even yarn is shown so long"
    first = uneven.spins
    assert first is not None
    assert strip.lay.spun is first.typical
    with qtbot.waitSignal(uneven.changed, timeout=20_000):
        QTest.keyClick(uneven.slider, Qt.Key.Key_PageUp)
        assert strip.lay.spun is first.typical, "those before, until the new ones are there"
    assert uneven.spins is not first
    document.edit("", partial(set_yarn, structure="chain"))
    assert strip.lay.spun.is_chain, "spins of another kind of yarn are never shown"


def test_the_whole_line_is_told_where_a_small_pane_cuts_it(pane: StripPane) -> None:
    strip = pane.strip
    strip.uneven.tick.setChecked(True)
    point = strip.lay.line.center().toPoint()
    QApplication.sendEvent(strip, QHelpEvent(QEvent.Type.ToolTip, point, strip.mapToGlobal(point)))
    assert QToolTip.text() == strip.accessibleDescription()
    QToolTip.hideText()


def test_tick_and_slider_have_names_and_the_keyboard(pane: StripPane) -> None:
    uneven = pane.strip.uneven
    pane.strip.setFocus()
    QTest.keyClick(pane.strip, Qt.Key.Key_Tab)
    assert uneven.tick.hasFocus()
    QTest.keyClick(uneven.tick, Qt.Key.Key_Space)
    QTest.keyClick(uneven.tick, Qt.Key.Key_Tab)
    assert uneven.slider.hasFocus()
    assert uneven.tick.text().replace("&", "") == "As spun by hand"
    assert uneven.slider.accessibleName() == "Grist wanders up and down by"
