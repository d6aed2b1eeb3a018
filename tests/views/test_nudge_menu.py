"""If these fail, a nudge changes more than it is called, and nobody is told."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from PySide6.QtTest import QSignalSpy
from PySide6.QtWidgets import QMainWindow
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.colour.shifts import NOTICEABLE
from studio_gui.domain.edits.liquors import set_parts
from studio_gui.domain.edits.nudges import DIRECTIONS, nudged
from studio_gui.views.nudge_menu import NudgeMenu
from tests.views.keys import steps


@pytest.fixture
def menu(document: OpenPlan, qtbot: QtBot) -> Iterator[NudgeMenu]:
    window = QMainWindow()
    qtbot.addWidget(window)
    made = NudgeMenu(document, window)
    made.retranslate()
    document.select("s2")
    yield made
    window.close()


def test_what_a_nudge_did_is_said_and_what_it_would_do_before(menu: NudgeMenu, document: OpenPlan) -> None:
    menu.aboutToShow.emit()
    foretold = {
        direction: entry.toolTip() for direction, entry in zip(DIRECTIONS, menu.actions(), strict=True)
    }
    found = nudged(document.plan, "s2", "lighter").shift
    said = QSignalSpy(menu.said)
    menu.actions()[0].trigger()

    words = said.at(0)[0]
    assert words.startswith("Lighter by ")
    assert words in foretold["lighter"]
    assert "graduation is 1 ml" in words
    for word, by in found.besides:
        assert by > NOTICEABLE
        assert f"{word} by {by:.1f}" in words
    assert len(re.findall(" by ", words)) == 1 + len(found.besides)
    assert steps(document) == ["A little lighter"]


def test_what_goes_no_way_is_said_before_and_refused_after(menu: NudgeMenu, document: OpenPlan) -> None:
    liquor_id, water = document.plan.sections[1].liquor_id, document.plan.let_downs[0].id
    document.edit("Water", lambda plan: set_parts(plan, liquor_id, {water: 1.0}))
    deeper = menu.actions()[DIRECTIONS.index("deeper")]
    menu.aboutToShow.emit()
    refused, before = QSignalSpy(document.refused), document.plan
    assert "cannot be deeper" in deeper.toolTip()
    deeper.trigger()
    assert refused.count() == 1
    assert document.plan is before
