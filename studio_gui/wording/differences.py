"""What differs between two states of a plan, in words.

The rule of this module: one short phrase for every part, joined to one line; a part without words of its own
is still told of.
"""

from __future__ import annotations

from collections.abc import Sequence

from studio_gui.domain.differences import Difference
from studio_gui.wording.translation import TRANSLATED, Tongue


def differences_words(found: Sequence[Difference], tongue: Tongue = TRANSLATED) -> str:
    """Return what differs: "the title, 3 boundaries, 2 sections (1 more)"."""
    if not found:
        return tongue.translate("Differences", "nothing")
    return ", ".join(_phrase(one, tongue) for one in found)


def _phrase(one: Difference, tongue: Tongue) -> str:
    say = tongue.translate
    if one.part in ("sections", "boundaries", "stocks", "liquors"):
        words = {
            "sections": say("Differences", "sections: {count}"),
            "boundaries": say("Differences", "boundaries: {count}"),
            "stocks": say("Differences", "stocks: {count}"),
            "liquors": say("Differences", "liquors: {count}"),
        }[one.part].format(count=one.count)
        if one.added > 0:
            return say("Differences", "{what} ({count} more)").format(what=words, count=one.added)
        if one.added < 0:
            return say("Differences", "{what} ({count} fewer)").format(what=words, count=-one.added)
        return words
    return {
        "title": say("Differences", "the title"),
        "fibre": say("Differences", "the fibre"),
        "lay": say("Differences", "the lay"),
        "liquid": say("Differences", "the liquid"),
        "acid": say("Differences", "the limits of acid"),
        "acid_line": say("Differences", "acid in every jar"),
        "wicking_mm": say("Differences", "the wicking"),
        "bench": say("Differences", "the bench"),
        "yarn": say("Differences", "the yarn"),
        "timetable": say("Differences", "the timetable"),
    }.get(one.part, say("Differences", "other settings"))
