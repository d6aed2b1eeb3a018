"""If these fail, a sentence breaks between a number and its unit, or is not what was said."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from studio_gui.views.labels import MessageLabel
from tests.views.keys import shown


def test_numbers_and_units_stay_together_and_the_text_is_what_was_said(qtbot: QtBot) -> None:
    message = shown(MessageLabel(), qtbot, 200, 60)
    sentence = "It spreads over 6 %, of 12 sections."
    message.say(sentence)
    assert message.text() == sentence
    assert QLabel.text(message) == sentence.replace("6 %", "6\u00a0%")
    message.say("")
    assert (message.text(), message.isVisible()) == ("", False)
