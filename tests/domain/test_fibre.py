"""If these fail, a roving or a lay can be one that no film ever carried."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.fibre import Fibre, Lay, MassMark, Roving, even_folds
from studio_gui.domain.geometry import lay_mass_to, mass_to
from tests.strategies import fibres

FIBRE = Fibre(100.0, 4.0)


@pytest.mark.parametrize(
    ("changes", "code", "field"),
    [
        ({"mass_g": 0.0}, "out-of-range", "mass_g"),
        ({"length_m": 1e6}, "out-of-range", "length_m"),
        ({"rovings": 0}, "out-of-range", "rovings"),
        ({"rovings": 2.5}, "not-a-whole-number", "rovings"),
        ({"undyed_srgb": "wool"}, "not-a-colour", "undyed_srgb"),
        ({"mass_marks": (MassMark(0.5, 0.5),) * 501}, "too-many", "mass_marks"),
        ({"mass_marks": (MassMark(0.6, 0.4), MassMark(0.5, 0.5))}, "marks-not-rising", "mass_marks"),
        ({"mass_marks": (MassMark(0.5, 0.5), MassMark(0.6, 0.5))}, "marks-not-rising", "mass_marks"),
        ({"mass_marks": (MassMark(1.0, 0.5),)}, "marks-not-rising", "mass_marks"),
        ({"mass_marks": (MassMark(0.5, 1e-300),)}, "marks-not-rising", "mass_marks"),
    ],
)
def test_a_roving_that_cannot_be_is_refused(changes: dict[str, Any], code: str, field: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        replace(FIBRE, **changes)
    assert (refusal.value.code, refusal.value.params["field"]) == (code, field)


@pytest.mark.parametrize(
    ("strip_share", "mass_share", "field"), [(-0.1, 0.5, "strip_share"), (0.5, 1.1, "mass_share")]
)
def test_a_mark_lies_on_the_roving(strip_share: float, mass_share: float, field: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        MassMark(strip_share, mass_share)
    assert refusal.value.params["field"] == field


def test_colours_are_kept_in_one_spelling() -> None:
    assert replace(FIBRE, undyed_srgb="#F3EEE2") == replace(FIBRE, undyed_srgb="#f3eee2")


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"overhang_m": -0.1}, "out-of-range"),
        ({"matching": "by eye"}, "not-one-of"),
        ({"fold_positions_m": tuple(0.1 * number for number in range(1, 17))}, "too-many"),
        ({"fold_positions_m": (2.0, 1.0)}, "folds-not-rising"),
        ({"fold_positions_m": (0.0,)}, "folds-not-rising"),
        ({"fold_positions_m": (float("nan"),)}, "not-a-number"),
    ],
)
def test_a_lay_that_cannot_be_is_refused(changes: dict[str, Any], code: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        replace(Lay(), **changes)
    assert refusal.value.code == code


def test_passes_are_one_more_than_folds() -> None:
    assert Lay().passes == 1
    assert Lay(even_folds(6.0, 3)).passes == 3
    assert even_folds(6.0, 3) == (2.0, 4.0)
    assert even_folds(6.0, 1) == ()


def test_a_measured_set_has_the_mean_weight_and_one_weighing_a_roving() -> None:
    each = (Roving(98.0, (MassMark(0.5, 0.6),)), Roving(102.0, (MassMark(0.25, 0.2),)))
    fibre = Fibre(100.0, 4.0, 2, measured=each)
    assert fibre.roving(0) == Fibre(98.0, 4.0, mass_marks=each[0].mass_marks)
    assert [mark.strip_share for mark in fibre.weight_marks] == [0.25, 0.5]
    # 29.4 g of 98 and 20.4 g of 102 lie in the first quarter
    assert fibre.weight_marks[0].mass_share == pytest.approx((29.4 + 20.4) / 200.0)


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"measured": (Roving(100.0),)}, "rovings-do-not-match"),
        ({"measured": (Roving(100.0),) * 2, "mass_marks": (MassMark(0.5, 0.6),)}, "marks-of-set-and-rovings"),
        ({"measured": (Roving(100.0), Roving(120.0))}, "mass-is-not-the-mean"),
    ],
)
def test_a_measured_set_that_contradicts_itself_is_refused(changes: dict[str, Any], code: str) -> None:
    with pytest.raises(InvalidPlan, match=code):
        replace(Fibre(100.0, 4.0, 2), **changes)


@given(fibres())
def test_rovings_alike_are_the_set_weighed_one_by_one(fibre: Fibre) -> None:
    one = fibre.roving(0)
    plain = replace(one, rovings=3)
    weighed = replace(one, rovings=3, mass_marks=(), measured=(Roving(one.mass_g, one.mass_marks),) * 3)
    places = np.linspace(0.0, one.length_m, 9)
    assert lay_mass_to(weighed, Lay(), places).tolist() == pytest.approx(
        lay_mass_to(plain, Lay(), places).tolist()
    )
    assert mass_to(weighed, places).tolist() == pytest.approx(mass_to(plain, places).tolist())


def test_weight_per_length_is_the_mean_of_a_roving() -> None:
    assert Fibre(100.0, 4.0).g_per_m == 25.0
