"""Colours of the widgets that can be read: what the style leaves too pale is made stronger.

The rule of this module: the look is the style's own, but text keeps at least 4.5 to 1 (WCAG 2.2, 1.4.3) and
the edge of a field 3 to 1 (1.4.11). Three of the common styles' colours do not: what is selected, what an
empty field asks for, and edges.
"""

from __future__ import annotations

from typing import Any

from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication

from studio_gui.drawing.look import contrast, mixed
from studio_gui.views.tick_box import STYLE_DARKENS_PCT

LEAST_FOR_TEXT = 4.5
LEAST_FOR_EDGE = 3.2  # of 3; the style's own darkening is rounded

#: What is typed into and chosen from, as Qt calls it.
FIELDS: tuple[Any, ...] = ("QLineEdit", "QComboBox", "QAbstractSpinBox")  # str; PySide's stubs ask for bytes

_STEPS = 32
_Role = QPalette.ColorRole


def keep_readable(application: QApplication) -> None:
    """Mend the palette of the program, now and whenever the system turns dark or light."""
    mend(application)
    application.styleHints().colorSchemeChanged.connect(lambda _scheme: mend(application))


def mend(application: QApplication) -> None:
    """Mend the palette of the style; one that the program chose itself is left alone."""
    if not application.palette().isBrushSet(QPalette.ColorGroup.Active, _Role.Window):
        application.setPalette(QPalette())  # the style's own
        application.setPalette(mended(application.palette()))
    edge_fields(application)


def edge_fields(application: QApplication) -> None:
    """Give fields an edge that can be seen; a palette of the whole program takes it away again.

    The usual style of Linux desktops makes it from the window's colour, which its fields use for nothing
    else. Other styles are left alone.
    """
    if application.style().name() != "fusion":
        return
    around, palette = application.palette(), QPalette()
    for group in (QPalette.ColorGroup.Active, QPalette.ColorGroup.Inactive):
        window, text = around.color(group, _Role.Window), around.color(group, _Role.WindowText)
        edge = _stronger(window, text, window, LEAST_FOR_EDGE)
        palette.setColor(group, _Role.Window, edge.lighter(STYLE_DARKENS_PCT))
    for name in FIELDS:
        application.setPalette(palette, name)


def mended(palette: QPalette) -> QPalette:
    """Return a palette that holds only the colours of `palette` that have to be others."""
    found = QPalette()
    for group in (QPalette.ColorGroup.Active, QPalette.ColorGroup.Inactive):
        base, text = palette.color(group, _Role.Base), palette.color(group, _Role.Text)
        asked = _opaque(palette.color(group, _Role.PlaceholderText), base)
        chosen, on_chosen = palette.color(group, _Role.Highlight), palette.color(group, _Role.HighlightedText)
        if contrast(asked, base) < LEAST_FOR_TEXT:
            found.setColor(group, _Role.PlaceholderText, _stronger(asked, text, base))
        if contrast(chosen, on_chosen) < LEAST_FOR_TEXT:
            away = QColor("black" if on_chosen.lightness() > chosen.lightness() else "white")
            found.setColor(group, _Role.Highlight, _stronger(chosen, away, on_chosen))
    return found


def _stronger(colour: QColor, towards: QColor, against: QColor, least: float = LEAST_FOR_TEXT) -> QColor:
    """Return `colour` with as little of another as makes it stand out against a third."""
    steps = (mixed(colour, towards, step / _STEPS) for step in range(_STEPS))
    return next((one for one in steps if contrast(one, against) >= least), towards)


def _opaque(colour: QColor, ground: QColor) -> QColor:
    """Return what is seen of a colour that lets the ground through."""
    return mixed(ground, QColor(colour.rgb()), colour.alphaF())
