"""If these fail, a dialog predicts colours without a way to what they are worth."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.curve_pane import CurvePane
from studio_gui.views.fade_dialog import FadeDialog
from studio_gui.views.limits_window import LimitsWindow
from studio_gui.views.match_dialog import MatchDialog
from tests.views.keys import shown

LEFT = Qt.MouseButton.LeftButton


@pytest.mark.parametrize("kind", [FadeDialog, MatchDialog])
def test_one_click_shows_the_limits_over_the_dialog_and_once_only(
    kind: Callable[[OpenPlan, int, int], FadeDialog | MatchDialog], document: OpenPlan, qtbot: QtBot
) -> None:
    window: QWidget = shown(QWidget(), qtbot)
    dialog = kind(document, 0, 3)
    dialog.setParent(window, Qt.WindowType.Dialog)
    dialog.open()
    assert "indicative" in dialog.indicative.words.text()
    QTest.mouseClick(dialog.indicative.button, LEFT)
    (limits,) = dialog.findChildren(LimitsWindow)
    assert limits.isVisible()
    limits.reject()
    QTest.mouseClick(dialog.indicative.button, LEFT)
    assert dialog.findChildren(LimitsWindow) == [limits]
    assert limits.isVisible()
    assert dialog.isVisible()
    dialog.reject()


def test_the_pane_of_the_fade_curve_shows_them_too(document: OpenPlan, qtbot: QtBot) -> None:
    pane = shown(CurvePane(document), qtbot, 700, 240)
    assert "indicative" in pane.indicative.words.text()
    assert "&" not in pane.indicative.button.text()  # else it took a key from the window's menus
    QTest.mouseClick(pane.indicative.button, LEFT)
    (limits,) = pane.findChildren(LimitsWindow)
    assert limits.isVisible()
    limits.reject()
    pane.setFocus()
    assert pane.curve.hasFocus()
