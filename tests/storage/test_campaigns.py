"""If these fail, files lose work when the program is killed, or a changed file is a crash. Short and seeded.

The long ones are commands; DEVELOPERS.md lists them.
"""

from __future__ import annotations

from collections import Counter

import pytest

from tests.campaigns import faults, kills, mutations


@pytest.mark.parametrize("name", faults.OPERATIONS)
@pytest.mark.parametrize(
    ("fault", "code"),
    [
        ("short write", "file-too-large"),
        ("vanished folder", "folder-missing"),
        ("folder in its place", "is-a-folder"),
    ],
)
def test_a_fault_is_told_and_leaves_what_was_there(fault: str, code: str, name: str) -> None:
    makes_its_folder = (fault, name) == ("vanished folder", "snapshot")
    assert faults.outcome(fault, name) == ("done" if makes_its_folder else code)


@pytest.mark.parametrize("name", kills.OPERATIONS)
def test_an_operation_killed_at_any_moment_leaves_the_state_before_or_after(name: str) -> None:
    lines: list[str] = []
    found = kills.campaign(name, count=5, seed=7, log=lines.append)
    assert found.total() == len(lines) == 5
    assert set(found) <= {"before", "after"}


def test_plans_changed_at_random_are_opened_or_refused_and_nothing_else() -> None:
    ends, _ = mutations.campaign(count=300, seed=7)
    assert ends.total() == 300
    assert len(ends) > 10, "only a few kinds of change were made"
    assert ends["opened"]


def test_a_fault_of_opening_is_not_taken_for_a_refusal(monkeypatch: pytest.MonkeyPatch) -> None:
    def failing(_: bytes) -> Counter[str]:
        raise RecursionError

    monkeypatch.setattr(mutations, "plan_from_json", failing)
    with pytest.raises(RecursionError):
        mutations.campaign(count=1, seed=7)
