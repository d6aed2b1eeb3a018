"""If these fail, what a field shows is not what it means, or the plan does not get what is typed in it."""

from __future__ import annotations

import math
from itertools import product

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import RANGES
from studio_gui.wording import quantities
from studio_gui.wording.fields import FIELD_KINDS
from studio_gui.wording.quantities import (
    ACID,
    COUNT,
    DEPTH,
    GRIST,
    LAY_LENGTH,
    MASS,
    PLAIN,
    ROVING_LENGTH,
    SHARE,
    STRENGTH,
    TEX,
    TOP_DENSITY,
    VOLUME,
    WETNESS,
    WIDTH,
    YARN_LENGTH,
    Kind,
    parse,
    parse_quantity,
    shown,
    shown_bare,
    shown_briefly,
    unbroken,
)
from studio_gui.wording.translation import ENGLISH, UNITS, Tongue, install_units
from studio_gui.wording.units import unit

NO_BREAK = "\u00a0"
KINDS = [value for value in vars(quantities).values() if isinstance(value, Kind)]
TONGUES = [Tongue(units, is_english=True) for units in UNITS]
US, MIXED = Tongue("us", is_english=True), Tongue("mixed", is_english=True)


@pytest.mark.parametrize(
    ("kind", "value", "metric", "mixed", "us"),
    [
        (MASS, 113.4, "113.4 g", "4.00 oz", "4.00 oz"),
        (LAY_LENGTH, 0.46, "46.0 cm", "18.11 in", "18.11 in"),
        (ROVING_LENGTH, 6.0, "6.00 m", "6.56 yd", "6.56 yd"),
        (YARN_LENGTH, 740.0, "740.0 m", "809.3 yd", "809.3 yd"),
        (GRIST, 10.0, "10.00 m/g", "310.0 yd/oz", "310.0 yd/oz"),
        (TOP_DENSITY, 20.0, "20.0 g/m", "0.645 oz/yd", "0.645 oz/yd"),
        (TEX, 0.1, "100.0 tex", "100.0 tex", "100.0 tex"),
        (WIDTH, 20.0, "20 mm", "0.79 in", "0.79 in"),
        (VOLUME, 50.0, "50.0 ml", "50.0 ml", "1.69 US fl oz"),
        (WETNESS, 2.5, "2.50 ml/g", "70.9 ml/oz", "2.40 US fl oz/oz"),
        (STRENGTH, 15.0, "1.50 %", "1.50 %", "1.50 %"),
        (ACID, 10.0, "10.0 g/L", "10.0 g/L", "10.0 g/L"),
        (DEPTH, 1.4, "1.40 %", "1.40 %", "1.40 %"),
        (SHARE, 0.05, "5.0 %", "5.0 %", "5.0 %"),
        (PLAIN, 1.25, "1.25", "1.25", "1.25"),
        (COUNT, 4, "4", "4", "4"),
    ],
)
def test_a_quantity_is_shown_in_the_units_chosen(
    kind: Kind, value: float, metric: str, mixed: str, us: str
) -> None:
    assert [shown(kind, value, tongue) for tongue in (ENGLISH, MIXED, US)] == [metric, mixed, us]


@pytest.mark.parametrize(
    ("kind", "text", "field", "inside"),
    [
        (MASS, "4 oz", "mass_g", 113.3980925),
        (MASS, "113.4 g", "mass_g", 113.4),
        (MASS, "113,4", "mass_g", 113.4),
        (MASS, "0.25 lb", "mass_g", 113.3980925),
        (MASS, "1 kg", "mass_g", 1000.0),
        (MASS, "1kg", "mass_g", 1000.0),
        (ROVING_LENGTH, "4.4 yd", "length_m", 4.02336),
        (ROVING_LENGTH, "380 cm", "length_m", 3.8),
        (ROVING_LENGTH, "3.8 m", "length_m", 3.8),
        (ROVING_LENGTH, "3.8", "length_m", 3.8),
        (LAY_LENGTH, "46", "boundary_m", 0.46),
        (LAY_LENGTH, "7 cm", "boundary_m", 0.07),
        (LAY_LENGTH, '12"', "boundary_m", 0.3048),
        (LAY_LENGTH, "12 in", "boundary_m", 0.3048),
        (LAY_LENGTH, "10 ft", "boundary_m", 3.048),
        (LAY_LENGTH, "10'", "boundary_m", 3.048),
        (LAY_LENGTH, "-5 mm", "gap_m", -0.005),
        (LAY_LENGTH, "90 mm", "staple_m", 0.09),
        (YARN_LENGTH, "740", "offset_m", 740.0),
        (GRIST, "10", "singles_m_per_g", 10.0),
        (GRIST, "10 m/g", "singles_m_per_g", 10.0),
        (GRIST, "310 yd/oz", "singles_m_per_g", 310.0 * 0.9144 / 28.349523125),
        (GRIST, "4961 ypp", "singles_m_per_g", 4961.0 * 0.9144 / 453.59237),
        (GRIST, "1000 m/100 g", "singles_m_per_g", 10.0),
        (GRIST, "100 tex", "singles_m_per_g", 10.0),
        (GRIST, "0,1 ktex", "singles_m_per_g", 10.0),
        (GRIST, "900 denier", "singles_m_per_g", 10.0),
        (GRIST, "5 tex", "singles_m_per_g", 200.0),
        (GRIST, "90000 den", "singles_m_per_g", 0.1),
        (GRIST, "10Nm", "singles_m_per_g", 10.0),
        (GRIST, "9 wc", "singles_m_per_g", 9.0 * 560.0 * 0.9144 / 453.59237),
        (GRIST, "3 run", "singles_m_per_g", 3.0 * 1600.0 * 0.9144 / 453.59237),
        (TOP_DENSITY, "20 g/m", "linear_density_g_per_m", 20.0),
        (TOP_DENSITY, "20 ktex", "linear_density_g_per_m", 20.0),
        (WIDTH, "20", "wicking_mm", 20.0),
        (WIDTH, "2 cm", "wicking_mm", 20.0),
        (VOLUME, "50", "fixed_ml", 50.0),
        (VOLUME, "0.5 l", "fixed_ml", 500.0),
        (VOLUME, "2 fl oz", "fixed_ml", 59.147059125),
        (VOLUME, "1 tsp", "fixed_ml", 4.92892159375),
        (WETNESS, "2.5 ml/g", "uptake_ml_per_g", 2.5),
        (WETNESS, "70 ml/oz", "uptake_ml_per_g", 70.0 / 28.349523125),
        (STRENGTH, "1 %", "strength_g_per_l", 10.0),
        (STRENGTH, "1%", "strength_g_per_l", 10.0),
        (STRENGTH, "10 g/L", "strength_g_per_l", 10.0),
        (STRENGTH, "15 g/l", "strength_g_per_l", 15.0),
        (ACID, "1 %", "acid_g_per_l", 10.0),
        (ACID, "10", "acid_g_per_l", 10.0),
        (DEPTH, "0.6 %", "depth_pct_owf", 0.6),
        (SHARE, "5 %", "spare_share", 0.05),
        (SHARE, "5", "spare_share", 0.05),
        (PLAIN, "1,25", "acid_ratio_limit", 1.25),
        (COUNT, "٤", "rovings", 4.0),
    ],
)
def test_what_is_typed_becomes_the_unit_of_the_plan(kind: Kind, text: str, field: str, inside: float) -> None:
    assert parse(kind, text, field, ENGLISH) == pytest.approx(inside, rel=1e-12)


def test_a_bare_number_has_the_unit_that_the_field_shows() -> None:
    assert parse(MASS, "4", "mass_g", US) == pytest.approx(113.3980925)
    assert parse(VOLUME, "50", "fixed_ml", MIXED) == 50.0
    assert parse(GRIST, "310", "singles_m_per_g", MIXED) == pytest.approx(310.0 * 0.9144 / 28.349523125)


def test_tidy_centimetres_stay_tidy_in_the_file() -> None:
    for tenths in range(1, 10_000):
        text = f"{tenths / 10:.1f}"
        assert parse_quantity(LAY_LENGTH, text, ENGLISH) == float(text) / 100.0
    assert parse_quantity(LAY_LENGTH, "28.9", ENGLISH) == 0.289


@given(st.sampled_from(KINDS), st.sampled_from(TONGUES), st.floats(-1e6, 1e6))
def test_what_is_shown_reads_back_to_its_decimals(kind: Kind, tongue: Tongue, value: float) -> None:
    symbol, decimals = kind.shown_in(tongue)
    half_a_step = 0.5 * 10.0**-decimals
    if symbol:
        half_a_step = unit(kind.dimension, symbol).to_inside(half_a_step)
    for say in (shown, shown_bare):
        back = parse_quantity(kind, say(kind, value, tongue), tongue)
        assert abs(back - value) <= half_a_step + 1e-9 * abs(value)
        assert say(kind, back, tongue) == say(kind, value, tongue)
    assert abs(parse_quantity(kind, shown_briefly(kind, value, tongue), tongue) - value) <= half_a_step * (
        1 + 1e-6
    ) + (1e-9 * abs(value))


@given(st.sampled_from(sorted(RANGES)), st.floats(0.0, 1.0))
def test_every_number_a_plan_may_hold_can_be_typed_as_it_is_shown(field: str, share: float) -> None:
    bounds, kind = RANGES[field], FIELD_KINDS[field]
    value = bounds.low + share * (bounds.high - bounds.low)
    # nearer to an end that is excluded, the end itself is shown
    assume(not bounds.low_excluded or share >= 1e-3)
    back = parse(kind, shown_briefly(kind, round(value) if kind.whole else value, ENGLISH), field, ENGLISH)
    assert bounds.low <= back <= bounds.high


@pytest.mark.parametrize(
    ("kind", "text", "code"),
    [
        (MASS, "", "nothing-typed-in"),
        (MASS, "   ", "nothing-typed-in"),
        (MASS, "g", "not-a-number"),
        (MASS, "oz 4", "not-a-number"),
        (MASS, "nan", "not-a-number"),
        (MASS, "inf", "not-a-number"),
        (MASS, "1e999", "not-a-number"),
        (MASS, "1e3", "not-a-number"),
        (MASS, "9**9**9", "not-a-number"),
        (MASS, "4 g 5", "not-a-number"),
        (MASS, "4 furlongs", "unknown-unit"),
        (MASS, "4 oz oz", "unknown-unit"),
        (MASS, "4 µg", "unknown-unit"),
        (MASS, "4 ml", "wrong-kind-of-unit"),
        (VOLUME, "4 oz", "wrong-kind-of-unit"),
        (STRENGTH, "4 ml/g", "wrong-kind-of-unit"),
        (PLAIN, "4 g", "wrong-kind-of-unit"),
        (MASS, "1,500 g", "ambiguous-number"),
        (MASS, "4" * 10_000, "too-long-to-read"),
        (MASS, "4 " + "g" * 10_000, "too-long-to-read"),
        (MASS, "9" * 30, "number-too-large"),
        (MASS, "0.5 g", "out-of-range"),
        (MASS, "-4 oz", "out-of-range"),
        (COUNT, "2.5", "not-a-whole-number"),
        (GRIST, "tex", "not-a-number"),
        (GRIST, "tex 100", "not-a-number"),
        (GRIST, "20/2 Nm", "not-a-number"),
        (GRIST, "0 tex", "out-of-range"),
        (GRIST, "-100 tex", "out-of-range"),
        (GRIST, "0.000000000000000000000000000000001 tex", "out-of-range"),
        (GRIST, "0 Nm", "out-of-range"),
        (GRIST, "10 g/m", "wrong-kind-of-unit"),
        (GRIST, "10 g", "wrong-kind-of-unit"),
        (GRIST, "10 hanks", "unknown-unit"),
        (MASS, "10 tex", "wrong-kind-of-unit"),
    ],
)
def test_what_cannot_be_meant_is_refused(kind: Kind, text: str, code: str) -> None:
    with pytest.raises(InvalidPlan) as caught:
        parse(kind, text, "rovings" if kind is COUNT else "mass_g", ENGLISH)
    assert caught.value.code == code


_PIECES = st.sampled_from(
    [symbol for one in KINDS for symbol in (one.metric, one.us, one.mixed)]
    + [" ", "1", "2.5", "-", "/", " per ", "e", "nan"]
)


@given(
    st.sampled_from(KINDS),
    st.sampled_from(TONGUES),
    st.text(max_size=70) | st.lists(_PIECES, max_size=8).map("".join),
)
def test_no_text_gives_anything_but_a_finite_number_or_a_refusal(
    kind: Kind, tongue: Tongue, text: str
) -> None:
    try:
        value = parse_quantity(kind, text, tongue)
    except InvalidPlan as problem:
        assert problem.code  # noqa: PT017  (either outcome is right)
    else:
        assert math.isfinite(value)


def test_a_unit_shown_is_a_unit_that_may_be_typed() -> None:
    for kind, tongue in product(KINDS, TONGUES):
        symbol, _ = kind.shown_in(tongue)
        assert not symbol or unit(kind.dimension, symbol).symbol == symbol


def test_installed_units_are_used_where_no_others_are_asked_for() -> None:
    install_units("us")
    assert shown(MASS, 113.4, Tongue(is_english=True)) == "4.00 oz"
    assert parse(MASS, "4", "mass_g") == pytest.approx(113.3980925)
    assert shown(MASS, 113.4, ENGLISH) == "113.4 g"
    install_units("metric")
    assert shown(MASS, 113.4, Tongue(is_english=True)) == "113.4 g"


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("tongue", [Tongue(units, is_english=True) for units in UNITS])
def test_no_line_breaks_before_a_unit(kind: Kind, tongue: Tongue) -> None:
    words = shown(kind, 1.0, tongue)
    number, _, symbol = words.partition(" ")
    kept = f"{number}{NO_BREAK}{symbol}" if symbol else number
    assert unbroken(f"It takes {words}, and more.") == f"It takes {kept}, and more."
