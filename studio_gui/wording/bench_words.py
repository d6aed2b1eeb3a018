"""What is said of jars and bottles at the bench, on paper and on the screen alike.

The rule of this module: millilitres and grams in every system of units, as syringes, cylinders and dye scales
are; an amount has the decimals of the graduation it is measured with, so that amounts add up as printed.
"""

from __future__ import annotations

from studio_gui.domain.bottles import Bottle
from studio_gui.domain.cards import Card, Dose, Measured
from studio_gui.domain.plan import Plan
from studio_gui.domain.stocks import Stock
from studio_gui.wording.naming import liquor_name, one_line, section_name, some_in_a_row
from studio_gui.wording.numbers import UNKNOWN, shown_number, shown_number_briefly
from studio_gui.wording.quantities import ACID, SHARE, STRENGTH, shown, shown_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue

MOST_DECIMALS = 4
#: Powder is weighed to this many decimals of a gram.
POWDER_DECIMALS = 2
#: How many places of a plunger are told one by one.
MOST_STOPS = 4
NO_BREAK = "\u00a0"


def graduation_decimals(graduation_ml: float) -> int:
    """Return how many decimals an amount in whole graduations has.

    >>> graduation_decimals(1.0), graduation_decimals(0.25), graduation_decimals(1.0 / 3.0)
    (0, 2, 4)
    """
    return next(
        (count for count in range(MOST_DECIMALS) if abs(round(graduation_ml, count) - graduation_ml) < 1e-9),
        MOST_DECIMALS,
    )


def measured_ml(ml: float, plan: Plan, tongue: Tongue = TRANSLATED) -> str:
    """Return an amount that is measured, without its unit."""
    return shown_number(ml, graduation_decimals(plan.bench.graduation_ml), tongue)


def of_the_jar(
    amount_ml: float, in_jars_ml: tuple[float, float], plan: Plan, tongue: Tongue = TRANSLATED
) -> str:
    """Return how a section's amount of a stock stands to what all jars of its liquor hold of it.

    `in_jars_ml` is as reckoned and as measured, as `studio_gui.domain.cards.in_jars_ml` says.
    """
    words = tongue.translate(
        "Bench",
        "This section takes {amount} ml of the {exact} ml that the liquor’s jar is reckoned to hold; the"
        " jar’s card measures {measured} ml, in graduations of {graduation} ml.",
    )
    exact_ml, measured = in_jars_ml
    return words.format(
        amount=shown_number_briefly(amount_ml, 2, tongue),
        exact=shown_number_briefly(exact_ml, 2, tongue),
        measured=measured_ml(measured, plan, tongue),
        graduation=shown_number_briefly(plan.bench.graduation_ml, 2, tongue),
    )


def powder(grams: float | None, tongue: Tongue = TRANSLATED) -> str:
    """Return a weight of powder without its unit; a question mark where it is not known, a dash for none."""
    if grams is None:
        return "?"
    if grams == 0.0:
        return UNKNOWN
    least = 10.0**-POWDER_DECIMALS
    return (shown_number if grams >= least else shown_number_briefly)(grams, POWDER_DECIMALS, tongue)


# -- jars --------------------------------------------------------------------------------------------------


def jar_number(card: Card, tongue: Tongue = TRANSLATED) -> str:
    """Return "jar 1 of 2"; nothing for the only jar of its liquor."""
    if card.count == 1:
        return ""
    return tongue.translate("Bench", "jar {number} of {count}").format(number=card.number, count=card.count)


def painted_with(plan: Plan, card: Card, tongue: Tongue = TRANSLATED) -> str:
    """Return "for Slate, Foam and 2 more"; nothing where the only section is called as its liquor is."""
    liquor = plan.liquor(card.jar.liquor_id)
    ids = card.jar.section_ids
    names = [one_line(plan.section(section_id).name) for section_id in ids]
    different = list(dict.fromkeys(name for name in names if name))
    if not different or different == [one_line(liquor.name)]:
        return ""
    return tongue.translate("Bench", "for {sections}").format(
        sections=some_in_a_row(different, len(different), tongue)
    )


def jar_use(plan: Plan, card: Card, tongue: Tongue = TRANSLATED) -> str:
    """Return "120 ml to paint, 6 ml spare"."""
    decimals = max(graduation_decimals(plan.bench.graduation_ml), 1)
    painted, spare = card.jar.sections_ml, card.spare_ml
    return tongue.translate("Bench", "{painted} ml to paint, {spare} ml spare").format(
        painted=shown_number_briefly(painted, decimals, tongue),
        spare=shown_number_briefly(spare, decimals, tongue),
    )


def jar_error(card: Card, tongue: Tongue = TRANSLATED) -> str:
    """Return how far the shares of a jar are off, in points of a hundred, and its dyes, of themselves."""
    points = shown_number(card.points_off, 1, tongue)
    if points == shown_number(0.0, 1, tongue):
        return tongue.translate("Bench", "Shares as planned")
    said = tongue.translate("Bench", "Shares within {points} points").format(points=points)
    depth = shown(SHARE, card.depth_off, tongue)
    if depth == shown(SHARE, 0.0, tongue):
        return said
    return tongue.translate("Bench", "{shares}, dyes within {depth}").format(
        shares=said, depth=_together(depth)
    )


def alike_warning(plan: Plan, card: Card, tongue: Tongue = TRANSLATED) -> str:
    """Return which liquors come out like this one, though they should not; nothing where none does."""
    if not card.alike:
        return ""
    names = [liquor_name(plan, liquor_id) for liquor_id in card.alike]
    return tongue.translate("Bench", "comes out like {liquors}: measure finer, or mix more").format(
        liquors=some_in_a_row(names, len(names), tongue)
    )


def amount_warning(amount: Measured, tongue: Tongue = TRANSLATED) -> str:
    """Return what is amiss with one amount of a card, with how to mend it; nothing where it will do."""
    if amount.is_lost:
        words = tongue.translate("Bench", "{exact} ml is too little for this graduation: measure finer")
        return words.format(exact=shown_number_briefly(amount.exact_ml, 2, tongue))
    if amount.is_off:
        words = tongue.translate("Bench", "{share} of the jar, planned {planned}: measure finer")
        return words.format(
            share=_together(shown(SHARE, amount.share + amount.points_off / 100.0, tongue)),
            planned=_together(shown(SHARE, amount.share, tongue)),
        )
    return ""


def dose_words(plan: Plan, dose: Dose, tongue: Tongue = TRANSLATED) -> str:
    """Return how a syringe is filled for a section: "A Slate: 2 x 60 ml, stop at 30 and 0 ml"."""
    fills = dose.fills
    first, *stops = (shown_number_briefly(stop, 1, tongue) for stop in fills.stops_ml)
    said = {
        "section": section_name(plan, dose.section_id, tongue),
        "fills": shown_number(fills.fills, 0, tongue),
        "fill": first,
        "dose": shown_number_briefly(dose.dose_ml, 1, tongue),
    }
    if len(stops) > MOST_STOPS:
        words = tongue.translate("Bench", "{section}: {fills} × {fill} ml, stop after every {dose} ml")
        return words.format(**said)
    words = tongue.translate("Bench", "{section}: {fills} × {fill} ml, stop at {stops}")
    return words.format(stops=", ".join(stops), **said)


# -- bottles -----------------------------------------------------------------------------------------------


def stock_kind(stock: Stock, tongue: Tongue = TRANSLATED) -> str:
    """Return what stands in a bottle: "1.00 %, by spoon", "10 g/L acid", "water"."""
    if not stock.is_dye:
        if stock.acid_g_per_l is None:
            return tongue.translate("Bench", "acid not known")
        if stock.acid_g_per_l == 0.0:
            return tongue.translate("Bench", "no acid")
        return tongue.translate("Bench", "{0} acid").format(shown_briefly(ACID, stock.acid_g_per_l, tongue))
    strength = shown(STRENGTH, stock.strength_g_per_l, tongue)
    known = {
        "weighed": "{0}",
        "spoon": tongue.translate("Bench", "{0}, by spoon"),
        "nominal": tongue.translate("Bench", "{0}, as labelled"),
    }
    return known[stock.strength_known].format(strength)


def bottle_warnings(plan: Plan, bottle: Bottle, tongue: Tongue = TRANSLATED) -> tuple[str, ...]:
    """Return what is amiss with a bottle, a sentence each."""
    found = []
    if bottle.short_ml:
        words = tongue.translate("Bench", "{short} ml short: the jars take {need} ml")
        found.append(
            words.format(
                short=measured_ml(bottle.short_ml, plan, tongue),
                need=measured_ml(bottle.need_ml, plan, tongue),
            )
        )
    if bottle.acid_g is None:
        found.append(tongue.translate("Bench", "acid not known: look it up in the recipe of this stock"))
    return tuple(found)


def volume_made(bottle: Bottle, tongue: Tongue = TRANSLATED) -> str:
    """Return how much of a stock is made, ml, without its unit."""
    return shown_number_briefly(bottle.made_ml, 1, tongue)


def _together(figure: str) -> str:
    """Return a figure that no line is broken in."""
    return figure.replace(" ", NO_BREAK)
