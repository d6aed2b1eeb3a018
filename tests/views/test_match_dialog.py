"""If these fail, a section is painted with another liquor than the one that was chosen for it."""

from __future__ import annotations

from functools import partial

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from studio_gui.document.background import REST_MS
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.colour.spaces import lab_from_hex
from studio_gui.domain.edits.matching import match_section, paint_match
from studio_gui.domain.edits.sections import set_locked
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.views.match_dialog import MatchDialog
from studio_gui.views.section_commands import SectionCommands
from tests.views.keys import ENTER, ESC, TAB, shown, steps, type_into, wait_for_work

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def dialog(document: OpenPlan, qtbot: QtBot) -> MatchDialog:
    """Wanted colours for the second and third of four sections of 25 g; the shelf has blue and red."""
    return shown(MatchDialog(document, 1, 2), qtbot, 900, 520)


def type_wanted(dialog: MatchDialog, text: str) -> None:
    QTest.keyClicks(dialog.wanted, text)
    wait_for_work(dialog)


def said(dialog: MatchDialog) -> list[str]:
    return [dialog.list.item(row).text() for row in range(dialog.list.count())]


def test_a_colour_gives_liquors_and_the_chosen_one_is_painted(
    dialog: MatchDialog, document: OpenPlan
) -> None:
    before = document.plan
    can_make = [dialog.make.isEnabled()]
    type_wanted(dialog, "#8a5a70")
    assert said(dialog)[0].split("\n")[0] == "2 ml Blue + 7 ml Red + 57 ml Acid water"
    assert "CIEDE2000" in said(dialog)[0]
    can_make.append(dialog.make.isEnabled())
    assert can_make == [False, True]
    QTest.keyClick(dialog, Qt.Key.Key_Down)
    QTest.keyClick(dialog.list, Qt.Key.Key_Down)
    assert dialog.list.currentRow() == 1
    seen = document.sheet.plan
    QTest.mouseClick(dialog.make, LEFT)
    assert document.plan == seen
    assert steps(document) == ["Match a colour"]
    assert document.selected_ids == ("s2",)
    assert document.plan.sections[2] == before.sections[2]


def test_several_colours_set_the_run_and_more_make_it_anew(dialog: MatchDialog, document: OpenPlan) -> None:
    type_wanted(dialog, "#c08080; #8080c0")
    assert len(said(dialog)) == 2
    sizes = [len(document.sheet.plan.sections)]
    type_wanted(dialog, "; #a0a0b0")
    sizes.append(len(document.sheet.plan.sections))
    assert sizes == [4, 5]
    QTest.keyClick(dialog.wanted, ENTER)
    assert (dialog.list.hasFocus(), steps(document)) == (True, []), "Enter takes what was typed, no more"
    QTest.keyClick(dialog.list, ENTER)
    assert steps(document) == ["Match colours"]
    assert len(document.selected_ids) == 3


def names(document: OpenPlan) -> list[tuple[str, str]]:
    plan = document.sheet.plan
    return [(section.name, plan.liquor(section.liquor_id).name) for section in plan.sections]


def test_colours_of_a_palette_are_called_as_steps_of_a_fade_are(
    dialog: MatchDialog, document: OpenPlan
) -> None:
    before = [section.name for section in document.plan.sections]
    type_wanted(dialog, "#8a5a70")
    assert dialog.called.isHidden()
    type_wanted(dialog, "; #8080c0")
    assert names(document)[1:3] == [(before[1], "Palette 1"), (before[2], "Palette 2")]
    type_into(dialog.called, "Dusk", TAB)
    assert names(document)[1:3] == [(before[1], "Dusk 1"), (before[2], "Dusk 2")]
    type_wanted(dialog, "; #a0a0b0")
    assert names(document)[1:4] == [("Dusk 1",) * 2, ("Dusk 2",) * 2, ("Dusk 3",) * 2]
    type_into(dialog.called, "", TAB)
    assert [section for section, _ in names(document)[1:4]] == [""] * 3


def test_a_colour_out_of_reach_is_said_with_what_is_missing(dialog: MatchDialog) -> None:
    type_wanted(dialog, "#e8d020")
    assert dialog.shortfall.text().startswith("No set of these bottles reaches it: the nearest is undyed")
    assert "A yellow is missing." in dialog.shortfall.text()


def test_of_several_the_one_that_is_missed_most_is_told(dialog: MatchDialog) -> None:
    type_wanted(dialog, "#8a5a70; #ff00ff")
    assert dialog.shortfall.text().startswith("Colour 2 is missed most. No set of these bottles reaches it")
    assert not any("nearest" in words for words in said(dialog))  # which are the first of each


def test_of_a_far_colour_the_hue_comes_first_and_the_nearest_is_named(dialog: MatchDialog) -> None:
    type_wanted(dialog, "#ff00ff")
    assert "A magenta is missing." in dialog.shortfall.text()
    nearest = [place for place, words in enumerate(said(dialog)) if words.endswith(", the nearest")]
    differences = [float(words.split("CIEDE2000 ")[1].split(",")[0]) for words in said(dialog)]
    assert nearest == [differences.index(min(differences))]


def test_lab_that_no_screen_shows_is_matched_as_typed_and_marked(
    dialog: MatchDialog, document: OpenPlan
) -> None:
    type_wanted(dialog, "50 90 -90")
    assert dialog.outside.text().startswith("This colour is outside sRGB. It is matched as typed; #")
    differences = [words.split("CIEDE2000 ")[1].split(",")[0] for words in said(dialog)]
    meant = match_section(document.plan, "s2", np.array([50.0, 90.0, -90.0])).found
    assert differences == [f"{match.difference:.1f}" for match in meant]
    type_wanted(dialog, "; 50 -100 0; #5d7a4a")
    assert dialog.outside.text().startswith("Colours 1, 2 are outside sRGB.")
    type_into(dialog.wanted, "50 10 -10", TAB)
    wait_for_work(dialog)
    assert dialog.outside.isHidden()


def test_half_a_colour_is_no_mistake_but_a_wrong_one_is(dialog: MatchDialog, document: OpenPlan) -> None:
    type_wanted(dialog, "#6a5")
    assert dialog.message.isHidden()
    QTest.keyClick(dialog.wanted, ENTER)
    assert dialog.message.text().startswith("“#6a5” is not a colour.")
    assert dialog.isVisible()
    QTest.keyClick(dialog, ESC)
    assert (document.is_previewing, steps(document)) == (False, [])


def test_who_paints_before_the_match_is_there_gets_it_when_it_is(
    dialog: MatchDialog, document: OpenPlan
) -> None:
    before = document.plan
    QTest.keyClicks(dialog.wanted, "#8a5a70")
    assert said(dialog) == []
    QTest.mouseClick(dialog.make, LEFT)
    assert (dialog.isVisible(), steps(document)) == (True, [])
    wait_for_work(dialog)
    assert (dialog.isVisible(), steps(document)) == (False, ["Match a colour"])
    best = match_section(before, "s2", lab_from_hex("#8a5a70"))
    assert document.plan == paint_match(best)


def test_another_colour_calls_off_what_was_to_be_painted(dialog: MatchDialog, document: OpenPlan) -> None:
    QTest.keyClicks(dialog.wanted, "#8a5a70")
    QTest.mouseClick(dialog.make, LEFT)
    type_wanted(dialog, "; #8080c0")
    assert (dialog.isVisible(), steps(document), len(said(dialog))) == (True, [], 2)


def test_colours_that_follow_one_another_are_asked_for_once(dialog: MatchDialog, qtbot: QtBot) -> None:
    type_wanted(dialog, "#8a5a70")
    shown_before = said(dialog)
    with qtbot.waitSignal(dialog.matching.done) as heard:
        dialog.photo.taken.emit("#8080c0", "more")
        dialog.photo.taken.emit("#a0a0b0", "more")
        assert said(dialog) == shown_before  # until there is something else to show
    assert len(heard.args[0]) == 3
    with qtbot.assertNotEmitted(dialog.matching.done, wait=4 * REST_MS):
        QTest.keyClick(dialog.wanted, Qt.Key.Key_Left)


PALETTE = "; ".join(f"#{red:02x}8080" for red in range(60, 240, 15))


def test_a_long_palette_says_how_far_it_is_and_can_be_stopped(
    dialog: MatchDialog, document: OpenPlan, qtbot: QtBot
) -> None:
    told: list[str] = []

    def stop() -> None:
        told.append(dialog.progress.words.text())
        QTest.mouseClick(dialog.progress.stop, LEFT)

    dialog.matching.went_on.connect(stop, Qt.ConnectionType.SingleShotConnection)
    QTest.keyClicks(dialog.wanted, PALETTE)
    qtbot.waitUntil(lambda: told == ["4 of 12 colours matched"])
    assert dialog.progress.isHidden()
    assert dialog.message.text().startswith("Stopped.")
    with qtbot.assertNotEmitted(dialog.matching.done, wait=4 * REST_MS):
        assert (said(dialog), document.is_previewing) == ([], False)
    QTest.mouseClick(dialog.make, LEFT)
    wait_for_work(dialog)
    assert (len(said(dialog)), steps(document)) == (12, [])
    assert dialog.progress.isHidden()
    QTest.mouseClick(dialog.make, LEFT)
    assert steps(document) == ["Match colours"]
    assert len(document.selected_ids) == 12


def test_esc_stops_what_is_matched(dialog: MatchDialog, document: OpenPlan, qtbot: QtBot) -> None:
    dialog.matching.went_on.connect(lambda: QTest.keyClick(dialog, ESC))
    with qtbot.assertNotEmitted(dialog.matching.done, wait=4 * REST_MS):
        QTest.keyClicks(dialog.wanted, PALETTE)
        qtbot.waitUntil(lambda: not dialog.isVisible())
    assert (dialog.isVisible(), document.is_previewing, steps(document)) == (False, False, [])


def test_a_refusal_off_the_thread_is_said_once_typing_ends(document: OpenPlan, qtbot: QtBot) -> None:
    document.edit("Lock", partial(set_locked, section_ids=("s2",), locked=True))
    dialog = shown(MatchDialog(document, 1, 2), qtbot, 900, 520)
    type_wanted(dialog, "#8a5a70; #8080c0; #a0a0b0")
    assert (dialog.message.isHidden(), dialog.make.isEnabled()) == (True, False)
    QTest.keyClick(dialog.wanted, ENTER)
    wait_for_work(dialog)
    assert "locked" in dialog.message.text()
    assert steps(document) == ["Lock"]


def test_colours_off_a_photo_take_the_place_or_come_after(dialog: MatchDialog) -> None:
    dialog.photo.taken.emit("#6a5a80", "one")
    assert dialog.wanted.text() == "#6a5a80"
    dialog.photo.taken.emit("#c08080", "more")
    assert dialog.wanted.text() == "#6a5a80; #c08080"
    dialog.photo.taken.emit("#8080c0", "one")
    assert dialog.wanted.text() == "#8080c0"


def test_the_command_opens_it(document: OpenPlan, qtbot: QtBot) -> None:
    window = shown(MatchDialog(document, 0, 0), qtbot)
    assert window.place.text().startswith("For A Section 1")
    document.select("s2", "s3")
    SectionCommands(document, window).match_action.trigger()
    opened = next(one for one in window.findChildren(MatchDialog) if one.isVisible())
    assert opened.place.text().startswith("One colour: for B Section 2.")
    opened.reject()


def test_mixes_with_a_fluorescent_dye_are_told_to_be_guesses(dialog: MatchDialog, document: OpenPlan) -> None:
    type_wanted(dialog, "#8a5a70")
    assert dialog.guess.isHidden()
    document.edit("", lambda plan: change_stock(plan, "k2", is_fluorescent=True))
    dialog.wanted.clear()
    type_wanted(dialog, "#8a5a70")
    assert dialog.guess.text().startswith("Fluorescent: Red.")
