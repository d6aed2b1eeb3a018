"""The work at the bench, step by step, each with the cautions that belong there.

The rule of this module: short and plain, to be read with wet gloves; a caution stands where its danger is.
All of it is common practice, no source; the safety sheet of a product and local rules come first.
"""

from __future__ import annotations

from dataclasses import dataclass

from studio_gui.domain.timetable import Step
from studio_gui.domain.worksheet import Worksheet
from studio_gui.wording.quantities import ACID, WETNESS, shown_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of work: what it is called, and what to mind."""

    name: str
    words: str


def step_name(step: Step, tongue: Tongue = TRANSLATED) -> str:
    """Return what a step of the timetable is called."""
    return {
        "soak": tongue.translate("Work", "Soak"),
        "paint": tongue.translate("Work", "Paint"),
        "wrap": tongue.translate("Work", "Wrap"),
        "steam": tongue.translate("Work", "Steam"),
        "cool": tongue.translate("Work", "Cool"),
        "rinse": tongue.translate("Work", "Rinse"),
        "dry": tongue.translate("Work", "Dry"),
    }[step]


def step_words(sheet: Worksheet, step: Step, tongue: Tongue = TRANSLATED) -> str:
    """Return what to do in a step, and what to mind."""
    if step == "soak":
        return _soak(sheet, tongue)
    return {
        "paint": tongue.translate(
            "Work",
            "Gloves and apron. Where powder is open: mask, no draught. No kitchen tools, no food, no"
            " children.",
        ),
        "wrap": tongue.translate(
            "Work", "Film over from both sides, seam up, ends turned in. Press the air out gently."
        ),
        "steam": tongue.translate(
            "Work",
            "On a rack above the water, seam up. No aluminium: acid eats it. Steam burns: open the lid away"
            " from you. Never let it boil dry.",
        ),
        "cool": tongue.translate(
            "Work", "Leave the wraps closed until they are cold: a hot wrap holds hot acid water."
        ),
        "rinse": tongue.translate(
            "Work",
            "Water as warm as the wool, no rubbing, until it runs clear. Waste water goes where local rules"
            " allow.",
        ),
        "dry": tongue.translate("Work", "Spin or press out, then hang in the shade."),
    }[step]


def _soak(sheet: Worksheet, tongue: Tongue) -> str:
    liquid = sheet.plan.liquid
    parts = [
        tongue.translate("Work", "Lukewarm water, until wet through. Leave {0} in the wool.").format(
            shown_briefly(WETNESS, liquid.soak_ml_per_g, tongue)
        )
    ]
    if liquid.soak_acid_g_per_l is None:
        parts.append(tongue.translate("Work", "The acid of this water is not known."))
    elif liquid.soak_acid_g_per_l > 0.0:
        parts.append(
            tongue.translate("Work", "Citric acid in it: {0}. Keep it out of your eyes.").format(
                shown_briefly(ACID, liquid.soak_acid_g_per_l, tongue)
            )
        )
    return " ".join(parts)


def safety_words(tongue: Tongue = TRANSLATED) -> str:
    """Return what comes before everything else."""
    return tongue.translate("Work", "Follow the safety sheet of dye and acid, and your local rules.")


def stock_work(sheet: Worksheet, tongue: Tongue = TRANSLATED) -> tuple[Piece, ...]:
    """Return the order in which stocks are made, and what to mind; only what the plan's bottles need."""
    bottles = sheet.bottles
    has_dye = any(bottle.dye_g for bottle in bottles)
    has_acid = any(bottle.acid_g != 0.0 for bottle in bottles)
    pieces = [
        Piece(
            tongue.translate("Work", "First"),
            tongue.translate(
                "Work",
                "Gloves. Mask on for dye powder, no draught. No kitchen tools, no food; children and animals"
                " stay out. Glass, plastic or steel: aluminium is eaten by acid.",
            ),
        )
    ]
    if has_acid:
        pieces.append(
            Piece(
                tongue.translate("Work", "Acid"),
                tongue.translate(
                    "Work",
                    "Strongest bottle first. Half the water, warm; stir the acid into it until clear."
                    " Goggles: citric acid hurts the eyes, and hot acid water spits.",
                ),
            )
        )
    if has_dye:
        pieces.append(
            Piece(
                tongue.translate("Work", "Dye"),
                tongue.translate(
                    "Work",
                    "Strongest bottle first. A little water, the powder onto it, stir to a paste; then hot"
                    " water, and citric acid last.",
                ),
            )
        )
    pieces += [
        Piece(
            tongue.translate("Work", "Fill up"),
            tongue.translate(
                "Work",
                "When cold, with water, to the ml to make: so much is the whole bottle, not its water.",
            ),
        ),
        Piece(
            tongue.translate("Work", "Last"),
            tongue.translate(
                "Work", "Label each bottle: name, strength, date. Rests go where local rules allow."
            ),
        ),
    ]
    return tuple(pieces)
