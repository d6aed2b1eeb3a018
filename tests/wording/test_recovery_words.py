"""If these fail, somebody works on without recovery, and is told to mend something that would not help."""

from __future__ import annotations

from pathlib import Path

import pytest

from studio_gui.domain.errors import FileProblem
from studio_gui.wording.recovery_words import how_long, recovery_is_off
from studio_gui.wording.translation import ENGLISH

FOLDER = Path("/home/ann/state")


def said(code: str, **params: str | int) -> str:
    return recovery_is_off(FileProblem(code, path="/home/ann/state/00ff.snapshot", **params), FOLDER, ENGLISH)


@pytest.mark.parametrize(
    ("code", "mend"),
    [
        ("disk-full", "Make room on it"),
        ("folder-not-writable", "Give yourself the right"),
        ("file-not-writable", "Give yourself the right"),
        ("folder-missing", "Move what stands in its place"),
        ("not-a-folder", "Move what stands in its place"),
        ("file-too-large", "Make room there"),
        ("something-new", "See whether its disk is well"),
    ],
)
def test_every_cause_has_its_place_and_its_mend(code: str, mend: str) -> None:
    words = said(code)
    assert words.startswith("Recovery is off: after a crash, what was not saved would be lost. ")
    assert "/home/ann/state" in words
    assert "snapshot" not in words, "nobody chose that file"
    assert mend in words
    assert "save in" not in words.lower()


def test_a_plan_that_is_too_large_is_no_fault_of_the_disk() -> None:
    assert "Take out what is not needed" in said("too-many-values")
    assert said("file-too-large", most_bytes=8) == said("too-many-values")


def test_the_system_s_own_words_are_told_where_there_are_no_others() -> None:
    assert "could not be written to: Input/output error." in said("file-failed", reason="Input/output error")
    assert how_long(ENGLISH).startswith("Until then, save often.")
