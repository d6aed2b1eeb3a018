"""If these fail, somebody who measures along one leg of a roving marks the wrong place."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given

from studio_gui.domain.edits.inputs import fold_by_weight, set_fibre, set_lay
from studio_gui.domain.fibre import Fibre, MassMark, Roving
from studio_gui.domain.geometry import mass_to
from studio_gui.domain.legs import leg_marks, marks_apart, section_on_legs
from studio_gui.domain.plan import Plan
from tests.scenes.scene_plans import two_shores
from tests.strategies import plans


def test_marks_of_equal_legs_are_the_boundaries_themselves() -> None:
    marks = leg_marks(two_shores())
    assert marks.tolist() == pytest.approx(np.tile([0.6, 1.0, 1.8, 2.3], (2, 1)))
    assert not marks_apart(marks).any()


def test_marks_of_a_shorter_leg_are_from_its_own_end() -> None:
    marks = leg_marks(set_lay(two_shores(), fold_positions_m=(3.04,)))
    # legs lie together at the fold: the shorter begins 8 cm into the lay
    assert (marks[0] - marks[1]).tolist() == pytest.approx([0.08] * 4)


def test_every_roving_that_was_weighed_has_its_own_marks() -> None:
    measured = (Roving(150.0, (MassMark(0.5, 0.52),)), Roving(150.0))
    uneven = replace(two_shores(), fibre=Fibre(150.0, 6.0, 2, measured=measured))
    folded = fold_by_weight(uneven)
    first, second, mean = (leg_marks(folded, roving) for roving in (0, 1, None))
    assert first[0, 0] < mean[0, 0] < second[0, 0]


def test_a_section_is_told_on_each_leg_where_legs_differ() -> None:
    """Two Shores, 78 and 72 g, folded by weight: A is 57.69 cm on the heavy leg, 62.5 on the light."""
    uneven = set_fibre(two_shores(), mass_marks=(MassMark(0.5, 0.52),))
    assert section_on_legs(uneven, 0) == ()
    folded = fold_by_weight(uneven)
    assert np.ravel(section_on_legs(folded, 0)).tolist() == pytest.approx([0.0, 0.5769, 0.0, 0.625], abs=5e-5)
    ends = [end for _, end in section_on_legs(folded, 4)]
    assert ends == pytest.approx([2.8846, 3.1154], abs=5e-5)


@given(plans())
def test_marks_rise_along_every_leg_and_end_inside_it(plan: Plan) -> None:
    ends = np.diff([0.0, *plan.lay.fold_positions_m, plan.fibre.length_m])
    marks = leg_marks(plan)
    assert np.all(np.diff(marks, axis=1) >= -1e-9)
    assert np.all((marks >= -1e-9) & (marks <= ends[:, np.newaxis] + 1e-9))


@given(plans())
def test_eased_legs_have_the_same_share_of_their_weight_before_every_mark(plan: Plan) -> None:
    eased = fold_by_weight(
        replace(plan, sections=tuple(replace(section, locked=False) for section in plan.sections))
    )
    fibre, shares = eased.fibre, []
    turns = [0.0, *eased.lay.fold_positions_m, fibre.length_m]
    for number, marks in enumerate(leg_marks(eased)):
        outer, inner = (turns[number + number % 2], turns[number + 1 - number % 2])
        way = 1.0 if outer < inner else -1.0
        grams = np.abs(mass_to(fibre, outer + way * marks) - mass_to(fibre, outer))
        shares.append(grams / abs(mass_to(fibre, inner) - mass_to(fibre, outer)))
    assert np.array(shares) == pytest.approx(np.tile(shares[0], (len(shares), 1)), abs=1e-9)
