"""What is said of the halves of a roving: where to break it, from which end to spin, what does not match.

The rule of this module: half 1 is the one that the roving starts with, and its outer end is the end that the
lay marks as the start.
"""

from __future__ import annotations

from studio_gui.domain.spinning.halves import Halves
from studio_gui.wording.naming import liquor_name, some_in_a_row
from studio_gui.wording.quantities import LAY_LENGTH, MASS, SHARE, YARN_LENGTH, shown, shown_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue


def half_words(found: Halves, second: int, tongue: Tongue = TRANSLATED) -> str:
    """Return weight and singles of half 0 or 1: "78.0 g · 780.0 m"."""
    weight, length = found.weights_g[second], found.lengths_m[second]
    return f"{shown(MASS, weight, tongue)} · {shown(YARN_LENGTH, length, tongue)}"


def difference_words(found: Halves, tongue: Tongue = TRANSLATED) -> str:
    """Return by how much which half is heavier: "half 1 by 6.0 g (8.0 %)"; "neither"."""
    amount = shown(MASS, abs(found.difference_g), tongue)
    if amount == shown(MASS, 0.0, tongue):
        return tongue.translate("Halves", "neither")
    heavier = (
        tongue.translate("Halves", "half 1 by {amount} ({share})")
        if found.difference_g > 0.0
        else tongue.translate("Halves", "half 2 by {amount} ({share})")
    )
    return heavier.format(amount=amount, share=shown(SHARE, found.difference_share, tongue))


def break_words(found: Halves, tongue: Tongue = TRANSLATED) -> str:
    """Return where the roving is broken: "Break at the fold, 300.0 cm along the roving."."""
    place = shown(LAY_LENGTH, found.break_m, tongue)
    passes = found.plan.lay.passes
    if passes == 1:
        sentence = tongue.translate("Halves", "Break where half the weight lies, {place} along the roving.")
    elif passes == 2:
        sentence = tongue.translate("Halves", "Break at the fold, {place} along the roving.")
    else:
        sentence = tongue.translate("Halves", "Break at fold {fold}, {place} along the roving.")
    return sentence.format(place=place, fold=passes // 2)


def spin_words(found: Halves, tongue: Tongue = TRANSLATED) -> str:
    """Return from which end to spin, in the structure of the plan's yarn."""
    structure = found.plan.yarn.structure
    if structure == "both ends":
        return tongue.translate(
            "Halves",
            "Spin the whole roving in one go, the end marked start first, and ply from both ends of the ball:"
            " then both halves run from their outer ends.",
        )
    if structure == "broken at the fold":
        spin = tongue.translate(
            "Halves",
            "Spin each half from its outer end, onto a bobbin of its own: half 1 from the end marked start,"
            " half 2 from the other end of the roving, not from the break.",
        )
        return f"{break_words(found, tongue)} {spin}"
    return tongue.translate(
        "Halves",
        "This structure does not ply half with half. The figures are those of a roving broken in two, each"
        " half spun from its outer end.",
    )


def unmatched_words(found: Halves, tongue: Tongue = TRANSLATED) -> str:
    """Return which colours only one of the halves has where the other goes on; "" where all match."""
    sentences = []
    for half, sentence in (
        ("first", tongue.translate("Halves", "Without a match in half 2: {colours}.")),
        ("second", tongue.translate("Halves", "Without a match in half 1: {colours}.")),
    ):
        alone = [pair.liquor for pair in found.unmatched if getattr(pair, half) is not None]
        names = [liquor_name(found.plan, found.plan.liquors[one].id) for one in dict.fromkeys(alone)]
        if names:
            sentences.append(sentence.format(colours=some_in_a_row(names, len(names), tongue)))
    return " ".join(sentences)


def slide_words(found: Halves, tongue: Tongue = TRANSLATED) -> str:
    """Return the widest slide with its place: "up to 36 m, at the end of C Kelp"; "none"."""
    widest = found.widest
    if widest is None:
        return tongue.translate("Halves", "no colour of one half has a match in the other")
    length = shown_briefly(YARN_LENGTH, found.widest_slide_m, tongue)
    if length == shown_briefly(YARN_LENGTH, 0.0, tongue):
        start = found.widest_start
        apart_m = 0.0 if start is None else abs(start.start_slide_m or 0.0)
        length = shown_briefly(YARN_LENGTH, apart_m, tongue)
        if start is None or length == shown_briefly(YARN_LENGTH, 0.0, tongue):
            return (
                tongue.translate("Halves", "none where colours match")
                if found.unmatched
                else tongue.translate("Halves", "none")
            )
        name = liquor_name(found.plan, found.plan.liquors[start.liquor].id)
        return tongue.translate("Halves", "up to {length}, at the start of {colour}").format(
            length=length, colour=name
        )
    name = liquor_name(found.plan, found.plan.liquors[widest.liquor].id)
    sentence = (
        tongue.translate("Halves", "up to {length}, in {colour} at the break")
        if widest is found.pairs[-1]
        else tongue.translate("Halves", "up to {length}, at the end of {colour}")
    )
    return sentence.format(length=length, colour=name)
