"""If these fail, a ladder is laid otherwise than it was shown, or leaves a trace when it is called off."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from itertools import pairwise
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QPoint, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QLineEdit, QMessageBox, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.ladder_shelf import LadderShelf
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.boundaries import lengths_m
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.storage.ladder_templates import LadderTemplate
from studio_gui.views.ladder_dialog import LadderDialog
from studio_gui.views.section_commands import SectionCommands
from tests.views.dialogs import answering, press
from tests.views.keys import CONTROL, ENTER, ESC, TAB, choose, shown, steps, type_into
from tests.views.test_panes import Shouting, texts

SHIFT = Qt.KeyboardModifier.ShiftModifier
LEFT = Qt.MouseButton.LeftButton
QUARTERS = "12+36, 24+24, 36+12, 48+0"


@pytest.fixture
def shelf(tmp_path: Path) -> LadderShelf:
    return LadderShelf(tmp_path / "ladders.json")


@pytest.fixture
def dialog(document: OpenPlan, shelf: LadderShelf, qtbot: QtBot) -> LadderDialog:
    """A ladder over the second and third of four sections of 25 g and 1 m."""
    return shown(LadderDialog(document, 1, 2, shelf), qtbot, 680, 520)


def write(dialog: LadderDialog, text: str) -> None:
    """Type into the line of the ladder over what is in it; a new line is typed as Enter."""
    QTest.mouseClick(dialog.ladder.line.viewport(), LEFT)
    QTest.keyClick(dialog.ladder.line, Qt.Key.Key_A, CONTROL)
    for place, line in enumerate(text.split("\n")):
        if place:
            QTest.keyClick(dialog.ladder.line, ENTER)
        QTest.keyClicks(dialog.ladder.line, line)


def parts(plan: Plan, index: int) -> dict[str, float]:
    return {part.stock_id: part.parts for part in plan.liquor(plan.sections[index].liquor_id).parts}


def lines(dialog: LadderDialog) -> list[tuple[str, ...]]:
    return [step.lines for step in dialog.strip.row.steps]


def focused() -> QWidget:
    where = QApplication.focusWidget()
    assert where is not None, "nothing has the keyboard"
    return where


def visible_stocks(dialog: LadderDialog) -> list[str]:
    return [choice.currentText() for choice in dialog.ladder.stocks if choice.isVisible()]


# -- a ladder ------------------------------------------------------------------------------------------------


def test_what_is_typed_is_previewed_step_by_step_and_laid_as_one_step(
    dialog: LadderDialog, document: OpenPlan
) -> None:
    before = document.plan
    write(dialog, QUARTERS)
    assert lines(dialog) == [
        ("12 + 36", "48 ml", "0.96 %", "50 cm"),
        ("24 + 24", "48 ml", "1.92 %", "50 cm"),
        ("36 + 12", "48 ml", "2.88 %", "50 cm"),
        ("48 + 0", "48 ml", "3.84 %", "50 cm"),
    ]
    assert document.is_previewing, "the lay shows it as well"
    assert document.plan is before
    QTest.mouseClick(dialog.make, LEFT)
    assert not dialog.isVisible()
    plan = document.plan
    assert [section.fixed_ml for section in plan.sections] == [None, 48.0, 48.0, 48.0, 48.0, None]
    assert parts(plan, 2) == {"k1": 24.0, "k3": 24.0}
    assert [section.name for section in plan.sections[1:3]] == ["Section 1", "Section 2"]
    assert document.selected_ids == tuple(section.id for section in plan.sections[1:5])
    assert steps(document) == ["Lay a ladder"]
    document.undo_stack.undo()
    assert document.plan == before


def test_by_keys_alone(dialog: LadderDialog, document: OpenPlan) -> None:
    QTest.keyClicks(focused(), "10+20, 20+10")
    for _ in range(20):
        where = focused()
        if where is dialog.make:
            break
        QTest.keyClick(where, TAB)
    QTest.keyClick(focused(), Qt.Key.Key_Space)
    assert [section.fixed_ml for section in document.plan.sections[1:3]] == [30.0, 30.0]


def test_control_enter_lays_it_from_the_line(dialog: LadderDialog, document: OpenPlan) -> None:
    write(dialog, "10+20\n20+10")
    QTest.keyClick(dialog.ladder.line, ENTER, CONTROL)
    assert not dialog.isVisible()
    assert len(document.plan.sections) == 4


def test_enter_lays_it_from_a_field_and_never_calls_it_off(dialog: LadderDialog, document: OpenPlan) -> None:
    type_into(dialog.called, "Tide")
    assert dialog.isVisible(), "there is nothing to lay yet"
    write(dialog, "10+20, 20+10")
    type_into(dialog.called, "Ebb")
    assert not dialog.isVisible()
    assert [section.name for section in document.plan.sections[1:3]] == ["Ebb 1", "Ebb 2"]


def test_esc_leaves_the_plan_and_the_screen_as_they_were(dialog: LadderDialog, document: OpenPlan) -> None:
    before = document.sheet
    write(dialog, QUARTERS)
    QTest.keyClick(dialog.ladder.line, ESC)
    assert not dialog.isVisible()
    assert document.sheet.plan is before.plan
    assert steps(document) == []


def test_nothing_typed_is_no_mistake_yet(dialog: LadderDialog) -> None:
    assert not dialog.make.isEnabled()
    assert not dialog.message.isVisible()
    write(dialog, QUARTERS)
    assert dialog.make.isEnabled()
    write(dialog, " ")
    assert not dialog.make.isEnabled()
    assert lines(dialog) == []
    QTest.keyClick(dialog.ladder.line, TAB)
    dialog.accept()
    assert dialog.isVisible(), "nothing is laid of nothing"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("12+36,24+24", "can be one number, or the end of a step"),
        ("12+36, 24", "Amounts in step 2: 1; stocks chosen: 2"),
        ("12+36, 0+0", "Step 2 has 0 ml of everything"),
        ("12+36, much", "“much” is not a number"),
        ("1+1, " * 61, "61 are too many"),
    ],
)
def test_what_cannot_be_laid_is_said_inside_the_dialog(
    text: str, words: str, dialog: LadderDialog, document: OpenPlan
) -> None:
    dialog.ladder.line.setPlainText(text)
    assert words in dialog.message.text()
    assert not dialog.make.isEnabled()
    assert lines(dialog) == []
    assert not document.is_previewing
    dialog.accept()
    assert dialog.isVisible()


def test_a_locked_section_in_the_run_is_named(document: OpenPlan, shelf: LadderShelf, qtbot: QtBot) -> None:
    document.edit("", partial(change_section, section_id="s3", locked=True))
    dialog = shown(LadderDialog(document, 1, 2, shelf), qtbot)
    write(dialog, QUARTERS)
    assert dialog.message.text() == "C Section 3 is locked. Unlock it first."


def test_there_is_a_stock_for_each_amount_and_it_can_be_another(
    dialog: LadderDialog, document: OpenPlan
) -> None:
    write(dialog, "12+36")
    assert visible_stocks(dialog) == ["Blue", "Acid water"]
    write(dialog, "10+20+30; 1+2+3")
    assert visible_stocks(dialog) == ["Blue", "Red", "Acid water"]
    write(dialog, "12; 24; 36; 48")
    assert visible_stocks(dialog) == ["Blue"]
    choose(dialog.ladder.stocks[0], "Red")
    QTest.mouseClick(dialog.make, LEFT)
    assert [parts(document.plan, index) for index in (1, 4)] == [{"k2": 12.0}, {"k2": 48.0}]


def test_more_amounts_than_bottles_are_refused(dialog: LadderDialog) -> None:
    write(dialog, "1+2+3+4")
    assert "Amounts in step 1: 4; stocks chosen: 3" in dialog.message.text()


def test_the_same_stock_twice_is_refused_with_its_name(dialog: LadderDialog) -> None:
    write(dialog, "12+36")
    choose(dialog.ladder.stocks[1], "Blue")
    assert dialog.message.text() == "Blue is chosen twice. Choose another stock for one of them."


def test_the_liquid_may_follow_the_fibre_and_lengths_the_ml(dialog: LadderDialog, document: OpenPlan) -> None:
    write(dialog, "10+20\n20+70")
    choose(dialog.ladder.lengths, "in proportion to the ml")
    choose(dialog.ladder.liquid, "follows the fibre: only the parts count")
    QTest.mouseClick(dialog.make, LEFT)
    assert lengths_m(document.plan)[1:3] == pytest.approx([0.5, 1.5])
    assert [section.fixed_ml for section in document.plan.sections] == [None] * 4


def test_the_steps_take_the_name_that_is_typed(dialog: LadderDialog, document: OpenPlan) -> None:
    write(dialog, "1+1, 2+2")
    type_into(dialog.called, "Tide", TAB)
    QTest.mouseClick(dialog.make, LEFT)
    assert [liquor.name for liquor in document.plan.liquors[-2:]] == ["Tide 1", "Tide 2"]


def test_too_much_liquid_is_marked(dialog: LadderDialog) -> None:
    write(dialog, "12+36, 100+10")
    assert [step.saturation for step in dialog.strip.row.steps] == ["in range", "over"]
    assert dialog.strip.row.grab().width() > 0


def test_sixty_steps_scroll_and_leave_the_dialog_its_width(dialog: LadderDialog) -> None:
    width = dialog.minimumSizeHint().width()
    dialog.ladder.line.setPlainText("112.5+236.25; " * 60)
    QApplication.processEvents()
    assert dialog.minimumSizeHint().width() <= max(width, 680)
    bar = dialog.strip.horizontalScrollBar()
    assert bar.maximum() > 0
    dialog.strip.setFocus()
    QTest.keyClick(dialog.strip, Qt.Key.Key_Right)
    assert bar.value() > 0


# -- saved ladders -------------------------------------------------------------------------------------------


def enter_name(name: str) -> Callable[[QDialog], None]:
    def answer(asked: QDialog) -> None:
        line = asked.findChild(QLineEdit)
        assert line is not None
        line.selectAll()
        QTest.keyClicks(line, name)
        QTest.keyClick(line, ENTER)

    return answer


def test_one_of_the_programs_own_is_chosen(dialog: LadderDialog) -> None:
    choose(dialog.ladder.templates.list, "Even quarters")
    assert dialog.ladder.line.toPlainText() == QUARTERS
    assert dialog.ladder.liquid.currentText().startswith("follows")
    assert not dialog.ladder.templates.rename.isEnabled(), "the program's own keep their names"
    write(dialog, "12+36")
    assert dialog.ladder.templates.list.currentIndex() == -1, "something else stands there now"


def test_a_ladder_is_saved_renamed_and_removed(dialog: LadderDialog, shelf: LadderShelf) -> None:
    bar = dialog.ladder.templates
    write(dialog, "10+20\n20+10\n")
    with answering(enter_name("Seesaw")):
        QTest.mouseClick(bar.save, LEFT)
    assert list(shelf.saved) == [LadderTemplate("Seesaw", "10+20; 20+10")]
    assert bar.list.currentText() == "Seesaw"
    assert not bar.save.isEnabled()
    with answering(enter_name("Up and down")):
        QTest.mouseClick(bar.rename, LEFT)
    assert bar.list.currentText() == "Up and down"
    with answering(press(QMessageBox.StandardButton.Cancel), press(QMessageBox.StandardButton.Yes)):
        QTest.mouseClick(bar.remove, LEFT)
        assert len(shelf.saved) == 1
        QTest.mouseClick(bar.remove, LEFT)
    assert list(shelf.saved) == []
    assert dialog.ladder.line.toPlainText() == "10+20\n20+10\n", "what is typed stays"


def test_a_name_that_is_taken_is_answered_and_nothing_is_lost(
    dialog: LadderDialog, shelf: LadderShelf
) -> None:
    shelf.save(LadderTemplate("Seesaw", "1+1"))
    write(dialog, "10+20, 20+10")
    with answering(enter_name("Seesaw"), lambda asked: asked.reject()):
        QTest.mouseClick(dialog.ladder.templates.save, LEFT)
        assert "“Seesaw” already" in dialog.ladder.templates.message.text()
        QTest.mouseClick(dialog.ladder.templates.save, LEFT)
    assert [ladder.line for ladder in shelf.saved] == ["1+1"]


def test_what_cannot_be_read_cannot_be_saved(dialog: LadderDialog) -> None:
    write(dialog, "12+")
    assert not dialog.ladder.templates.save.isEnabled()


def test_a_damaged_file_of_ladders_is_told_of(document: OpenPlan, tmp_path: Path, qtbot: QtBot) -> None:
    path = tmp_path / "ladders.json"
    path.write_text("{", encoding="utf-8")
    dialog = shown(LadderDialog(document, 1, 2, LadderShelf(path)), qtbot)
    words = dialog.ladder.templates.message.text()
    assert words.startswith("Saved ladders could not be read. ladders.json, line 1")
    write(dialog, "10+20, 20+10")
    with answering(enter_name("Seesaw")):
        QTest.mouseClick(dialog.ladder.templates.save, LEFT)
    assert not dialog.ladder.templates.message.isVisible()
    assert sorted(file.name for file in tmp_path.iterdir()) == ["ladders (set aside 1).json", "ladders.json"]


# -- crossfades ----------------------------------------------------------------------------------------------


@pytest.fixture
def fade(dialog: LadderDialog) -> LadderDialog:
    bar = dialog.tabs.tabBar()
    QTest.mouseClick(bar, LEFT, pos=bar.tabRect(1).center())
    return dialog


def test_a_crossfade_goes_from_one_liquor_to_another(fade: LadderDialog, document: OpenPlan) -> None:
    assert fade.crossfade.start.currentText() == "B  Pale"
    choose(fade.crossfade.end, "A  Blue")
    fade.crossfade.steps.setFocus()
    QTest.keyClick(fade.crossfade.steps, Qt.Key.Key_Down)
    QTest.keyClick(fade.crossfade.steps, Qt.Key.Key_Down)
    assert len(lines(fade)) == 3
    QTest.mouseClick(fade.make, LEFT)
    assert [parts(document.plan, index) for index in (1, 2, 3)] == [
        pytest.approx({"k1": 10.0, "k3": 90.0}),
        pytest.approx({"k1": 35.0, "k3": 65.0}),
        pytest.approx({"k1": 60.0, "k3": 40.0}),
    ]
    assert steps(document) == ["Crossfade B to A"]


def test_enter_takes_the_strength_and_shows_what_comes_of_it_first(
    fade: LadderDialog, document: OpenPlan
) -> None:
    assert fade.crossfade.middle.text().endswith("50 : 50")
    type_into(fade.crossfade.strength, "4")
    assert fade.isVisible()
    assert fade.crossfade.middle.text().endswith("80 : 20")
    QTest.mouseClick(fade.make, LEFT)
    middle = parts(document.plan, 3)
    assert middle == pytest.approx({"k1": 8.0, "k2": 12.0, "k3": 80.0})


def test_a_strength_that_is_none_keeps_the_old_one(fade: LadderDialog) -> None:
    type_into(fade.crossfade.strength, "0")
    assert fade.crossfade.strength.text() == "1.00"
    assert fade.crossfade.strength.message.isVisible()


def test_a_fade_to_itself_is_refused(fade: LadderDialog) -> None:
    choose(fade.crossfade.start, "C  Red")
    choose(fade.crossfade.end, "C  Red")
    assert "Both ends of the crossfade are liquor C" in fade.message.text()
    assert not fade.make.isEnabled()


# -- as all windows ------------------------------------------------------------------------------------------


def test_it_says_what_it_replaces(document: OpenPlan, shelf: LadderShelf, qtbot: QtBot) -> None:
    run, one = LadderDialog(document, 1, 2, shelf), LadderDialog(document, 0, 0, shelf)
    for dialog in (run, one):
        shown(dialog, qtbot, 680, 520)
    assert run.place.text() == "In place of B Section 2 to C Section 3, 2 sections: 200 cm · 50 g"
    assert one.place.text() == "In place of A Section 1: 100 cm · 25 g"


def test_the_menu_opens_it_on_the_selected_run(document: OpenPlan, qtbot: QtBot) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    window.show()
    commands = SectionCommands(document, window)
    refusals: list[RovingLayError] = []
    document.refused.connect(refusals.append)
    document.select("s2", "s4")
    commands.ladder_action.trigger()
    assert QApplication.activeModalWidget() is None
    assert len(refusals) == 1, "what lies between was not selected"
    document.select("s2", "s3", "s4")
    commands.ladder_action.trigger()
    dialog = QApplication.activeModalWidget()
    assert isinstance(dialog, LadderDialog)
    assert dialog.place.text().startswith("In place of B Section 2 to A Section 4, 3 sections")
    QTest.keyClick(dialog, ESC)
    assert QApplication.activeModalWidget() is None


def test_tab_goes_through_every_field_from_top_to_bottom(dialog: LadderDialog) -> None:
    write(dialog, QUARTERS)
    for page in (0, 1):
        dialog.tabs.setCurrentIndex(page)
        QApplication.processEvents()
        dialog.tabs.setFocus()
        visited: list[QWidget] = []
        for _ in range(30):
            here = focused()
            if here in visited:
                break
            visited.append(here)
            interface = QAccessible.queryAccessibleInterface(here)
            assert interface.text(QAccessible.Text.Name), f"{type(here).__name__} is nameless"
            QTest.keyClick(here, TAB)
        assert dialog.make in visited
        heights = [widget.mapTo(dialog, QPoint(0, widget.height() // 2)).y() for widget in visited]
        assert sum(after < before - 30 for before, after in pairwise(heights)) <= 1, heights


def own_texts(dialog: LadderDialog) -> list[str]:
    """Return what a dialog says, without the actions of scroll bars, which Qt names once and for all."""
    return [text for text in texts(dialog) if not text.casefold().startswith("scroll")]


def test_it_changes_its_language_while_it_is_open(
    document: OpenPlan, shelf: LadderShelf, dialog: LadderDialog, qtbot: QtBot
) -> None:
    write(dialog, "12+36, 24")
    english = own_texts(dialog)
    translator = Shouting()
    QCoreApplication.installTranslator(translator)
    try:
        QApplication.processEvents()
        fresh = LadderDialog(document, 1, 2, shelf)
        qtbot.addWidget(fresh)
        fresh.ladder.line.setPlainText("12+36, 24")
        assert own_texts(dialog) == own_texts(fresh)
        assert own_texts(dialog) != english
    finally:
        QCoreApplication.removeTranslator(translator)
        QApplication.processEvents()
