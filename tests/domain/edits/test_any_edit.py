"""If these fail, some row of edits tears the lay, moves what is locked, or loses fibre or liquid.

The laws that hold for every edit, whatever came before it.
"""

from __future__ import annotations

from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.bench import make_up
from studio_gui.domain.edits.amounts import shift_amount
from studio_gui.domain.edits.boundaries import (
    at_lengths,
    equalise,
    move_boundary,
    reverse,
    set_gap,
    set_section_length,
)
from studio_gui.domain.edits.halves import equal_halves, fold_halves_by_weight, mirror_half
from studio_gui.domain.edits.inputs import (
    fold_by_weight,
    set_bench,
    set_fibre,
    set_lay,
    set_liquid,
    set_passes,
)
from studio_gui.domain.edits.ladders import Crossfade, Ladder, lay_crossfade, lay_ladder
from studio_gui.domain.edits.liquors import (
    own_liquor,
    paint_amounts,
    set_depths,
    to_depth_basis,
    to_parts_basis,
)
from studio_gui.domain.edits.removal import remove_sections
from studio_gui.domain.edits.replacing import remove_from_liquors, repaint, replace_stock
from studio_gui.domain.edits.sections import change_section, duplicate, merge, set_locked, split
from studio_gui.domain.edits.stocks import change_strength_keeping_depth, set_acid_everywhere
from studio_gui.domain.edits.stripes import set_sections_from_stripes, set_stripes_from_sections
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Plan
from tests.strategies import numbers, plans


class Hand:
    """Draws what a hand would do next to a plan: places a little beyond the lay too."""

    def __init__(self, data: st.DataObject, plan: Plan) -> None:
        self._data, self._plan = data, plan

    def place_m(self) -> float:
        return self._data.draw(st.floats(-0.1, 1.1)) * self._plan.lay_length_m

    def amount(self, high: float) -> float:
        return self._data.draw(numbers(0.0, high))

    def section(self) -> int:
        return self._data.draw(st.integers(0, len(self._plan.sections) - 1))

    def run(self) -> tuple[int, int]:
        first, last = sorted((self.section(), self.section()))
        return first, last

    def section_id(self) -> str:
        return self._plan.sections[self.section()].id

    def boundary(self) -> int:
        return self._data.draw(st.integers(0, max(len(self._plan.boundaries) - 1, 0)))

    def liquor_id(self) -> str:
        return self._data.draw(st.sampled_from([liquor.id for liquor in self._plan.liquors]))

    def stock_id(self) -> str:
        ids = [stock.id for stock in self._plan.stocks]
        return self._data.draw(st.sampled_from(ids or ["none is left"]))

    def whole(self, low: int, high: int) -> int:
        return self._data.draw(st.integers(low, high))


#: Edits that may refuse, but have to leave every locked section where it was.
EDITS: dict[str, Callable[[Plan, Hand], Plan]] = {
    "trade": lambda plan, hand: move_boundary(plan, hand.boundary(), hand.place_m()),
    "shift": lambda plan, hand: move_boundary(plan, hand.boundary(), hand.place_m(), "shift"),
    "length": lambda plan, hand: set_section_length(plan, hand.section(), hand.place_m()),
    "gap": lambda plan, hand: set_gap(plan, hand.boundary(), hand.place_m() / 10.0),
    "equalise": lambda plan, hand: equalise(plan, *hand.run()),
    "reverse": lambda plan, _: reverse(plan),
    "lengths": lambda plan, hand: at_lengths(plan, [hand.amount(3.0) for _ in plan.sections]),
    "split": lambda plan, hand: split(plan, hand.section(), hand.place_m()),
    "merge": lambda plan, hand: merge(plan, hand.section(), hand.section()),
    "duplicate": lambda plan, hand: duplicate(plan, hand.section()),
    "remove": lambda plan, hand: remove_sections(plan, [hand.section_id()]),
    "fixed": lambda plan, hand: change_section(plan, hand.section_id(), fixed_ml=hand.amount(500.0)),
    "wiped": lambda plan, hand: change_section(plan, hand.section_id(), wiped_ml=hand.amount(100.0)),
    "lock": lambda plan, hand: set_locked(plan, [hand.section_id()], True),
    "weight": lambda plan, hand: set_fibre(plan, mass_g=hand.amount(500.0), rovings=hand.whole(0, 6)),
    "roving": lambda plan, hand: set_fibre(plan, length_m=hand.amount(20.0)),
    "passes": lambda plan, hand: set_passes(plan, hand.whole(1, 6)),
    "by weight": lambda plan, _: fold_by_weight(plan),
    "fold": lambda plan, hand: set_lay(plan, fold_positions_m=(hand.place_m(),)),
    "liquid": lambda plan, hand: set_liquid(plan, uptake_ml_per_g=hand.amount(5.0)),
    "bench": lambda plan, hand: set_bench(plan, dead_ml=hand.amount(20.0)),
    "own": lambda plan, hand: own_liquor(plan, hand.section_id()),
    "typed": lambda plan, hand: paint_amounts(plan, hand.section_id(), {hand.stock_id(): hand.amount(99.0)}),
    "depths": lambda plan, hand: set_depths(plan, hand.liquor_id(), {hand.stock_id(): hand.amount(4.0)}),
    "to depth": lambda plan, hand: to_depth_basis(plan, hand.liquor_id()),
    "to parts": lambda plan, hand: to_parts_basis(plan, hand.liquor_id()),
    "ladder": lambda plan, hand: lay_ladder(
        plan,
        *hand.run(),
        Ladder((hand.stock_id(),), ((hand.amount(99.0),), (hand.amount(99.0),)), "by amount"),
    ),
    "crossfade": lambda plan, hand: lay_crossfade(
        plan,
        *hand.run(),
        Crossfade(hand.liquor_id(), hand.liquor_id(), hand.whole(1, 5), hand.amount(9.0)),
    ),
    "share": lambda plan, hand: shift_amount(plan, hand.section_id(), hand.stock_id(), hand.amount(99.0)),
    "strength": lambda plan, hand: change_strength_keeping_depth(plan, hand.stock_id(), hand.amount(100.0)),
    "take out": lambda plan, hand: remove_from_liquors(plan, hand.stock_id()),
    "other stock": lambda plan, hand: replace_stock(plan, hand.stock_id(), hand.stock_id()),
    "repaint": lambda plan, hand: repaint(plan, hand.liquor_id(), hand.liquor_id()),
    "sections of stripes": lambda plan, _: set_sections_from_stripes(plan),
    "stripes of sections": lambda plan, _: set_stripes_from_sections(plan),
    "equal halves": lambda plan, _: equal_halves(plan),
    "mirror": lambda plan, hand: mirror_half(plan, "first" if hand.whole(0, 1) else "second"),
    "halves by weight": lambda plan, _: fold_halves_by_weight(plan),
    "acid": lambda plan, hand: set_acid_everywhere(plan, hand.amount(50.0)),
}

BOUNDARY_EDITS = ("trade", "shift", "gap")


def places_of_locked(plan: Plan) -> dict[str, tuple[float, float]]:
    """Where each locked section starts and ends, by id."""
    rows = zip(plan.sections, pairwise(plan.edges_m), strict=True)
    return {section.id: ends for section, ends in rows if section.locked}


def check_laws(plan: Plan) -> None:
    """Assert all that holds for any plan."""
    assert replace(plan) == plan  # made anew, it passes its own checks
    edges = plan.edges_m
    assert len(edges) == len(plan.sections) + 1
    assert edges[0] == 0.0
    assert edges[-1] == plan.lay_length_m
    assert all(start < end for start, end in pairwise(edges))
    figures = section_figures(plan)
    total_g = plan.fibre.rovings * plan.fibre.mass_g
    assert figures.fibre_g.sum() == pytest.approx(total_g, rel=1e-9)
    assert (figures.fibre_g > 0.0).all()
    assert figures.amounts_ml.sum(axis=1) == pytest.approx(figures.liquid_ml, rel=1e-9, abs=1e-9)
    jars_ml = sum(jar.jar_ml for jar in make_up(figures).jars)
    assert make_up(figures).need_ml.sum() == pytest.approx(jars_ml, rel=1e-9)


@given(plans(most_sections=6), st.data())
def test_every_edit_gives_a_valid_plan_or_refuses_and_changes_nothing(
    plan: Plan, data: st.DataObject
) -> None:
    for name in data.draw(st.lists(st.sampled_from(sorted(EDITS)), min_size=1, max_size=6)):
        if name in BOUNDARY_EDITS and not plan.boundaries:
            continue  # nothing to take hold of
        before = deepcopy(plan)
        try:
            edited = EDITS[name](plan, Hand(data, plan))
        except RovingLayError:
            continue  # refused; that nothing changed is seen below
        finally:
            assert plan == before
        check_laws(edited)
        locked, still = places_of_locked(plan), places_of_locked(edited)
        assert {section_id: still[section_id] for section_id in locked} == locked
        plan = edited
