"""What is said of the colour at a place of the fade curve.

The rule of this module: numbers of colour are CIELAB and CIEDE2000 without units, hue in degrees.
"""

from __future__ import annotations

import math

from studio_gui.domain.plan import Plan
from studio_gui.domain.strip_curve import StripCurve
from studio_gui.wording.naming import section_name
from studio_gui.wording.numbers import shown_number
from studio_gui.wording.translation import TRANSLATED, Tongue


def run_words(plan: Plan, curve: StripCurve, place: int, tongue: Tongue = TRANSLATED) -> str:
    """Return what there is to say of one run: its section, lightness, chroma, hue, and the step after it."""
    hue = float(curve.hue_deg[place])
    said = [
        section_name(plan, plan.sections[curve.runs[place].section_index].id, tongue),
        tongue.translate("Curve", "lightness {0}").format(
            shown_number(float(curve.labs[place, 0]), 0, tongue)
        ),
        tongue.translate("Curve", "chroma {0}").format(shown_number(float(curve.chroma[place]), 0, tongue)),
        tongue.translate("Curve", "no hue")
        if math.isnan(hue)
        else tongue.translate("Curve", "hue {0}°").format(shown_number(hue, 0, tongue)),
    ]
    if place < len(curve.steps):
        step = shown_number(float(curve.steps[place]), 1, tongue)
        said.append(tongue.translate("Curve", "step to the next {0} (CIEDE2000)").format(step))
    return " · ".join(said)


def row_names(tongue: Tongue = TRANSLATED) -> tuple[str, str, str, str]:
    """Return the names of the rows: lightness, chroma, hue, steps."""
    return (
        tongue.translate("Curve", "Lightness"),
        tongue.translate("Curve", "Chroma"),
        tongue.translate("Curve", "Hue"),
        tongue.translate("Curve", "Steps"),
    )
