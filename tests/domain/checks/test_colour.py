"""If these fail, a guess at a fluorescent mix passes for a prediction."""

from __future__ import annotations

from dataclasses import replace

from studio_gui.domain.checks.colour import guessed_mixes
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Plan
from tests.scenes.scene_plans import by_depth, dye, laid, let_down


def plan() -> Plan:
    """Three sections: a mix, the red alone, the lemon alone; the lemon glows."""
    stocks = [dye("Y", srgb="#eeff3c"), dye("R", srgb="#a8382f"), let_down("AW", 10.0)]
    liquors = [by_depth("M", {"Y": 0.5, "R": 0.2}), by_depth("N", {"R": 0.5}), by_depth("O", {"Y": 0.5})]
    made = laid([("M", 1.0), ("N", 1.0), ("O", 1.0)], stocks, liquors)
    return change_stock(made, "Y", is_fluorescent=True)


def test_a_mix_with_a_fluorescent_dye_is_named_and_the_dye_alone_is_not() -> None:
    (check,) = guessed_mixes(section_figures(plan()))
    assert (check.code, check.severity, check.section_ids) == ("mix-is-a-guess", "note", ("s1",))
    assert check.params == {"stock_id": "Y"}


def test_dyes_that_do_not_glow_are_not_guessed_at() -> None:
    assert not list(guessed_mixes(section_figures(change_stock(plan(), "Y", is_fluorescent=False))))


def test_a_trace_that_nobody_sees_makes_no_mix() -> None:
    liquors = (by_depth("M", {"Y": 0.5, "R": 0.0005}), *plan().liquors[1:])
    traced = replace(
        plan(),
        liquors=tuple(
            replace(one, id=two.id, letter=two.letter)
            for one, two in zip(liquors, plan().liquors, strict=True)
        ),
    )
    assert not list(guessed_mixes(section_figures(traced)))
