"""If this fails, somebody who uses no mouse cannot do the whole job.

From nothing to an exported plan with key events only: no click, no call of anything in the program. What the
plan has become is read at the end, from the file that was saved.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QLineEdit, QMenu, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.domain.plan import Plan
from studio_gui.storage.files import read_plan
from tests.views.dialogs import Answer, answering
from tests.views.whole_window import whole_window

Key = Qt.Key
ALT, CONTROL, SHIFT, NONE = (
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.NoModifier,
)


class Keys:
    """Somebody at the keyboard, who hears what has the focus."""

    def __init__(self, window: QWidget) -> None:
        self._window = window
        self._popup: QWidget | None = None

    @property
    def place(self) -> QWidget:
        if QApplication.activeWindow() is None:  # a dialog is closed, and there is no window manager here
            self._window.activateWindow()
            QApplication.processEvents()
        popup = self._popup = QApplication.activePopupWidget()  # kept: what is in it goes with it
        found: QWidget | None = QApplication.focusWidget() if popup is None else popup.focusWidget()
        found = found if found is not None else popup
        assert found is not None, "nothing has the keyboard"
        return found

    def press(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = NONE, times: int = 1) -> None:
        for _ in range(times):
            QTest.keyClick(self.place, key, modifiers)
            QApplication.processEvents()

    def write(self, text: str) -> None:
        """Type where the keyboard is, over what is there, and end with Enter."""
        QTest.keyClicks(self.place, text)
        self.press(Key.Key_Return)

    @property
    def heard(self) -> list[str]:
        """What a screen reader says of where the keyboard is: what has it, and in it the item that has it."""
        interface = QAccessible.queryAccessibleInterface(self.place)
        inner: QAccessibleInterface | None = interface.focusChild()  # whatever its stub says
        said = [one.text(QAccessible.Text.Name) for one in (interface, inner) if one is not None]
        return [self.place.accessibleName(), *said]  # of a list to choose from, Qt says only what is chosen

    def go_to(self, name: str, key: Qt.Key = Key.Key_Tab) -> None:
        """Press Tab, or another key, until what begins with `name` has the keyboard."""
        met: list[str] = []
        for _ in range(200):
            met += self.heard
            if any(one.startswith(name) for one in self.heard):
                return
            self.press(key)
        raise AssertionError(f"{name!r} is not reached: {list(dict.fromkeys(met))}")


def typed(path: Path) -> Answer:
    """Return an answer that types a file's name into a file dialog; it is where the keyboard is."""

    def answer(dialog: QDialog) -> None:
        assert isinstance(dialog, QFileDialog)
        line = dialog.focusWidget()
        assert isinstance(line, QLineEdit)
        for _ in range(100):  # the folder is read a moment later, and may take away what was typed meanwhile
            if not dialog.isVisible():
                return
            if line.text() != str(path):
                QTest.keyClick(line, Key.Key_A, Qt.KeyboardModifier.ControlModifier)
                QTest.keyClicks(line, str(path))
            completions = QApplication.activePopupWidget()  # it has the keys before the line has
            QTest.keyClick(line if completions is None else completions, Key.Key_Return)
            QTest.qWait(20)
        raise AssertionError(f"the dialog does not take {line.text()!r}")

    return answer


@pytest.fixture
def keys(qtbot: QtBot, tmp_path: Path) -> Keys:
    window = whole_window(qtbot, tmp_path, "two-shores")
    window.canvas.setFocus()  # as the program starts
    return Keys(window)


def describe_the_fibre(keys: Keys) -> None:
    keys.go_to("Weight of one roving")
    keys.write("120 g")
    keys.go_to("Length of one roving")
    keys.write("4 m")
    keys.go_to("Number of rovings")
    keys.write("3")
    keys.go_to("Folded into")
    keys.press(Key.Key_Down)


def fill_the_shelf(keys: Keys) -> None:
    for name, strength in (("Sea green", "2 %"), ("Rust", "1.5 %")):
        keys.go_to("Put a dye on the shelf")
        keys.press(Key.Key_Space)
        keys.write(name)
        keys.go_to("Strength of the stock")
        keys.write(strength)
    keys.go_to("Put water or acid water on the shelf")
    keys.press(Key.Key_Space)
    keys.write("Sour water")
    keys.go_to("Acid")
    keys.write("20")


def split_and_name_sections(keys: Keys) -> None:
    keys.go_to("Lay")
    keys.press(Key.Key_Home, CONTROL)
    keys.press(Key.Key_D, CONTROL, times=2)
    keys.press(Key.Key_End, CONTROL)
    keys.press(Key.Key_D, CONTROL, times=2)
    keys.go_to("Sections")
    keys.press(Key.Key_Home, CONTROL)
    keys.press(Key.Key_Right)
    for name in ("Surf", "Sand", "Shingle", "Dune", "Marram", "Heath"):
        keys.press(Key.Key_F2)
        keys.write(name)
        keys.press(Key.Key_Down)


def mix_a_liquor(keys: Keys) -> None:
    """Give the first section a liquor of its own: Sea green instead of Blue, 12 and 38."""
    keys.go_to("Lay")
    keys.press(Key.Key_Home, CONTROL)
    keys.go_to("Locked in place", Key.Key_F6)  # Tab would select every section on its way
    keys.go_to("Own copy", Key.Key_Backtab)
    keys.press(Key.Key_Space)
    keys.go_to("Add a stock to the liquor")
    keys.press(Key.Key_Down, ALT)
    keys.go_to("Add Sea green", Key.Key_Down)
    keys.press(Key.Key_Return)
    keys.go_to("Take Blue out of the liquor", Key.Key_Backtab)
    keys.press(Key.Key_Space)
    keys.go_to("Amounts for the whole set", Key.Key_Backtab)
    keys.press(Key.Key_A, CONTROL)
    keys.write("12 + 38")


def place(plan: Plan) -> float:
    return plan.boundaries[0].position_m


def test_the_whole_job_by_keys(keys: Keys, tmp_path: Path) -> None:
    saved = tmp_path / "mine.roving.json"
    keys.press(Key.Key_N, CONTROL)
    describe_the_fibre(keys)
    fill_the_shelf(keys)
    split_and_name_sections(keys)
    mix_a_liquor(keys)
    with answering(typed(saved)):
        keys.press(Key.Key_S, CONTROL)
    plan = read_plan(saved)
    assert (plan.fibre.mass_g, plan.fibre.length_m, plan.fibre.rovings) == (120.0, 4.0, 3)
    assert plan.lay.passes == 2
    assert [section.name for section in plan.sections] == [
        "Surf",
        "Sand",
        "Shingle",
        "Dune",
        "Marram",
        "Heath",
    ]
    shelf = {stock.name: (stock.strength_g_per_l, stock.acid_g_per_l) for stock in plan.stocks}
    assert shelf["Sea green"][0] == pytest.approx(20.0)
    assert shelf["Rust"][0] == pytest.approx(15.0)
    assert shelf["Sour water"][1] == pytest.approx(20.0)
    first = plan.liquor(plan.sections[0].liquor_id)
    assert {plan.stock(part.stock_id).name: part.parts for part in first.parts} == {
        "Sea green": 12.0,
        "Acid water": 38.0,
    }
    assert plan.sections[0].fixed_ml == pytest.approx(50.0)


def test_a_boundary_by_keys_and_there_and_back_again(keys: Keys, tmp_path: Path) -> None:
    saved, out = tmp_path / "mine.roving.json", tmp_path / "map.svg"
    keys.press(Key.Key_N, CONTROL)
    keys.go_to("Boundary A | B")
    keys.press(Key.Key_Right, SHIFT)
    keys.press(Key.Key_Right)
    with answering(typed(saved)):
        keys.press(Key.Key_S, CONTROL)
    assert place(read_plan(saved)) == pytest.approx(2.011)
    keys.go_to("Boundary A | B")
    keys.press(Key.Key_Return)
    keys.write("195.5")
    keys.press(Key.Key_S, CONTROL)
    assert place(read_plan(saved)) == pytest.approx(1.955)
    keys.go_to("Boundary A | B, 195.5 cm")
    keys.press(Key.Key_Z, CONTROL)
    keys.press(Key.Key_S, CONTROL)
    assert place(read_plan(saved)) == pytest.approx(2.011)
    keys.press(Key.Key_Z, CONTROL | SHIFT)
    keys.press(Key.Key_S, CONTROL)
    assert place(read_plan(saved)) == pytest.approx(1.955)
    keys.press(Key.Key_N, CONTROL)
    keys.go_to("Boundary A | B, 200.0 cm")
    with answering(typed(saved)):
        keys.press(Key.Key_O, CONTROL)
    keys.go_to("Boundary A | B, 195.5 cm")
    with answering(typed(out)):
        keys.press(Key.Key_E, CONTROL | SHIFT)
    assert out.read_text(encoding="utf-8").startswith("<?xml")


def test_menus_open_by_their_letters(keys: Keys) -> None:
    for letter in (Key.Key_F, Key.Key_E, Key.Key_S, Key.Key_V):
        keys.press(letter, ALT)
        assert isinstance(QApplication.activePopupWidget(), QMenu), letter
        keys.press(Key.Key_Down)
        keys.press(Key.Key_Escape, times=2)
        assert QApplication.activePopupWidget() is None
