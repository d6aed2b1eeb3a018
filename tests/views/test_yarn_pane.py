"""If these fail, a subject of the yarn cannot be reached, or is reckoned while nobody looks at it."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.yarn_pane import YarnPane
from tests.views.keys import shown


def test_every_tab_has_a_title_and_a_subject_of_its_own(document: OpenPlan, qtbot: QtBot) -> None:
    tabs = shown(YarnPane(document), qtbot).tabs
    titles = [tabs.tabText(place) for place in range(tabs.count())]
    assert titles[0] == "Spinning"
    assert len(set(titles)) == len(titles)


def test_no_part_of_it_is_a_window_of_its_own_even_for_a_moment(document: OpenPlan, qtbot: QtBot) -> None:
    """One that was would take the keyboard from the window when the panes are made."""
    shown_alone: list[QWidget] = []

    class Watch(QObject):
        def eventFilter(self, watched: QObject, event: QEvent) -> bool:
            if isinstance(watched, QWidget) and event.type() == QEvent.Type.Show and watched.isWindow():
                shown_alone.append(watched)
            return False

    watch = Watch()
    QApplication.instance().installEventFilter(watch)  # type: ignore[union-attr]  # there is one in tests
    try:
        qtbot.addWidget(YarnPane(document))
    finally:
        QApplication.instance().removeEventFilter(watch)  # type: ignore[union-attr]  # as above
    assert shown_alone == []
