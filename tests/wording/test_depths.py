"""If these fail, a dyed sample is entered at another depth than it was dyed at."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.errors import InvalidPlan
from studio_gui.wording.depths import parse_depth
from studio_gui.wording.sentences import refusal
from studio_gui.wording.translation import ENGLISH, Tongue


@pytest.mark.parametrize(
    ("text", "depth"),
    [
        ("1.5", 1.5),
        ("1,5 %", 1.5),
        ("+1.5", 1.5),
        ("1.5 % owf", 1.5),
        ("12 + 38 on 18 g", 12.0 / 18.0),
        ("12 ml + 38 ml on 18 g", 12.0 / 18.0),
        ("12 and 38 ON 18g", 12.0 / 18.0),
        ("12+38@18", 12.0 / 18.0),
        ("12 on 18 g", 12.0 / 18.0),
        ("12 + 30 + 8 on 0.018 kg", 12.0 / 18.0),
    ],
)
def test_a_depth_or_what_was_painted_on_what(text: str, depth: float) -> None:
    assert parse_depth(text, 1.0, ENGLISH) == pytest.approx(depth, rel=1e-12)


def test_a_bare_weight_has_the_unit_that_weights_are_shown_in() -> None:
    us = Tongue("us", is_english=True)
    assert parse_depth("12 + 38 on 1", 1.0, us) == pytest.approx(12.0 / 28.349523125)
    assert parse_depth("12 + 38 on 18 g", 1.0, us) == pytest.approx(12.0 / 18.0)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "nothing-typed-in"),
        ("12 + 38", "not-a-sample"),
        ("on 18 g", "not-a-sample"),
        ("12 + 38 on", "not-a-sample"),
        ("12 on 18 on 20", "not-a-sample"),
        ("12 ++ 38 on 18 g", "empty-amount"),
        ("-12 + 38 on 18 g", "negative-amount"),
        ("12 + 38 on 18 ml", "wrong-kind-of-unit"),
        ("12 + 38 on 0 g", "out-of-range"),
        ("12 + 38 on -3 g", "out-of-range"),
        ("9000 + 1 on 1 g", "out-of-range"),
        ("deep", "not-a-number"),
        ("12 + x on 18 g", "not-a-number"),
        ("1" * 500, "too-long-to-read"),
    ],
)
def test_what_is_no_depth_is_refused(text: str, code: str) -> None:
    with pytest.raises(InvalidPlan) as caught:
        parse_depth(text, 1.0, ENGLISH)
    assert caught.value.code == code


@given(st.floats(0.1, 50.0), st.floats(0.0, 500.0), st.floats(5.0, 200.0), st.floats(0.1, 5.0))
def test_how_far_it_is_let_down_does_not_matter(
    stock_ml: float, water_ml: float, fibre_g: float, strength_pct: float
) -> None:
    depth = parse_depth(f"{stock_ml:.3f} + {water_ml:.6f} on {fibre_g:.6f} g", strength_pct, ENGLISH)
    assert depth == parse_depth(f"{stock_ml:.3f} on {fibre_g:.6f} g", strength_pct, ENGLISH)
    assert depth == pytest.approx(round(stock_ml, 3) * strength_pct / fibre_g, rel=1e-5)


@given(st.text(max_size=60) | st.text("0123456789.,+- @onmlg%", max_size=40))
def test_no_text_gives_anything_but_a_depth_or_a_refusal(text: str) -> None:
    try:
        depth = parse_depth(text, 1.0, ENGLISH)
    except InvalidPlan as problem:
        assert problem.code  # noqa: PT017  (either outcome is right)
    else:
        assert 0.0 <= depth <= 100.0


def test_a_depth_that_cannot_be_is_answered_without_offering_none_at_all() -> None:
    for typed in ("-1", "500"):
        with pytest.raises(InvalidPlan) as refused:
            parse_depth(typed, 1.0, ENGLISH)
        assert "more than 0.00 %" in refusal(refused.value, tongue=ENGLISH)
