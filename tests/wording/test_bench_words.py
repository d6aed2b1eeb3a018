"""If these fail, what is said at the bench does not add up, or does not say what is amiss."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.cards import Measured
from studio_gui.domain.edits.inputs import set_bench, set_fibre
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.wording.bench_words import (
    amount_warning,
    bottle_warnings,
    dose_words,
    graduation_decimals,
    jar_error,
    jar_number,
    jar_use,
    measured_ml,
    painted_with,
    powder,
    stock_kind,
)
from studio_gui.wording.translation import ENGLISH
from tests.export.plans import sample
from tests.scenes.scene_plans import by_depth, dye, laid, let_down


@pytest.mark.parametrize(
    ("graduation_ml", "decimals"), [(100.0, 0), (2.0, 0), (0.5, 1), (0.25, 2), (0.01, 2), (0.3333, 4)]
)
def test_an_amount_has_the_decimals_of_its_graduation(graduation_ml: float, decimals: int) -> None:
    assert graduation_decimals(graduation_ml) == decimals


def test_a_jar_is_told_with_its_use_and_its_error() -> None:
    plan = sample("harbour-thaw")
    card = worksheet(plan).cards[0]
    assert jar_use(plan, card, ENGLISH) == "120 ml to paint, 6 ml spare"
    assert jar_error(card, ENGLISH) == "Shares within 0.3 points, dyes within 0.8\u00a0%"
    assert (jar_number(card, ENGLISH), painted_with(plan, card, ENGLISH)) == ("", "")
    assert measured_ml(card.total_ml, set_bench(plan, graduation_ml=0.5), ENGLISH) == "126.0"


def test_a_jar_of_one_stock_has_its_share_as_planned() -> None:
    cards = worksheet(sample("storm-kettle")).cards
    assert jar_error(cards[4], ENGLISH) == "Shares as planned"


def test_two_jars_of_a_liquor_are_numbered_and_say_what_they_are_for() -> None:
    plan = laid([("Depth", 1.0), ("Depth", 1.0)], [dye("D"), let_down("AW")], [by_depth("Depth", {"D": 0.5})])
    plan = change_section(plan, "s1", fixed_ml=80.0)
    wet = worksheet(plan).cards[1]
    assert jar_number(wet, ENGLISH) == "jar 2 of 2"
    assert painted_with(plan, wet, ENGLISH) == "for Section 1"
    nameless = replace(plan, sections=tuple(replace(one, name="") for one in plan.sections))
    assert painted_with(nameless, wet, ENGLISH) == ""


def test_what_is_amiss_with_an_amount_is_said_with_its_mend() -> None:
    assert amount_warning(Measured("k", 25.5, 26.0, 0.75, 1.5), ENGLISH) == ""
    off = amount_warning(Measured("k", 8.0, 9.0, 0.5, 2.9), ENGLISH).replace("\u00a0", " ")
    assert off == "52.9 % of the jar, planned 50.0 %: measure finer"
    lost = amount_warning(Measured("k", 0.3, 0.0, 0.003, -0.3), ENGLISH)
    assert lost == "0.3 ml is too little for this graduation: measure finer"


def test_a_syringe_is_told_by_its_stops_or_by_its_dose_where_there_are_many() -> None:
    plan = set_bench(sample("harbour-thaw"), syringe_ml=60.0)
    slate = worksheet(plan).cards[0].doses[0]
    assert dose_words(plan, slate, ENGLISH) == "A Slate: 2 × 60 ml, stop at 30, 0"
    many = set_fibre(plan, rovings=40, mass_g=10.0)
    dose = worksheet(many).cards[0].doses[0]
    assert dose_words(many, dose, ENGLISH) == "A Slate: 2 × 60 ml, stop after every 3 ml"


def kinds(plan: Plan) -> dict[str, str]:
    return {stock.name: stock_kind(stock, ENGLISH) for stock in plan.stocks}


def test_a_bottle_says_what_stands_in_it_and_what_is_amiss() -> None:
    plan = change_stock(sample("storm-kettle"), "blue", made_ml=100.0)
    found = kinds(plan)
    assert found["Citric stock"] == "200 g/L acid"
    assert found["Plain water"] == "no acid"
    assert found["Brick red"] == "1.00 %, by spoon"
    labelled = change_stock(plan, "blue", strength_known="nominal")
    assert kinds(labelled)["Harbour blue"] == "1.00 %, as labelled"
    water = next(stock for stock in plan.stocks if stock.name == "Plain water")
    assert stock_kind(replace(water, acid_g_per_l=None), ENGLISH) == "acid not known"
    warnings = {
        plan.stock(one.stock_id).name: bottle_warnings(plan, one, ENGLISH) for one in worksheet(plan).bottles
    }
    assert warnings["Harbour blue"] == ("40 ml short: the jars take 140 ml",)
    assert warnings["Kelp green"] == ("acid not known: look it up in the recipe of this stock",)
    assert warnings["Plain water"] == ()


def test_powder_is_told_in_hundredths_a_trace_of_it_in_more() -> None:
    assert [powder(grams, ENGLISH) for grams in (1.3, 0.004, 0.0, None)] == ["1.30", "0.004", "–", "?"]
