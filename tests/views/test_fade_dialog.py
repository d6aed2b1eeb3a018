"""If these fail, a fade is painted otherwise than it was shown, or leaves a trace when it is called off."""

from __future__ import annotations

import threading
from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QGuiApplication
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from studio_gui.document.background import REST_MS
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.fades import FadeWish, PlannedFade, plan_fade
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.plan import Plan
from studio_gui.views import fade_dialog
from studio_gui.views.fade_dialog import FadeDialog
from studio_gui.views.recipe_table import Recipe
from studio_gui.views.section_commands import SectionCommands
from studio_gui.views.stop_field import StopField
from tests.views.keys import ESC, TAB, choose, shown, steps, type_into, wait_for_work

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def dialog(document: OpenPlan, qtbot: QtBot) -> FadeDialog:
    """A fade over all four sections of 25 g and 1 m, blue at both ends."""
    return shown(FadeDialog(document, 0, 3), qtbot, 700, 640)


def set_ends(dialog: FadeDialog) -> None:
    """Ask for blue from 0.1 % to 1.5 %."""
    type_into(dialog.form.start.amounts[0], "0.1")
    type_into(dialog.form.end.amounts[0], "1.5")


def dyes_of(stop: StopField) -> list[str] | None:
    return None if stop.value is None else [depth.stock_id for depth in stop.value]


def test_it_starts_from_the_run_and_says_what_is_amiss(dialog: FadeDialog, document: OpenPlan) -> None:
    assert dialog.form.start.dyes[0].currentText() == "Blue"
    assert dialog.message.text() == ("The fade ends as it begins. Choose another colour for one of its ends.")
    assert not dialog.make.isEnabled()
    assert not document.is_previewing


def test_a_fade_is_previewed_beside_the_naive_ones_and_made_as_one_step(
    dialog: FadeDialog, document: OpenPlan
) -> None:
    before = document.plan
    set_ends(dialog)
    assert [row.name for row in dialog.bars.rows] == ["Even steps", "Equal shares", "Halving"]
    assert dialog.bars.rows[0].evenness.startswith("largest step 1.")
    assert document.is_previewing
    assert document.plan is before
    seen = document.sheet.plan
    QTest.mouseClick(dialog.make, LEFT)
    assert document.plan == seen
    assert steps(document) == ["Lay an even fade"]
    assert document.selected_ids == ("s1", "s2", "s3", "s4")
    assert [section.name for section in document.plan.sections] == [
        section.name for section in before.sections
    ]
    document.undo_stack.undo()
    assert document.plan is before


def test_a_fade_through_mixes_with_a_fluorescent_dye_says_that_they_are_guesses(
    document: OpenPlan, qtbot: QtBot
) -> None:
    document.edit("", lambda plan: change_stock(plan, "k2", is_fluorescent=True))
    dialog = shown(FadeDialog(document, 0, 3), qtbot, 720, 700)
    set_ends(dialog)
    choose(dialog.form.middle.dyes[0], "Red")
    assert dialog.guess.text().startswith("Fluorescent: Red.")
    choose(dialog.form.middle.dyes[0], "no colour between")
    assert dialog.guess.isHidden()


def test_new_sections_through_a_middle_colour(dialog: FadeDialog, document: OpenPlan) -> None:
    set_ends(dialog)
    choose(dialog.form.keep, "new ones, equally long:")
    dialog.form.count.setValue(9)
    choose(dialog.form.middle.dyes[0], "Red")
    assert len(document.sheet.plan.sections) == 9
    assert len(dialog.bars.rows[0].colours) == 9
    assert document.sheet.figures.left_pct_owf[3:6, 1].max() > 0.2
    QTest.mouseClick(dialog.make, LEFT)
    assert [section.name for section in document.plan.sections][:2] == ["Fade 1", "Fade 2"]


class Slow:
    """Solves fades as slowly as a test wants, and counts them."""

    def __init__(self, patch: pytest.MonkeyPatch) -> None:
        self.go_on, self.threads = threading.Event(), list[str]()
        self.fault: Exception | None = None
        patch.setattr(fade_dialog, "plan_fade", self.plan_fade)

    def plan_fade(self, plan: Plan, first: int, last: int, wish: FadeWish) -> PlannedFade:
        self.threads.append(threading.current_thread().name)
        self.go_on.wait(10.0)
        if self.fault is not None:
            raise self.fault
        return plan_fade(plan, first, last, wish)


@pytest.fixture
def slow(dialog: FadeDialog, monkeypatch: pytest.MonkeyPatch) -> Iterator[Slow]:
    """A fade of 40 new sections that is not solved before the test says so."""
    set_ends(dialog)
    choose(dialog.form.keep, "new ones, equally long:")
    slow = Slow(monkeypatch)
    dialog.form.count.setValue(40)
    yield slow
    slow.go_on.set()


def test_a_long_fade_is_solved_off_the_window_s_thread_and_once_for_many_keys(
    dialog: FadeDialog, document: OpenPlan, slow: Slow
) -> None:
    for _ in range(3):
        QTest.keyClick(dialog.form.count, Qt.Key.Key_Up)
    assert len(dialog.bars.rows[0].colours) < 40  # what stood before stays until then
    slow.go_on.set()
    wait_for_work(dialog)
    assert len(slow.threads) == 1
    assert slow.threads[0] != threading.current_thread().name
    assert len(dialog.bars.rows[0].colours) == len(document.sheet.plan.sections) == 43
    QTest.mouseClick(dialog.make, LEFT)
    assert steps(document) == ["Lay an even fade"]
    assert len(document.selected_ids) == 43


def test_who_makes_a_long_fade_before_it_is_solved_gets_it_when_it_is(
    dialog: FadeDialog, document: OpenPlan, slow: Slow
) -> None:
    QTest.mouseClick(dialog.make, LEFT)
    assert (dialog.isVisible(), steps(document)) == (True, [])
    type_into(dialog.called, "Tide", TAB)
    slow.go_on.set()
    wait_for_work(dialog)
    assert (dialog.isVisible(), steps(document)) == (False, ["Lay an even fade"])
    assert [section.name for section in document.plan.sections][38:] == ["Tide 39", "Tide 40"]


def test_a_long_fade_shows_that_it_goes_on_and_can_be_stopped(
    dialog: FadeDialog, document: OpenPlan, qtbot: QtBot, slow: Slow
) -> None:
    qtbot.waitUntil(dialog.progress.isVisible)
    assert dialog.progress.words.text() == "Solving 40 sections"
    QTest.mouseClick(dialog.progress.stop, LEFT)
    assert (dialog.progress.isHidden(), document.is_previewing) == (True, False)
    assert dialog.message.text().startswith("Stopped.")
    slow.go_on.set()
    qtbot.wait(4 * REST_MS)
    assert not dialog.bars.rows
    QTest.mouseClick(dialog.make, LEFT)
    wait_for_work(dialog)
    assert (len(dialog.bars.rows[0].colours), dialog.message.text(), steps(document)) == (40, "", [])


def test_a_long_fade_that_is_refused_is_said_and_esc_drops_one_that_is_solved(
    dialog: FadeDialog, document: OpenPlan, qtbot: QtBot, slow: Slow
) -> None:
    slow.go_on.set()
    type_into(dialog.form.end.amounts[0], "9")
    wait_for_work(dialog)
    assert "It takes" in dialog.message.text()
    assert not dialog.make.isEnabled()
    slow.go_on.clear()
    type_into(dialog.form.end.amounts[0], "1.5")
    QTest.keyClick(dialog, ESC)
    slow.go_on.set()
    qtbot.wait(4 * REST_MS)
    assert (dialog.isVisible(), document.is_previewing, steps(document)) == (False, False, [])


def test_a_fault_off_the_thread_is_not_lost(dialog: FadeDialog, qtbot: QtBot, slow: Slow) -> None:
    slow.fault = ZeroDivisionError()
    with qtbot.captureExceptions() as faults:
        dialog.form.count.setValue(41)
        slow.go_on.set()
        wait_for_work(dialog)
    assert [kind for kind, _, _ in faults] == [ZeroDivisionError]


def test_a_name_is_put_on_without_solving_again(
    dialog: FadeDialog, document: OpenPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    set_ends(dialog)
    slow = Slow(monkeypatch)
    type_into(dialog.called, "Tide", TAB)
    plan = document.sheet.plan
    assert plan.liquor(plan.sections[0].liquor_id).name == "Tide 1"
    assert slow.threads == []


def test_a_weak_stock_is_offered_and_comes_with_the_fade(
    dialog: FadeDialog, document: OpenPlan, qtbot: QtBot
) -> None:
    choose(dialog.form.start.dyes[0], "undyed")
    choose(dialog.form.keep, "new ones, equally long:")
    dialog.form.count.setValue(12)
    assert dialog.coarse.text().startswith("One graduation (1 ml) of Blue changes colour ")
    qtbot.waitUntil(dialog.add_weak.isVisible)
    assert dialog.offer.text().startswith("With Blue 0.")
    before = dialog.bars.rows[0].evenness
    QTest.mouseClick(dialog.add_weak, LEFT)
    assert dialog.bars.rows[0].evenness != before
    QTest.mouseClick(dialog.make, LEFT)
    assert len(document.plan.stocks) == 4
    assert document.plan.stocks[1].name.startswith("Blue 0.")
    assert steps(document) == ["Lay an even fade"]


def test_an_offer_for_a_fade_that_no_longer_stands_is_dropped(dialog: FadeDialog, qtbot: QtBot) -> None:
    choose(dialog.form.start.dyes[0], "undyed")
    choose(dialog.form.keep, "new ones, equally long:")
    dialog.form.count.setValue(12)
    qtbot.waitUntil(dialog.add_weak.isVisible)
    before = dialog.offer.text()
    dialog.form.count.setValue(40)
    qtbot.wait(60)  # its offer is being looked for
    dialog.form.count.setValue(12)
    assert not dialog.add_weak.isVisible()
    qtbot.waitUntil(dialog.add_weak.isVisible)
    assert dialog.offer.text() == before
    dialog.form.count.setValue(40)
    dialog.reject()
    qtbot.wait(100)
    assert not dialog.isVisible()


def test_dyes_come_and_go_with_their_depths(dialog: FadeDialog) -> None:
    start, middle = dialog.form.start, dialog.form.middle
    choose(start.dyes[1], "Red")
    assert dyes_of(start) == ["k1", "k2"]
    choose(start.dyes[0], "undyed")
    assert dyes_of(start) == []
    choose(start.dyes[0], "Red")
    choose(start.dyes[1], "Blue")
    choose(start.dyes[1], "and no more")
    assert dyes_of(start) == ["k2"]
    assert dyes_of(middle) is None
    choose(middle.dyes[0], "undyed")
    assert dyes_of(middle) == []
    choose(middle.dyes[0], "no colour between")
    assert dyes_of(middle) is None


def test_what_was_said_of_a_wrong_depth_goes_with_the_next_value_that_is_taken(dialog: FadeDialog) -> None:
    start, end = dialog.form.start.amounts[0], dialog.form.end.amounts[0]
    type_into(start, "much")
    assert "much" in start.message.text()
    type_into(end, "1.5")
    assert (start.message.text(), start.message.isVisible()) == ("", False)
    type_into(end, "-1")
    choose(dialog.form.keep, "new ones, equally long:")
    assert end.message.text() == ""
    type_into(end, "-1")
    dialog.form.count.setValue(9)
    assert end.message.text() == ""


def test_a_pale_end_that_cannot_be_measured_is_said_with_what_mends_it(dialog: FadeDialog) -> None:
    type_into(dialog.form.start.amounts[0], "0.01")
    type_into(dialog.form.end.amounts[0], "1.5")
    assert dialog.ends.text().startswith("Section 1 is dyed 0.04 % owf, not 0.01 %, in whole ")
    assert dialog.undyed.text() == ""
    choose(dialog.form.start.dyes[0], "undyed")
    assert dialog.ends.text() == ""
    choose(dialog.form.keep, "new ones, equally long:")
    dialog.form.count.setValue(40)
    wait_for_work(dialog)
    assert dialog.undyed.text().startswith("Undyed for want of a fine enough measure: 2–")


def test_every_recipe_is_told_with_its_stocks_and_can_be_copied(dialog: FadeDialog) -> None:
    set_ends(dialog)
    table = dialog.recipes
    assert table.rowCount() == 4
    fade_rows = [[str(table.model().index(row, column).data()) for column in range(4)] for row in range(4)]
    assert fade_rows[0][:3] == ["1", "3 + 63", "Blue + Acid water"]
    assert "Blue + Acid water" in table.model().index(3, 0).data(Qt.ItemDataRole.ToolTipRole)
    table.setFocus()
    QTest.keyClick(table, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    lines = QGuiApplication.clipboard().text().splitlines()
    assert lines == ["\t".join(row) for row in (["Section", "Jar, ml", "Stocks", "Depth"], *fade_rows)]
    table.selectRow(1)
    QTest.keyClick(table, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert QGuiApplication.clipboard().text().splitlines()[1:] == ["\t".join(fade_rows[1])]
    table.show_recipes([Recipe(QColor("#336699"), "3 + 63", "=1+1 + Acid water", "0.10 %")])
    table.copy()
    assert QGuiApplication.clipboard().text().splitlines()[1].split("\t")[2] == "'=1+1 + Acid water"
    type_into(dialog.form.end.amounts[0], "9")
    assert table.rowCount() == 0


def test_what_cannot_be_reached_is_said_and_esc_leaves_nothing(
    dialog: FadeDialog, document: OpenPlan
) -> None:
    set_ends(dialog)
    type_into(dialog.form.end.amounts[0], "9")
    assert "It takes" in dialog.message.text()
    assert not dialog.bars.rows
    set_ends(dialog)
    assert document.is_previewing
    QTest.keyClick(dialog, ESC)
    assert (document.is_previewing, steps(document)) == (False, [])


def test_the_command_opens_it_on_the_selected_run(document: OpenPlan, qtbot: QtBot) -> None:
    window = shown(FadeDialog(document, 0, 1), qtbot)
    commands = SectionCommands(document, window)
    document.select("s2", "s3")
    commands.fade_action.trigger()
    opened = next(one for one in window.findChildren(FadeDialog) if one.isVisible())
    assert opened.place.text().startswith("On B Section 2 to C Section 3")
    opened.reject()
    document.select("s1", "s3")
    refused: list[object] = []
    document.refused.connect(refused.append)
    commands.fade_action.trigger()
    assert len(refused) == 1


def test_a_nudge_is_one_step_with_a_name(document: OpenPlan, qtbot: QtBot) -> None:
    window = shown(FadeDialog(document, 0, 1), qtbot)
    window.reject()
    commands = SectionCommands(document, window)
    document.select("s2")
    before = document.sheet.colours.srgb[1].sum()
    commands.nudge_menu.actions()[1].trigger()
    assert steps(document) == ["A little deeper"]
    assert document.sheet.colours.srgb[1].sum() < before
