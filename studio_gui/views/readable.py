"""Colours of the widgets that can be read: what the style leaves too pale is made stronger.

The rule of this module: the look is the style's own, but text keeps at least 4.5 to 1 (WCAG 2.2, 1.4.3).
Two of the common styles' colours do not: what is selected, and what an empty field asks for.
"""

from __future__ import annotations

from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication

from studio_gui.drawing.look import contrast, mixed

LEAST_FOR_TEXT = 4.5

_STEPS = 32
_Role = QPalette.ColorRole


def keep_readable(application: QApplication) -> None:
    """Mend the palette of the program, now and whenever the system turns dark or light."""
    mend(application)
    application.styleHints().colorSchemeChanged.connect(lambda _scheme: mend(application))


def mend(application: QApplication) -> None:
    """Mend the palette of the style; one that the program chose itself is left alone."""
    if application.palette().isBrushSet(QPalette.ColorGroup.Active, _Role.Window):
        return
    application.setPalette(QPalette())  # the style's own
    application.setPalette(mended(application.palette()))


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


def _stronger(colour: QColor, towards: QColor, against: QColor) -> QColor:
    """Return `colour` with as little of another as makes it stand out against a third."""
    steps = (mixed(colour, towards, step / _STEPS) for step in range(_STEPS))
    return next((one for one in steps if contrast(one, against) >= LEAST_FOR_TEXT), towards)


def _opaque(colour: QColor, ground: QColor) -> QColor:
    """Return what is seen of a colour that lets the ground through."""
    return mixed(ground, QColor(colour.rgb()), colour.alphaF())
