"""If these fail, a finding cannot be shown in its place or mended by a click."""

from __future__ import annotations

from studio_gui.domain.checks.check import SEVERITIES, Check, Mend


def test_the_gravest_comes_first() -> None:
    assert SEVERITIES == ("error", "warning", "note")


def test_a_finding_may_be_bare_and_a_mend_is_one_click_unless_it_says_so() -> None:
    check = Check("stock-unused", "note")
    assert (check.section_ids, dict(check.params), check.mends) == ((), {}, ())
    assert Mend("wipe").one_click
