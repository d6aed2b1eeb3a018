"""What is said of a yarn beside its picture.

The rule of this module: lengths are of plied yarn, what is left over of singles, and each says which where it
could be taken for the other.
"""

from __future__ import annotations

from collections.abc import Sequence

from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.figures import YarnFigures, YarnRun
from studio_gui.domain.spinning.simulation import Band, Spins
from studio_gui.wording.naming import one_line
from studio_gui.wording.quantities import (
    GRIST,
    LAY_LENGTH,
    ROVING_LENGTH,
    SHARE,
    YARN_LENGTH,
    Kind,
    shown,
    shown_briefly,
    shown_span,
)
from studio_gui.wording.translation import TRANSLATED, Tongue


def letters_of(plan: Plan, liquors: Sequence[int]) -> str:
    """Return the letters of liquors side by side, strand A first: "A/D"; once, where they are all the same.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> letters_of(new_plan(), (0, 1)), letters_of(new_plan(), (0, 0))
    ('A/B', 'A')
    """
    several = liquors if len(set(liquors)) > 1 else liquors[:1]
    return "/".join(one_line(plan.liquors[liquor].letter) for liquor in several)


def run_words(plan: Plan, run: YarnRun, tongue: Tongue = TRANSLATED) -> str:
    """Return one stretch of the yarn in words: "Barber-pole A/D, 51 m, from 60 m on"."""
    sentence = (
        tongue.translate("Yarn", "Solid {0}, {1}, from {2} on")
        if run.solid
        else tongue.translate("Yarn", "Barber-pole {0}, {1}, from {2} on")
    )
    names = tuple(dict.fromkeys(run.liquors)) if run.solid else run.liquors
    length = shown_briefly(ROVING_LENGTH, run.end_m - run.start_m, tongue)
    return sentence.format(letters_of(plan, names), length, shown_briefly(ROVING_LENGTH, run.start_m, tongue))


def yarn_length(yarn: YarnFigures, tongue: Tongue = TRANSLATED) -> str:
    """Return how long the plied yarn is, as it stands beside its picture: "712.5 m"."""
    return shown_briefly(YARN_LENGTH, yarn.plied_m, tongue)


def solid_words(yarn: YarnFigures, tongue: Tongue = TRANSLATED) -> str:
    """Return how much of the yarn is solid, as it stands beside its map: "solid 23.8 %"."""
    return tongue.translate("Yarn", "solid {0}").format(shown_briefly(SHARE, yarn.solid_share, tongue))


def yarn_line(yarn: YarnFigures, structure: str, tongue: Tongue = TRANSLATED) -> str:
    """Return the line beneath the picture: what is solid, what is not, what is left over, the structure."""
    parts = [
        tongue.translate("Yarn", "Solid {0}").format(_metres(yarn.solid_m, tongue)),
        tongue.translate("Yarn", "Barber-pole {0}").format(_metres(yarn.plied_m - yarn.solid_m, tongue)),
    ]
    left_m = max(yarn.leftover_m)
    if left_m > 0.0:
        share = shown_briefly(SHARE, yarn.leftover_share, tongue)
        words = tongue.translate("Yarn", "Left on one bobbin {0} ({1})")
        parts.append(words.format(_metres(left_m, tongue), share))
    if yarn.is_chain:
        words = tongue.translate("Yarn", "Changes mix {0} in all, before take-up")
        parts.append(words.format(_metres(float(yarn.smear_m.sum()), tongue)))
    parts.append(structure)
    parts.append(tongue.translate("Yarn", "twist not to scale"))
    return " · ".join(parts)


def yarn_figures_told(yarn: YarnFigures, tongue: Tongue = TRANSLATED) -> dict[str, str]:
    """Return the figures of a yarn: length, grist, solid, barber_pole; of a chain smear_each, smear_all."""
    at_worst = tongue.translate("Yarn", "{0}, {1} at worst, before take-up")
    pole_m = yarn.barber_pole_m
    return {
        "length": shown(YARN_LENGTH, yarn.plied_m, tongue),
        "grist": shown(GRIST, yarn.m_per_g, tongue),
        "solid": _share_and_metres(yarn.solid_share, yarn.solid_m, tongue),
        "barber_pole": _share_and_metres(yarn.share(pole_m), pole_m, tongue),
        "smear_each": at_worst.format(
            shown(LAY_LENGTH, yarn.smear_each_m, tongue), shown(LAY_LENGTH, yarn.plan.yarn.loop_m, tongue)
        ),
        "smear_all": at_worst.format(
            shown(LAY_LENGTH, float(yarn.smear_m.sum()), tongue),
            shown(LAY_LENGTH, yarn.smear_worst_m, tongue),
        ),
    }


def _share_and_metres(share: float, metres: float, tongue: Tongue) -> str:
    return f"{shown(SHARE, share, tongue)} · {shown(YARN_LENGTH, metres, tongue)}"


def spins_line(spins: Spins, tongue: Tongue = TRANSLATED) -> str:
    """Return where four spins of five lie: solid share, what is left over, how far colours slide apart.

    Singles are solid however they are spun: of them the length is told.
    """
    if len(spins.typical.strands) == 1 and not spins.typical.is_chain:
        words = tongue.translate("Yarn", "Four spins of five: {0} of yarn")
        return words.format(_span(YARN_LENGTH, spins.plied_m, tongue))
    words = tongue.translate("Yarn", "Four spins of five: solid {0}")
    parts = [words.format(_span(SHARE, spins.solid_share, tongue))]
    if spins.leftover_m.high > 0.0:
        words = tongue.translate("Yarn", "left on one bobbin {0}")
        parts.append(words.format(_span(YARN_LENGTH, spins.leftover_m, tongue)))
    if spins.slide_m is not None and spins.slide_m.high > 0.0:
        words = tongue.translate("Yarn", "colours slide {0} apart")
        parts.append(words.format(_span(YARN_LENGTH, spins.slide_m, tongue)))
    return " · ".join(parts)


def _span(kind: Kind, band: Band, tongue: Tongue) -> str:
    return shown_span(kind, band.low, band.high, tongue)


def _metres(length_m: float, tongue: Tongue) -> str:
    return shown_briefly(YARN_LENGTH, abs(length_m) if abs(length_m) < 1e-6 else length_m, tongue)
