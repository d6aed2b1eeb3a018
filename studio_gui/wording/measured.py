"""What measurements say: figures that could be used, and what lots that were painted tell.

The rule of this module: what is only a bound is said as a bound. Lots are named by the
numbers that they have on the screen.
"""

from __future__ import annotations

from collections.abc import Sequence

from studio_gui.domain.lots import Bounds, Clash, Learned, Lot
from studio_gui.wording.fields import FIELD_KINDS, field_name
from studio_gui.wording.quantities import WETNESS, shown, shown_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue


def proposal(field: str, now: float, then: float, tongue: Tongue = TRANSLATED) -> str:
    """Return "Soak: 0.95 ml/g instead of 1.00 ml/g"; where both read the same, that it stays."""
    kind, name = FIELD_KINDS[field], field_name(field, tongue)
    figures = {"name": name, "now": shown(kind, now, tongue), "then": shown(kind, then, tongue)}
    if figures["now"] == figures["then"]:
        return tongue.translate("Measured", "{name}: {now}, as it is").format(**figures)
    return tongue.translate("Measured", "{name}: {then} instead of {now}").format(**figures)


def where_from(
    field: str, value: float, common: float, *, measured: bool, tongue: Tongue = TRANSLATED
) -> str:
    """Return where the figure of a field is from: measured, `common` practice, or the user's own."""
    practice = shown_briefly(FIELD_KINDS[field], common, tongue)
    if measured:
        return tongue.translate("Measured", "Measured; common practice, without a source, is {0}.").format(
            practice
        )
    if value == common:
        return tongue.translate(
            "Measured", "{0} is common practice, without a source: put in what you find yourself."
        ).format(practice)
    return tongue.translate("Measured", "Your own; common practice, without a source, is {0}.").format(
        practice
    )


def void_hint(void_ml_per_g: float, limit_ml_per_g: float, tongue: Tongue = TRANSLATED) -> str:
    """Return what the room between the fibres says of a holding limit: an upper bound and no more."""
    void = shown(WETNESS, void_ml_per_g, tongue)
    if limit_ml_per_g > void_ml_per_g:
        return tongue.translate(
            "Measured",
            "Between its fibres there is room for {void} only: the soaked tuft dripped, or was weighed with"
            " its wrapping. Weigh again.",
        ).format(void=void)
    return tongue.translate(
        "Measured", "Between its fibres there is room for {void}; no holding limit is above that."
    ).format(void=void)


def told_by_lots(
    learned: Learned, lots: Sequence[Lot], numbers: Sequence[int], tongue: Tongue = TRANSLATED
) -> list[str]:
    """Return what lots, called by their numbers, tell, a sentence each: clashes before what they bound."""
    if not lots:
        return [tongue.translate("Measured", "Enter a lot: its fibre, its liquid, and what was seen.")]
    sentences = [_clash(clash, lots, numbers, tongue) for clash in learned.clashes]
    return [*sentences, *_penetration(learned.penetration, tongue), *_limit(learned.limit, tongue)]


def _clash(clash: Clash, lots: Sequence[Lot], numbers: Sequence[int], tongue: Tongue) -> str:
    amiss, right = lots[clash.amiss], lots[clash.right]
    if clash.seen == "white core":
        sentence = tongue.translate(
            "Measured",
            "Lot {amiss} had a white core with {amiss_figure}, and lot {right} came out right with"
            " {right_figure}. Both cannot be true of one fibre: check them.",
        )
        figures = amiss.applied_ml_per_g, right.applied_ml_per_g
    else:
        sentence = tongue.translate(
            "Measured",
            "Lot {amiss} pooled with {amiss_figure} in it, and lot {right} came out right with"
            " {right_figure}. Both cannot be true of one fibre: check them.",
        )
        figures = amiss.held_ml_per_g, right.held_ml_per_g
    return sentence.format(
        amiss=numbers[clash.amiss],
        right=numbers[clash.right],
        amiss_figure=shown(WETNESS, figures[0], tongue),
        right_figure=shown(WETNESS, figures[1], tongue),
    )


def _penetration(bounds: Bounds, tongue: Tongue) -> list[str]:
    if bounds.low is None and bounds.high is None:
        return []
    if bounds.high is None:
        sentence = tongue.translate("Measured", "The core takes more than {low} to wet.")
    elif bounds.low is None:
        sentence = tongue.translate("Measured", "The core wets at {high}, perhaps at less.")
    else:
        sentence = tongue.translate(
            "Measured", "The core wets somewhere above {low}, at {high} at the latest."
        )
    return [_bounded(sentence, bounds, tongue)]


def _limit(bounds: Bounds, tongue: Tongue) -> list[str]:
    if bounds.low is None and bounds.high is None:
        return []
    if bounds.high is None:
        sentence = tongue.translate(
            "Measured", "The fibre holds {low}, soak and liquor together, perhaps more."
        )
    elif bounds.low is None:
        sentence = tongue.translate("Measured", "The fibre holds less than {high}, soak and liquor together.")
    else:
        sentence = tongue.translate(
            "Measured", "The fibre holds {low}, soak and liquor together, and less than {high}."
        )
    return [_bounded(sentence, bounds, tongue)]


def _bounded(sentence: str, bounds: Bounds, tongue: Tongue) -> str:
    low, high = (
        "" if figure is None else shown(WETNESS, figure, tongue) for figure in (bounds.low, bounds.high)
    )
    return sentence.format(low=low, high=high)
