"""If these fail, a finding is left out of the list without being counted."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.checks.check import SEVERITIES, Check
from studio_gui.views.check_list import FOLDED_FROM, Entry, Heading, More, One, listed


def found(*kinds: tuple[str, str, int]) -> list[Check]:
    """Findings of a code and a seriousness, so many of each."""
    return [
        Check(code, next(one for one in SEVERITIES if one == severity), (f"{code}{number}",))
        for code, severity, count in kinds
        for number in range(count)
    ]


CHECKS = found(("reach", "error", 1), ("under", "warning", 4), ("acid", "warning", 2), ("idle", "note", 1))


def said(entries: list[Entry]) -> list[str]:
    lines = []
    for entry in entries:
        if isinstance(entry, Heading):
            lines.append(f"{entry.severity} {entry.count}")
        elif isinstance(entry, More):
            lines.append(f"{len(entry.checks)} alike")
        else:
            lines.append(entry.check.section_ids[0])
    return lines


def test_findings_stand_under_headings_and_many_alike_as_one() -> None:
    assert said(listed(CHECKS, (), (), 50)[0]) == [
        *("error 1", "reach0", "warning 6", "under0", "4 alike", "acid0", "acid1"),
        *("note 1", "idle0"),
    ]


def test_what_is_opened_stands_below_what_opened_it() -> None:
    entries, _ = listed(CHECKS, (), {("under", "warning")}, 50)
    assert said(entries)[3:9] == ["under0", "4 alike", "under1", "under2", "under3", "acid0"]


def test_a_closed_group_keeps_its_heading_and_its_count() -> None:
    entries, left = listed(CHECKS, {"warning"}, {("under", "warning")}, 50)
    assert said(entries) == ["error 1", "reach0", "warning 6", "note 1", "idle0"]
    assert left == 0


def test_what_does_not_fit_is_counted() -> None:
    entries, left = listed(CHECKS, (), {("under", "warning")}, 3)
    assert said(entries) == ["error 1", "reach0", "warning 6", "under0", "4 alike", "under1"]
    assert left == 5


@given(st.lists(st.tuples(st.sampled_from("abcd"), st.integers(1, 9)), max_size=4), st.integers(1, 20))
def test_every_finding_is_shown_folded_or_counted(kinds: list[tuple[str, int]], most: int) -> None:
    checks = found(*((f"{code}{place}", "note", count) for place, (code, count) in enumerate(kinds)))
    entries, left = listed(checks, (), (), most)
    ones = [entry for entry in entries if isinstance(entry, One)]
    folded = sum(len(entry.checks) - 1 for entry in entries if isinstance(entry, More))
    assert len(ones) <= most
    assert all(len(entry.checks) >= FOLDED_FROM for entry in entries if isinstance(entry, More))
    if not left:
        assert len(ones) + folded == len(checks)
    assert len({entry.key for entry in entries}) == len(entries)
