"""If these fail, an edit of the yarn loses what was typed, or makes a yarn that cannot be spun."""

from __future__ import annotations

import pytest

from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.spinning.plies import plies_of
from studio_gui.domain.yarn import STRUCTURES, Ply, Structure


@pytest.mark.parametrize("structure", [one for one in STRUCTURES if one != "free"])
def test_free_plies_begin_as_those_of_the_structure_before(structure: Structure) -> None:
    before = set_yarn(new_plan(), structure=structure)
    free = set_yarn(before, structure="free")
    assert plies_of(free) == plies_of(before)


def test_free_plies_once_typed_are_there_again() -> None:
    plan = set_yarn(new_plan(), structure="free", plies=(Ply(from_share=0.25),))
    again = set_yarn(set_yarn(plan, structure="single"), structure="free")
    assert again.yarn.plies == (Ply(from_share=0.25),)
