"""What a plan that cannot be is answered with: which value, and what would be possible.

The rule of this module: every code of a value that a plan, swatch or spectrum refuses has one sentence here.
"""

from __future__ import annotations

from studio_gui.wording.told import Telling, Told


def _out_of_range(told: Told) -> str:
    if told.params.get("low_excluded"):
        return told.translate(
            "Refusals", "{field}: {value} is not possible. Enter more than {low}, up to {high}."
        )
    return told.translate("Refusals", "{field}: {value} is not possible. Enter {low} to {high}.")


def _not_one_of(told: Told) -> str:
    if told.text("allowed"):
        return told.translate("Refusals", "“{value}” is not one of the choices, which are: {allowed}.")
    return told.translate("Refusals", "{field}: “{value}” is not one of the choices.")


def _section_too_short(told: Told) -> str:
    if told.number("length_m") > 0.0:
        return told.translate("Refusals", "{section} would be {length_m} long. Leave {low} or more.")
    return told.translate("Refusals", "Nothing would be left of {section}. Leave {low} or more.")


VALUES: dict[str, Telling] = {
    "out-of-range": _out_of_range,
    "not-a-whole-number": lambda told: told.translate("Refusals", "{field}: enter a whole number."),
    "not-one-of": _not_one_of,
    "not-text": lambda told: told.translate("Refusals", "{field}: enter text."),
    "text-empty": lambda told: told.translate("Refusals", "{field}: enter at least one letter."),
    "text-too-long": lambda told: told.translate(
        "Refusals", "{field}: {length} characters are too many. Shorten it to {longest}."
    ),
    "text-unprintable": lambda told: told.translate(
        "Refusals",
        "{field}: there is a character in it that cannot be printed, such as a line break. Take it out.",
    ),
    "not-a-colour": lambda told: told.translate(
        "Refusals", "{field}: “{value}” is not a colour. Write it like #3a6ea5."
    ),
    "too-many": lambda told: told.translate("Refusals", "{field}: {count} are too many. Keep to {most}."),
    "id-twice": lambda told: told.translate(
        "Refusals", "{field}: two have the id “{value}”. Change one of them."
    ),
    "letter-twice": lambda told: told.translate(
        "Refusals", "Two liquors have the letter {value}. Give one of them another."
    ),
    "name-taken": lambda told: told.translate(
        "Refusals", "There is a ladder called “{value}” already. Take another name."
    ),
    "ladder-not-there": lambda told: told.translate(
        "Refusals", "The ladder “{value}” is no longer there. Another window may have taken it away."
    ),
    "no-sections": lambda told: told.translate("Refusals", "A plan needs at least one section."),
    "unknown-stock": lambda told: told.translate(
        "Refusals", "There is no stock with the id “{value}” on the shelf. Choose one that is there."
    ),
    "unknown-liquor": lambda told: told.translate(
        "Refusals", "There is no liquor with the id “{value}”. Choose one that is there."
    ),
    "unknown-section": lambda told: told.translate(
        "Refusals", "There is no section with the id “{value}”. Choose one that is there."
    ),
    "depth-of-let-down": lambda told: told.translate(
        "Refusals", "Liquor {liquor} has a depth for a stock without dye. Give depths to dyes only."
    ),
    "dye-among-let-downs": lambda told: told.translate(
        "Refusals",
        "Liquor {liquor} stands on depth and has a dye among what fills its jar. Fill it with let-down.",
    ),
    "depths-on-parts-basis": lambda told: told.translate(
        "Refusals", "Liquor {liquor} stands on parts and cannot have depths as well. Take one of them out."
    ),
    "depth-without-let-down": lambda told: told.translate(
        "Refusals", "Liquor {liquor} stands on depth and has no let-down to fill its jar. Choose one."
    ),
    "stock-twice": lambda told: told.translate(
        "Refusals", "Liquor {liquor} has the same stock twice. Put both amounts into one."
    ),
    "dye-without-swatch": lambda told: told.translate(
        "Refusals", "{stock} has no swatch. Give it one dyed sample, so that its colour can be predicted."
    ),
    "no-swatches": lambda told: told.translate(
        "Refusals", "This dye has no swatch. Give it one dyed sample, so that its colour can be predicted."
    ),
    "spectrum-not-31-bands": lambda told: told.translate(
        "Refusals",
        "A spectrum has 31 values, from 400 to 700 nm every 10 nm, and these are {count}. Read it again.",
    ),
    "spectrum-empty": lambda told: told.translate(
        "Refusals",
        "There are no readings of a spectrum. Give it a wavelength and a reflectance in every row.",
    ),
    "spectrum-wavelength-twice": lambda told: told.translate(
        "Refusals", "{wavelength_nm} stands there twice. Leave one reading of it."
    ),
    "spectrum-too-short": lambda told: told.translate(
        "Refusals",
        "The readings go from {low_nm} to {high_nm}, and a colour needs 400 to 700 nm, or at most 20 nm less"
        " at each end. Measure the whole of it.",
    ),
    "spectrum-gap": lambda told: told.translate(
        "Refusals",
        "Between {low_nm} and {high_nm} there is no reading. Steps of at most 20 nm tell a dye; put in what"
        " is missing.",
    ),
    "patch-empty": lambda told: told.translate(
        "Refusals", "There is nothing of the photo under the patch. Point at the photo itself."
    ),
    "white-too-dark": lambda told: told.translate(
        "Refusals", "{value} is too dark to tell the light by. Point at something white, such as paper."
    ),
    "let-down-with-dye": lambda told: told.translate(
        "Refusals",
        "{stock} is a let-down, which has no strength and no swatches. Make it a dye, or clear them.",
    ),
    "acid-line-without-acid": lambda told: told.translate(
        "Refusals",
        "Acid as its own line needs a let-down with acid. Choose another, or enter what acid it has.",
    ),
    "boundaries-do-not-match": lambda told: told.translate(
        "Refusals", "{sections} sections cannot have {count} boundaries: there is one between each two."
    ),
    "section-too-short": _section_too_short,
    "fold-past-end": lambda told: told.translate(
        "Refusals", "A fold at {value} is past the end of the roving, which is {high} long. Fold it earlier."
    ),
    "folds-not-rising": lambda told: told.translate(
        "Refusals",
        "The fold at {value} does not come after the one before it. Enter folds from start to end.",
    ),
    "marks-not-rising": lambda told: told.translate(
        "Refusals",
        "The mark of weight at {value} of the length does not come after the one before it. Enter marks"
        " from start to end, with rising weights.",
    ),
    "too-few": lambda told: told.translate(
        "Refusals", "{field}: {count} are too few. Give at least {least}."
    ),
    "rovings-do-not-match": lambda told: told.translate(
        "Refusals",
        "{count} rovings are weighed, and the set has {rovings}. Weigh every one of them, or none.",
    ),
    "marks-of-set-and-rovings": lambda told: told.translate(
        "Refusals",
        "The set has marks of weight, and so have its rovings, which were weighed one by one. Keep to one of"
        " the two.",
    ),
    "mass-is-not-the-mean": lambda told: told.translate(
        "Refusals",
        "One roving is said to weigh {value}, and those weighed have a mean of {mean_g}. Take their mean.",
    ),
    "ply-without-fibre": lambda told: told.translate(
        "Refusals", "A ply starts and ends at {value} of the roving. Let it end somewhere else."
    ),
    "ply-from-no-roving": lambda told: told.translate(
        "Refusals",
        "Ply {ply} comes from roving {value}, and the set has {rovings}. Take the ply from another roving.",
    ),
    "plies-take-too-much": lambda told: told.translate(
        "Refusals",
        "From {from_share} to {to_share} of roving {roving}, the plies take {taken_share} of its thickness,"
        " which is more than there is. Take less there, or take another stretch.",
    ),
    "weighings-not-rising": lambda told: told.translate(
        "Refusals",
        "The tuft weighs {dry_g} dry, {squeezed_g} squeezed and {soaked_g} soaked; each has to be more"
        " than the one before. Weigh again.",
    ),
    "denser-than-fibre": lambda told: told.translate(
        "Refusals",
        "A bulk density of {bulk} g/ml is not possible for fibre of {fibre} g/ml. Enter a smaller one.",
    ),
    "spoon-not-rising": lambda told: told.translate(
        "Refusals",
        "A spoon of {low_g} to {high_g} in {volume_ml} gives no strength. Enter the lighter weight first,"
        " and all of them above 0.",
    ),
    "nothing-to-fill": lambda told: told.translate(
        "Refusals",
        "{rovings} doses of {dose_ml} from a syringe of {syringe_ml} fill nothing. Enter all above 0.",
    ),
}
