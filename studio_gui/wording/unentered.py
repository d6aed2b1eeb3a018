"""What stood in a field when the program was cut off, and was not entered.

The rule of this module: the text is told as it was typed, for it may be the half of a value; whoever typed it
decides what becomes of it.
"""

from __future__ import annotations

from studio_gui.storage.recovery import Typed
from studio_gui.wording.naming import one_line
from studio_gui.wording.translation import TRANSLATED, Tongue


def typed_words(typed: Typed, tongue: Tongue = TRANSLATED) -> str:
    """Return what was typed and where: "Typed in Title, and not entered: “Two Sho”."."""
    text, where = one_line(typed.text), one_line(typed.where)
    if not where:
        return tongue.translate("Unentered", "Typed, and not entered: “{text}”.").format(text=text)
    words = tongue.translate("Unentered", "Typed in “{where}”, and not entered: “{text}”.")
    return words.format(where=where, text=text)
