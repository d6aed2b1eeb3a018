"""How well a dye's curve meets the samples it was fitted to, and which sample is to blame where it does not.

The rule of this module: differences are CIEDE2000 and the limits are our choices; equal to a limit is within
it. A lone sample that is missed was usually dyed on whiter fibre than was entered, because a curve through
one point has nothing else to miss it for; so was any that gives back more blue light than its fibre. Of two
samples that disagree neither is blamed; of three or more only the one that contradicts all others.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from studio_gui.domain.ranges import exceeds

Verdict = Literal["met", "whiter fibre", "doubtful", "missed", "led astray", "one of two", "at odds"]

LONE_LIMIT = 0.5
DOUBTFUL_LIMIT = 1.5
MISSED_LIMIT = 3.0
_PAIR = 2


def verdicts(
    misses: Sequence[float], odd_one: int | None = None, outshining: Sequence[bool] = ()
) -> tuple[Verdict, ...]:
    """Return what to say of each sample of a dye whose curve misses them by `misses`.

    Those `outshining` their fibre, by `bluer_than_fibre`, cannot have been dyed on it. `odd_one`, from 0,
    contradicts all others: it is doubtful or missed, and others that are missed are led astray by it. It
    counts only if it is missed itself.

    >>> verdicts([0.4]), verdicts([0.8]), verdicts([0.2, 1.8, 4.1], 2)
    (('met',), ('whiter fibre',), ('met', 'led astray', 'missed'))
    >>> verdicts([0.2, 1.8]), verdicts([0.2, 1.8, 1.9])
    (('one of two', 'one of two'), ('met', 'at odds', 'at odds'))
    """
    if odd_one is not None and not exceeds(misses[odd_one], DOUBTFUL_LIMIT):
        odd_one = None
    said = list(_by_figures(misses, odd_one))
    for place, outshines in enumerate(outshining):
        if outshines and exceeds(misses[place], LONE_LIMIT):
            said[place] = "whiter fibre"
    return tuple(said)


def _by_figures(misses: Sequence[float], odd_one: int | None) -> list[Verdict]:
    if len(misses) == 1:
        return [_of_one_alone(misses[0])]
    if len(misses) == _PAIR:
        return ["one of two" if exceeds(max(misses), DOUBTFUL_LIMIT) else "met"] * _PAIR
    return [_of_several(miss, place, odd_one) for place, miss in enumerate(misses)]


def _of_one_alone(miss: float) -> Verdict:
    if exceeds(miss, MISSED_LIMIT):
        return "missed"
    return "whiter fibre" if exceeds(miss, LONE_LIMIT) else "met"


def _of_several(miss: float, place: int, odd_one: int | None) -> Verdict:
    if not exceeds(miss, DOUBTFUL_LIMIT):
        return "met"
    if odd_one is None:
        return "at odds"
    if place != odd_one:
        return "led astray"
    return "missed" if exceeds(miss, MISSED_LIMIT) else "doubtful"
