"""Light or dark, as the system is or as somebody likes it.

The rule of this module: what follows the system follows it while the program runs; what does not,
stays. Where the platform cannot be asked for light or dark, or the style is Fusion, the palettes are these.
"""

from __future__ import annotations

from functools import lru_cache
from typing import cast

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication

from studio_gui.document.preferences import Appearance
from studio_gui.drawing.look import DARK, LIGHT, look_for
from studio_gui.views.readable import edge_fields

Role = QPalette.ColorRole

_SCHEMES = {
    "system": Qt.ColorScheme.Unknown,
    "light": Qt.ColorScheme.Light,
    "dark": Qt.ColorScheme.Dark,
}
#: Window, base, every second row, text, secondary text, button, rules, selection, words on it, link.
_COLOURS: dict[str, tuple[str, ...]] = {
    "light": (
        "#efefed", "#ffffff", "#f6f6f4", "#1c1b19", "#6a6863", "#f4f3f1", "#b5b3ae", "#1f6fb2", "#ffffff",
        "#1b5f99",
    ),
    "dark": (
        "#2a2d31", "#1f2124", "#25282b", "#eceae6", "#a09e99", "#383c41", "#5a5f66", "#2f6ea8", "#ffffff",
        "#7db8ea",
    ),
}  # fmt: skip


def use_appearance(appearance: Appearance) -> None:
    """Show the whole program light, dark or as the system is, from now on."""
    application = cast("QApplication", QApplication.instance())
    application.styleHints().setColorScheme(_SCHEMES[appearance])
    wanted = DARK if appearance == "dark" else LIGHT
    if appearance == "system":
        application.setPalette(QPalette())
    elif application.style().name() == "fusion" or look_for(application.palette()) is not wanted:
        application.setPalette(palette_of(appearance))
    edge_fields(application)


@lru_cache(maxsize=2)
def palette_of(appearance: Appearance) -> QPalette:
    """Return the palette of "light" or "dark"."""
    window, base, alternate, text, secondary, button, rules, selection, on_it, link = (
        QColor(name) for name in _COLOURS[appearance]
    )
    palette = QPalette(button, window)
    for role, colour in (
        (Role.Window, window),
        (Role.WindowText, text),
        (Role.Base, base),
        (Role.AlternateBase, alternate),
        (Role.Text, text),
        (Role.ButtonText, text),
        (Role.PlaceholderText, secondary),
        (Role.ToolTipBase, base),
        (Role.ToolTipText, text),
        (Role.Mid, rules),
        (Role.Midlight, rules if appearance == "dark" else QColor("#d6d4cf")),
        (Role.Highlight, selection),
        (Role.HighlightedText, on_it),
        (Role.Accent, selection),
        (Role.Link, link),
        (Role.LinkVisited, link),
    ):
        palette.setColor(role, colour)
    for role in (Role.WindowText, Role.Text, Role.ButtonText, Role.HighlightedText):
        palette.setColor(QPalette.ColorGroup.Disabled, role, secondary)
    palette.setColor(QPalette.ColorGroup.Disabled, Role.Highlight, rules)
    return palette
