"""The colours and measures of every picture.

The rule of this module: only the wool is rich. All else is near neutral, and keeps at least 4.5 to 1 for text
and 3 to 1 for graphics in both palettes. Wool itself never follows the palette.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtGui import QColor, QPalette


@dataclass(frozen=True, slots=True)
class Look:
    """Colours of one palette."""

    table: QColor
    text: QColor
    secondary: QColor
    film: QColor
    film_edge: QColor
    tape: QColor
    tape_tens: QColor
    tape_figures: QColor
    tape_end: QColor
    paper: QColor
    ink: QColor
    ink_secondary: QColor
    under: QColor
    over: QColor
    handle: QColor
    peg: QColor
    peg_lines: QColor
    fibre: QColor
    fleck: QColor
    soak: QColor
    waves: QColor
    surface: QColor


LIGHT = Look(
    table=QColor("#dcdad5"),
    text=QColor("#1c1b19"),
    secondary=QColor("#55534e"),
    film=QColor("#f1f2f1"),
    film_edge=QColor("#6d7276"),
    tape=QColor("#f2e7c9"),
    tape_tens=QColor("#e6d8b2"),
    tape_figures=QColor("#3a3020"),
    tape_end=QColor("#a9854a"),
    paper=QColor("#fdfbf5"),
    ink=QColor("#1c1b19"),
    ink_secondary=QColor("#55534e"),
    under=QColor("#8a5200"),
    over=QColor("#b3261e"),
    handle=QColor("#1f6fb2"),
    peg=QColor("#fdfbf5"),
    peg_lines=QColor("#3d3a35"),
    fibre=QColor("#f6f6f4"),
    fleck=QColor("#c4c5c1"),
    soak=QColor("#a9c3cf"),
    waves=QColor("#3f6a7d"),
    surface=QColor("#1c1b19"),
)

DARK = Look(
    table=QColor("#1f2124"),
    text=QColor("#eceae6"),
    secondary=QColor("#a9a7a2"),
    film=QColor("#2a2d31"),
    film_edge=QColor("#7f868d"),
    tape=QColor("#4b4334"),
    tape_tens=QColor("#3e3729"),
    tape_figures=QColor("#f1e6cc"),
    tape_end=QColor("#c9a862"),
    paper=QColor("#f4f0e6"),
    ink=QColor("#1c1b19"),
    ink_secondary=QColor("#55534e"),
    under=QColor("#f0b35a"),
    over=QColor("#ff9183"),
    handle=QColor("#6fb1e8"),
    peg=QColor("#2a2d31"),
    peg_lines=QColor("#eceae6"),
    fibre=QColor("#15171a"),
    fleck=QColor("#4a4f54"),
    soak=QColor("#4f6d7d"),
    waves=QColor("#b4dcec"),
    surface=QColor("#eceae6"),
)


def look_for(palette: QPalette) -> Look:
    """Return the look that goes with a widget palette: `DARK` where its window is darker than its text."""
    window = palette.color(QPalette.ColorRole.Window)
    text = palette.color(QPalette.ColorRole.WindowText)
    return DARK if window.lightness() < text.lightness() else LIGHT


def mixed(one: QColor, other: QColor, share: float) -> QColor:
    """Return `one` with a share (0 to 1) of `other` in it, channel by channel.

    >>> mixed(QColor("black"), QColor("white"), 0.2).name()
    '#333333'
    """
    return QColor.fromRgbF(
        one.redF() + (other.redF() - one.redF()) * share,
        one.greenF() + (other.greenF() - one.greenF()) * share,
        one.blueF() + (other.blueF() - one.blueF()) * share,
    )


def contrast(one: QColor, other: QColor) -> float:
    """Return the contrast ratio of two colours, 1 to 21.

    Source: WCAG 2.2, definition of contrast ratio.
    """
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: QColor) -> float:
    def linear(channel: float) -> float:
        return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4

    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) + 0.0722 * linear(colour.blueF())
