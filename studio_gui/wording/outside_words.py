"""What is said of a plan's file that something else has changed while the plan was open.

The rule of this module: when, by what it differs from what is open, and nothing about who it was: nobody can
know that.
"""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from studio_gui.domain.differences import differences
from studio_gui.domain.errors import FileProblem
from studio_gui.domain.plan import Plan
from studio_gui.wording.differences import differences_words
from studio_gui.wording.moments import moment_words
from studio_gui.wording.naming import one_line
from studio_gui.wording.sentences import refusal
from studio_gui.wording.translation import TRANSLATED, Tongue


def changed_outside(
    path: Path,
    changed_at: datetime | None,
    found: Plan | FileProblem,
    ours: Plan,
    tongue: Tongue = TRANSLATED,
) -> str:
    """Return that the file at `path` holds something else than was read or saved here, since when, and what.

    Parameters
    ----------
    changed_at
        The date that the file has, None where it has none to be read.
    found
        The plan that stands in it, or why none can be read.
    ours
        The plan that is open.
    """
    say, name = tongue.translate, one_line(path.name)
    if changed_at is None:
        first = say("Outside", "“{0}” was changed by something else since it was last read or saved here.")
    else:
        first = say(
            "Outside",
            "“{0}” was changed by something else since it was last read or saved here (it is dated {1}).",
        )
    first = first.format(name, moment_words(changed_at, tongue))
    if isinstance(found, FileProblem):
        second = refusal(found, tongue=tongue)
        if changed_at is not None:
            second = say("Outside", "It holds no plan that can be read: {0}").format(second)
    elif found == ours:
        second = say("Outside", "It holds the plan that is open here, only written otherwise.")
    else:
        words = differences_words(differences(found, ours), tongue)
        second = say("Outside", "What is open here differs from it in: {0}.").format(words)
    return f"{first} {second}"
