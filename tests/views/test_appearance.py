"""If these fail, somebody reads dark words on dark ground, or gets the other appearance at the next start."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication, QMenu, QToolButton
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Appearance, Preferences
from studio_gui.drawing.look import DARK, LIGHT, contrast, look_for
from studio_gui.views.appearance import palette_of, use_appearance
from studio_gui.views.labels import TonedLabel
from studio_gui.views.main_window import MainWindow
from tests.drawing.plans import plain_plan

Role, Group = QPalette.ColorRole, QPalette.ColorGroup


@pytest.fixture(autouse=True)
def _as_the_system(qapp: QApplication) -> Iterator[None]:  # noqa: ARG001  (it has the palette)
    yield
    use_appearance("system")


@pytest.fixture
def settings(tmp_path: Path) -> QSettings:
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


def opened(qtbot: QtBot, settings: QSettings) -> MainWindow:
    window = MainWindow(OpenPlan(plain_plan(4)), Preferences(settings))
    qtbot.addWidget(window)
    with qtbot.waitExposed(window):
        window.show()
    assert window.panes is not None
    return window


@pytest.mark.parametrize("appearance", ["light", "dark"])
def test_all_words_can_be_read(appearance: Appearance) -> None:
    palette = palette_of(appearance)
    pairs = [
        (Role.WindowText, Role.Window),
        (Role.Text, Role.Base),
        (Role.Text, Role.AlternateBase),
        (Role.ButtonText, Role.Button),
        (Role.ToolTipText, Role.ToolTipBase),
        (Role.HighlightedText, Role.Highlight),
        (Role.PlaceholderText, Role.Base),
        (Role.Link, Role.Window),
    ]
    for ink, ground in pairs:
        assert contrast(palette.color(ink), palette.color(ground)) >= 4.5, (ink, ground)
    disabled = contrast(palette.color(Group.Disabled, Role.Text), palette.color(Group.Disabled, Role.Base))
    assert disabled >= 3.0


def test_every_pane_changes_at_once_and_back(qtbot: QtBot, settings: QSettings) -> None:
    window = opened(qtbot, settings)
    choices = window.choices.appearance_menu.choices
    choices["dark"].trigger()
    QApplication.processEvents()
    parts = [window.canvas, window.totals, window.menuBar(), *(dock.widget() for dock in window.docks.all)]
    assert all(look_for(part.palette()) is DARK for part in parts)
    labels = [label for label in window.findChildren(TonedLabel) if label.text()]
    assert len(labels) > 20
    for label in labels:
        ink, ground = label.palette().color(Role.WindowText), label.palette().color(Role.Window)
        assert contrast(ink, ground) >= 4.5, label.text()
    choices["light"].trigger()
    QApplication.processEvents()
    assert all(look_for(part.palette()) is LIGHT for part in parts)


def test_the_appearance_comes_back_at_the_next_start(
    qtbot: QtBot, settings: QSettings, qapp: QApplication
) -> None:
    opened(qtbot, settings).choices.appearance_menu.choices["dark"].trigger()
    use_appearance("system")
    again = opened(qtbot, settings)
    assert look_for(qapp.palette()) is DARK
    assert again.choices.appearance_menu.choices["dark"].isChecked()


def test_as_the_system_is_what_the_platform_gives(qapp: QApplication) -> None:
    before = qapp.palette()
    use_appearance("dark")
    assert look_for(qapp.palette()) is DARK
    use_appearance("system")
    assert qapp.palette() == before
    assert qapp.palette().resolveMask() == before.resolveMask(), "the system is followed again"


def test_kept_nonsense_is_as_the_system(settings: QSettings) -> None:
    settings.setValue("appearance", "plaid")
    assert Preferences(settings).appearance == "system"


def test_a_button_with_a_menu_changes_too(qtbot: QtBot, settings: QSettings) -> None:
    window = opened(qtbot, settings)
    window.choices.appearance_menu.choices["dark"].trigger()
    QApplication.processEvents()
    buttons = [
        button for button in window.panes.stocks.findChildren(QToolButton) if isinstance(button.menu(), QMenu)
    ]
    assert buttons
    for button in buttons:
        middle = button.grab().toImage().pixelColor(4, button.height() // 2)
        assert middle.lightness() < 128, button.text()
