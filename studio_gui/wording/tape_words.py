"""What is written on the tape that lies under the film.

The rule of this module: places count from the start of the lay, and what has no place for a unit is in the
one that the head of the page names.
"""

from __future__ import annotations

from collections.abc import Sequence

from studio_gui.domain.turns import Turn
from studio_gui.wording.quantities import LAY_LENGTH, shown_bare, shown_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue

#: A minus that cannot be taken for a hyphen.
MINUS = "\u2212"


def about_words(film_m: float, tongue: Tongue = TRANSLATED) -> str:
    """Return what the sheet is, how much film to cut, and what its figures are in."""
    sentence = tongue.translate(
        "Tape",
        "Tape to lie under the film, at true scale. Film to cut: {film}. Places ({unit}) are from the start.",
    )
    return sentence.format(
        film=shown_briefly(LAY_LENGTH, film_m, tongue), unit=LAY_LENGTH.shown_in(tongue)[0]
    )


def check_words(tongue: Tongue = TRANSLATED) -> str:
    """Return what the check line is for."""
    return tongue.translate("Tape", "This line is 100 mm. If it is not, print again at 100 %.")


def joining_words(tongue: Tongue = TRANSLATED) -> str:
    """Return how pieces are joined."""
    return tongue.translate(
        "Tape", "Cut along the left line, lay it on the dashed line of the piece before: numbers meet."
    )


def page_words(number: int, count: int, tongue: Tongue = TRANSLATED) -> str:
    """Return which page this is: "page 3 of 9"."""
    return tongue.translate("Tape", "page {0} of {1}").format(number, count)


def piece_words(number: int, count: int, from_m: float, to_m: float, tongue: Tongue = TRANSLATED) -> str:
    """Return which piece of the tape this is, and from where to where it reaches.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> piece_words(3, 17, 0.4, 0.65, ENGLISH)
    'Piece 3 of 17: 40 to 65 cm'
    """
    unit, _ = LAY_LENGTH.shown_in(tongue)
    start = shown_briefly(LAY_LENGTH, round(from_m, 6), tongue).removesuffix(f" {unit}")
    end = shown_briefly(LAY_LENGTH, round(to_m, 6), tongue)
    words = tongue.translate("Tape", "Piece {0} of {1}: {2} to {3}").format(number, count, start, end)
    return words.replace("-", MINUS)


def place_words(place_m: float, tongue: Tongue = TRANSLATED) -> str:
    """Return a place on the lay without its unit."""
    return shown_bare(LAY_LENGTH, place_m, tongue)


def turn_words(here: Sequence[tuple[int, Turn]], folds: int, tongue: Tongue = TRANSLATED) -> str:
    """Return what the roving does at one place; turns come with their number, folds count from 1.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> turn_words([(0, Turn(0.0, "start", True)), (2, Turn(0.0, "end", False))], 1, ENGLISH)
    'start here, end'
    """
    words = {
        "start": tongue.translate("Tape", "start here"),
        "end": tongue.translate("Tape", "end"),
        "fold": tongue.translate("Tape", "fold") if folds == 1 else tongue.translate("Tape", "fold {0}"),
    }
    return ", ".join(words[turn.kind].format(number) for number, turn in here)


def gap_words(gap_m: float, tongue: Tongue = TRANSLATED) -> str:
    """Return what is between two colours: "gap 2 cm", or "overlap 2 cm" where `gap_m` is below 0."""
    sentence = tongue.translate("Tape", "gap {0}") if gap_m > 0.0 else tongue.translate("Tape", "overlap {0}")
    return sentence.format(shown_briefly(LAY_LENGTH, abs(gap_m), tongue))


def extra_words(length_m: float, tongue: Tongue = TRANSLATED) -> str:
    """Return how much film there is beyond one end of the lay."""
    return tongue.translate("Tape", "extra film {0}").format(shown_briefly(LAY_LENGTH, length_m, tongue))


def film_end_words(tongue: Tongue = TRANSLATED) -> str:
    """Return what stands where the film is cut."""
    return tongue.translate("Tape", "film ends")


def glue_words(tongue: Tongue = TRANSLATED) -> str:
    """Return what stands on the strip that the next piece lies on."""
    return tongue.translate("Tape", "glue")


def lane_words(roving: int | None, leg: int, tongue: Tongue = TRANSLATED) -> str:
    """Return whose marks a lane has: of one roving (from 1), or of all; legs count from 1.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> lane_words(None, 2, ENGLISH), lane_words(1, 2, ENGLISH)
    ('leg 2', 'roving 1, leg 2')
    """
    if roving is None:
        return tongue.translate("Tape", "leg {0}").format(leg)
    return tongue.translate("Tape", "roving {0}, leg {1}").format(roving, leg)


def legs_words(tongue: Tongue = TRANSLATED) -> str:
    """Return what the lanes at the foot of a tape are for."""
    return tongue.translate(
        "Tape", "Lanes at the foot: where each leg is marked, laid out straight, before it is eased."
    )
