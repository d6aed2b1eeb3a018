"""If these fail, a print shows the start or a fold of the roving where it does not lie."""

from hypothesis import given

from studio_gui.domain.edits.inputs import set_lay
from studio_gui.domain.fibre import Fibre, Lay, even_folds
from studio_gui.domain.geometry import lay_position
from studio_gui.domain.plan import Plan
from studio_gui.domain.turns import turns
from tests.scenes.scene_plans import two_shores
from tests.strategies import plans


def test_a_straight_roving_starts_at_one_end_and_ends_at_the_other() -> None:
    assert [(turn.lay_m, turn.kind) for turn in turns(Fibre(100.0, 4.0), Lay())] == [
        (0.0, "start"),
        (4.0, "end"),
    ]


def test_folds_bulge_to_either_side_in_turn() -> None:
    found = turns(Fibre(100.0, 4.0), Lay(even_folds(4.0, 4)))
    assert [(turn.lay_m, turn.kind, turn.forward) for turn in found] == [
        (0.0, "start", True),
        (1.0, "fold", True),
        (0.0, "fold", False),
        (1.0, "fold", True),
        (0.0, "end", False),
    ]


def test_a_shorter_first_leg_starts_inside_the_lay() -> None:
    plan = set_lay(two_shores(), fold_positions_m=(2.6,))
    found = turns(plan.fibre, plan.lay)
    assert [round(turn.lay_m, 6) for turn in found] == [0.8, 3.4, 0.0]


@given(plans())
def test_turns_lie_where_the_roving_has_its_ends_and_folds(plan: Plan) -> None:
    found = turns(plan.fibre, plan.lay)
    assert [turn.kind for turn in found] == ["start", *["fold"] * (plan.lay.passes - 1), "end"]
    ends_m = (0.0, plan.fibre.length_m)
    assert [found[0].lay_m, found[-1].lay_m] == [
        float(lay_position(plan.fibre, plan.lay, end)) for end in ends_m
    ]
    assert all(0.0 <= turn.lay_m <= plan.lay_length_m for turn in found)
