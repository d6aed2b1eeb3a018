"""If these fail, a mend mends something else than it says, or the list moves under the hand."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.checks.check import SEVERITIES, Mend
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.liquors import to_depth_basis
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.edits.stocks import add_stock, change_stock
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.plan import Plan
from studio_gui.domain.stocks import Stock
from studio_gui.views.check_groups import GroupHeading, MoreLikeIt
from studio_gui.views.check_row import CheckRow
from studio_gui.views.checks_pane import MOST_SHOWN, ChecksPane
from tests.document.settling import preview_and_wait
from tests.drawing.plans import plain_plan
from tests.views.keys import shown, steps

LEFT = Qt.MouseButton.LeftButton


def flooded(plan: Plan, section_id: str = "s2", fixed_ml: float = 100.0) -> Plan:
    """25 g hold 75 ml of liquor on their soak; 100 are 25 over the brim."""
    return change_section(plan, section_id, fixed_ml=fixed_ml)


@pytest.fixture
def pane(document: OpenPlan, qtbot: QtBot) -> ChecksPane:
    return shown(ChecksPane(document), qtbot, 350, 600)


def with_spaces(text: str) -> str:
    """Undo that numbers and their units are kept on one line."""
    return text.replace("\u00a0", " ")


def titles(pane: ChecksPane) -> list[str]:
    return [with_spaces(row.title.text()) for row in pane.rows]


def row(pane: ChecksPane, title: str) -> CheckRow:
    QApplication.processEvents()  # rows that have just been made are shown by then
    return next(row for row in pane.rows if title in with_spaces(row.title.text()))


def button(row: CheckRow, words: str) -> QPushButton:
    return next(button for button in row.buttons if button.text() == words)


def test_a_sound_plan_has_nothing_to_mend(pane: ChecksPane) -> None:
    assert pane.summary.text() == "Nothing to mend."
    assert pane.rows == []
    assert not pane.more.isVisible()


def test_a_check_says_what_why_and_how_to_mend(pane: ChecksPane, document: OpenPlan) -> None:
    document.edit("", flooded)
    over = row(pane, "over the brim")
    assert with_spaces(over.title.text()) == "B Section 2: 25 ml over the brim"
    assert over.reason.text()
    assert "Plan a wipe" in [button.text() for button in over.buttons]
    assert button(over, "Plan a wipe").toolTip(), "a mend says what it costs"
    assert pane.summary.text().startswith("Warnings: ")
    assert over.accessibleName().startswith(with_spaces(over.title.text()))


def test_the_worst_come_first(pane: ChecksPane, document: OpenPlan) -> None:
    document.edit("", partial(add_stock, stock=Stock("k9", "Spare", "let-down")))
    document.edit("", flooded)
    document.edit("", partial(to_depth_basis, liquor_id="q3"))
    document.edit("", partial(change_stock, stock_id="k2", strength_g_per_l=2.0))
    severities = [check.severity for check in document.sheet.checks]
    assert set(severities) == set(SEVERITIES)
    assert severities == sorted(severities, key=SEVERITIES.index)
    assert [row.severity for row in pane.rows] == severities
    assert pane.summary.text().startswith("Errors: 1 · Warnings: ")


def test_one_click_mends_as_one_step_named_after_the_mend(pane: ChecksPane, document: OpenPlan) -> None:
    document.edit("Flood", flooded)
    QTest.mouseClick(button(row(pane, "over the brim"), "Plan a wipe"), LEFT)
    assert document.plan.section("s2").wiped_ml == pytest.approx(25.0)
    assert steps(document) == ["Flood", "Plan a wipe"]
    assert row(pane, "to be wiped out").severity == "note"
    document.undo_stack.undo()
    assert row(pane, "25 ml over the brim").severity == "warning"


def test_a_mended_check_keeps_the_keyboard_in_the_list(pane: ChecksPane, document: OpenPlan) -> None:
    document.edit("Flood", flooded)
    mend = button(row(pane, "over the brim"), "Plan a wipe")
    mend.setFocus()
    QTest.keyClick(mend, Qt.Key.Key_Space)
    assert row(pane, "to be wiped out").hasFocus()
    document.undo_stack.setIndex(0)
    assert pane.rows == []
    assert pane.hasFocus()


def test_advice_is_text_and_no_button(pane: ChecksPane, document: OpenPlan) -> None:
    document.edit("", partial(to_depth_basis, liquor_id="q3"))
    document.edit("", partial(change_stock, stock_id="k2", strength_g_per_l=2.0))
    out = row(pane, "shade out of reach")
    assert any(advice.text().startswith("Mix Red at") for advice in out.advice)
    assert not any(button.text().startswith("Mix") for button in out.buttons)


@pytest.mark.parametrize("by_keys", [False, True])
def test_picking_a_check_picks_its_sections(by_keys: bool, pane: ChecksPane, document: OpenPlan) -> None:
    document.edit("", flooded)
    over = row(pane, "over the brim")
    if by_keys:
        over.setFocus()
        QTest.keyClick(over, Qt.Key.Key_Return)
    else:
        QTest.mouseClick(over.title, LEFT)
    assert document.selected_ids == ("s2",)


def test_a_check_of_no_section_leaves_the_selection(pane: ChecksPane, document: OpenPlan) -> None:
    document.edit("", partial(add_stock, stock=Stock("k9", "Spare", "let-down")))
    document.select("s3")
    QTest.mouseClick(row(pane, "Spare: not used").title, LEFT)
    assert document.selected_ids == ("s3",)


def test_dragging_keeps_rows_buttons_and_focus(pane: ChecksPane, document: OpenPlan) -> None:
    document.edit("", partial(flooded, section_id="s4"))
    document.edit("", partial(change_section, section_id="s1", fixed_ml=60.0))
    kept = row(pane, "over the brim")
    wipe = button(kept, "Plan a wipe")
    wipe.setFocus()
    # half as long, the first section is over the brim too, and stands above
    preview_and_wait(document, move_boundary(document.plan, 0, 0.5))
    assert ["over the brim" in title for title in titles(pane)[:2]] == [True, True]
    assert pane.rows[1] is kept
    assert button(kept, "Plan a wipe") is wipe
    assert QApplication.focusWidget() is wipe
    document.cancel_preview()
    assert pane.rows[0] is kept
    assert QApplication.focusWidget() is wipe


def test_a_mend_that_comes_later_stands_where_it_belongs(document: OpenPlan, qtbot: QtBot) -> None:
    document.edit("Flood", flooded)
    check = next(check for check in document.sheet.checks if len(check.mends) > 2)
    row = CheckRow(check, document, lambda mend: mend.code)
    qtbot.addWidget(row)
    row.show_check(replace(check, mends=check.mends[2:]), document.plan)
    row.show_check(check, document.plan)
    fresh = CheckRow(check, document, lambda mend: mend.code)
    qtbot.addWidget(fresh)
    fresh.show_check(check, document.plan)
    assert [button.text() for button in row.buttons] == [button.text() for button in fresh.buttons]
    assert len(row.buttons) + len(row.advice) == len(check.mends)


def test_figures_of_a_check_follow_a_drag(pane: ChecksPane, document: OpenPlan) -> None:
    document.edit("", flooded)
    preview_and_wait(document, move_boundary(document.plan, 1, 2.2))
    assert with_spaces(row(pane, "over the brim").title.text()) == "B Section 2: 10 ml over the brim"


def test_a_new_name_shows_in_checks_that_speak_of_it(pane: ChecksPane, document: OpenPlan) -> None:
    document.edit("", flooded)
    document.edit("", partial(change_section, section_id="s2", name="Shell"))
    assert "B Shell: 25 ml over the brim" in titles(pane)


def test_a_mend_that_is_refused_says_why_in_its_row(
    pane: ChecksPane, document: OpenPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(plan: Plan, mend: Mend) -> Plan:
        raise EditRefused("section-locked", section=plan.sections[0].name, mend=mend.code)

    monkeypatch.setattr("studio_gui.views.check_row.apply_mend", refuse)
    document.edit("", flooded)
    over = row(pane, "over the brim")
    QTest.mouseClick(button(over, "Plan a wipe"), LEFT)
    assert over.message.isVisible()
    assert steps(document) == [""]


def dried(count: int, fixed_ml: float = 20.0) -> Plan:
    """A plan in which the core of every section stays dry, and nothing else is amiss with most."""
    plan = plain_plan(count)
    sections = tuple(replace(section, fixed_ml=fixed_ml / count) for section in plan.sections)
    return replace(plan, sections=sections)


def more(pane: ChecksPane) -> MoreLikeIt:
    """The line of dry cores that are like the first."""
    QApplication.processEvents()
    found = [item for item in pane.items if isinstance(item, MoreLikeIt)]
    assert len(found) == 1
    return found[0]


def heading(pane: ChecksPane, severity: str) -> GroupHeading:
    QApplication.processEvents()
    return next(item for item in pane.items if isinstance(item, GroupHeading) and item.severity == severity)


@pytest.mark.parametrize("by_keys", [False, True])
def test_many_alike_stand_as_one_and_open(by_keys: bool, pane: ChecksPane, document: OpenPlan) -> None:
    document.replace(dried(8))
    folder = more(pane).folder
    assert folder.text() == "and 7 more like it"
    assert sum("core may stay white" in title for title in titles(pane)) == 1
    for shown_now in (8, 1):
        if by_keys:
            folder.setFocus()
            QTest.keyClick(folder, Qt.Key.Key_Space)
        else:
            QTest.mouseClick(folder, LEFT)
        QApplication.processEvents()
        assert sum("core may stay white" in title for title in titles(pane)) == shown_now
        assert folder.isVisible(), "what opened them stays where it is"


def test_all_alike_are_mended_by_one_click_and_one_step(pane: ChecksPane, document: OpenPlan) -> None:
    document.replace(dried(8))
    raise_all = next(one for one in more(pane).buttons if one.text() == "Raise all 8")
    QTest.mouseClick(raise_all, LEFT)
    assert steps(document) == ["Raise all 8"]
    assert not any("core may stay white" in title for title in titles(pane))
    document.undo_stack.undo()
    assert more(pane).folder.text() == "and 7 more like it"


def test_a_mend_for_all_that_is_refused_says_why(
    pane: ChecksPane, document: OpenPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(plan: Plan, mends: tuple[Mend, ...]) -> Plan:
        raise EditRefused("section-locked", section=plan.sections[0].name, mend=mends[0].code)

    monkeypatch.setattr("studio_gui.views.check_groups.apply_mends", refuse)
    document.replace(dried(8))
    like_it = more(pane)
    QTest.mouseClick(like_it.buttons[0], LEFT)
    assert like_it.message.isVisible()
    assert steps(document) == []


def test_a_group_is_closed_and_opened_at_its_heading(pane: ChecksPane, document: OpenPlan) -> None:
    document.edit("", flooded)
    warnings = heading(pane, "warning")
    count = sum(check.severity == "warning" for check in document.sheet.checks)
    assert warnings.text() == f"Warnings: {count}"
    QTest.mouseClick(warnings, LEFT)
    assert not any(row.severity == "warning" for row in pane.rows)
    assert warnings.isVisible()
    assert warnings.accessibleDescription() == "closed"
    warnings.setFocus()
    QTest.keyClick(warnings, Qt.Key.Key_Space)
    assert row(pane, "over the brim").severity == "warning"
    assert (QApplication.focusWidget(), warnings.accessibleDescription()) == (warnings, "open")


def test_counts_follow_a_drag_without_taking_the_focus(pane: ChecksPane, document: OpenPlan) -> None:
    document.replace(dried(8))
    like_it = more(pane)
    like_it.buttons[0].setFocus()
    # eight times as short, the first section is wet enough
    preview_and_wait(document, move_boundary(document.plan, 0, 0.06))
    assert more(pane) is like_it
    assert like_it.folder.text() == "and 6 more like it"
    assert QApplication.focusWidget() is like_it.buttons[0]
    document.cancel_preview()


def test_very_many_checks_are_summed_up(pane: ChecksPane, document: OpenPlan) -> None:
    document.replace(dried(80))
    QTest.mouseClick(more(pane).folder, LEFT)
    assert len(pane.rows) == MOST_SHOWN
    assert pane.more.isVisible()
    assert "more. Mend some of these" in pane.more.text()
    document.replace(plain_plan(4))
    assert pane.rows == []
    assert not pane.more.isVisible()
