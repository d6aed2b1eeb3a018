"""What is said of fades and matches: how even, what is too coarse, what is missing.

The rule of this module: a number of evenness is always said with what it compares, and every colour here is a
prediction and said to be one.
"""

from __future__ import annotations

import math
import re

from studio_gui.domain.at_hand import AtHand
from studio_gui.domain.colour.evenness import Evenness
from studio_gui.domain.colour.shortfall import REACHED, Lack, Shortfall
from studio_gui.domain.colour.spaces import Array
from studio_gui.domain.edits.fades import PlannedFade, WeakOffer
from studio_gui.domain.edits.matching import Matched
from studio_gui.wording.amounts import shown_amounts
from studio_gui.wording.naming import in_a_row, one_line
from studio_gui.wording.numbers import shown_number, shown_number_briefly
from studio_gui.wording.quantities import DEPTH, SHARE, STRENGTH, VOLUME, shown, shown_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue

#: More than this is said as more: such steps cannot be told apart by a number.
_MOST_TO_SAY = 100.0
#: A strength that a bottle's name ends with: " 0.2 %".
_STRENGTH_AT_END = re.compile(r"[\s,]*\(?\d+(?:[.,]\d+)?\s*%\)?\s*$")


def indicative_words(tongue: Tongue = TRANSLATED) -> str:
    """Return the reminder that stands with every predicted colour."""
    return tongue.translate(
        "Fades", "Colours are predicted from swatches, and indicative: dye a sample first."
    )


def evenness_words(even: Evenness, tongue: Tongue = TRANSLATED) -> str:
    """Return how even steps are: "largest step 1.3 times the smallest, spread 8 %"."""
    spread = shown_briefly(SHARE, even.spread, tongue) if math.isfinite(even.spread) else ""
    if not spread:
        return tongue.translate("Fades", "nothing changes")
    if math.isinf(even.ratio):
        return tongue.translate("Fades", "a colour comes twice, spread {spread}").format(spread=spread)
    ratio = shown_number(min(even.ratio, _MOST_TO_SAY), 1, tongue)
    if even.ratio > _MOST_TO_SAY:
        words = tongue.translate("Fades", "largest step over {ratio} times the smallest, spread {spread}")
    else:
        words = tongue.translate("Fades", "largest step {ratio} times the smallest, spread {spread}")
    return words.format(ratio=ratio, spread=spread)


def coarse_words(fade: PlannedFade, tongue: Tongue = TRANSLATED) -> str:
    """Return where one graduation exceeds the wanted step, "" where none does."""
    if not fade.coarse:
        return ""
    worst = max(fade.coarse, key=lambda one: one.step)
    return tongue.translate(
        "Fades",
        "One graduation ({graduation}) of {stock} changes colour {section} by {step}; even steps are"
        " {wanted}.",
    ).format(
        graduation=_graduation(fade, tongue),
        stock=one_line(fade.hand.bottles[worst.bottle].name),
        section=worst.section + 1,
        step=shown_number(worst.step, 1, tongue),
        wanted=shown_number(fade.ideal.step, 1, tongue),
    )


def offer_words(fade: PlannedFade, offer: WeakOffer, tongue: Tongue = TRANSLATED) -> str:
    """Return what a weak stock would do: "With Harbour blue 0.1 % on the shelf as well: largest step ..."."""
    return tongue.translate("Fades", "With {stock} on the shelf as well: {evenness}.").format(
        stock=weak_name(fade, offer, tongue), evenness=evenness_words(offer.evenness, tongue)
    )


def weak_name(fade: PlannedFade, offer: WeakOffer, tongue: Tongue = TRANSLATED) -> str:
    """Return what a weak stock is called: "Harbour blue 0.1 %", of "Harbour blue 1 %" too."""
    strength = shown_briefly(STRENGTH, offer.strength_g_per_l, tongue)
    name = one_line(fade.plan.stock(offer.stock_id).name)
    return f"{_STRENGTH_AT_END.sub('', name) or name} {strength}"


def equal_words(fade: PlannedFade, tongue: Tongue = TRANSLATED) -> str:
    """Return which neighbours come out alike, "" where none do."""
    alike = fade.solved.evenness.equal_neighbours
    if not alike:
        return ""
    runs = _runs(sorted({place + one for place in alike for one in (0, 1)}), set(alike))
    return tongue.translate("Fades", "Alike: {runs}. No graduation lies between them.").format(runs=runs)


def guess_words(hand: AtHand, counts: Array, tongue: Tongue = TRANSLATED) -> str:
    """Return that mixes with fluorescent dyes are guesses, "" where there are none.

    `counts` are graduations of each bottle in jars, shape (jars, bottles).
    """
    names = [one_line(stock.name) for stock in hand.guessed(counts)]
    if not names:
        return ""
    return tongue.translate(
        "Fades", "Fluorescent: {names}. What its mixes look like is a guess; dye a sample of the mix."
    ).format(names=in_a_row(names))


def undyed_words(fade: PlannedFade, tongue: Tongue = TRANSLATED) -> str:
    """Return which sections come out undyed though they should not, and what mends it; "" where none do."""
    bare = fade.undyed
    if not bare:
        return ""
    sections = _runs(list(bare), set(bare))
    return tongue.translate(
        "Fades",
        "Undyed for want of a fine enough measure: {sections}. Put a weaker stock on the shelf, measure in"
        " less than {graduation}, or choose a deeper pale end.",
    ).format(sections=sections, graduation=_graduation(fade, tongue))


def end_words(fade: PlannedFade, tongue: Tongue = TRANSLATED) -> str:
    """Return which end is not what was asked for, with both depths and what mends it; "" where both are."""
    return "\n".join(
        tongue.translate(
            "Fades",
            "Section {section} is dyed {given} owf, not {wanted}, in whole graduations of {graduation}. A"
            " weaker stock or a finer measure would come nearer.",
        ).format(
            section=end + 1,
            given=given,
            wanted=wanted,
            graduation=_graduation(fade, tongue),
        )
        for end in fade.ends_off
        for given, wanted in [_end_depths(fade, end, tongue)]
    )


def _end_depths(fade: PlannedFade, end: int, tongue: Tongue) -> tuple[str, str]:
    """Return how deep an end is dyed and was to be: in all where one dye does it, else by each of its dyes.

    Of several dyes the sum may be right, or nearly, and their proportion wrong.
    """
    given, wanted = fade.solved.doses_pct_owf[end].tolist(), fade.ideal.doses_pct_owf[end].tolist()
    pairs = enumerate(zip(given, wanted, strict=True))
    dyes = [dye for dye, (one, other) in pairs if one > 0.0 or other > 0.0]
    if len(dyes) < 2:
        return shown(DEPTH, sum(given), tongue), shown(DEPTH, sum(wanted), tongue)
    names = [one_line(fade.hand.bottles[fade.hand.dye_of.index(dye)].name) for dye in dyes]

    def each(doses: list[float]) -> str:
        depths = [shown(DEPTH, doses[dye], tongue) for dye in dyes]
        return " + ".join(f"{depth} {name}" for depth, name in zip(depths, names, strict=True))

    return each(given), each(wanted)


def _graduation(fade: PlannedFade, tongue: Tongue) -> str:
    return shown_briefly(VOLUME, fade.plan.bench.graduation_ml, tongue)


def _runs(places: list[int], joined: set[int]) -> str:
    """Return places, counted from 0, as numbers from 1: "1, 3–5"; one in `joined` goes on to the next."""
    runs: list[list[int]] = []
    for place in places:
        if runs and place - 1 == runs[-1][-1] and place - 1 in joined:
            runs[-1].append(place)
        else:
            runs.append([place])
    return ", ".join(f"{run[0] + 1}–{run[-1] + 1}" if run[1:] else str(run[0] + 1) for run in runs)


def jar_words(fade: PlannedFade, place: int, tongue: Tongue = TRANSLATED) -> str:
    """Return what goes into one jar, dyes first and let-down last, in ml: "12 + 41"."""
    return shown_amounts([part.parts for part in fade.parts(place)], tongue)


def jar_stocks(fade: PlannedFade, place: int) -> str:
    """Return of which stocks the amounts of `jar_words` are: "Harbour blue + Acid water"."""
    return " + ".join(one_line(fade.plan.stock(part.stock_id).name) for part in fade.parts(place))


def fade_depth_words(fade: PlannedFade, place: int, tongue: Tongue = TRANSLATED) -> str:
    """Return how deep one section is dyed in all: "1.20 %"."""
    return shown(DEPTH, float(fade.solved.doses_pct_owf[place].sum()), tongue)


def difference_words(difference: float, tongue: Tongue = TRANSLATED) -> str:
    """Return a colour difference: "CIEDE2000 1.4"."""
    return f"CIEDE2000 {shown_number(difference, 1, tongue)}"


def match_words(matched: Matched, place: int, tongue: Tongue = TRANSLATED) -> str:
    """Return what a liquor is made of: "12 ml Harbour blue + 3 ml Gorse yellow + 38 ml Acid water"."""
    stocks = {stock.id: stock.name for stock in matched.plan.stocks}
    return " + ".join(
        f"{shown_number_briefly(part.parts, 2, tongue)} ml {one_line(stocks[part.stock_id])}"
        for part in matched.parts(place)
    )


def match_depth_words(matched: Matched, place: int, tongue: Tongue = TRANSLATED) -> str:
    """Return how deep a liquor dyes in all: "1.20 % owf"."""
    depth = shown(DEPTH, float(matched.found[place].doses_pct_owf.sum()), tongue)
    return tongue.translate("Fades", "{depth} owf").format(depth=depth)


def match_difference_words(matched: Matched, place: int, tongue: Tongue = TRANSLATED) -> str:
    """Return how far a liquor is from what is wanted: "CIEDE2000 14.9"; the nearest of far ones says so."""
    words = difference_words(matched.found[place].difference, tongue)
    if matched.is_far and len(matched.found) > 1 and place == matched.nearest:
        return tongue.translate("Fades", "{difference}, the nearest").format(difference=words)
    return words


def shortfall_words(matched: Matched, tongue: Tongue = TRANSLATED) -> str:
    """Return how near the bottles come where they do not reach the colour, and what is missing."""
    found = matched.found[matched.nearest]
    exact, best = matched.exact.difference, found.difference
    if exact > REACHED:
        bottles = zip(matched.hand.bottles, found.counts.tolist(), strict=True)
        names = [one_line(stock.name) for stock, count in bottles if count > 0.0]
        nearest = " + ".join(names) or tongue.translate("Fades", "undyed fibre")
        words = tongue.translate(
            "Fades", "No set of these bottles reaches it: the nearest is {nearest}, {difference} away. {lack}"
        ).format(
            nearest=nearest,
            difference=difference_words(best, tongue),
            lack=_lack_words(matched.exact, tongue),
        )
        if not matched.is_far:
            return words
        return f"{words} {_far_words(tongue)}"
    if best > REACHED:
        return tongue.translate(
            "Fades",
            "The bottles reach it, but not in graduations of {graduation}: a weaker stock or a finer measure"
            " would.",
        ).format(graduation=shown_briefly(VOLUME, matched.plan.bench.graduation_ml, tongue))
    return ""


def _far_words(tongue: Tongue) -> str:
    return tongue.translate("Fades", "So far away, liquors that keep to its hue (by IPT) come first.")


def _lack_words(short: Shortfall, tongue: Tongue) -> str:
    if short.hue is not None:
        return tongue.translate("Fades", "Missing is {hue} that is {more}.").format(
            hue=_a_hue(short.hue, tongue), more=_more_of(short.lack, tongue)
        )
    words = {
        "light": tongue.translate("Fades", "It is lighter than this fibre and these dyes can be."),
        "depth": tongue.translate("Fades", "It is deeper than these stocks can dye with this liquid."),
        "red": tongue.translate("Fades", "A red is missing."),
        "orange": tongue.translate("Fades", "An orange is missing."),
        "yellow": tongue.translate("Fades", "A yellow is missing."),
        "yellow-green": tongue.translate("Fades", "A yellowish green is missing."),
        "green": tongue.translate("Fades", "A green is missing."),
        "turquoise": tongue.translate("Fades", "A turquoise is missing."),
        "blue": tongue.translate("Fades", "A blue is missing."),
        "violet": tongue.translate("Fades", "A violet is missing."),
        "magenta": tongue.translate("Fades", "A magenta is missing."),
    }
    return words[short.lack]


def _a_hue(hue: Lack, tongue: Tongue) -> str:
    return {
        "red": tongue.translate("Fades", "a red"),
        "orange": tongue.translate("Fades", "an orange"),
        "yellow": tongue.translate("Fades", "a yellow"),
        "yellow-green": tongue.translate("Fades", "a yellowish green"),
        "green": tongue.translate("Fades", "a green"),
        "turquoise": tongue.translate("Fades", "a turquoise"),
        "blue": tongue.translate("Fades", "a blue"),
        "violet": tongue.translate("Fades", "a violet"),
        "magenta": tongue.translate("Fades", "a magenta"),
    }[hue]


def _more_of(hue: Lack, tongue: Tongue) -> str:
    return {
        "red": tongue.translate("Fades", "redder"),
        "orange": tongue.translate("Fades", "more orange"),
        "yellow": tongue.translate("Fades", "yellower"),
        "yellow-green": tongue.translate("Fades", "greener and yellower"),
        "green": tongue.translate("Fades", "greener"),
        "turquoise": tongue.translate("Fades", "greener and bluer"),
        "blue": tongue.translate("Fades", "bluer"),
        "violet": tongue.translate("Fades", "more violet"),
        "magenta": tongue.translate("Fades", "redder and bluer"),
    }[hue]
