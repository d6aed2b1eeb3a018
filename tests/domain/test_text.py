"""If these fail, a plan holds a name that no file or print can carry, or refuses one that people have."""

from __future__ import annotations

import pytest

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.text import checked_text


@pytest.mark.parametrize("name", ["Two Shores", "藍と茜", "أزرق", "🐑🌊", "", " ", "\u202eback"])
def test_names_of_any_script_pass(name: str) -> None:
    assert checked_text("title", name, 300) == name


@pytest.mark.parametrize(
    ("value", "code"),
    [
        (5, "not-text"),
        (None, "not-text"),
        ("", "text-empty"),
        (" \u3000", "text-empty"),
        ("abcdefghi", "text-too-long"),
        ("a\nb", "text-unprintable"),
        ("a\x00b", "text-unprintable"),
        ("a\ud800", "text-unprintable"),
    ],
)
def test_what_no_id_may_be(value: str, code: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        checked_text("section_id", value, 8, may_be_empty=False)
    assert refusal.value.code == code
    assert refusal.value.params["field"] == "section_id"
