"""Checks of the yarn.

The rule of this module: what a plan cannot help is not spoken of. The two ends of one ball, and a chain,
leave nothing over by construction.
"""

from __future__ import annotations

from collections.abc import Iterator

from studio_gui.domain.checks.check import Check, Mend, Severity
from studio_gui.domain.errors import Param
from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.ranges import exceeds
from studio_gui.domain.spinning.advice import (
    Offer,
    least_length_m,
    short_sections,
    structures_that_would_do,
)
from studio_gui.domain.spinning.figures import leftovers_m, strands_of
from studio_gui.domain.yarn import Structure

#: What leaves nothing over; and the broken roving, whose halves have a check of their own.
_NOT_ASKED: tuple[Structure, ...] = ("single", "both ends", "chain", "broken at the fold")


def leftover(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``leftover`` where more of a strand is left than the plan calls worth a note, or a warning."""
    yarn = figures.plan.yarn
    if yarn.structure in _NOT_ASKED:
        return
    strands = strands_of(figures.plan)
    left_m = leftovers_m(strands, min(one.usable_m for one in strands))
    most = max(range(len(strands)), key=left_m.__getitem__)
    share = left_m[most] / max(one.length_m for one in strands)
    severity = leftover_severity(share, yarn.note_share, yarn.warn_share)
    if severity is not None:
        params: dict[str, Param] = {
            "ply": most + 1,
            "left_singles_m": left_m[most],
            "left_g": left_m[most] / strands[most].m_per_g,
            "left_share": share,
        }
        yield Check("leftover", severity, (), params)


def leftover_severity(share: float, note_share: float, warn_share: float) -> Severity | None:
    """Return how bad it is that `share` of the longest strand is left; a limit hit exactly is inside it.

    >>> leftover_severity(0.03, 0.01, 0.03), leftover_severity(0.01, 0.01, 0.03)
    ('note', None)
    """
    if exceeds(share, warn_share):
        return "warning"
    return "note" if exceeds(share, note_share) else None


def stripe_too_short(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``stripe-too-short`` once, naming sections too short for the staple, and what would do.

    They are judged by what they are on a roving, and only where both neighbours look clearly different.
    """
    plan = figures.plan
    short = {
        index: length_m
        for index, length_m in short_sections(figures).items()
        if figures.paintable[index]  # of others, nothing else is said
    }
    if not short:
        return
    shortest_m = min(short.values())
    params: dict[str, Param] = {
        "shortest_m": shortest_m,
        "least_m": least_length_m(plan.yarn),
        "staple_m": plan.yarn.staple_m,
        "count": len(short),
    }
    mends = tuple(_instead(offer) for offer in structures_that_would_do(plan, shortest_m))
    yield Check("stripe-too-short", "note", tuple(plan.sections[index].id for index in short), params, mends)


def _instead(offer: Offer) -> Mend:
    """Return the advice to spin in another structure; nothing can be clicked, for the sections change too."""
    params: dict[str, Param] = {
        "length_m": offer.length_m,
        "needed_g": offer.needed_g,
        "available_g": offer.available_g,
    }
    match offer.structure, offer.plies:
        case "both ends", _:
            return Mend("both-ends-instead", params, one_click=False)
        case "fractal", _:
            return Mend("fractal-instead", params, one_click=False)
        case "chain", _:
            return Mend("chain-instead", params, one_click=False)
        case _, 2:
            return Mend("two-plies-instead", params, one_click=False)
        case _:
            return Mend("three-plies-instead", params, one_click=False)
