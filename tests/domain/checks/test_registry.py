"""If these fail, findings come in a disorder, name nothing that is there, or carry what no file can."""

from __future__ import annotations

import math

from hypothesis import given

from studio_gui.domain.checks.check import SEVERITIES
from studio_gui.domain.checks.registry import CHECKS, run_checks
from studio_gui.domain.errors import Param
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Plan
from tests.scenes.scene_plans import harbour_thaw
from tests.strategies import plans


def test_the_scenes_findings_in_their_order() -> None:
    found = [(check.code, check.severity) for check in run_checks(section_figures(harbour_thaw()))]
    assert found == [("acid-uneven", "warning"), ("acid-too-low", "warning")]


def test_every_check_stands_in_the_list_once() -> None:
    assert len(set(CHECKS)) == len(CHECKS)


@given(plans())
def test_any_plan_can_be_checked_and_every_finding_shown(plan: Plan) -> None:
    found = run_checks(section_figures(plan))
    severities = [SEVERITIES.index(check.severity) for check in found]
    assert severities == sorted(severities)
    for check in found:
        places = [plan.section_index(section_id) for section_id in check.section_ids]
        assert places == sorted(places)
        assert all(map(is_plain, check.params.values()))
        assert all(is_plain(value) for mend in check.mends for value in mend.params.values())


def is_plain(value: Param) -> bool:
    """Whether a value can be said and written down: text, truth, or a finite number of Python's own types."""
    if type(value) is float:
        return math.isfinite(value)
    return type(value) in (str, int, bool)
