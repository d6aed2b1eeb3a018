"""Quantities as they are shown and typed: a number with its unit.

The rule of this module: a plan holds g, m, ml, ml/g, g/L, m/g and %; what the user sees and types is
converted here and nowhere else. A bare number has the unit in which the field shows its value.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from itertools import takewhile

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import RANGES, checked
from studio_gui.storage.strict_json import quoted
from studio_gui.wording.numbers import check_length, parse_number, shown_number, shown_number_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue
from studio_gui.wording.units import AnyUnit, Dimension, DirectCount, unit

LONGEST_QUANTITY = 60
#: The ends of a span are told in tenths below this, in the unit shown.
TENTHS_BELOW = 10.0

#: What a number may be made of, besides digits and spaces; whatever follows the last of these is the unit.
_IN_NUMBERS = "+-\u2212\u2013.,\u066b\u066c\u200e\u200f\u061c"


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity and how it is shown: unit and decimals, metric and as in the United States.

    `metric` serves wherever `us` or `mixed` is empty; `dimension` says which units may be typed; `whole` that
    only whole numbers may.
    """

    dimension: Dimension
    metric: str
    decimals: int
    us: str = ""
    us_decimals: int = 0
    mixed: str = ""
    mixed_decimals: int = 0
    whole: bool = False

    def shown_in(self, tongue: Tongue) -> tuple[str, int]:
        """Return symbol and decimals in which `tongue` shows it; no symbol for a plain number."""
        if tongue.units == "us" and self.us:
            return self.us, self.us_decimals
        if tongue.units == "mixed" and self.mixed:
            return self.mixed, self.mixed_decimals
        return self.metric, self.decimals


#: Weight of fibre, g.
MASS = Kind("mass", "g", 1, "oz", 2, "oz", 2)
#: Weight of a tuft, as a kitchen or letter scale shows it, g.
FINE_MASS = Kind("mass", "g", 2, "oz", 3, "oz", 3)
#: Lengths on the lay: sections, boundaries, gaps, film, m; in inches to the hundredth, which tells quarters.
LAY_LENGTH = Kind("length", "cm", 1, "in", 2, "in", 2)
#: Lengths of roving, m.
ROVING_LENGTH = Kind("length", "m", 2, "yd", 2, "yd", 2)
#: Lengths of singles and yarn, m.
YARN_LENGTH = Kind("length", "m", 1, "yd", 1, "yd", 1)
#: Grist of singles and yarn, m/g; any count may be typed.
GRIST = Kind("grist", "m/g", 2, "yd/oz", 1, "yd/oz", 1)
#: Linear density of top and roving, g/m.
TOP_DENSITY = Kind("linear_density", "g/m", 1, "oz/yd", 3, "oz/yd", 3)
#: Linear density of yarn, g/m; shown as tex, of which 1000 are 1 g/m.
TEX = Kind("linear_density", "tex", 1)
#: Width over which colours wick, mm.
WIDTH = Kind("width", "mm", 0, "in", 2, "in", 2)
#: Liquids, ml.
VOLUME = Kind("volume", "ml", 1, "US fl oz", 2)
#: Soak, uptake and limits, ml per g of dry fibre.
WETNESS = Kind("wetness", "ml/g", 2, "US fl oz/oz", 2, "ml/oz", 1)
#: Strength of dye stocks, g/L; shown as % w/v, of which 1 % is 10 g/L.
STRENGTH = Kind("strength", "%", 2)
#: Acid of stocks and jars, g/L.
ACID = Kind("strength", "g/L", 1)
#: Depth of shade, acid on the fibre, and what a dye takes up, % of the weight of the fibre.
DEPTH = Kind("percent", "%", 2)
#: Strength of a jar where it is reckoned in %, g per 100 ml.
PERCENT = Kind("percent", "%", 2)
#: Shares, 0 to 1; shown as %.
SHARE = Kind("share", "%", 1)
#: Rows of knitting; counted, but a stripe that comes of a section need not end with a row.
ROWS = Kind("plain", "", 1)
#: How long short and long steps of the work take, min.
MINUTES = Kind("duration", "min", 0)
HOURS = Kind("duration", "h", 1)
#: Wavelength of light, nm.
WAVELENGTH = Kind("wavelength", "nm", 0)
#: Ratios, parts and the like.
PLAIN = Kind("plain", "", 2)
#: Things that are counted.
COUNT = Kind("plain", "", 0, whole=True)

_NUMBER_AND_UNIT = re.compile(
    r"(?<=\d) (?=(?:%|ml|g|cm|mm|m|in|oz|yd|US fl oz|tex|min|h|nm)(?:/(?:g|m|L|oz|yd))?(?!\w))"
)


def unbroken(text: str) -> str:
    """Return `text` with no-break spaces between numbers and their units, for labels whose lines break.

    >>> unbroken("29.5 % of 6 cm, 2 made").replace("\u00a0", "_")
    '29.5_% of 6_cm, 2 made'
    """
    return _NUMBER_AND_UNIT.sub("\u00a0", text)


def shown(kind: Kind, value: float, tongue: Tongue = TRANSLATED) -> str:
    """Return `value` (in the plan's unit) with fixed decimals and its unit.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> shown(LAY_LENGTH, 0.46, ENGLISH), shown(STRENGTH, 15.0, ENGLISH)
    ('46.0 cm', '1.50 %')
    """
    symbol, decimals = kind.shown_in(tongue)
    return _with_symbol(shown_number(_in_unit(kind, value, symbol), decimals, tongue), symbol)


def shown_briefly(kind: Kind, value: float, tongue: Tongue = TRANSLATED) -> str:
    """Return `value` (in the plan's unit) with no more decimals than it needs, for sentences and buttons.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> shown_briefly(VOLUME, 80.0, ENGLISH), shown_briefly(WETNESS, 0.5, ENGLISH)
    ('80 ml', '0.5 ml/g')
    """
    symbol, decimals = kind.shown_in(tongue)
    return _with_symbol(shown_number_briefly(_in_unit(kind, value, symbol), decimals, tongue), symbol)


def shown_span(kind: Kind, low: float, high: float, tongue: Tongue = TRANSLATED) -> str:
    """Return what lies between two values (in the plan's unit), roughly: whole numbers, tenths below 10.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> shown_span(SHARE, 0.2237, 0.78, ENGLISH), shown_span(YARN_LENGTH, 1.43, 16.9, ENGLISH)
    ('22 to 78 %', '1.4 to 17 m')
    >>> shown_span(SHARE, 0.9708, 0.9716, ENGLISH)
    '97 %'
    """
    symbol, _ = kind.shown_in(tongue)
    sizes = (_in_unit(kind, value, symbol) for value in (low, high))
    ends = [shown_number_briefly(size, 1 if abs(size) < TENTHS_BELOW else 0, tongue) for size in sizes]
    if ends[0] == ends[1]:
        return _with_symbol(ends[0], symbol)
    return _with_symbol(tongue.translate("Quantities", "{0} to {1}").format(*ends), symbol)


def shown_bare(kind: Kind, value: float, tongue: Tongue = TRANSLATED) -> str:
    """Return `value` (in the plan's unit) with fixed decimals and no unit, for columns that name it above.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> shown_bare(VOLUME, 42.0, ENGLISH)
    '42.0'
    """
    symbol, decimals = kind.shown_in(tongue)
    return shown_number(_in_unit(kind, value, symbol), decimals, tongue)


def one_shown(kind: Kind, tongue: Tongue = TRANSLATED) -> float:
    """Return one of the unit in which `tongue` shows a kind, in the plan's unit: the step of its scales.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> one_shown(LAY_LENGTH, ENGLISH)
    0.01
    """
    symbol, _ = kind.shown_in(tongue)
    return unit(kind.dimension, symbol).to_inside(1.0) if symbol else 1.0


def shown_plain(kind: Kind, value: float, most_decimals: int, tongue: Tongue = TRANSLATED) -> str:
    """Return `value` (in the plan's unit) as a spreadsheet reads it: a bare number, "" where it is not known.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> shown_plain(LAY_LENGTH, 1.0 / 3.0, 4, ENGLISH), shown_plain(DEPTH, float("nan"), 4, ENGLISH)
    ('33.3333', '')
    """
    if math.isnan(value):
        return ""
    number = shown_number_briefly(_in_unit(kind, value, kind.shown_in(tongue)[0]), most_decimals, tongue)
    return number.replace("\u2212", "-")


def parse(kind: Kind, text: str, field: str, tongue: Tongue = TRANSLATED) -> float:
    """Return what is typed in `text`, in the plan's unit and inside the range called `field`.

    Raises
    ------
    InvalidPlan
        As `parse_number`; ``unknown-unit``, ``wrong-kind-of-unit``, ``not-a-whole-number``; ``out-of-range``
        as `studio_gui.domain.ranges.checked`, with the limits as weights per length for a direct count.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> parse(ROVING_LENGTH, "380 cm", "length_m", ENGLISH)
    3.8
    >>> parse(STRENGTH, "1.5", "strength_g_per_l", ENGLISH)
    15.0
    """
    number, typed_in = _read(kind, text, tongue)
    if isinstance(typed_in, DirectCount):
        _check_weight(field, typed_in.g_per_m(number))
    value = number if typed_in is None else typed_in.to_inside(number)
    if kind.whole and not value.is_integer():
        raise InvalidPlan("not-a-whole-number", field=field, value=value)
    return checked(field, value)


def parse_quantity(kind: Kind, text: str, tongue: Tongue = TRANSLATED) -> float:
    """Return what is typed in `text`, in the plan's unit, whatever its size."""
    number, typed_in = _read(kind, text, tongue)
    return number if typed_in is None else typed_in.to_inside(number)


def _read(kind: Kind, text: str, tongue: Tongue) -> tuple[float, AnyUnit | None]:
    """Return the number typed in `text`, and its unit; None for a plain number."""
    check_length(text, LONGEST_QUANTITY)
    number = "".join(takewhile(_can_be_in_number, text))
    spelling = text[len(number) :].strip()
    if spelling and not any(character.isdigit() for character in number):
        raise InvalidPlan("not-a-number", value=quoted(text.strip()))
    value = parse_number(number.strip(), tongue)
    if not spelling:
        spelling = kind.shown_in(tongue)[0]
    return value, _unit(kind, spelling, text) if spelling else None


def _check_weight(field: str, g_per_m: float) -> None:
    """Refuse what is outside the range of a grist called `field`, telling its limits in the kind typed."""
    low, high = 1.0 / RANGES[field].high, 1.0 / RANGES[field].low
    if not low <= g_per_m <= high:
        raise InvalidPlan("out-of-range", field="linear_density_g_per_m", value=g_per_m, low=low, high=high)


def _unit(kind: Kind, spelling: str, text: str) -> AnyUnit:
    try:
        return unit(kind.dimension, spelling)
    except InvalidPlan as problem:
        # "9**9**9" and "4 g 5" are no number rather than a strange unit
        if problem.code == "unknown-unit" and any(character.isdigit() for character in spelling):
            raise InvalidPlan("not-a-number", value=quoted(text.strip())) from None
        raise


def _can_be_in_number(character: str) -> bool:
    return character.isdecimal() or character.isspace() or character in _IN_NUMBERS


def _in_unit(kind: Kind, value: float, symbol: str) -> float:
    return unit(kind.dimension, symbol).from_inside(value) if symbol else value


def _with_symbol(number: str, symbol: str) -> str:
    return f"{number} {symbol}" if symbol else number
