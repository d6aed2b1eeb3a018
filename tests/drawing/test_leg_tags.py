"""If these fail, somebody who marks one leg of a roving by its own tape marks the wrong place, or none."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.inputs import fold_by_weight, set_fibre
from studio_gui.domain.fibre import Fibre, MassMark, Roving
from studio_gui.domain.plan import Plan
from studio_gui.drawing.leg_tags import paint_leg_tags
from studio_gui.wording.translation import install_units
from tests.drawing.pictures import box_of, laid, painted, texts
from tests.drawing.plans import plain_plan
from tests.scenes.scene_plans import two_shores

pytestmark = pytest.mark.usefixtures("qapp")


def uneven() -> Plan:
    return set_fibre(two_shores(), mass_marks=(MassMark(0.5, 0.52),))


def test_every_leg_has_its_own_places() -> None:
    assert texts(paint_leg_tags, laid(fold_by_weight(uneven())))[:2] == ["57.7 cm", "62.5 cm"]
    install_units("us")
    assert texts(paint_leg_tags, laid(fold_by_weight(uneven())))[:2] == ["22.71 in", "24.61 in"]


def test_legs_that_agree_or_lie_by_length_need_no_tags() -> None:
    for plan in (two_shores(), fold_by_weight(two_shores()), uneven(), plain_plan(3)):
        assert texts(paint_leg_tags, laid(plan)) == []


def test_rovings_that_were_weighed_have_their_own() -> None:
    measured = (Roving(100.0, (MassMark(0.5, 0.55),)), Roving(100.0))
    plan = plain_plan(2, length_m=4.0)
    plan = replace(plan, fibre=Fibre(100.0, 4.0, 2, measured=measured))
    plan = replace(plan, lay=replace(plan.lay, matching="by weight"))
    words = texts(paint_leg_tags, laid(plan))
    assert len(words) == 2
    assert words[0] != words[1]


def test_tags_without_room_are_left_out() -> None:
    plan = fold_by_weight(uneven())
    assert len(texts(paint_leg_tags, laid(plan))) == 8
    crowded = move_boundary(plan, 0, plan.edges_m[2] - 0.02)
    assert len(texts(paint_leg_tags, laid(crowded))) == 4
    many = fold_by_weight(set_fibre(plain_plan(4, rovings=6, passes=2), mass_marks=(MassMark(0.5, 0.52),)))
    assert texts(paint_leg_tags, laid(many, height=500.0)) == []
    assert len(texts(paint_leg_tags, laid(many, height=760.0))) == 3 * 12


def test_a_tag_stands_across_its_boundary() -> None:
    layout = laid(fold_by_weight(set_fibre(plain_plan(2, passes=2), mass_marks=(MassMark(0.5, 0.55),))))
    box = box_of(painted(paint_leg_tags, layout, grounded=False))
    assert box.center().x() == pytest.approx(layout.edges_x[1], abs=1.5)
    assert layout.strands[0].rect.top() <= box.top()
    assert box.bottom() <= layout.strands[-1].rect.bottom()
