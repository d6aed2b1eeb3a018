"""What is said of two colours beside each other.

The rule of this module: figures come with what they mean to an eye; what is too small to see is not told as a
direction.
"""

from __future__ import annotations

from studio_gui.domain.colour.compare import Comparison
from studio_gui.domain.comparing import PlanColour
from studio_gui.domain.plan import Plan
from studio_gui.wording.naming import one_line, section_name
from studio_gui.wording.numbers import shown_number
from studio_gui.wording.quantities import DEPTH, shown_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue

#: Steps of lightness, chroma or degrees of hue that are not told; our choice.
_TOO_SMALL = 0.5
#: CIEDE2000 up to which two colours pass for one, are close, and are clearly two; our choices.
_ONE, _CLOSE = 1.0, 4.0


def colour_name(colour: PlanColour, plan: Plan, tongue: Tongue = TRANSLATED) -> str:
    """Return what a colour of the plan belongs to: "A Dusk", "Harbour blue, 0.5 %", "Undyed fibre"."""
    if colour.of == "section":
        return section_name(plan, colour.owner_id, tongue)
    if colour.of == "undyed":
        return tongue.translate("Comparing", "Undyed fibre")
    stock = plan.stock(colour.owner_id)
    depth = shown_briefly(DEPTH, stock.swatches[colour.place].depth_pct_owf, tongue)
    words = tongue.translate("Comparing", "Swatch of {0}, {1}")
    return words.format(one_line(stock.name), depth)


def difference_line(comparison: Comparison, tongue: Tongue = TRANSLATED) -> str:
    """Return the difference and how it looks."""
    figure = shown_number(comparison.difference, 1, tongue)
    if comparison.difference <= _ONE:
        looks = tongue.translate("Comparing", "one colour to most eyes")
    elif comparison.difference <= _CLOSE:
        looks = tongue.translate("Comparing", "close, told apart side by side")
    else:
        looks = tongue.translate("Comparing", "clearly two colours")
    return tongue.translate("Comparing", "{0}: {1}").format(figure, looks)


def directions_line(comparison: Comparison, tongue: Tongue = TRANSLATED) -> str:
    """Return how the second colour is against the first: lighter, more vivid, another hue."""
    steps = (
        (
            comparison.lighter,
            tongue.translate("Comparing", "{0} lighter"),
            tongue.translate("Comparing", "{0} darker"),
        ),
        (
            comparison.more_vivid,
            tongue.translate("Comparing", "{0} more vivid"),
            tongue.translate("Comparing", "{0} duller"),
        ),
    )
    said = [
        (more if step > 0.0 else less).format(shown_number(abs(step), 1, tongue))
        for step, more, less in steps
        if abs(step) >= _TOO_SMALL
    ]
    turn_deg = abs(comparison.hue_turn_deg or 0.0)
    if turn_deg >= _TOO_SMALL:
        said.append(tongue.translate("Comparing", "hue {0}° away").format(shown_number(turn_deg, 0, tongue)))
    if not said:
        return tongue.translate("Comparing", "The second is the same.")
    return tongue.translate("Comparing", "The second is {0}.").format(", ".join(said))
