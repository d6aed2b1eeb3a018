"""If these fail, a file that something else has changed is told wrongly, or its change is not told at all."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.new_plan import new_plan
from studio_gui.wording.outside_words import changed_outside
from studio_gui.wording.translation import ENGLISH

PATH = Path("/plans/two\nshores.roving.json")
NOON = datetime(2026, 11, 26, 12, 0, tzinfo=UTC)


def test_when_and_what_is_told_on_one_line() -> None:
    words = changed_outside(PATH, NOON, new_plan(), replace(new_plan(), title="{0}"), ENGLISH)
    assert "\n" not in words
    assert "26 November 2026" in words
    assert words.endswith("What is open here differs from it in: the title.")


def test_the_same_plan_written_otherwise_is_told_as_such() -> None:
    words = changed_outside(PATH, NOON, new_plan(), new_plan(), ENGLISH)
    assert words.endswith("It holds the plan that is open here, only written otherwise.")


def test_what_cannot_be_read_is_told_with_its_reason_and_without_a_time_where_there_is_none() -> None:
    words = changed_outside(PATH, None, FileProblem("is-a-folder", path=str(PATH)), new_plan(), ENGLISH)
    assert "(it is dated" not in words
    assert words.endswith("is a folder. Choose a file.")
    words = changed_outside(PATH, NOON, FileProblem("file-empty", path="/a/b"), new_plan(), ENGLISH)
    assert words.endswith(
        "It holds no plan that can be read: b: There is nothing in the file. Take it from a copy."
    )
