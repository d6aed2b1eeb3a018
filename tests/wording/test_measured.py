"""If these fail, a bound is said as if it were the figure, or of another lot than the one it is from."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.lots import Lot, learn
from studio_gui.wording.measured import proposal, told_by_lots, void_hint, where_from
from studio_gui.wording.translation import ENGLISH, Tongue

WHITE = Lot(50.0, 60.0, 1.0, "white core")
RIGHT = Lot(50.0, 80.0, 1.0, "right")
POOLED = Lot(50.0, 125.0, 1.0, "pooled")


def told(*lots: Lot) -> list[str]:
    return told_by_lots(learn(lots), lots, [number + 3 for number in range(len(lots))], ENGLISH)


@pytest.mark.parametrize(
    ("lots", "sentences"),
    [
        ((), ["Enter a lot: its fibre, its liquid, and what was seen."]),
        ((WHITE,), ["The core takes more than 1.20 ml/g to wet."]),
        ((POOLED,), ["The fibre holds less than 3.50 ml/g, soak and liquor together."]),
        (
            (RIGHT,),
            [
                "The core wets at 1.60 ml/g, perhaps at less.",
                "The fibre holds 2.60 ml/g, soak and liquor together, perhaps more.",
            ],
        ),
        (
            (WHITE, RIGHT, POOLED),
            [
                "The core wets somewhere above 1.20 ml/g, at 1.60 ml/g at the latest.",
                "The fibre holds 2.60 ml/g, soak and liquor together, and less than 3.50 ml/g.",
            ],
        ),
    ],
)
def test_what_lots_tell_is_said_as_bounds(lots: tuple[Lot, ...], sentences: list[str]) -> None:
    assert told(*lots) == sentences


def test_lots_that_clash_are_called_by_their_numbers() -> None:
    assert told(RIGHT, replace(WHITE, liquid_ml=90.0))[0] == (
        "Lot 4 had a white core with 1.80 ml/g, and lot 3 came out right with 1.60 ml/g."
        " Both cannot be true of one fibre: check them."
    )
    assert told(replace(POOLED, liquid_ml=75.0), RIGHT)[0] == (
        "Lot 3 pooled with 2.50 ml/g in it, and lot 4 came out right with 2.60 ml/g."
        " Both cannot be true of one fibre: check them."
    )


def test_what_would_change_is_said_before_it_does() -> None:
    assert proposal("soak_ml_per_g", 1.0, 0.954, ENGLISH) == "Soak: 0.95 ml/g instead of 1.00 ml/g"
    assert proposal("soak_ml_per_g", 1.0, 1.001, ENGLISH) == "Soak: 1.00 ml/g, as it is"


def test_the_room_between_fibres_is_an_upper_bound() -> None:
    assert void_hint(4.4, 3.5, ENGLISH) == (
        "Between its fibres there is room for 4.40 ml/g; no holding limit is above that."
    )
    assert void_hint(3.0, 3.5, ENGLISH).endswith("Weigh again.")


def test_a_figure_says_where_it_is_from() -> None:
    def of_uptake(value: float, *, measured: bool = False, tongue: Tongue = ENGLISH) -> str:
        return where_from("uptake_ml_per_g", value, 2.5, measured=measured, tongue=tongue)

    assert of_uptake(2.5).startswith("2.5 ml/g is common practice, without a source")
    assert of_uptake(1.4) == "Your own; common practice, without a source, is 2.5 ml/g."
    assert of_uptake(1.4, measured=True) == "Measured; common practice, without a source, is 2.5 ml/g."
