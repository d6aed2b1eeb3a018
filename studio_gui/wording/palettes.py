"""Several colours typed in one line: "#5d7a4a; #c08a50; 52 34 -12".

The rule of this module: colours stand apart by a semicolon or a new line; where all are #rrggbb, by anything.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from studio_gui.domain.edits.matching import MOST_COLOURS
from studio_gui.domain.errors import InvalidPlan
from studio_gui.wording.colours import TypedColour, parse_colour
from studio_gui.wording.numbers import check_length
from studio_gui.wording.translation import TRANSLATED, Tongue

LONGEST_PALETTE = 2_000

# What stands between two colours is matched in one way only: else half a colour after many takes for ever.
_ONLY_HEX = re.compile(r"\s*(?:#[0-9a-fA-F]{6}[\s,;]*)+")
_HEX = re.compile(r"#[0-9a-fA-F]{6}")


def parse_palette(text: str, tongue: Tongue = TRANSLATED) -> tuple[TypedColour, ...]:
    """Return the colours typed in `text`, in their order; none for a blank text.

    Raises
    ------
    InvalidPlan
        ``too-long-to-read``; ``too-many``; as `parse_colour`.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> [one.srgb for one in parse_palette("#5d7a4a, #C08A50", ENGLISH)]
    ['#5d7a4a', '#c08a50']
    """
    check_length(text, LONGEST_PALETTE)
    if _ONLY_HEX.fullmatch(text):
        terms: Sequence[str] = _HEX.findall(text)
    else:
        terms = [term for term in re.split(r"[;\n]", text) if term.strip()]
    if len(terms) > MOST_COLOURS:
        raise InvalidPlan("too-many", field="colours", count=len(terms), most=MOST_COLOURS)
    return tuple(parse_colour(term, "srgb", tongue) for term in terms)


def outside_screen_words(colours: Sequence[TypedColour], tongue: Tongue = TRANSLATED) -> str:
    """Return which of the colours no screen shows, and what is shown for them; "" where there are none.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> outside_screen_words(parse_palette("50 -100 0; #5d7a4a", ENGLISH), ENGLISH)
    'Colour 1 is outside sRGB. It is matched as typed; what stands for it here is the nearest on a screen.'
    """
    outside = [str(number) for number, one in enumerate(colours, start=1) if one.is_nearest]
    if not outside:
        return ""
    if len(colours) == 1:
        return tongue.translate(
            "Colours",
            "This colour is outside sRGB. It is matched as typed; {srgb} is the nearest that a screen can"
            " show.",
        ).format(srgb=colours[0].srgb)
    if len(outside) == 1:
        words = tongue.translate(
            "Colours",
            "Colour {numbers} is outside sRGB. It is matched as typed; what stands for it here is the nearest"
            " on a screen.",
        )
    else:
        words = tongue.translate(
            "Colours",
            "Colours {numbers} are outside sRGB. They are matched as typed; what stands for them here is the"
            " nearest on a screen.",
        )
    return words.format(numbers=", ".join(outside))
