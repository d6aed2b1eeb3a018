"""What the colours of the program are worth.

The rule of this module: it says what is not modelled, so that nobody has to find it out after the steamer.
"""

from __future__ import annotations

from html import escape

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QTextBrowser, QWidget

from studio_gui.views.help_windows import HelpWindow
from studio_gui.wording.translation import translate


class LimitsWindow(HelpWindow):
    """The limits of predicted colours."""

    def __init__(self, window: QWidget) -> None:
        self.text = QTextBrowser()
        super().__init__(self.text, QSize(560, 460), window)

    def _retranslate(self) -> None:
        self.setWindowTitle(self.tr("Limits of colour"))
        self.text.setAccessibleName(self.tr("Limits of colour"))
        lead = translate("Limits", "Colours on the screen are indicative. Dye a sample before you dye a lot.")
        points = "".join(f"<p><b>{escape(name)}.</b> {escape(words)}</p>" for name, words in limits())
        self.text.setHtml(f"<p>{escape(lead)}</p>{points}")


def limits() -> tuple[tuple[str, str], ...]:
    """Return what limits predicted colours: a name and a sentence or two for each."""
    return (
        (
            translate("Limits", "Screen"),
            translate(
                "Limits",
                "No screen is measured here, and all colours are reckoned for one light, daylight (D65). What"
                " no screen can show is shown by the nearest that it can, and marked.",
            ),
        ),
        (
            translate("Limits", "Swatches"),
            translate(
                "Limits",
                "One swatch tells a colour, not how a dye takes up light: a mix may be off by 4 CIEDE2000 or"
                " more. Swatches at several depths help, and a measured spectrum most.",
            ),
        ),
        (
            translate("Limits", "Mixes"),
            translate(
                "Limits",
                "Dyes are taken to go on completely and all alike. Real ones strike at different rates, so"
                " that mixes may shift in hue from the outside of a lock to its core.",
            ),
        ),
        (
            translate("Limits", "Depth"),
            translate(
                "Limits",
                "Above about 4 % on the fibre, and beyond the deepest swatch, colours are drawn out further"
                " than anything was measured. What the wool does not take up is not seen.",
            ),
        ),
        (
            translate("Limits", "Fluorescent dyes"),
            translate(
                "Limits",
                "Alone they go by their own swatches; in mixes they are guesses. Fibre that was brightened is"
                " not modelled.",
            ),
        ),
        (
            translate("Limits", "Wet wool"),
            translate("Limits", "Colours are those of dry wool; wet, it looks darker and deeper."),
        ),
        (
            translate("Limits", "Differences"),
            translate(
                "Limits",
                "CIEDE2000 is made for small differences: large ones it puts in order, but does not measure."
                " Grey-scale grades are reckoned, and an eye that grades may see another step.",
            ),
        ),
        (
            translate("Limits", "Matches"),
            translate(
                "Limits",
                "Liquors are ranked by CIEDE2000. Where a clear colour (CIELAB chroma 25 or more) is over 10"
                " away from all that the dyes give, they are ranked by the distance in IPT instead, which"
                " keeps to the hue; the nearest by CIEDE2000 is still among them, and each says its own. Both"
                " limits are our choice.",
            ),
        ),
    )
