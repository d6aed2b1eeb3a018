"""How the yarn of a plan is spun, step by step, in plain words.

The rule of this module: each step is one thing that hands do, in their order; ends are called as the lay
marks them, and every number is the worksheet's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from studio_gui.domain.spinning.figures import YarnFigures
from studio_gui.domain.worksheet import Worksheet
from studio_gui.domain.yarn import Strip, Structure
from studio_gui.wording.halves_words import spin_words
from studio_gui.wording.naming import in_a_row
from studio_gui.wording.quantities import (
    GRIST,
    LAY_LENGTH,
    MASS,
    SHARE,
    TEX,
    YARN_LENGTH,
    shown,
    shown_briefly,
)
from studio_gui.wording.translation import TRANSLATED, Tongue


def spin_steps(sheet: Worksheet, tongue: Tongue = TRANSLATED) -> tuple[str, ...]:
    """Return the steps from the dyed rovings to the yarn.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> from studio_gui.domain.worksheet import worksheet
    >>> from studio_gui.wording.translation import ENGLISH
    >>> spin_steps(worksheet(new_plan()), ENGLISH)[0]
    'Spin singles of 10.00 m/g (100 tex).'
    """
    plan = sheet.plan
    steps = [_singles(plan.yarn.singles_m_per_g, tongue), *_STEPS[plan.yarn.structure](sheet, tongue)]
    steps.append(_result(sheet.yarn, tongue))
    if plan.fibre.rovings > 1 and plan.yarn.structure not in ("rovings", "free"):
        words = tongue.translate("SpinSteps", "Do the same with each of the {0} rovings.")
        steps.append(words.format(plan.fibre.rovings))
    return tuple(steps)


def _singles(m_per_g: float, tongue: Tongue) -> str:
    words = tongue.translate("SpinSteps", "Spin singles of {0} ({1}).")
    return words.format(shown(GRIST, m_per_g, tongue), shown_briefly(TEX, 1.0 / m_per_g, tongue))


def _result(yarn: YarnFigures, tongue: Tongue) -> str:
    if yarn.plied_m <= 0.0:
        return tongue.translate("SpinSteps", "No yarn comes of it: one of the bobbins has nothing to ply.")
    words = tongue.translate("SpinSteps", "This makes {0} of yarn.")
    left_m = max(yarn.leftover_m)
    if left_m > 0.0:
        words = tongue.translate("SpinSteps", "This makes {0} of yarn; {1} stay on one bobbin.")
    return words.format(shown(YARN_LENGTH, yarn.plied_m, tongue), shown(YARN_LENGTH, left_m, tongue))


def _whole(tongue: Tongue) -> str:
    return tongue.translate("SpinSteps", "Begin at the end marked start and spin the whole roving in one go.")


def _unplied(tongue: Tongue) -> str:
    return tongue.translate("SpinSteps", "Leave it unplied.")


def _ply_together(yarn: YarnFigures, tongue: Tongue) -> Iterator[str]:
    """Yield how bobbins are plied from their starts, as the figures of the yarn have it."""
    count = len(yarn.strands)
    if count > 1:
        yield tongue.translate("SpinSteps", "Rewind the bobbins, so that what was spun first is plied first.")
    for number, strand in enumerate(yarn.strands, start=1):
        if strand.ply.offset_m > 0.0:
            words = tongue.translate("SpinSteps", "Wind the first {0} of singles off bobbin {1}.")
            yield words.format(shown_briefly(YARN_LENGTH, strand.ply.offset_m, tongue), number)
    if count > 1:
        yield tongue.translate("SpinSteps", "Ply the {0} bobbins together.").format(count)
    else:
        yield _unplied(tongue)


def _single(_: Worksheet, tongue: Tongue) -> Iterator[str]:
    yield _whole(tongue)
    yield _unplied(tongue)


def _both_ends(sheet: Worksheet, tongue: Tongue) -> Iterator[str]:
    yield spin_words(sheet.halves, tongue)


def _broken(sheet: Worksheet, tongue: Tongue) -> Iterator[str]:
    yield spin_words(sheet.halves, tongue)
    yield from _ply_together(sheet.yarn, tongue)


def _lengthwise(sheet: Worksheet, tongue: Tongue) -> Iterator[str]:
    strands = sheet.yarn.strands
    words = tongue.translate("SpinSteps", "Split the roving lengthwise into {0} parts: {1}.")
    yield words.format(len(strands), _weights(sheet.yarn, tongue))
    yield tongue.translate(
        "SpinSteps", "Spin every part from the end marked start, onto a bobbin of its own."
    )
    yield from _ply_together(sheet.yarn, tongue)


def _fractal(sheet: Worksheet, tongue: Tongue) -> Iterator[str]:
    yarn = sheet.yarn
    words = tongue.translate("SpinSteps", "Split the roving lengthwise in two: {0}.")
    yield words.format(_weights(yarn, tongue))
    yield tongue.translate("SpinSteps", "Ply 1: spin the first part whole, from the end marked start.")
    strips = yarn.strands[1].ply.strips
    words = (
        tongue.translate("SpinSteps", "Ply 2: spin the second part whole, from the end marked start.")
        if len(strips) == 1
        else tongue.translate(
            "SpinSteps",
            "Ply 2: split the second part lengthwise into {0} strips and spin them one after the other, each"
            " from the end marked start.",
        )
    )
    yield " ".join((words.format(len(strips)), *_flipped(strips, tongue)))
    yield from _ply_together(sheet.yarn, tongue)


def _chain(sheet: Worksheet, tongue: Tongue) -> Iterator[str]:
    """Yield the steps of a chain; ending a loop at a change is common practice, no source."""
    yield _whole(tongue)
    words = tongue.translate("SpinSteps", "Ply it as a chain of three strands, with loops of about {0}.")
    yield words.format(shown_briefly(LAY_LENGTH, sheet.plan.yarn.loop_m, tongue))
    if sheet.yarn.smear_each_m > 0.0:
        words = tongue.translate("SpinSteps", "To keep a change of colour short, end a loop where it comes.")
        yield words


def _rovings(sheet: Worksheet, tongue: Tongue) -> Iterator[str]:
    strands = sheet.yarn.strands
    if len(strands) == 1:
        yield _whole(tongue)
    else:
        words = tongue.translate(
            "SpinSteps", "Spin {0} rovings, each from the end marked start onto a bobbin of its own."
        )
        yield words.format(len(strands))
    yield from _ply_together(sheet.yarn, tongue)


def _free(sheet: Worksheet, tongue: Tongue) -> Iterator[str]:
    plies = [one.ply for one in sheet.yarn.strands]
    for number, ply in enumerate(plies, start=1):
        words = tongue.translate(
            "SpinSteps", "Ply {ply}: roving {roving}, from {start} to {end} of its weight"
        )
        parts = [
            words.format(
                ply=number,
                roving=ply.roving,
                start=shown_briefly(SHARE, ply.from_share, tongue),
                end=shown_briefly(SHARE, ply.to_share, tongue),
            )
        ]
        if ply.cross_section < 1.0:
            words = tongue.translate("SpinSteps", "{0} of its thickness")
            parts.append(words.format(shown_briefly(SHARE, ply.cross_section, tongue)))
        if len(ply.strips) > 1:
            words = tongue.translate("SpinSteps", "split into {0} strips, one after the other")
            parts.append(words.format(len(ply.strips)))
        yield " ".join((f"{', '.join(parts)}.", *_flipped(ply.strips, tongue)))
    yield from _ply_together(sheet.yarn, tongue)


def _weights(yarn: YarnFigures, tongue: Tongue) -> str:
    grams = [shown_briefly(MASS, one.length_m / one.m_per_g, tongue) for one in yarn.strands]
    return in_a_row(grams, tongue)


def _flipped(strips: tuple[Strip, ...], tongue: Tongue) -> Iterator[str]:
    turned = [str(number) for number, strip in enumerate(strips, start=1) if strip.flipped]
    if turned:
        words = tongue.translate("SpinSteps", "But from the other end: strip {0}.")
        yield words.format(in_a_row(turned, tongue))


_STEPS: dict[Structure, Callable[[Worksheet, Tongue], Iterator[str]]] = {
    "single": _single,
    "both ends": _both_ends,
    "broken at the fold": _broken,
    "lengthwise": _lengthwise,
    "fractal": _fractal,
    "chain": _chain,
    "rovings": _rovings,
    "free": _free,
}
