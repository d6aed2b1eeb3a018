"""One yarn in all the counts that spinners of wool speak of.

The rule of this module: one line says the same thickness in each of them. Cotton count and denier, which say
nothing of wool, may be typed and are not said.
"""

from __future__ import annotations

from studio_gui.domain.yarn_counts import CountName, count_of, draft
from studio_gui.wording.numbers import shown_number_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue

#: From here on a count is said without decimals.
_LARGE = 100.0


def counts_words(m_per_g: float, tongue: Tongue = TRANSLATED) -> str:
    """Return what a yarn of `m_per_g` counts, for a tooltip, whatever units are chosen.

    Source of the counts: ASTM D2260-03 (2013), Table 1. Raises ``out-of-range`` for a grist of 0 or less.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> counts_words(10.0, ENGLISH)
    '100 tex · 10 Nm · 8.9 worsted · 3.1 run · 310 yd/oz · 4961 yd/lb'
    """
    words: dict[CountName, str] = {
        "tex": "{0} tex",
        "Nm": "{0} Nm",
        "worsted": tongue.translate("Counts", "{0} worsted"),
        "run": tongue.translate("Counts", "{0} run"),
        "yd/oz": "{0} yd/oz",
        "yd/lb": "{0} yd/lb",
    }
    return " · ".join(said.format(_count(name, m_per_g, tongue)) for name, said in words.items())


def draft_words(g_per_m: float, m_per_g: float, tongue: Tongue = TRANSLATED) -> str:
    """Return how far a top of `g_per_m` is drawn out for singles of `m_per_g`: "draft 250 to 1".

    Source and errors as `studio_gui.domain.yarn_counts.draft`.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> draft_words(25.0, 10.0, ENGLISH)
    'draft 250 to 1'
    """
    drawn = draft(g_per_m, count_of("tex", m_per_g))
    return tongue.translate("Counts", "draft {0} to 1").format(
        shown_number_briefly(drawn, 0 if drawn >= _LARGE else 1, tongue)
    )


def _count(name: CountName, m_per_g: float, tongue: Tongue) -> str:
    value = count_of(name, m_per_g)
    return shown_number_briefly(value, 0 if value >= _LARGE else 1, tongue)
