"""How sections, liquors, stocks and files are named in sentences.

The rule of this module: a section is named by its liquor's letter and its own name, as its slip on the film
is. Texts that somebody typed are made fit for one line: no breaks, no direction marks that could turn the
rest of the sentence round, and cut where they are very long.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from functools import lru_cache

from studio_gui.domain.plan import Plan
from studio_gui.wording.translation import TRANSLATED, Tongue

LONGEST_NAME = 60
MOST_NAMES_IN_A_ROW = 3

_RIGHT_TO_LEFT = frozenset({"R", "AL", "AN"})
_DIRECTING = frozenset({"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"})
_UNPRINTABLE = frozenset({"Cc", "Cs"})


@lru_cache(maxsize=2048)
def one_line(text: str, longest: int = LONGEST_NAME) -> str:
    r"""Return `text` fit to stand inside a sentence of any language.

    A text with letters written from the right is set apart by invisible marks (first-strong isolate), as the
    Unicode Bidirectional Algorithm (Unicode Standard Annex 9) asks.

    >>> one_line("two\u2028lines")
    'two lines'
    """
    plain = "".join(
        "\ufffd" if unicodedata.category(character) in _UNPRINTABLE else character
        for character in " ".join(text.split())
        if unicodedata.bidirectional(character) not in _DIRECTING
    )
    if len(plain) > longest:
        plain = plain[: longest - 1].rstrip() + "…"
    if any(unicodedata.bidirectional(character) in _RIGHT_TO_LEFT for character in plain):
        return f"\u2068{plain}\u2069"
    return plain


def section_name(plan: Plan, section_id: str, tongue: Tongue = TRANSLATED) -> str:
    """Return "C Kelp", or "C" where there is no name; where others are called the same, with its place."""
    ids = [section.id for section in plan.sections]
    if section_id not in ids:
        return one_line(section_id)
    section = plan.sections[ids.index(section_id)]
    name = one_line(f"{section_letter(plan, section_id)} {section.name}")
    alike = (one.name == section.name and one.liquor_id == section.liquor_id for one in plan.sections)
    if sum(alike) == 1:
        return name
    place = ids.index(section_id) + 1
    return tongue.translate("Names", "{name} (section {place})").format(name=name, place=place)


def section_letter(plan: Plan, section_id: str) -> str:
    """Return the letter of the liquor that a section is painted with; "" for one that is not in the plan."""
    letters = {liquor.id: liquor.letter for liquor in plan.liquors}
    return next((letters[one.liquor_id] for one in plan.sections if one.id == section_id), "")


def liquor_name(plan: Plan, liquor_id: str) -> str:
    """Return letter and name of a liquor, "C Kelp"."""
    found = (f"{one.letter} {one.name}" for one in plan.liquors if one.id == liquor_id)
    return one_line(next(found, liquor_id))


def stock_name(plan: Plan, stock_id: str) -> str:
    """Return the name of a stock."""
    return one_line(next((one.name for one in plan.stocks if one.id == stock_id), stock_id))


def section_names(plan: Plan, section_ids: Sequence[str], tongue: Tongue = TRANSLATED) -> str:
    """Return the names of sections in a row; of many, the first few and how many more there are."""
    names = [section_name(plan, section_id, tongue) for section_id in section_ids[:MOST_NAMES_IN_A_ROW]]
    return some_in_a_row(names, len(section_ids), tongue)


def some_in_a_row(names: Sequence[str], count: int, tongue: Tongue = TRANSLATED) -> str:
    """Return the first few of `count` names in a row, and how many more there are.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> some_in_a_row(["A", "B", "C", "D"], 10, ENGLISH)
    'A, B, C and 7 more'
    """
    some = list(names[:MOST_NAMES_IN_A_ROW])
    more = count - len(some)
    if more:
        some.append(tongue.translate("Names", "{count} more").format(count=more))
    return in_a_row(some, tongue)


def section_letters(plan: Plan, section_ids: Iterable[str], tongue: Tongue = TRANSLATED) -> str:
    """Return the letters of sections in a row, each once."""
    letters = (one_line(section_letter(plan, section_id)) for section_id in section_ids)
    return in_a_row(list(dict.fromkeys(letter for letter in letters if letter)), tongue)


def in_a_row(names: Sequence[str], tongue: Tongue = TRANSLATED) -> str:
    """Return "A, B and C".

    >>> from studio_gui.wording.translation import ENGLISH
    >>> in_a_row(["A", "B", "C"], ENGLISH), in_a_row(["A"], ENGLISH)
    ('A, B and C', 'A')
    """
    if len(names) < 2:
        return "".join(names)
    template = tongue.translate("Names", "{earlier} and {last}")
    return template.format(earlier=", ".join(names[:-1]), last=names[-1])


def neighbour_letters(plan: Plan, section_id: str, tongue: Tongue = TRANSLATED) -> str:
    """Return the letters of the sections on both sides of one, "B and D"; "" where there are none."""
    ids = [section.id for section in plan.sections]
    if section_id not in ids:
        return ""
    here = ids.index(section_id)
    return section_letters(plan, [*ids[max(here - 1, 0) : here], *ids[here + 1 : here + 2]], tongue)
