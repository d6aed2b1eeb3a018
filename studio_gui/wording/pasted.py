"""What is said of a list of lengths that was pasted: what it did, or what can be done with it.

The rule of this module: how many were found, how many are needed, and by how much they were scaled; what was
typed and not taken is quoted, so that it is not lost.
"""

from __future__ import annotations

from studio_gui.wording.naming import one_line
from studio_gui.wording.numbers import shown_number_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue

FACTOR_DECIMALS = 4


def lengths_taken(count: int, factor: float, tongue: Tongue = TRANSLATED) -> str:
    """Return what pasted lengths did: how many were taken, and by what they were multiplied."""
    scaled = shown_number_briefly(factor, FACTOR_DECIMALS, tongue)
    if scaled == "1":
        return tongue.translate("Pasted", "Lengths taken as they are: {count}.").format(count=count)
    return tongue.translate(
        "Pasted", "Lengths taken: {count}, each multiplied by {factor} to fill the place they are for."
    ).format(count=count, factor=scaled)


def lengths_do_not_fit(count: int, sections: int, chosen: int, tongue: Tongue = TRANSLATED) -> str:
    """Return how many lengths were found, and how many are needed."""
    if 1 < chosen < sections:
        return tongue.translate(
            "Pasted", "Lengths found: {count}. Needed: {chosen} for the chosen sections, {sections} for all."
        ).format(count=count, chosen=chosen, sections=sections)
    return tongue.translate(
        "Pasted", "Lengths found: {count}. Needed: {sections}, one for each section."
    ).format(count=count, sections=sections)


def sections_could_be_made(count: int, sections: int, tongue: Tongue = TRANSLATED) -> str:
    """Return what making sections from the list would do."""
    if count > sections:
        return tongue.translate(
            "Pasted",
            "Sections can be made of the list. The order of the liquors then begins anew after the last"
            " section.",
        )
    return tongue.translate(
        "Pasted",
        "Sections can be made of the list. The first then keep their liquors, and the last {gone} are taken"
        " out.",
    ).format(gone=sections - count)


def not_taken(typed: str, sentence: str, tongue: Tongue = TRANSLATED) -> str:
    """Return a refusal with what was typed, unless the sentence quotes it already.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> not_taken("80", "C Kelp is locked.", ENGLISH)
    'C Kelp is locked. “80” was not taken.'
    """
    if not typed or f"“{typed.strip()}”" in sentence:
        return sentence
    return tongue.translate("Pasted", "{sentence} “{typed}” was not taken.").format(
        typed=one_line(typed), sentence=sentence
    )
