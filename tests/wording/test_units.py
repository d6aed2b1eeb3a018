"""If these fail, ounces, yards or fluid ounces become the wrong grams, metres or millilitres."""

from __future__ import annotations

import subprocess
import sys
from typing import get_args

import pytest

from studio_gui.domain.errors import InvalidPlan
from studio_gui.wording.units import DIRECT_COUNTS, UNITS, Dimension, symbols, unit

# International yard and pound agreement, 1959: yard 0.9144 m, avoirdupois pound 0.45359237 kg, and with them
# the foot (a third), the inch (a thirty-sixth) and the ounce (a sixteenth). NIST Handbook 44, Appendix C: US
# fluid ounce 29.573 529 562 5 ml (a 128th of a gallon of 231 cubic inches), tablespoon half of it, teaspoon a
# sixth, cup eight of them. Values from memory, each of them exact by definition. ASTM D2260-03 (2013), Table
# 1: a worsted hank is 560 yd, a cotton hank 840, a run 1600; tests/domain/test_yarn_counts.py has its
# constants.
PUBLISHED = [
    ("mass", "oz", 28.349523125),
    ("mass", "lb", 453.59237),
    ("length", "yd", 0.9144),
    ("length", "ft", 0.3048),
    ("length", "in", 0.0254),
    ("width", "in", 25.4),
    ("volume", "US fl oz", 29.5735295625),
    ("volume", "US tbsp", 14.78676478125),
    ("volume", "US tsp", 4.92892159375),
    ("volume", "US cup", 236.5882365),
    ("mass", "kg", 1000.0),
    ("length", "cm", 0.01),
    ("volume", "l", 1000.0),
    ("strength", "%", 10.0),
    ("strength", "g/L", 1.0),
    ("strength", "mg/ml", 1.0),
    ("strength", "g/100 ml", 10.0),
    ("share", "%", 0.01),
    ("percent", "%", 1.0),
    ("wetness", "ml/g", 1.0),
    ("wetness", "l/kg", 1.0),
    ("wetness", "ml/oz", 1.0 / 28.349523125),
    ("wetness", "ml per oz", 1.0 / 28.349523125),
    ("wetness", "fl oz/lb", 29.5735295625 / 453.59237),
    ("strength", "oz/l", 28.349523125),
    ("grist", "m/g", 1.0),
    ("grist", "Nm", 1.0),
    ("grist", "m/100 g", 0.01),
    ("grist", "yd/oz", 0.9144 / 28.349523125),
    ("grist", "yd per oz", 0.9144 / 28.349523125),
    ("grist", "yd/lb", 0.9144 / 453.59237),
    ("grist", "worsted", 560.0 * 0.9144 / 453.59237),
    ("grist", "cotton", 840.0 * 0.9144 / 453.59237),
    ("grist", "run", 1600.0 * 0.9144 / 453.59237),
    ("grist", "tex", 1000.0),
    ("grist", "ktex", 1.0),
    ("grist", "denier", 9000.0),
    ("linear_density", "g/m", 1.0),
    ("linear_density", "ktex", 1.0),
    ("linear_density", "tex", 0.001),
    ("linear_density", "oz/yd", 28.349523125 / 0.9144),
    ("duration", "h", 60.0),
    ("duration", "days", 1440.0),
]


@pytest.mark.parametrize(("dimension", "spelling", "inside"), PUBLISHED)
def test_a_unit_is_what_is_published(dimension: str, spelling: str, inside: float) -> None:
    found = unit(dimension, spelling)
    assert found.to_inside(1.0) == pytest.approx(inside, rel=1e-14)
    assert found.from_inside(inside) == pytest.approx(1.0, rel=1e-14)


def test_every_unit_of_the_table_has_a_published_value_here() -> None:
    checked = {(dimension, spelling) for dimension, spelling, _ in PUBLISHED}
    as_they_are = {
        ("mass", "g"),
        ("length", "m"),
        ("length", "mm"),
        ("width", "mm"),
        ("width", "cm"),
        ("volume", "ml"),
        ("duration", "min"),
        ("wavelength", "nm"),
    }
    assert {(row.dimension, row.symbol) for row in UNITS} <= checked | as_they_are
    assert {("grist", row.symbol) for row in DIRECT_COUNTS} <= checked


@pytest.mark.parametrize(
    ("spelling", "symbol"),
    [
        ("WC", "worsted"),
        ("Worsted count", "worsted"),
        ("nm", "Nm"),
        ("metric", "Nm"),
        ("TEX", "tex"),
        ("den.", "denier"),
        ("runs", "run"),
        ("woollen run", "run"),
        ("cc", "cotton"),
        ("Ne", "cotton"),
        ("YPP", "yd/lb"),
        ("yards per pound", "yd/lb"),
        ("m/100g", "m/100 g"),
        ("m per 100 g", "m/100 g"),
    ],
)
def test_a_count_is_known_by_its_names(spelling: str, symbol: str) -> None:
    assert unit("grist", spelling).symbol == symbol


def test_twice_the_tex_is_half_the_grist() -> None:
    assert unit("grist", "tex").to_inside(200.0) == 5.0
    assert unit("grist", "tex").from_inside(20.0) == 50.0


@pytest.mark.parametrize("spelling", ["tex", "ktex", "denier"])
@pytest.mark.parametrize("value", [0.0, -100.0])
def test_nothing_weighs_nothing(spelling: str, value: float) -> None:
    with pytest.raises(InvalidPlan, match="out-of-range"):
        unit("grist", spelling).to_inside(value)


@pytest.mark.parametrize("spelling", ["OZ", "oz.", "ounces", "Ounce"])
def test_capitals_and_full_stops_do_not_matter(spelling: str) -> None:
    assert unit("mass", spelling).symbol == "oz"


@pytest.mark.parametrize("spelling", ["fl. oz.", "US fl oz", "us fl. oz", "floz", "fluid ounces"])
def test_a_fluid_ounce_is_the_one_of_the_united_states(spelling: str) -> None:
    assert unit("volume", spelling).symbol == "US fl oz"


@pytest.mark.parametrize("spelling", ["'", "′", "’", "ft"])
def test_a_foot_has_its_sign(spelling: str) -> None:
    assert unit("length", spelling).symbol == "ft"


@pytest.mark.parametrize(
    ("dimension", "spelling", "found"),
    [
        ("volume", "oz", "mass"),
        ("mass", "ml", "volume"),
        ("length", "ml/g", "wetness"),
        ("grist", "g/m", "linear_density"),
        ("linear_density", "m/g", "grist"),
        ("linear_density", "worsted", "grist"),
        ("mass", "tex", "linear_density"),
        ("plain", "%", "strength"),
    ],
)
def test_a_unit_of_another_kind_is_told_apart_from_an_unknown_one(
    dimension: str, spelling: str, found: str
) -> None:
    with pytest.raises(InvalidPlan) as caught:
        unit(dimension, spelling)
    assert caught.value.code == "wrong-kind-of-unit"
    assert (caught.value.params["found"], caught.value.params["wanted"]) == (found, dimension)


@pytest.mark.parametrize(
    "spelling", ["furlongs", "oz oz", "g/g/g", "/", "ml/", "kilogram ** 2", "degC", "kelvin"]
)
def test_no_unit_outside_the_table_is_known(spelling: str) -> None:
    with pytest.raises(InvalidPlan) as caught:
        unit("wetness", spelling)
    assert caught.value.code == "unknown-unit"


def test_the_units_offered_can_be_typed() -> None:
    for dimension in get_args(Dimension):
        assert symbols(dimension) or dimension == "plain"
        for symbol in symbols(dimension):
            assert unit(dimension, symbol).symbol == symbol


PROGRAM = """
import sys
from studio_gui.wording import amounts, quantities, sentences
from studio_gui.wording.quantities import *
from studio_gui.wording.translation import ENGLISH, UNITS, Tongue
tongues = [Tongue(units, is_english=True) for units in UNITS]
for kind in [kind for kind in vars(quantities).values() if isinstance(kind, Kind)]:
    for tongue in tongues:
        shown(kind, 1.5, tongue), shown_briefly(kind, 1.5, tongue), shown_bare(kind, 1.5, tongue)
assert parse(ROVING_LENGTH, "380 cm", "length_m", ENGLISH) == 3.8
assert amounts.parse_amounts("12 + 38") == (12.0, 38.0)
assert parse(MASS, "4 oz", "mass_g", ENGLISH) == 4 * 28.349523125
assert "pint" not in sys.modules, "pint is loaded for what a window shows"
assert parse(GRIST, "1500 yd/lb", "singles_m_per_g", ENGLISH) < 3.1
assert "pint" not in sys.modules
assert parse(MASS, "0.25 lb", "mass_g", ENGLISH) == 113.3980925
assert "pint" in sys.modules
"""


def test_pint_is_not_loaded_for_what_is_shown_in_any_units() -> None:
    ran = subprocess.run(
        [sys.executable, "-W", "error", "-c", PROGRAM], capture_output=True, text=True, check=False
    )
    assert ran.stderr == ""
    assert ran.returncode == 0
