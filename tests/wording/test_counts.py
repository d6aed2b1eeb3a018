"""If these fail, one yarn is said to be of several thicknesses."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QLocale

from studio_gui.domain.errors import InvalidPlan
from studio_gui.wording.counts import counts_words, draft_words
from studio_gui.wording.quantities import GRIST, parse
from studio_gui.wording.translation import ENGLISH, Tongue


@pytest.mark.parametrize(
    ("m_per_g", "words"),
    [
        (10.0, "100 tex · 10 Nm · 8.9 worsted · 3.1 run · 310 yd/oz · 4961 yd/lb"),
        (0.1, "10000 tex · 0.1 Nm · 0.1 worsted · 0.03 run · 3.1 yd/oz · 49.6 yd/lb"),
        (200.0, "5 tex · 200 Nm · 177 worsted · 62 run · 6201 yd/oz · 99211 yd/lb"),
    ],
)
def test_a_yarn_is_said_in_every_count(m_per_g: float, words: str) -> None:
    assert counts_words(m_per_g, ENGLISH) == words
    assert counts_words(m_per_g, Tongue("us", is_english=True)) == words, "whatever units are chosen"


def test_the_draft_is_said_as_a_ratio() -> None:
    # 25 g/m of top into singles of 10 m/g (100 tex) is a draft of 250
    assert draft_words(25.0, 10.0, ENGLISH) == "draft 250 to 1"
    assert draft_words(1.5, 20.0, ENGLISH) == "draft 30 to 1"


def test_numbers_are_written_as_the_locale_does() -> None:
    before = QLocale()
    QLocale.setDefault(QLocale("de_DE"))
    try:
        assert "8,9 worsted" in counts_words(10.0)
    finally:
        QLocale.setDefault(before)


@given(st.floats(0.1, 200.0))
def test_what_is_said_can_be_typed_and_is_the_same_yarn(m_per_g: float) -> None:
    for words in counts_words(m_per_g, ENGLISH).split(" · "):
        value = float(words.split()[0])
        half_a_step = 0.5 if value >= 100.0 else 0.05 if value >= 0.1 else 0.005
        back = parse(GRIST, words, "grist_m_per_g", ENGLISH)
        assert back == pytest.approx(m_per_g, rel=1.01 * half_a_step / (value - half_a_step) + 1e-9)


@pytest.mark.parametrize("m_per_g", [0.0, -10.0])
def test_no_yarn_has_no_counts(m_per_g: float) -> None:
    with pytest.raises(InvalidPlan, match="out-of-range"):
        counts_words(m_per_g, ENGLISH)
