"""If these fail, a field takes what is no value, loses the old one, or keeps somebody from leaving it."""

from __future__ import annotations

from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.sections import change_section
from studio_gui.views.fields import (
    QuantityField,
    QuantityListField,
    TextField,
    edit_at,
    finish_typing,
)
from studio_gui.views.live import use_units
from studio_gui.wording.quantities import Kind
from tests.views.field_bench import bench
from tests.views.keys import CONTROL, ENTER, ESC, TAB, steps, type_into, type_on


@pytest.mark.parametrize(
    ("field", "text", "value"),
    [
        ("mass_g", "4 oz", 113.398),
        ("mass_g", "113.4 g", 113.4),
        ("mass_g", "113,4", 113.4),
        ("length_m", "4.4 yd", 4.02336),
        ("uptake_ml_per_g", "2.5 ml/g", 2.5),
        ("uptake_ml_per_g", "70 ml/oz", 70.0 / 28.349523125),
        ("strength_g_per_l", "1 %", 10.0),
        ("strength_g_per_l", "15 g/L", 15.0),
        ("singles_m_per_g", "100 tex", 10.0),
        ("take_up", "5", 0.05),
        ("staple_m", "90 mm", 0.09),
    ],
)
def test_what_a_painter_types_is_taken(field: str, text: str, value: float, qtbot: QtBot) -> None:
    quantity = QuantityField(field)
    quantity.set_value(1.0)
    made = bench(quantity, qtbot)
    type_into(quantity, text)
    assert made.values == pytest.approx([value], rel=1e-6)


def test_what_was_refused_is_quoted_and_undo_in_the_field_brings_it_back(qtbot: QtBot) -> None:
    field = QuantityField("mass_g")
    field.set_value(100.0)
    made = bench(field, qtbot)
    type_into(field, "1e9 lb")
    assert field.text() == "100.0 g"
    assert "1e9 lb" in field.message.text()
    QTest.keyClick(field, Qt.Key.Key_Z, CONTROL)
    assert field.text() == "1e9 lb"
    assert not field.message.isVisible()
    QTest.keyClick(field, Qt.Key.Key_End)
    for _ in range(5):
        QTest.keyClick(field, Qt.Key.Key_Backspace)
    QTest.keyClicks(field, "9 g")
    QTest.keyClick(field, ENTER)
    assert made.values == [19.0]


def test_a_sentence_that_quotes_already_is_left_alone_and_a_note_quotes_nothing(qtbot: QtBot) -> None:
    field = QuantityField("mass_g")
    field.set_value(100.0)
    made = bench(field, qtbot)
    type_into(field, "much")
    assert "You typed" not in field.message.text()
    field.note("Taken as the nearest.")
    assert field.message.text() == field.accessibleDescription() == "Taken as the nearest."
    assert made.values == []


def test_once_the_plan_has_moved_on_undo_is_the_plan_s_again(qtbot: QtBot) -> None:
    field = QuantityField("mass_g")
    field.set_value(100.0)
    made = bench(field, qtbot)
    type_into(field, "much")
    assert field.isUndoAvailable()
    field.clear_message()
    assert not field.isUndoAvailable()
    assert (field.text(), made.values) == ("100.0 g", [])


@pytest.mark.parametrize("end", [ENTER, TAB])
@pytest.mark.parametrize("text", ["much", "", "4 ml", "9**9**9", "0.5", "1e9"])
def test_what_is_no_value_is_answered_at_the_field_and_the_old_value_comes_back(
    text: str, end: Qt.Key, qtbot: QtBot
) -> None:
    field = QuantityField("mass_g")
    field.set_value(100.0)
    made = bench(field, qtbot)
    type_into(field, text, end)
    assert made.values == []
    assert field.text() == "100.0 g"
    assert field.message.isVisible()
    assert field.message.text().endswith(".")
    assert field.accessibleDescription() == field.message.text()
    assert QApplication.activeModalWidget() is None
    assert (QApplication.focusWidget() is made.other) == (end == TAB), "the keyboard is not held back"


def test_the_sentence_goes_when_typing_goes_on(qtbot: QtBot) -> None:
    field = QuantityField("mass_g")
    field.set_value(100.0)
    made = bench(field, qtbot)
    type_into(field, "much")
    QTest.keyClicks(field, "9")
    assert not field.message.isVisible()
    assert field.accessibleDescription() == ""
    QTest.keyClick(field, ENTER)
    assert made.values == [9.0], "after a refusal the text is selected, so that typing replaces it"


def test_esc_brings_the_old_value_back(qtbot: QtBot) -> None:
    field = QuantityField("mass_g")
    field.set_value(100.0)
    made = bench(field, qtbot)
    type_into(field, "50", ESC)
    assert field.text() == "100.0 g"
    QTest.keyClick(field, TAB)
    assert made.values == []


def test_leaving_a_field_as_it_was_is_no_entry(qtbot: QtBot) -> None:
    field = QuantityField("mass_g")
    field.set_value(99.96)
    made = bench(field, qtbot)
    type_into(field, "100.0 g")
    type_into(field, "7", ESC)
    assert made.values == [], "the value behind 100.0 g is kept to its last digit"


def test_enter_hands_a_value_on_once(qtbot: QtBot) -> None:
    field = QuantityField("mass_g")
    field.set_value(100.0)
    made = bench(field, qtbot)
    type_into(field, "50")
    QTest.keyClick(field, TAB)
    assert made.values == [50.0]


def test_half_typed_text_survives_news_and_esc_shows_them(qtbot: QtBot) -> None:
    field = QuantityField("mass_g")
    field.set_value(100.0)
    made = bench(field, qtbot)
    QTest.mouseClick(field, Qt.MouseButton.LeftButton)
    field.selectAll()
    QTest.keyClicks(field, "5")
    field.set_value(120.0)
    assert field.text() == "5"
    QTest.keyClick(field, ESC)
    assert (field.text(), made.values) == ("120.0 g", [])


def test_dropping_forgets_what_was_typed_and_said(qtbot: QtBot) -> None:
    field = QuantityField("mass_g")
    field.set_value(100.0)
    made = bench(field, qtbot)
    type_into(field, "much")
    QTest.keyClicks(field, "5")
    field.drop()
    QTest.keyClick(field, TAB)
    assert (made.values, field.text(), field.message.isVisible()) == ([], "100.0 g", False)


@pytest.mark.parametrize("text", ["?", "unknown", "", " Unknown "])
def test_unknown_is_an_answer_where_it_may_be_one(text: str, qtbot: QtBot) -> None:
    field = QuantityField("acid_g_per_l", may_be_unknown=True)
    field.set_value(10.0)
    made = bench(field, qtbot)
    with qtbot.waitSignal(field.made_unknown, timeout=1000):
        type_into(field, text)
    assert made.values == []
    field.set_value(None)
    assert field.text() == "unknown"
    type_into(field, "0")
    assert made.values == [0.0], "none is not unknown"


def test_unknown_is_refused_where_it_may_not_be(qtbot: QtBot) -> None:
    field = QuantityField("strength_g_per_l")
    field.set_value(10.0)
    made = bench(field, qtbot)
    type_into(field, "?")
    assert made.values == []
    assert field.message.isVisible()


def test_a_field_says_what_it_is_for() -> None:
    assert QuantityField("mass_g").accessibleName() == "Weight of one roving"


def test_a_kind_of_its_own_shows_more_decimals() -> None:
    field = QuantityField("graduation_ml", Kind("volume", "ml", 2))
    field.set_value(0.25)
    assert field.text() == "0.25 ml"


@pytest.mark.parametrize(
    ("field", "value", "metric", "us"),
    [
        ("singles_m_per_g", 10.0, "10.00 m/g", "310.0 yd/oz"),
        ("take_up", 0.05, "5.0 %", "5.0 %"),
        ("staple_m", 0.09, "9.0 cm", "3.54 in"),
        ("offset_m", 20.0, "20.0 m", "21.9 yd"),
    ],
)
def test_a_figure_of_the_yarn_follows_the_units_and_is_typed_in_them(
    field: str, value: float, metric: str, us: str, qtbot: QtBot
) -> None:
    quantity = QuantityField(field)
    quantity.set_value(value)
    made = bench(quantity, qtbot)
    assert quantity.text() == metric
    use_units("us")
    assert quantity.text() == us
    number = us.split(maxsplit=1)[0]
    type_into(quantity, f"{float(number) + 1.0:g}")
    use_units("metric")
    assert quantity.text() == metric
    step = value / float(number)
    assert made.values == pytest.approx([value + step], rel=0.02), "a bare number has the unit shown"


@pytest.mark.parametrize(
    "text", ["0 tex", "-5 tex", "0", "0 worsted", "201", "2 tex", "10 g/m", "20/2 Nm", "tex", "10 hanks"]
)
def test_what_is_no_grist_is_answered_at_the_field(text: str, qtbot: QtBot) -> None:
    field = QuantityField("singles_m_per_g")
    field.set_value(10.0)
    made = bench(field, qtbot)
    type_into(field, text)
    assert (made.values, field.text()) == ([], "10.00 m/g")
    assert field.message.isVisible()
    assert text.rsplit(maxsplit=1)[-1] in field.message.text()


def test_with_nothing_typed_undo_is_that_of_the_plan(qtbot: QtBot) -> None:
    field = QuantityField("mass_g")
    field.set_value(100.0)
    made = bench(field, qtbot)
    undone: list[str] = []
    keys = QShortcut(QKeySequence(QKeySequence.StandardKey.Undo), made)
    keys.activated.connect(lambda: undone.append("plan"))
    QTest.mouseClick(field, Qt.MouseButton.LeftButton)
    field.selectAll()
    QTest.keyClicks(field, "5")
    QTest.keyClick(field, Qt.Key.Key_Z, CONTROL)
    assert (undone, field.text()) == ([], "100.0 g"), "what was typed is undone first"
    QTest.keyClick(field, ESC)
    QTest.keyClick(field, Qt.Key.Key_Z, CONTROL)
    assert undone == ["plan"]


# -- several numbers ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("1.5; 3.04 m", (1.5, 3.04)),
        ("1,5 ; 3,04", (1.5, 3.04)),
        ("78 + 72", (78.0, 72.0)),
        ("78, 72", (78.0, 72.0)),
        ("1,5, 3,04", (1.5, 3.04)),
        ("150; 304 cm", (1.5, 3.04)),
        ("1.5 m; 304 cm", (1.5, 3.04)),
        ("", ()),
    ],
)
def test_several_numbers_are_typed_in_a_row(text: str, values: tuple[float, ...], qtbot: QtBot) -> None:
    field = QuantityListField("fold_position_m", example=(1.5, 3.0))
    field.set_values((2.0, 4.0))
    assert field.text() == "2.00; 4.00 m"
    made = bench(field, qtbot)
    type_into(field, text)
    assert made.values == [values]


@pytest.mark.parametrize("text", ["1.5; ; 3", "1.5; far", "1; 900"])
def test_one_bad_number_refuses_the_row(text: str, qtbot: QtBot) -> None:
    field = QuantityListField("fold_position_m", example=(1.5, 3.0))
    field.set_values((2.0,))
    made = bench(field, qtbot)
    type_into(field, text)
    assert (made.values, field.text(), field.message.isVisible()) == ([], "2.00 m", True)
    assert f"Several are typed like 1.50; 3.00 m. You typed “{text}”." in field.message.text()


# -- with a document -----------------------------------------------------------------------------------------


def test_a_refused_edit_is_said_at_its_field_with_the_section_named(document: OpenPlan, qtbot: QtBot) -> None:
    field = TextField()
    made = bench(field, qtbot)
    rename = partial(change_section, section_id="s1", name="x" * 400)
    assert not edit_at(field, document, "Rename", rename)
    assert "400" in field.message.text()
    assert edit_at(field, document, "Rename", partial(change_section, section_id="s1", name="Tide"))
    assert field.message.text() == ""
    assert (steps(document), made.values) == (["Rename"], [])


def test_what_is_still_typed_is_taken_before_saving(qtbot: QtBot) -> None:
    field = QuantityField("mass_g")
    field.set_value(100.0)
    made = bench(field, qtbot)
    finish_typing()
    QTest.mouseClick(field, Qt.MouseButton.LeftButton)
    field.selectAll()
    type_on("5", Qt.Key.Key_0)
    finish_typing()
    assert made.values == [50.0]
