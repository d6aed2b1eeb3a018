"""If these fail, a spinner who follows the page spins another yarn than the one that is planned."""

from dataclasses import replace

import pytest

from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import STRUCTURES, Ply, Strip, Structure
from studio_gui.wording.spin_steps import spin_steps
from studio_gui.wording.translation import ENGLISH
from tests.drawing.plans import plain_plan


def _steps(structure: Structure, plan: Plan | None = None, **numbers: object) -> str:
    plan = plan or plain_plan(4)
    plies = {"plies": (Ply(),)} if structure == "free" else {}
    yarn = replace(plan.yarn, structure=structure, **(plies | numbers))  # type: ignore[arg-type]  # any field
    return " ".join(spin_steps(worksheet(replace(plan, yarn=yarn)), ENGLISH))


@pytest.mark.parametrize("structure", STRUCTURES)
def test_every_structure_is_spun_from_singles_to_yarn(structure: Structure) -> None:
    steps = _steps(structure)
    assert steps.startswith("Spin singles of 10.00 m/g (100 tex).")
    assert "This makes" in steps
    assert "{" not in steps


@pytest.mark.parametrize("structure", STRUCTURES)
def test_plies_start_together_as_the_figures_have_them(structure: Structure) -> None:
    is_of_bobbins = structure in ("broken at the fold", "lengthwise", "fractal")
    said = "Rewind the bobbins, so that what was spun first is plied first." in _steps(structure)
    assert said == is_of_bobbins


def test_a_split_says_what_each_part_weighs() -> None:
    assert "into 3 parts: 50 g, 25 g and 25 g." in _steps("lengthwise", splits=(2.0, 1.0, 1.0))
    assert "in two: 50 g and 50 g." in _steps("fractal")


def test_strips_are_spun_one_after_the_other_and_flipped_ones_from_their_other_end() -> None:
    steps = _steps("fractal", strips=(Strip(), Strip(flipped=True), Strip(), Strip(flipped=True)))
    assert "into 4 strips" in steps
    assert "But from the other end: strip 2 and 4." in steps
    assert "But from the other end: strip 1." in _steps("fractal", strips=(Strip(flipped=True),))


def test_what_is_wound_off_comes_after_rewinding_and_before_plying() -> None:
    steps = _steps("rovings", plain_plan(4, rovings=2), offsets_m=(0.0, 12.5))
    rewound, wound_off, plied = (
        steps.index(words)
        for words in ("Rewind", "Wind the first 12.5 m of singles off bobbin 2", "Ply the 2")
    )
    assert rewound < wound_off < plied
    assert "987.5 m stay on one bobbin" not in steps
    assert "12.5 m stay on one bobbin" in steps


def test_one_roving_alone_is_left_unplied() -> None:
    steps = _steps("rovings", offsets_m=(0.0,))
    assert "Leave it unplied." in steps
    assert "together" not in steps


def test_free_plies_are_told_one_by_one() -> None:
    plies = (Ply(1, 0.0, 0.5, 0.6, (Strip(), Strip())), Ply(2, 1.0, 0.5))
    steps = _steps("free", plain_plan(4, rovings=2), plies=plies)
    assert (
        "Ply 1: roving 1, from 0 % to 50 % of its weight, 60 % of its thickness, split into 2 strips" in steps
    )
    assert "Ply 2: roving 2, from 100 % to 50 % of its weight." in steps


def test_a_set_is_spun_roving_by_roving() -> None:
    assert "Do the same with each of the 3 rovings." in _steps("chain", plain_plan(4, rovings=3))
    assert "Do the same" not in _steps("rovings", plain_plan(4, rovings=3))


def test_a_chain_of_one_colour_has_no_changes_to_keep_short() -> None:
    assert "To keep a change of colour short" in _steps("chain")
    assert "To keep a change of colour short" not in _steps("chain", plain_plan(1))


def test_a_yarn_that_cannot_be_says_so() -> None:
    assert "No yarn comes of it" in _steps("rovings", plain_plan(4, rovings=2), offsets_m=(0.0, 99_999.0))
