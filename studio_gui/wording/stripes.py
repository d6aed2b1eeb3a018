"""Wanted stripes in words: how they are typed, whether they fit, and what comes of them.

The rule of this module: an answer says what is left or missing in grams, in metres and in rows. A number
typed for a stripe is in what the stripe is counted in, unless it says otherwise.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import checked
from studio_gui.domain.spinning.advice import Offer, least_length_m
from studio_gui.domain.spinning.stripes import SectionRows, StripePlan
from studio_gui.domain.spinning.yarn_map import governing_ply
from studio_gui.domain.yarn import Stripe, StripeMeasure
from studio_gui.wording.naming import in_a_row, one_line
from studio_gui.wording.quantities import (
    LAY_LENGTH,
    MASS,
    ROWS,
    YARN_LENGTH,
    Kind,
    parse_quantity,
    shown_bare,
    shown_briefly,
)
from studio_gui.wording.translation import TRANSLATED, Tongue

#: How many sections are told one by one.
MOST_SECTIONS_TOLD = 12
#: Less of a roving than this share that is in no yarn is not worth a word.
LEAST_IDLE_SHARE = 1e-3
#: How many stripes that are too short are named.
MOST_SHORT_TOLD = 3
NO_BREAK = "\u00a0"


def kind_of(measure: StripeMeasure) -> Kind:
    """Return how the amount of a stripe is shown."""
    return ROWS if measure == "rows" else YARN_LENGTH


def bare_amount(stripe: Stripe, tongue: Tongue = TRANSLATED) -> str:
    """Return the amount of a stripe without its unit; rows, which are counted, as briefly as can be.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> bare_amount(Stripe("a", 8.0), ENGLISH), bare_amount(Stripe("a", 8.0, "metres"), ENGLISH)
    ('8', '8.0')
    """
    if stripe.measure == "rows":
        return shown_briefly(ROWS, stripe.amount, tongue)
    return shown_bare(YARN_LENGTH, stripe.amount, tongue)


def measure_name(measure: StripeMeasure, tongue: Tongue = TRANSLATED) -> str:
    """Return what stripes are counted in: "rows", or the unit of lengths of yarn."""
    return tongue.translate("Stripes", "rows") if measure == "rows" else YARN_LENGTH.shown_in(tongue)[0]


def parse_stripe(
    text: str, measure: StripeMeasure, tongue: Tongue = TRANSLATED
) -> tuple[float, StripeMeasure]:
    """Return amount and measure that are typed for a stripe counted in `measure`: "8", "8 rows", "12 m".

    Raises
    ------
    InvalidPlan
        As `studio_gui.wording.quantities.parse_quantity`; ``out-of-range``.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> parse_stripe("12", "rows", ENGLISH), parse_stripe("12 m", "rows", ENGLISH)
    ((12.0, 'rows'), (12.0, 'metres'))
    """
    words = text.strip().casefold()
    for ending in (tongue.translate("Stripes", "rows"), tongue.translate("Stripes", "row")):
        if words.endswith(ending.casefold()):
            return checked("stripe_amount", parse_quantity(ROWS, words[: -len(ending)], tongue)), "rows"
    try:
        amount = parse_quantity(kind_of(measure), text, tongue)
    except InvalidPlan as problem:
        if measure == "metres" or problem.params.get("found") != "length":
            raise
        measure, amount = "metres", parse_quantity(YARN_LENGTH, text, tongue)
    return checked("stripe_amount", amount), measure


def stripe_name(plan: Plan, stripe: Stripe, tongue: Tongue = TRANSLATED) -> str:
    """Return letter and amount of a stripe: "A, 8 rows"."""
    letter = one_line(plan.liquor(stripe.liquor_id).letter)
    return f"{letter}, {_amount(stripe.amount, stripe.measure, tongue)}"


def ply_name(plan: Plan, ply: int, tongue: Tongue = TRANSLATED) -> str:
    """Return what ply number `ply` (from 1) is called in a list of plies."""
    if plan.yarn.structure == "fractal":
        if ply == 1:
            return tongue.translate("Stripes", "1, whole")
        return tongue.translate("Stripes", "2, in strips")
    return str(ply)


def fit_words(laid: StripePlan, tongue: Tongue = TRANSLATED) -> str:
    """Return whether the roving is enough for the stripes, with what is left or missing."""
    if not laid.yarn_m:
        return tongue.translate("Stripes", "No stripes yet. Add one, or take them from the sections.")
    figures = {
        "needed": shown_briefly(MASS, laid.needed_g, tongue),
        "there": shown_briefly(MASS, laid.available_g, tongue),
        "grams": shown_briefly(MASS, abs(laid.left_g), tongue),
        "metres": shown_briefly(YARN_LENGTH, abs(laid.left_m), tongue),
        "rows": shown_briefly(ROWS, abs(laid.left_rows), tongue),
    }
    if not laid.available_m > 0.0:
        sentence = tongue.translate(
            "Stripes", "There is no yarn to stripe: a strand is all wound off before plying."
        )
    elif laid.left_m > 0.0:
        sentence = tongue.translate(
            "Stripes",
            "Needs {needed} of {there}; {grams} left, which is {metres} of yarn or {rows} rows. The last"
            " stripe takes them.",
        )
    elif laid.fits:
        sentence = tongue.translate("Stripes", "Needs {needed} of {there}: nothing is left.")
    else:
        sentence = tongue.translate(
            "Stripes",
            "{grams} too much: needs {needed}, and there are {there}. Missing: {metres} of yarn or {rows}"
            " rows. Shorten stripes, knit narrower, or take a heavier roving.",
        )
    return sentence.format(**figures)


def place_words(laid: StripePlan, tongue: Tongue = TRANSLATED) -> str:
    """Return where the stripes lie and how often each comes, "" where each lies in one place."""
    plan, said = laid.plan, []
    idle_g = plan.fibre.mass_g - laid.available_g
    if (
        plan.yarn.structure != "free"
        and laid.available_g > 0.0
        and idle_g > LEAST_IDLE_SHARE * plan.fibre.mass_g
    ):
        said.append(
            tongue.translate(
                "Stripes", "{idle} of the roving’s {mass} come into no yarn: wound off, or left over."
            ).format(
                idle=shown_briefly(MASS, idle_g, tongue), mass=shown_briefly(MASS, plan.fibre.mass_g, tongue)
            )
        )
    if plan.fibre.rovings > 1:
        said.append(tongue.translate("Stripes", "Grams are of each roving."))
    if plan.yarn.structure == "free":
        said.append(
            tongue.translate("Stripes", "Planned on ply {0}, as far as its first fold.").format(
                (governing_ply(plan) or 0) + 1
            )
        )
    elif governing_ply(plan) == 1:
        said.append(
            tongue.translate(
                "Stripes", "A stripe comes back with each strip, {0} times in all; its rows are of that ply."
            ).format(laid.map.times)
        )
    elif laid.map.mirrored:
        said.append(
            tongue.translate(
                "Stripes", "Stripes lie on the first half of the lay and are mirrored on the second."
            )
        )
    elif laid.map.times > 1:
        said.append(
            tongue.translate(
                "Stripes", "On a folded lay the stripes come {0} times, every second time mirrored."
            ).format(laid.map.times)
        )
    return " ".join(said)


def short_words(
    laid: StripePlan, short: Mapping[int, float], offers: Sequence[Offer], tongue: Tongue = TRANSLATED
) -> str:
    """Return which stripes are too short for the staple, and what would do; "" where none is."""
    if not short:
        return ""
    stripes = laid.plan.yarn.stripes
    named = [
        tongue.translate("Stripes", "stripe {number} ({name})").format(
            number=index + 1, name=stripe_name(laid.plan, stripes[index], tongue)
        )
        for index in list(short)[:MOST_SHORT_TOLD]
    ]
    if len(short) > MOST_SHORT_TOLD:
        named.append(tongue.translate("Names", "{count} more").format(count=len(short) - MOST_SHORT_TOLD))
    sentence = tongue.translate(
        "Stripes",
        "Too short for the staple: {names}. {length} on the roving at the shortest, and under {least} no"
        " stripe stays clean.",
    ).format(
        names=in_a_row(named, tongue),
        length=shown_briefly(LAY_LENGTH, min(short.values()), tongue),
        least=shown_briefly(LAY_LENGTH, least_length_m(laid.plan.yarn), tongue),
    )
    return "\n".join([sentence, *(_offer(offer, tongue) for offer in offers)])


def sections_words(plan: Plan, rows: Sequence[SectionRows], tongue: Tongue = TRANSLATED) -> str:
    """Return what the sections come to: "As painted: A 95 rows, B 63.3 rows"; no size breaks in two."""
    told = []
    for one in rows[:MOST_SECTIONS_TOLD]:
        letter = one_line(plan.liquor(plan.sections[one.section_index].liquor_id).letter)
        told.append(f"{letter} {_amount(one.rows, 'rows', tongue)}".replace(" ", NO_BREAK))
    if len(rows) > MOST_SECTIONS_TOLD:
        told.append("…")
    return tongue.translate("Stripes", "As painted: {0}").format(", ".join(told)) if told else ""


def _offer(offer: Offer, tongue: Tongue) -> str:
    names = {
        ("both ends", 2): tongue.translate("Stripes", "Plied from both ends of one ball"),
        ("lengthwise", 2): tongue.translate("Stripes", "Split lengthwise into two plies"),
        ("lengthwise", 3): tongue.translate("Stripes", "Split lengthwise into three plies"),
        ("fractal", 2): tongue.translate("Stripes", "Fractal, on its whole ply"),
        ("chain", 3): tongue.translate("Stripes", "Plied as a chain"),
    }
    return tongue.translate(
        "Stripes", "{name}: {length} for the same rows; all stripes need {needed} of {there}."
    ).format(
        name=names[offer.structure, offer.plies],
        length=shown_briefly(LAY_LENGTH, offer.length_m, tongue),
        needed=shown_briefly(MASS, offer.needed_g, tongue),
        there=shown_briefly(MASS, offer.available_g, tongue),
    )


def _amount(amount: float, measure: StripeMeasure, tongue: Tongue) -> str:
    figure = shown_briefly(kind_of(measure), amount, tongue)
    if measure == "metres":
        return figure
    return tongue.translate("Stripes", "{0} rows").format(figure)
