"""If these fail, a structure of yarn cannot be told from another where it is chosen."""

from __future__ import annotations

from studio_gui.domain.yarn import STRUCTURES
from studio_gui.wording.spinning import structure_explained, structure_name
from studio_gui.wording.translation import ENGLISH


def test_every_structure_has_a_name_and_a_line_of_its_own() -> None:
    assert len({structure_name(one, ENGLISH) for one in STRUCTURES}) == len(STRUCTURES)
    assert len({structure_explained(one, ENGLISH) for one in STRUCTURES}) == len(STRUCTURES)
