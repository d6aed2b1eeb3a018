"""What a nudge does to a colour, in words.

The rule of this module: what was asked for comes first, then all else that an eye can notice, then the
graduation that stands behind it.
"""

from __future__ import annotations

from studio_gui.domain.colour.shifts import Shift, Word
from studio_gui.wording.colours import shown_difference
from studio_gui.wording.quantities import VOLUME, shown_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue


def shift_line(direction: Word, found: Shift, graduation_ml: float, tongue: Tongue = TRANSLATED) -> str:
    """Return how a section shifts, where one graduation of the bench is `graduation_ml`.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> shift_line("lighter", Shift(2.1, (("yellower", 1.4),)), 1.0, ENGLISH)
    'Lighter by 2.1, and yellower by 1.4 (CIE Lab): one graduation is 1 ml.'
    """
    phrase = tongue.translate("Shifts", "{0} by {1}")

    def said(word: Word, by: float) -> str:
        return phrase.format(word_of(word, tongue), shown_difference(by, tongue))

    first, rest = said(direction, found.asked), ", ".join(said(word, by) for word, by in found.besides)
    words = tongue.translate("Shifts", "{asked} (CIE Lab): one graduation is {graduation}.")
    if rest:
        words = tongue.translate(
            "Shifts", "{asked}, and {besides} (CIE Lab): one graduation is {graduation}."
        )
    graduation = shown_briefly(VOLUME, graduation_ml, tongue)
    return words.format(asked=first[:1].upper() + first[1:], besides=rest, graduation=graduation)


def word_of(word: Word, tongue: Tongue = TRANSLATED) -> str:
    """Return the word for a change of colour."""
    return {
        "lighter": tongue.translate("Shifts", "lighter"),
        "deeper": tongue.translate("Shifts", "deeper"),
        "redder": tongue.translate("Shifts", "redder"),
        "greener": tongue.translate("Shifts", "greener"),
        "yellower": tongue.translate("Shifts", "yellower"),
        "bluer": tongue.translate("Shifts", "bluer"),
        "duller": tongue.translate("Shifts", "duller"),
        "more vivid": tongue.translate("Shifts", "more vivid"),
    }[word]
