"""How things are shown, whatever the plan: the units, and light or dark.

The rule of this module: a choice is taken at once in the whole program, and remembered.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import cast

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction, QActionGroup, QWheelEvent
from PySide6.QtWidgets import QApplication, QComboBox, QHBoxLayout, QLabel, QMenu, QWidget

from studio_gui.document.preferences import APPEARANCES, Appearance, Preferences
from studio_gui.drawing.lay_layout import TARGET
from studio_gui.views.live import use_units
from studio_gui.views.menu_entries import add_entry
from studio_gui.wording.translation import TRANSLATED, UNITS, Units, install_units


class ViewChoices(QObject):
    """The choices of a window: a menu for each, and one to have at hand on the tool bar.

    Signals
    -------
    said
        A sentence for the status bar.
    """

    said = Signal(str)

    def __init__(self, preferences: Preferences, window: QWidget) -> None:
        super().__init__(window)
        self._preferences = preferences
        self.units_menu = ChoiceMenu(UNITS, window)
        self.units_menu.chosen.connect(self._choose_units)
        self.units_box = UnitsBox()
        self.units_box.chosen.connect(self._choose_units)
        self.appearance_menu = ChoiceMenu(APPEARANCES, window)
        self.appearance_menu.chosen.connect(self._choose_appearance)
        install_units(preferences.units)  # nothing is shown yet that would have to hear of it
        if preferences.appearance != "system":
            self._use_appearance(preferences.appearance)
        self.retranslate()

    def retranslate(self) -> None:
        """Put the choices into the language of the program, and show the ones that stand."""
        self.units_menu.setTitle(self.tr("&Units"))
        self.units_menu.show_words(
            {
                "metric": (self.tr("&Metric"), self.tr("Grams, metres and centimetres, millilitres")),
                "us": (self.tr("&US"), self.tr("Ounces, yards and inches, US fluid ounces")),
                "mixed": (self.tr("Mi&xed"), self.tr("Ounces, yards and inches, but liquids in millilitres")),
            }
        )
        self.units_menu.show_choice(TRANSLATED.units)
        self.units_box.retranslate()
        self.appearance_menu.setTitle(self.tr("&Appearance"))
        self.appearance_menu.show_words(
            {
                "system": (self.tr("As the &system"), self.tr("Light or dark, whichever the system shows")),
                "light": (self.tr("&Light"), self.tr("Dark words on light ground")),
                "dark": (self.tr("&Dark"), self.tr("Light words on dark ground")),
            }
        )
        self.appearance_menu.show_choice(self._preferences.appearance)

    def _choose_appearance(self, appearance: Appearance) -> None:
        self._preferences.remember_appearance(appearance)
        self._use_appearance(appearance)

    def _use_appearance(self, appearance: Appearance) -> None:
        from studio_gui.views.appearance import use_appearance  # noqa: PLC0415  (most starts do without)
        from studio_gui.views.readable import mend  # noqa: PLC0415  (as above)

        use_appearance(appearance)
        mend(cast("QApplication", QApplication.instance()))

    def _choose_units(self, units: Units) -> None:
        self._preferences.remember_units(units)
        use_units(units)
        self.retranslate()
        words = self.units_menu.chosen_words
        self.said.emit(self.tr("Units: {0}. Plans stay metric in their files.").format(words))


class ChoiceMenu(QMenu):
    """A menu of which one entry holds.

    Signals
    -------
    chosen
        Carries the value of the entry that was picked.
    """

    chosen = Signal(str)

    def __init__(self, values: Sequence[str], parent: QWidget) -> None:
        super().__init__(parent)
        self.setToolTipsVisible(True)
        group = QActionGroup(self)
        self.choices: dict[str, QAction] = {}
        for value in values:
            action = self.choices[value] = group.addAction(add_entry(self))
            action.setCheckable(True)
            action.triggered.connect(lambda _=False, value=value: self.chosen.emit(value))

    @property
    def chosen_words(self) -> str:
        """The words of the entry that holds."""
        words = next((action.text() for action in self.choices.values() if action.isChecked()), "")
        return words.replace("&", "")

    def show_words(self, words: Mapping[str, tuple[str, str]]) -> None:
        """Give every entry its words and what they mean."""
        for value, (name, meaning) in words.items():
            self.choices[value].setText(name)
            self.choices[value].setToolTip(meaning)

    def show_choice(self, value: str) -> None:
        """Show which entry holds."""
        self.choices[value].setChecked(True)


class UnitsBox(QWidget):
    """The units as a small choice for a tool bar."""

    chosen = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._name = QLabel()
        self.box = _Box()
        self.box.setMinimumHeight(round(TARGET))
        self.box.activated.connect(lambda place: self.chosen.emit(UNITS[place]))
        self._name.setBuddy(self.box)
        row = QHBoxLayout(self)
        row.setContentsMargins(8, 0, 8, 0)
        row.setSpacing(6)
        row.addStretch(1)
        row.addWidget(self._name)
        row.addWidget(self.box)

    def retranslate(self) -> None:
        """Put the words into the language of the program, and show the units that stand."""
        words = {"metric": self.tr("Metric"), "us": self.tr("US"), "mixed": self.tr("Mixed")}
        self._name.setText(self.tr("Units"))
        self.box.setAccessibleName(self.tr("Units"))
        self.box.setToolTip(self.tr("Units that everything is shown in; any may be typed"))
        self.box.blockSignals(True)
        self.box.clear()
        self.box.addItems([words[units] for units in UNITS])
        self.box.setCurrentIndex(UNITS.index(TRANSLATED.units))
        self.box.blockSignals(False)


class _Box(QComboBox):
    """A list that a wheel does not change."""

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()
