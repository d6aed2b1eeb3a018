"""If these fail, a subject of the yarn cannot be reached, or is reckoned while nobody looks at it."""

from __future__ import annotations

from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.yarn_pane import YarnPane
from tests.views.keys import shown


def test_every_tab_has_a_title_and_a_subject_of_its_own(document: OpenPlan, qtbot: QtBot) -> None:
    tabs = shown(YarnPane(document), qtbot).tabs
    titles = [tabs.tabText(place) for place in range(tabs.count())]
    assert titles[0] == "Spinning"
    assert len(set(titles)) == len(titles)
