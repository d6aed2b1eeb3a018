"""If these fail, figures on paper do not add up to the total printed beneath them."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.wording.figure_columns import edge_columns, figure_column
from studio_gui.wording.quantities import LAY_LENGTH, MASS, VOLUME, Kind
from studio_gui.wording.translation import ENGLISH, Tongue

KINDS = st.sampled_from((LAY_LENGTH, MASS, VOLUME))
TONGUES = st.sampled_from((ENGLISH, Tongue("us", is_english=True), Tongue("mixed", is_english=True)))
amounts = st.lists(st.floats(0.0, 5000.0) | st.integers(0, 500).map(float), min_size=1, max_size=60)


def decimals(words: str) -> int:
    return len(words.partition(".")[2])


@given(KINDS, TONGUES, amounts)
def test_a_column_adds_up_as_it_is_printed(kind: Kind, tongue: Tongue, values: list[float]) -> None:
    column = figure_column(kind, values, tongue)
    assert sum(map(Decimal, column.cells)) == Decimal(column.total)
    assert len({decimals(words) for words in (*column.cells, column.total)}) == 1


@given(amounts)
def test_each_figure_is_within_one_step_of_what_it_stands_for(values: list[float]) -> None:
    column = figure_column(VOLUME, values, ENGLISH)
    step = 10.0 ** -decimals(column.total)
    assert float(column.total) == pytest.approx(sum(values), abs=0.51 * step)
    for words, value in zip(column.cells, values, strict=True):
        assert float(words) == pytest.approx(value, abs=1.01 * step)


@given(st.lists(st.floats(0.001, 40.0), min_size=1, max_size=40))
def test_lengths_are_the_differences_of_the_places_beside_them(steps: list[float]) -> None:
    edges = [sum(steps[:count]) for count in range(len(steps) + 1)]
    places, lengths = edge_columns(LAY_LENGTH, edges, ENGLISH)
    for before, after, length in zip(places, places[1:], lengths.cells, strict=False):
        assert Decimal(after) - Decimal(before) == Decimal(length)
    assert sum(map(Decimal, lengths.cells)) == Decimal(lengths.total) == Decimal(places[-1])


def test_something_does_not_read_as_nothing() -> None:
    assert figure_column(VOLUME, (0.04, 20.0), ENGLISH).cells == ("0.04", "20.00")
    assert figure_column(VOLUME, (0.0, 20.0), ENGLISH).cells == ("0", "20")


def test_a_column_without_a_total_is_rounded_row_by_row() -> None:
    assert figure_column(VOLUME, (15.625,) * 4, ENGLISH, summed=False).cells == ("15.6",) * 4
