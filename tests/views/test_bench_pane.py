"""If these fail, what is typed at the bench goes elsewhere, or is lost."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.bench_models import BottleColumn
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.inputs import set_bench
from studio_gui.domain.plan import Bench
from studio_gui.domain.timetable import Timetable
from studio_gui.views.bench_pane import BenchPane
from studio_gui.views.bottles_panel import BottlesPanel
from studio_gui.views.jars_panel import MOST_LINES, JarsPanel
from studio_gui.views.timetable_panel import TimetablePanel
from tests.drawing.plans import plain_plan
from tests.export.plans import sample
from tests.views.keys import shown, steps, type_into, type_into_cell


@pytest.fixture
def timetable(document: OpenPlan, qtbot: QtBot) -> TimetablePanel:
    return shown(TimetablePanel(document), qtbot)


def test_every_subject_has_a_tab(document: OpenPlan, qtbot: QtBot) -> None:
    pane = shown(BenchPane(document), qtbot)
    titles = [pane.tabs.tabText(place) for place in range(pane.tabs.count())]
    assert titles == ["Jars", "Stocks to make", "Timetable"]


def test_no_part_of_it_is_a_window_of_its_own_even_for_a_moment(qtbot: QtBot) -> None:
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
        qtbot.addWidget(BenchPane(OpenPlan(set_bench(sample("storm-kettle"), syringe_ml=60.0))))
    finally:
        QApplication.instance().removeEventFilter(watch)  # type: ignore[union-attr]  # as above
    assert shown_alone == []


def test_a_start_gives_every_step_its_times(timetable: TimetablePanel, document: OpenPlan) -> None:
    assert timetable.times["soak"].text() == ""
    type_into(timetable.start, "9.30")
    assert document.plan.timetable.start_min == 570.0
    assert timetable.start.text() == "09:30"
    assert timetable.times["soak"].text() == "09:30 to 10:00"
    assert timetable.times["dry"].text() == "00:30, day 2 to 00:30, day 3"
    type_into(timetable.start, "")
    assert document.plan.timetable == Timetable()
    assert (timetable.start.text(), timetable.times["dry"].text()) == ("", "")
    assert steps(document) == ["Start", "Start"]


def test_a_time_that_is_none_leaves_the_old_one_and_says_why(
    timetable: TimetablePanel, document: OpenPlan
) -> None:
    type_into(timetable.start, "9:00")
    type_into(timetable.start, "25:00")
    assert document.plan.timetable.start_min == 540.0
    assert timetable.start.text() == "09:00"
    assert timetable.start.message.text() == (
        "“25:00” is no time of day. Write it like 9:30 or 14:00, or leave it empty."
    )


def test_a_duration_moves_all_that_follows(timetable: TimetablePanel, document: OpenPlan) -> None:
    type_into(timetable.start, "8")
    type_into(timetable.fields["steam"], "1.5 h")
    assert document.plan.timetable.steam_min == 90.0
    assert timetable.fields["steam"].text() == "90 min"
    assert timetable.times["cool"].text() == "11:15 to 23:15"
    type_into(timetable.fields["cool"], "10")
    assert document.plan.timetable.cool_min == 600.0, "a bare number is in the unit that is shown"
    assert timetable.until.text() == "37 h 45 min in all"
    document.undo_stack.undo()
    assert timetable.fields["cool"].text() == "12.0 h"


def test_a_duration_out_of_reason_is_refused(timetable: TimetablePanel, document: OpenPlan) -> None:
    before = document.plan
    type_into(timetable.fields["steam"], "400 h")
    assert document.plan is before
    assert "Steaming: 24000 min is not possible" in timetable.fields["steam"].message.text()


def test_what_is_common_practice_says_so(timetable: TimetablePanel) -> None:
    assert "45 min is common practice, without a source" in timetable.fields["steam"].toolTip()
    assert "aluminium" in timetable.fields["steam"].toolTip()


def test_a_volume_to_make_is_typed_into_its_table(qtbot: QtBot) -> None:
    document = OpenPlan(sample("harbour-thaw"))
    panel = shown(BottlesPanel(document), qtbot)
    assert not panel.amiss.isVisible()
    row = panel.model.row_of("blue")
    type_into_cell(panel.table, row, BottleColumn.MADE, "100")
    assert document.plan.stock("blue").made_ml == 100.0
    assert panel.amiss.text() == "Harbour blue: 28 ml short: the jars take 128 ml"
    type_into_cell(panel.table, row, BottleColumn.MADE, "much")
    assert document.plan.stock("blue").made_ml == 100.0
    assert "is not a number" in panel.message.text()
    type_into_cell(panel.table, row, BottleColumn.MADE, "250")
    assert panel.message.text() == ""
    assert not panel.amiss.isVisible()
    assert "Mask" in panel.work.text()


def test_a_syringe_tells_its_fills_and_none_tells_none(qtbot: QtBot) -> None:
    document = OpenPlan(sample("harbour-thaw"))
    panel = shown(JarsPanel(document), qtbot)
    assert not panel.fills.isVisible()
    type_into(panel.syringe, "60")
    assert document.plan.bench.syringe_ml == 60.0
    assert panel.fills.text().splitlines()[0] == "A Slate: 2 × 60 ml, stop at 30, 0"
    type_into(panel.syringe, "")
    assert document.plan.bench == Bench()
    assert (panel.syringe.text(), panel.fills.isVisible()) == ("", False)


def test_jars_are_summed_and_copied_as_they_are_printed(qtbot: QtBot) -> None:
    panel = shown(JarsPanel(OpenPlan(sample("harbour-thaw"))), qtbot)
    assert panel.jars.sum.text() == "631 ml in all, as measured"
    assert panel.jars.sum.toolTip().endswith("reckoned, it is 630.0 ml."), "as the totals have it"
    QTest.mouseClick(panel.jars.copy_button, Qt.MouseButton.LeftButton)
    lines = QGuiApplication.clipboard().text().splitlines()
    assert lines[:3] == ["Jar\tml\tpoints", "A Slate\t126\t", "Harbour blue\t76\t0.3"]


def test_of_many_sections_the_first_are_told_how_they_are_filled(qtbot: QtBot) -> None:
    document = OpenPlan(set_bench(plain_plan(MOST_LINES + 5), syringe_ml=60.0))
    panel = shown(JarsPanel(document), qtbot)
    lines = panel.fills.text().splitlines()
    assert len(lines) == MOST_LINES + 1
    assert lines[-1] == "5 more, on the cards"
