"""If these fail, what was being typed before a crash is told wrongly, or breaks its sentence."""

from __future__ import annotations

from studio_gui.storage.recovery import Typed
from studio_gui.wording.translation import ENGLISH
from studio_gui.wording.unentered import typed_words


def test_the_text_and_its_field_are_told_on_one_line() -> None:
    assert typed_words(Typed("Title", "Two\nSho"), ENGLISH) == "Typed in “Title”, and not entered: “Two Sho”."
    assert typed_words(Typed("", "12"), ENGLISH) == "Typed, and not entered: “12”."
    assert typed_words(Typed("{text}", "{where}"), ENGLISH).endswith("“{where}”.")
