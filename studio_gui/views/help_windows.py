"""The windows of Help.

The rule of this module: they are read, so they can be scrolled, selected and read aloud, and close with Esc.
Keys are taken from the menus themselves; only gestures are written down here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from html import escape

from PySide6.QtCore import QSize
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QHeaderView,
    QMenu,
    QTextBrowser,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from studio_gui.paths import program_version
from studio_gui.views.live import LiveDialog
from studio_gui.wording.translation import translate


class HelpWindow(LiveDialog):
    """A small window that stands beside the work."""

    def __init__(self, content: QWidget, size: QSize, window: QWidget) -> None:
        super().__init__(window)
        self.setModal(False)
        self._buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        self._buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(content, 1)
        column.addWidget(self._buttons)
        room = window.screen().availableSize()
        self.resize(size.boundedTo(QSize(room.width() - 64, room.height() - 96)))
        self._retranslate()

    def _retranslate(self) -> None:
        raise NotImplementedError


class KeysWindow(HelpWindow):
    """Gestures on the lay, and every command of the menus with its keys."""

    def __init__(self, menus: Callable[[], Sequence[QMenu]], window: QWidget) -> None:
        self._menus = menus
        self.list = QTreeWidget()
        self.list.setColumnCount(2)
        self.list.setRootIsDecorated(False)
        self.list.setWordWrap(True)
        self.list.setAlternatingRowColors(True)
        super().__init__(self.list, QSize(740, 620), window)

    def _retranslate(self) -> None:
        self.setWindowTitle(self.tr("Keys and gestures"))
        self.list.setAccessibleName(self.tr("Keys and gestures"))
        self.list.setHeaderLabels([self.tr("To do"), self.tr("Keys or gesture")])
        self.list.clear()
        self._add(self.tr("On the lay"), _gestures())
        self._add(self.tr("On strip, yarn and swatch"), _looking())
        self._add(self.tr("In fields and tables"), _typing())
        for menu in self._menus():
            self._add(_plain(menu.title()), list(_keys(menu)))
        self.list.expandAll()
        self.list.header().setSectionResizeMode(0, QHeaderView.ResizeMode.ResizeToContents)
        self.list.setCurrentIndex(self.list.model().index(0, 0))

    def _add(self, heading: str, rows: Sequence[tuple[str, str]]) -> None:
        if not rows:
            return
        group = QTreeWidgetItem(self.list, [heading])
        font = self.list.font()
        font.setBold(True)
        group.setFont(0, font)
        for what, how in rows:
            item = QTreeWidgetItem(group, [what, how])
            item.setToolTip(1, how)


class CautionsWindow(HelpWindow):
    """What can hurt, and whose word counts."""

    def __init__(self, window: QWidget) -> None:
        self.text = QTextBrowser()
        super().__init__(self.text, QSize(560, 400), window)

    def _retranslate(self) -> None:
        self.setWindowTitle(self.tr("Cautions"))
        self.text.setAccessibleName(self.tr("Cautions"))
        self.text.setHtml(_cautions())


class AboutWindow(HelpWindow):
    """Name, version and licences."""

    def __init__(self, window: QWidget) -> None:
        self.text = QTextBrowser()
        self.text.setOpenExternalLinks(True)
        super().__init__(self.text, QSize(460, 320), window)

    def _retranslate(self) -> None:
        self.setWindowTitle(self.tr("About Roving Lay"))
        self.text.setAccessibleName(self.tr("About Roving Lay"))
        self.text.setHtml(_about())


def _paragraph(words: str) -> str:
    return f"<p>{escape(words)}</p>"


def _points(*points: tuple[str, str]) -> str:
    return "".join(f"<p><b>{escape(name)}.</b> {escape(words)}</p>" for name, words in points)


def _plain(words: str) -> str:
    """Return the words of a menu without the mark of their mnemonic."""
    return words.replace("&&", "\0").replace("&", "").replace("\0", "&").removesuffix("…")


def _keys(menu: QMenu) -> Iterator[tuple[str, str]]:
    """Yield what a menu and its submenus do by keys: the first of several, as menus show them."""
    for action in menu.actions():
        submenu = _menu_of(action)
        if submenu is not None:
            yield from _keys(submenu)
        elif action.shortcuts():
            # without the name of the step: "Undo", whatever there is to undo
            words = action.iconText() if action.property("names-a-step") else action.text()
            yield _plain(words), action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)


def _menu_of(action: QAction) -> QMenu | None:
    menu = action.menu()
    return menu if isinstance(menu, QMenu) else None


def _gestures() -> list[tuple[str, str]]:
    """Return what mouse and keys do on the lay."""
    return [
        (
            translate("Gestures", "Walk sections, boundaries and folds"),
            translate("Gestures", "Tab, Shift+Tab"),
        ),
        (
            translate("Gestures", "Move a boundary or fold"),
            translate("Gestures", "Drag its peg; Left, Right (with Shift ten times as far); Home, End"),
        ),
        (
            translate("Gestures", "… and all that follows"),
            translate("Gestures", "Shift while dragging; Alt+Left, Alt+Right"),
        ),
        (
            translate("Gestures", "… beside the ruler’s ticks"),
            translate("Gestures", "Alt or Ctrl while dragging"),
        ),
        (translate("Gestures", "Put back what is in the hand"), translate("Gestures", "Esc")),
        (
            translate("Gestures", "Type an exact place or length"),
            translate("Gestures", "Enter, F2, or the first digit"),
        ),
        (
            translate("Gestures", "Leave a gap, or overlap"),
            translate("Gestures", "Drag the grip under a boundary; Ctrl+Left, Ctrl+Right"),
        ),
        (translate("Gestures", "Split a section"), translate("Gestures", "Double-click the wool")),
        (translate("Gestures", "Merge"), translate("Gestures", "Delete on a boundary or a section")),
        (
            translate("Gestures", "Put a section in another place"),
            translate("Gestures", "Drag its wool; Ctrl+Left, Ctrl+Right"),
        ),
        (
            translate("Gestures", "Select several"),
            translate("Gestures", "Ctrl or Shift with a click; Shift+Left, Shift+Right; Ctrl+Space; Ctrl+A"),
        ),
        (
            translate("Gestures", "Look closer or further off"),
            translate("Gestures", "Turn the wheel, or spread two fingers on a touchpad"),
        ),
        (
            translate("Gestures", "Move along the film"),
            translate("Gestures", "Shift with the wheel; drag with Space held or the middle button"),
        ),
        (
            translate("Gestures", "All that can be done here"),
            translate("Gestures", "Right button; the menu key or Shift+F10"),
        ),
    ]


def _looking() -> list[tuple[str, str]]:
    """Return what mouse and keys do where the yarn is looked at."""
    return [
        (
            translate("Gestures", "Light a section wherever it comes"),
            translate("Gestures", "Point at it on the strip; a click selects it"),
        ),
        (
            translate("Gestures", "Walk the fade curve"),
            translate("Gestures", "Arrows, Home and End; a click selects, with Ctrl or Shift one more"),
        ),
        (
            translate("Gestures", "Look closer at the yarn, or from further off"),
            translate("Gestures", "Turn the wheel; plus, minus"),
        ),
        (
            translate("Gestures", "Move along the yarn"),
            translate("Gestures", "Drag it; Shift with the wheel; Left, Right, Home, End"),
        ),
        (
            translate("Gestures", "See the whole yarn again"),
            translate("Gestures", "Double-click it; 0 or Esc; Whole yarn"),
        ),
        (
            translate("Gestures", "See other rows of the swatch"),
            translate("Gestures", "Turn the wheel; Up, Down, Page Up, Page Down, Home, End"),
        ),
    ]


def _typing() -> list[tuple[str, str]]:
    """Return what keys do where something is typed."""
    return [
        (translate("Gestures", "Take what was typed"), translate("Gestures", "Enter, or go elsewhere")),
        (translate("Gestures", "Bring the old value back"), translate("Gestures", "Esc")),
        (translate("Gestures", "Type over a cell"), translate("Gestures", "F2, or just type")),
        (
            translate("Gestures", "Any unit, whatever is shown"),
            translate("Gestures", "4 oz, 113.4 g, 4.4 yd, 3,8 m, 18 in"),
        ),
        (
            translate("Gestures", "Amounts as painters say them"),
            translate("Gestures", "12 + 38: millilitres, one for each stock"),
        ),
    ]


def _cautions() -> str:
    """Return what can hurt, and whose word counts, as HTML."""
    lead = translate(
        "Cautions", "The program does arithmetic. It does not know your dye, acid, wool or room."
    )
    powder = translate(
        "Cautions",
        "It drifts and is harmful to breathe. Weigh and mix it with fitting mask and gloves, on damp paper, "
        "out of draughts.",
    )
    acid = translate(
        "Cautions",
        "Hot and sour liquors burn skin and eyes, and their vapour irritates: gloves, eye protection, fresh "
        "air. Add acid to water, never water to acid.",
    )
    steam = translate(
        "Cautions", "It burns before it is seen. Open steamers and parcels away from you, and let them cool."
    )
    utensils = translate("Cautions", "Pots, syringes, jars and spoons used for dye never go back to food.")
    water = translate(
        "Cautions", "Let baths run clear before they go down the drain, and follow your local rules."
    )
    last = translate(
        "Cautions",
        "Where this page or the program differs from the safety data sheet of your dye or acid, from local "
        "rules or from trained practice, follow those.",
    )
    return (
        _paragraph(lead)
        + _points(
            (translate("Cautions", "Dye powder"), powder),
            (translate("Cautions", "Hot acid"), acid),
            (translate("Cautions", "Steam"), steam),
            (translate("Cautions", "Dedicated utensils"), utensils),
            (translate("Cautions", "Waste water"), water),
        )
        + f"<p><b>{escape(last)}</b></p>"
    )


def _about() -> str:
    """Return name, version and licences as HTML."""
    licence = translate("About", "MIT; its text is in the file LICENSE that comes with the program.")
    font = translate(
        "About",
        "Noto Sans, Copyright 2015 Google LLC, serves where the system has no font. It is under the SIL Open "
        "Font License 1.1, whose text is in fonts/OFL.txt.",
    )
    made = translate("About", "Qt for Python (LGPL 3), NumPy and Pint (BSD).")
    last = translate(
        "About", "Colours on the screen are indicative; dye a sample first. There is no warranty."
    )
    return (
        f"<h2>Roving Lay {escape(program_version())}</h2>"
        + _paragraph(translate("About", "Plans hand-painted roving."))
        + _points(
            (translate("About", "Licence"), licence),
            (translate("About", "Font"), font),
            (translate("About", "Made with"), made),
        )
        + _paragraph(last)
    )
