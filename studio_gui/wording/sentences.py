"""Checks, mends and refusals in words: the front door to all sentences of the program.

The rule of this module: a code that has no words yet is still answered with a sentence, never with a code and
never with a crash.
"""

from __future__ import annotations

from collections.abc import Sequence

from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.errors import FileProblem, RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.wording.check_sentences import CHECK_WORDS, UNKNOWN_CHECK, CheckWords, told_of
from studio_gui.wording.edit_sentences import EDITS
from studio_gui.wording.file_sentences import INSIDE, OUTSIDE, located, with_path
from studio_gui.wording.mend_sentences import MEND_ALL_LABELS, MEND_WORDS, UNKNOWN_MEND, MendWords
from studio_gui.wording.saving_sentences import ON_SAVING
from studio_gui.wording.told import Told
from studio_gui.wording.translation import ENGLISH, TRANSLATED, Tongue
from studio_gui.wording.typed_sentences import TYPED
from studio_gui.wording.value_sentences import VALUES


def check_title(check: Check, plan: Plan, tongue: Tongue = TRANSLATED) -> str:
    """Return what is found and where, without a full stop: "C Kelp: 10 ml over the brim"."""
    return _check_words(check).title(told_of(check, plan, tongue))


def check_reason(check: Check, plan: Plan, tongue: Tongue = TRANSLATED) -> str:
    """Return why it matters, and what to do where no mend is offered: "It will creep into B and D."."""
    return _check_words(check).reason(told_of(check, plan, tongue))


def check_text(check: Check, plan: Plan, tongue: Tongue = ENGLISH) -> str:
    """Return what, where, why and how to mend in one line, in English unless another tongue is asked for."""
    told = told_of(check, plan, tongue).plus(
        title=check_title(check, plan, tongue),
        reason=check_reason(check, plan, tongue),
        mends="; ".join(mend_label(mend, plan, tongue) for mend in check.mends),
    )
    if check.mends:
        return told.translate("Checks", "{title}. {reason} To mend: {mends}.")
    return told.translate("Checks", "{title}. {reason}")


def mend_label(mend: Mend, plan: Plan, tongue: Tongue = TRANSLATED) -> str:
    """Return the label of the mend's button: "Plan a wipe"."""
    return _mend_words(mend).label(Told(mend.params, tongue, plan))


def mend_all_label(mends: Sequence[Mend], tongue: Tongue = TRANSLATED) -> str:
    """Return the label of a button that applies mends of one code to several findings: "Raise all 8"."""
    telling = MEND_ALL_LABELS.get(mends[0].code, UNKNOWN_MEND.label)
    return telling(Told({"count": len(mends)}, tongue))


def mend_cost(mend: Mend, plan: Plan, tongue: Tongue = TRANSLATED) -> str:
    """Return what the mend does and costs, in one line that begins small and has no full stop."""
    return _mend_words(mend).cost(Told(mend.params, tongue, plan))


def refusal(error: RovingLayError, plan: Plan | None = None, tongue: Tongue = TRANSLATED) -> str:
    """Return why something was refused: what, where and how to mend, in one line.

    With the plan that was to be edited, sections are named by letter and name; without, by name.
    """
    told = Told(error.params, tongue, plan)
    if error.code in OUTSIDE:
        return OUTSIDE[error.code](with_path(told))
    telling = INSIDE.get(error.code) or _REFUSALS.get(error.code)
    if telling is None:
        sentence = told.translate("Refusals", "That is not possible here; everything stays as it was.")
    else:
        sentence = telling(told)
    return located(told, sentence) if isinstance(error, FileProblem) else sentence


def refusal_to_save(error: RovingLayError, tongue: Tongue = TRANSLATED) -> str:
    """Return why a plan was not saved, and what helps then: as `refusal`, where reading is told otherwise."""
    telling = ON_SAVING.get(error.code)
    if telling is None:
        return refusal(error, tongue=tongue)
    return telling(with_path(Told(error.params, tongue)))


_REFUSALS = TYPED | VALUES | EDITS


def _check_words(check: Check) -> CheckWords:
    return CHECK_WORDS.get(check.code, UNKNOWN_CHECK)


def _mend_words(mend: Mend) -> MendWords:
    return MEND_WORDS.get(mend.code, UNKNOWN_MEND)
