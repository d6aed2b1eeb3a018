"""Colours as they are typed and told: ``#rrggbb``, or CIE Lab as instruments print it.

The rule of this module: Lab is for the light D65 and the 2 degree observer, as everywhere in the program. Of
a colour that no screen can show the nearest that it can is told with it, and that it is not the one meant.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

import numpy as np

from studio_gui.domain.colour.fit import DyeCurve
from studio_gui.domain.colour.measured import Spectrum
from studio_gui.domain.colour.spaces import Array, hex_from_lab, lab_from_hex
from studio_gui.domain.colour.swatches import checked_srgb
from studio_gui.domain.colour.undyed import FibreName
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import checked
from studio_gui.storage.strict_json import quoted
from studio_gui.wording.numbers import check_length, parse_number, shown_number
from studio_gui.wording.translation import TRANSLATED, Tongue

LONGEST_COLOUR = 80

_HEX = re.compile(r"#?[0-9a-fA-F]{6}")
#: What may stand before the three numbers or before each of them: "CIE Lab", "L*", "a =", "b:".
_CALLED_LAB = re.compile(r"^\s*(?:cie\s*)?l\*?\s*a\*?\s*b\*?\s*[:=(]?", re.IGNORECASE)
_NAMED = re.compile(r"(?<![^\W\d_])[lab](?![^\W\d_])\*?\s*[:=]?", re.IGNORECASE)
_FIELDS = ("lightness", "green_to_red", "blue_to_yellow")


@dataclass(frozen=True, slots=True)
class TypedColour:
    """A colour that was typed, ``#rrggbb``; `is_nearest` when the one meant lies outside sRGB.

    `typed_lab` is the one meant where it was typed as CIE Lab: it has not gone through any screen.
    """

    srgb: str
    is_nearest: bool = False
    typed_lab: tuple[float, float, float] | None = field(default=None, compare=False)

    @property
    def lab(self) -> Array:
        """The colour meant, CIE Lab, shape (3,)."""
        return lab_from_hex(self.srgb) if self.typed_lab is None else np.array(self.typed_lab)


def parse_colour(text: str, field: str, tongue: Tongue = TRANSLATED) -> TypedColour:
    """Return the colour typed in `text`: "#3a6ea5", "3a6ea5", "52.1 34 -12", "L 52,1 a 34 b -12".

    Raises
    ------
    InvalidPlan
        ``nothing-typed-in``, ``too-long-to-read``, ``not-a-swatch-colour``; as `parse_number`, and
        ``out-of-range`` for L, a or b.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> parse_colour("3A6EA5", "srgb", ENGLISH).srgb, parse_colour("Lab 100; 0; 0", "srgb", ENGLISH).srgb
    ('#3a6ea5', '#ffffff')
    """
    check_length(text, LONGEST_COLOUR)
    typed = text.strip()
    if not typed:
        raise InvalidPlan("nothing-typed-in")
    if _HEX.fullmatch(typed):
        return TypedColour(checked_srgb(field, typed if typed.startswith("#") else f"#{typed}"))
    terms = _terms(typed)
    if len(terms) != len(_FIELDS):
        raise InvalidPlan("not-a-swatch-colour", value=quoted(typed))
    try:
        numbers = [parse_number(term, tongue) for term in terms]
    except InvalidPlan as problem:
        if problem.code == "not-a-number":  # the whole of what was typed is no colour
            raise InvalidPlan("not-a-swatch-colour", value=quoted(typed)) from None
        raise
    lightness, red, yellow = (checked(name, one) for name, one in zip(_FIELDS, numbers, strict=True))
    return TypedColour(*hex_from_lab(np.array([lightness, red, yellow])), (lightness, red, yellow))


def shown_lab(srgb: str, tongue: Tongue = TRANSLATED) -> str:
    """Return the CIE Lab of a colour, as it can be typed again.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> shown_lab("#ffffff", ENGLISH)
    'L 100.0  a 0.0  b 0.0'
    """
    return shown_lab_numbers(lab_from_hex(srgb), tongue)


def shown_lab_numbers(lab: Array, tongue: Tongue = TRANSLATED) -> str:
    """Return CIE Lab, (3,), as it can be typed again."""
    numbers = (shown_number(value, 1, tongue) for value in lab.tolist())
    return "  ".join(f"{name} {number}" for name, number in zip("Lab", numbers, strict=True))


def shown_difference(difference: float, tongue: Tongue = TRANSLATED) -> str:
    """Return a CIEDE2000 difference as it is told.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> shown_difference(1.234, ENGLISH)
    '1.2'
    """
    return shown_number(difference, 1, tongue)


def fibre_words(name: FibreName, tongue: Tongue = TRANSLATED) -> str:
    """Return what an undyed fibre is called at the start of a menu entry."""
    return {
        "bleached white": tongue.translate("Fibres", "Bleached white"),
        "natural white": tongue.translate("Fibres", "Natural white"),
        "cream": tongue.translate("Fibres", "Cream"),
        "oatmeal": tongue.translate("Fibres", "Oatmeal"),
        "pale grey": tongue.translate("Fibres", "Pale grey"),
        "mid grey": tongue.translate("Fibres", "Mid grey"),
        "dark grey": tongue.translate("Fibres", "Dark grey"),
        "fawn": tongue.translate("Fibres", "Fawn"),
        "moor brown": tongue.translate("Fibres", "Moor brown"),
        "peat brown": tongue.translate("Fibres", "Peat brown"),
    }[name]


def build_up_line(curve: DyeCurve, tongue: Tongue = TRANSLATED) -> str:
    """Return how a dye builds up and how well its swatches agree, in one line."""
    words = tongue.translate(
        "Colours", "Builds up as depth to the power {0}; swatches are off by up to {1} (CIEDE2000)."
    )
    exponent, worst = shown_number(curve.exponent, 2, tongue), shown_difference(max(curve.misses), tongue)
    return words.format(exponent, worst)


def spectrum_line(spectrum: Spectrum, tongue: Tongue = TRANSLATED) -> str:
    """Return what was read of a spectrum, and what was done to it."""
    said = [tongue.translate("Colours", "Read {0} readings.").format(spectrum.readings)]
    if spectrum.was_percent:
        said.append(tongue.translate("Colours", "They were in percent and are taken as fractions."))
    if spectrum.outside:
        said.append(
            tongue.translate("Colours", "{0} beyond 400 to 700 nm are not used.").format(spectrum.outside)
        )
    if spectrum.held_nm:
        words = tongue.translate("Colours", "At the ends {0} nm go by the outermost reading.")
        said.append(words.format(shown_number(spectrum.held_nm, 0, tongue)))
    return " ".join(said)


def _terms(typed: str) -> list[str]:
    """Return what stands between the separators: semicolons, else spaces, else commas.

    >>> _terms("L*=52,1 a*=34 b*=-12"), _terms("52.1, 34, -12"), _terms("52,34,-12")
    (['52,1', '34', '-12'], ['52.1', '34', '-12'], ['52', '34', '-12'])
    """
    plain = _NAMED.sub(" ", _CALLED_LAB.sub(" ", typed)).strip(" ()")
    if ";" in plain:
        return [term.strip() for term in plain.split(";")]
    terms = [term.strip(",") for term in plain.split()]
    return plain.split(",") if len(terms) == 1 else terms
