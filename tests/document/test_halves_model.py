"""If these fail, a colour of one half is told to weigh what another weighs, or to slide the other way."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from studio_gui.document.halves_model import SLIDE, HalvesModel
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.inputs import fold_by_weight, set_fibre
from studio_gui.domain.fibre import MassMark
from studio_gui.domain.plan import Plan
from tests.document.test_yarn_models import cells, headings
from tests.scenes.scene_plans import straight, two_shores

pytestmark = pytest.mark.usefixtures("qapp")


def uneven(first: float = 0.52) -> Plan:
    return set_fibre(two_shores(), mass_marks=(MassMark(0.5, first),))


def test_every_colour_is_told_in_both_halves_with_its_slide() -> None:
    model = HalvesModel(OpenPlan(uneven()))
    assert headings(model) == ["Colour", "1, g", "1, m", "2, g", "2, m", "slide, m"]
    assert cells(model, 0) == ["A A", "15.6", "156.0", "14.4", "144.0", "+12.0"]
    assert cells(model, 4)[SLIDE] == "+60.0"
    assert cells(HalvesModel(OpenPlan(uneven(0.48))), 0)[SLIDE] == "-12.0"
    assert cells(HalvesModel(OpenPlan(two_shores())), 0)[SLIDE] == "0.0"


def test_a_colour_of_one_half_leaves_the_other_empty() -> None:
    model = HalvesModel(OpenPlan(straight("ABCA", (1.0, 2.0, 5.0))))
    assert cells(model, 1) == ["B B", "25.0", "250.0", "–", "–", "–"]
    assert [model.plain(1, column) for column in (2, 3, SLIDE)] == ["250", "", ""]


def test_the_table_follows_a_mend_and_explains_its_headings() -> None:
    document = OpenPlan(uneven())
    model = HalvesModel(document)
    document.edit("", fold_by_weight)
    assert cells(model, 0) == ["A A", "15.0", "150.0", "15.0", "150.0", "0.0"]
    tip = model.headerData(SLIDE, Qt.Orientation.Horizontal, Qt.ItemDataRole.ToolTipRole)
    assert "half 1" in str(tip)
    assert model.headerData(0, Qt.Orientation.Horizontal, Qt.ItemDataRole.ToolTipRole) is None
