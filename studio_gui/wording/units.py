"""The units that may be typed and shown.

The rule of this module: a unit is known by its row here or it is not known at all. Metric rows carry their
own factor, and so do the measures of the United States that quantities are shown in, because the first paint
shows them. The others, which are only typed, are converted by pint; it is loaded when the first of them is
met and never sees anything but a name from this table. Counts of yarn are those of
`studio_gui.domain.yarn_counts`; the inside of a direct one, such as tex, is so much divided by it.

Source of the factors: International yard and pound agreement, 1959; NIST Handbook 44, Appendix C (US fluid
ounce). Exact by definition; values from memory.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Literal, TypeAlias

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.yarn_counts import COUNTS, CountName, count_of, m_per_g_of
from studio_gui.storage.strict_json import quoted

if TYPE_CHECKING:
    import pint

Dimension = Literal[
    "mass",
    "length",
    "width",
    "volume",
    "wetness",
    "strength",
    "percent",
    "share",
    "grist",
    "linear_density",
    "duration",
    "wavelength",
    "plain",
]

#: The unit a plan holds, as pint calls it, for the dimensions that have units converted by it.
_INSIDE = {"mass": "gram", "length": "meter", "volume": "milliliter"}


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: `over` of it are one unit of the plan, or one of it is `times` of them.

    `us_name` is what pint calls a unit whose factor comes from there. `spellings`
    are compared without regard to capitals, full stops and a leading "US".
    """

    symbol: str
    dimension: Dimension
    times: float = 1.0
    over: float = 1.0
    us_name: str = ""
    spellings: tuple[str, ...] = ()

    def to_inside(self, value: float) -> float:
        """Return `value` of this unit in the unit a plan holds."""
        if self.us_name:
            return value * _us_factor(self.us_name, _INSIDE[self.dimension])
        return value * self.times / self.over

    def from_inside(self, value: float) -> float:
        """Return `value` of the unit a plan holds in this unit."""
        if self.us_name:
            return value / _us_factor(self.us_name, _INSIDE[self.dimension])
        return value * self.over / self.times


UNITS: tuple[Unit, ...] = (
    Unit("g", "mass", spellings=("gram", "grams", "gramme", "grammes")),
    Unit("kg", "mass", times=1000.0, spellings=("kilo", "kilos", "kilogram", "kilograms")),
    Unit("oz", "mass", times=28.349523125, spellings=("ozs", "ounce", "ounces")),
    Unit("lb", "mass", us_name="avoirdupois_pound", spellings=("lbs", "pound", "pounds")),
    Unit("m", "length", spellings=("metre", "metres", "meter", "meters")),
    Unit("cm", "length", over=100.0, spellings=("centimetre", "centimetres", "centimeter", "centimeters")),
    Unit("mm", "length", over=1000.0, spellings=("millimetre", "millimetres", "millimeter", "millimeters")),
    Unit("in", "length", times=0.0254, spellings=("inch", "inches", '"', "″", "”")),
    Unit("ft", "length", us_name="foot", spellings=("foot", "feet", "'", "′", "’")),
    Unit("yd", "length", times=0.9144, spellings=("yds", "yard", "yards")),
    Unit("mm", "width"),
    Unit("cm", "width", times=10.0),
    Unit("in", "width", times=25.4, spellings=("inch", "inches", '"', "″", "”")),
    Unit("ml", "volume", spellings=("millilitre", "millilitres", "milliliter", "milliliters", "cc")),
    Unit("l", "volume", times=1000.0, spellings=("litre", "litres", "liter", "liters")),
    Unit("US fl oz", "volume", times=29.5735295625, spellings=("floz", "fluid ounce", "fluid ounces")),
    Unit("US tsp", "volume", us_name="teaspoon", spellings=("teaspoon", "teaspoons")),
    Unit("US tbsp", "volume", us_name="tablespoon", spellings=("tablespoon", "tablespoons")),
    Unit("US cup", "volume", us_name="cup", spellings=("cups",)),
    Unit("min", "duration", spellings=("mins", "minute", "minutes")),
    Unit("h", "duration", times=60.0, spellings=("hr", "hrs", "hour", "hours")),
    Unit("days", "duration", times=1440.0, spellings=("d", "day")),
    Unit("g/L", "strength", spellings=("mg/ml",)),
    Unit("%", "strength", times=10.0, spellings=("٪", "% w/v", "percent", "g/100 ml", "g/100ml")),
    Unit("%", "percent", spellings=("٪", "% owf", "percent")),
    Unit("%", "share", over=100.0, spellings=("٪", "percent")),
    Unit("nm", "wavelength", spellings=("nanometre", "nanometres", "nanometer", "nanometers")),
    Unit("ktex", "linear_density"),
    Unit("tex", "linear_density", over=1000.0),
    Unit("m/100 g", "grist", over=100.0, spellings=("m/100g", "m per 100 g", "m per 100g")),
    Unit("yd/lb", "grist", over=COUNTS["yd/lb"].at_1_m_per_g, spellings=("ypp",)),
    Unit("Nm", "grist", spellings=("metric", "metric count")),
    Unit("worsted", "grist", over=COUNTS["worsted"].at_1_m_per_g, spellings=("wc", "worsted count")),
    Unit("cotton", "grist", over=COUNTS["cotton"].at_1_m_per_g, spellings=("cc", "cotton count", "ne")),
    Unit("run", "grist", over=COUNTS["run"].at_1_m_per_g, spellings=("runs", "woollen run", "woolen run")),
)

#: Units made of two: dimension, of what, per what, and how many units of the plan one inside/inside ratio is.
_RATIOS: dict[Dimension, tuple[Dimension, Dimension, float]] = {
    "wetness": ("volume", "mass", 1.0),
    "strength": ("mass", "volume", 1000.0),
    "grist": ("length", "mass", 1.0),
    "linear_density": ("mass", "length", 1.0),
}
#: Those of them that are offered; the strengths are not.
_RATIOS_OFFERED: dict[str, tuple[str, ...]] = {
    "wetness": ("ml/g", "ml/oz"),
    "grist": ("m/g", "yd/oz"),
    "linear_density": ("g/m", "oz/yd"),
}


@dataclass(frozen=True, slots=True)
class Ratio:
    """A unit made of two known ones, such as ml/oz."""

    of: Unit
    per: Unit
    scale: float

    @property
    def symbol(self) -> str:
        """How it is written."""
        return f"{self.of.symbol}/{self.per.symbol}"

    def to_inside(self, value: float) -> float:
        """Return `value` of this unit in the unit a plan holds."""
        return self.of.to_inside(value) * self.scale / self.per.to_inside(1.0)

    def from_inside(self, value: float) -> float:
        """Return `value` of the unit a plan holds in this unit."""
        return self.of.from_inside(value) * self.per.to_inside(1.0) / self.scale


@dataclass(frozen=True, slots=True)
class DirectCount:
    """A count that falls as grist grows, such as tex: the grist is so much divided by it, never by 0."""

    name: CountName
    spellings: tuple[str, ...] = ()

    @property
    def symbol(self) -> str:
        """How it is written."""
        return self.name

    def g_per_m(self, value: float) -> float:
        """Return the weight per length (g/m) of this count, whatever its size."""
        return value / COUNTS[self.name].at_1_m_per_g

    def to_inside(self, value: float) -> float:
        """Return the grist (m/g) of this count; ``out-of-range`` for 0 or less."""
        return m_per_g_of(self.name, value)

    def from_inside(self, value: float) -> float:
        """Return this count of a grist (m/g); ``out-of-range`` for 0 or less."""
        return count_of(self.name, value)


DIRECT_COUNTS: tuple[DirectCount, ...] = (
    DirectCount("tex"),
    DirectCount("ktex"),
    DirectCount("denier", spellings=("den", "deniers")),
)
AnyUnit: TypeAlias = Unit | Ratio | DirectCount


@lru_cache(maxsize=256)
def unit(dimension: Dimension, spelling: str) -> AnyUnit:
    """Return the unit of `dimension` that is spelled so.

    Raises
    ------
    InvalidPlan
        ``wrong-kind-of-unit`` for a unit of another dimension, ``unknown-unit`` for anything else.

    >>> unit("length", "CM").to_inside(380.0), unit("strength", "g/l").to_inside(15.0)
    (3.8, 15.0)
    """
    wanted = _normal(spelling)
    found = _known(dimension, wanted)
    if found is not None:
        return found
    for other in _DIMENSIONS:
        if _known(other, wanted) is not None:
            raise InvalidPlan("wrong-kind-of-unit", unit=quoted(spelling), found=other, wanted=dimension)
    raise InvalidPlan("unknown-unit", unit=quoted(spelling), wanted=dimension)


def symbols(dimension: str) -> tuple[str, ...]:
    """Return how the units of a dimension are written, for telling a user what may be typed."""
    plain = tuple(row.symbol for row in UNITS if row.dimension == dimension)
    counts = tuple(row.symbol for row in DIRECT_COUNTS) if dimension == "grist" else ()
    return _RATIOS_OFFERED.get(dimension, ()) + plain + counts


def _known(dimension: Dimension, wanted: str) -> AnyUnit | None:
    count = _COUNTS_BY_SPELLING.get(wanted) if dimension == "grist" else None
    return count or _UNITS_BY_SPELLING.get((dimension, wanted)) or _ratio(dimension, wanted)


def _ratio(dimension: Dimension, wanted: str) -> Ratio | None:
    parts = wanted.replace(" per ", "/").split("/")
    if dimension not in _RATIOS or len(parts) != 2:
        return None
    of_what, per_what, scale = _RATIOS[dimension]
    of = _UNITS_BY_SPELLING.get((of_what, parts[0].strip()))
    per = _UNITS_BY_SPELLING.get((per_what, parts[1].strip()))
    return None if of is None or per is None else Ratio(of, per, scale)


def _normal(spelling: str) -> str:
    plain = " ".join(spelling.casefold().replace(".", " ").split())
    return plain.removeprefix("us ")


def _spelled() -> Iterator[tuple[tuple[Dimension, str], Unit]]:
    for row in UNITS:
        for spelling in (row.symbol, *row.spellings):
            yield (row.dimension, _normal(spelling)), row


_UNITS_BY_SPELLING = dict(_spelled())
_COUNTS_BY_SPELLING = {spelling: row for row in DIRECT_COUNTS for spelling in (row.symbol, *row.spellings)}
_DIMENSIONS: tuple[Dimension, ...] = (*dict.fromkeys(row.dimension for row in UNITS), "wetness")


@lru_cache(maxsize=1)
def _registry() -> pint.UnitRegistry[float]:
    import pint  # noqa: PLC0415  (a third of a second: not before somebody needs it)

    return pint.UnitRegistry()


@lru_cache(maxsize=len(UNITS))
def _us_factor(us_name: str, inside_name: str) -> float:
    """Return how many of the plan's unit one measure of the United States is."""
    factor = _registry().Quantity(1.0, us_name).to(inside_name).magnitude
    return float(f"{factor:.15g}")  # conversions by way of kilograms and metres leave dust in the last place
