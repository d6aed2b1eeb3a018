"""If these fail, what the program ships as an example does not open, or shows less than it should."""

from __future__ import annotations

import ast
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from studio_gui.domain import checks
from studio_gui.domain.edits.inputs import set_lay
from studio_gui.domain.strip import strip_runs
from studio_gui.domain.worksheet import worksheet
from studio_gui.export.registry import EXPORTS
from studio_gui.paths import samples_dir
from studio_gui.storage.files import PLAN_SUFFIX
from studio_gui.storage.plan_json import plan_to_json
from tests.export.plans import sample

NAMES = ["harbour-thaw", "long-dusk", "storm-kettle", "two-shores"]


def test_these_are_the_samples() -> None:
    assert sorted(path.name for path in samples_dir().iterdir()) == [name + PLAN_SUFFIX for name in NAMES]


@pytest.mark.parametrize("name", NAMES)
def test_a_sample_is_saved_as_it_is(name: str) -> None:
    assert plan_to_json(sample(name)) == (samples_dir() / (name + PLAN_SUFFIX)).read_bytes()


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("name", NAMES)
def test_a_sample_exports_to_every_kind(name: str) -> None:
    sheet = worksheet(sample(name))
    for export in EXPORTS.values():
        assert len(export(sheet)) > 500


@pytest.mark.parametrize("name", ["harbour-thaw", "long-dusk", "two-shores"])
def test_a_good_sample_needs_no_mending(name: str) -> None:
    assert worksheet(sample(name)).checks == ()


def test_the_matching_set_is_four_rovings_painted_alike() -> None:
    sheet = worksheet(sample("harbour-thaw"))
    assert sheet.plan.fibre.rovings == 4
    assert sheet.figures.liquid_ml.tolist() == pytest.approx([120.0, 90.0, 180.0, 60.0, 150.0])
    assert sheet.totals.jars_ml == pytest.approx(630.0)


def test_the_folded_roving_mirrors_its_order() -> None:
    plan = sample("two-shores")
    order = [run.section_index for run in strip_runs(plan)]
    assert order == [0, 1, 2, 3, 4, 3, 2, 1, 0]


def test_the_fade_has_twenty_steps_and_never_turns_back() -> None:
    sheet = worksheet(sample("long-dusk"))
    assert len(sheet.plan.sections) == 20
    lightness = np.asarray(sheet.colours.srgb).mean(axis=1).tolist()
    assert all(before > after for before, after in pairwise(lightness))


def test_the_faulty_sample_lights_every_check() -> None:
    """A check is a code in the sources of `studio_gui.domain.checks`, first argument of `Check`."""
    codes = {
        node.args[0].value
        for path in Path(checks.__path__[0]).glob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id == "Check"
        and isinstance(node.args[0], ast.Constant)
    }
    assert len(codes) >= 14
    # halves are plied with one another in other structures than those that leave something over
    slipped = set_lay(sample("two-shores"), fold_positions_m=(3.04,))
    lit = (*worksheet(sample("storm-kettle")).checks, *worksheet(slipped).checks)
    assert {check.code for check in lit} == codes
