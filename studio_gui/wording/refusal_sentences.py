"""What a refused value or edit is answered with: what, where, and how to mend.

The rule of this module: every code that the domain raises, and every code of typed numbers, has one sentence
here; those of files are in `studio_gui.wording.file_sentences`.
"""

from __future__ import annotations

from studio_gui.wording.naming import section_name
from studio_gui.wording.numbers import UNKNOWN
from studio_gui.wording.told import Telling, Told
from studio_gui.wording.translation import Tongue
from studio_gui.wording.units import symbols


def _dimension(name: str, tongue: Tongue) -> str:
    return {
        "mass": tongue.translate("Refusals", "a weight"),
        "length": tongue.translate("Refusals", "a length"),
        "width": tongue.translate("Refusals", "a width"),
        "volume": tongue.translate("Refusals", "an amount of liquid"),
        "wetness": tongue.translate("Refusals", "liquid per weight of fibre"),
        "strength": tongue.translate("Refusals", "a strength"),
        "percent": tongue.translate("Refusals", "a percentage"),
        "share": tongue.translate("Refusals", "a percentage"),
        "grist": tongue.translate("Refusals", "a length of yarn per weight"),
        "linear_density": tongue.translate("Refusals", "a weight per length"),
        "duration": tongue.translate("Refusals", "a length of time"),
        "wavelength": tongue.translate("Refusals", "a wavelength"),
        "plain": tongue.translate("Refusals", "a plain number"),
    }.get(name, UNKNOWN)


def _with_units(told: Told) -> Told:
    """Return `told` with what is wanted, what was found, and the units that would do."""
    usable = dict.fromkeys(symbols(told.text("wanted")))
    return told.plus(
        wanted=_dimension(told.text("wanted"), told.tongue),
        found=_dimension(told.text("found"), told.tongue),
        units=", ".join(usable),
    )


def _unknown_unit(told: Told) -> str:
    told = _with_units(told)
    if not told["units"]:
        return told.translate("Refusals", "“{unit}” does not belong here, as this is {wanted}: leave it out.")
    return told.translate("Refusals", "“{unit}” is not a unit that can be used here. Use one of: {units}.")


def _wrong_kind_of_unit(told: Told) -> str:
    told = _with_units(told)
    if not told["units"]:
        return told.translate("Refusals", "“{unit}” is {found}, and this is {wanted}: leave it out.")
    return told.translate("Refusals", "“{unit}” is {found}, and this is {wanted}. Use one of: {units}.")


def _not_a_number(told: Told) -> str:
    return told.translate("Refusals", "“{value}” is not a number. Write it like 12.5 or 12,5.")


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


def _let_down_runs_out(told: Told) -> str:
    if not told.number("let_down_parts") > 0.0:
        return told.translate(
            "Refusals",
            "Liquor {liquor} is neat stock, with no let-down to give way to a weaker one. Mix a stronger"
            " stock, or keep the parts and let the depth fall.",
        )
    return told.translate(
        "Refusals",
        "Liquor {liquor} has {let_down_parts} parts of let-down and would have to give up {needed_parts}."
        " Mix a stronger stock, or keep the parts and let the depth fall.",
    )


def _depth_unreachable(told: Told) -> str:
    if told.params.get("needed_strength_g_per_l") is None:
        told = told.plus(first=told.translate("Refusals", "Mix stronger stocks"))
    else:
        told = told.plus(
            first=told.translate("Refusals", "Mix {stock} at {needed_strength_g_per_l} or stronger")
        )
    return told.translate(
        "Refusals",
        "{section}: depth {wanted_pct_owf} is out of reach. It takes {needed_ml} of stock, and {liquid_ml}"
        " is painted ({applied_ml_per_g}). {first}, or paint {needed_ml_per_g}, or enter a depth of at most"
        " {reach_pct_owf}.",
    )


def _no_hue_at_hand(told: Told) -> str:
    towards = {
        "redder": told.translate("Refusals", "redder"),
        "greener": told.translate("Refusals", "greener"),
        "yellower": told.translate("Refusals", "yellower"),
        "bluer": told.translate("Refusals", "bluer"),
    }.get(told.text("direction"), told.text("direction"))
    return told.plus(towards=towards).translate(
        "Refusals", "One graduation of any bottle at hand makes liquor {liquor} no {towards}."
    )


TYPED: dict[str, Telling] = {
    "nothing-typed-in": lambda told: told.translate("Refusals", "Nothing is typed in. Enter a number."),
    "too-long-to-read": lambda told: told.translate(
        "Refusals", "That is {length} characters long, and at most {longest} can be read here. Shorten it."
    ),
    "not-a-number": _not_a_number,
    "not-a-time-of-day": lambda told: told.translate(
        "Refusals", "“{value}” is no time of day. Write it like 9:30 or 14:00, or leave it empty."
    ),
    "number-too-large": lambda told: told.translate(
        "Refusals", "{value} is too large a number. Check its digits."
    ),
    "ambiguous-number": lambda told: told.translate(
        "Refusals", "“{value}” can be read two ways. Write {whole} or {fraction}."
    ),
    "unknown-unit": _unknown_unit,
    "wrong-kind-of-unit": _wrong_kind_of_unit,
    "empty-amount": lambda told: told.translate(
        "Refusals",
        "An amount is missing in “{value}”. Write it like 12 + 38; 0 for a stock that is left out.",
    ),
    "not-a-swatch-colour": lambda told: told.translate(
        "Refusals", "“{value}” is not a colour. Write it like #3a6ea5, or as CIE Lab like 52.1 34 -12."
    ),
    "not-two-quantities": lambda told: told.translate(
        "Refusals", "“{value}” is not two quantities. Write a length and a weight, like 1.5 m; 39 g."
    ),
    "not-a-sample": lambda told: told.translate(
        "Refusals",
        "“{value}” is not a depth. Write % owf like 1.5, or what was painted like 12 + 38 on 18 g.",
    ),
    "step-missing": lambda told: told.translate(
        "Refusals", "There is nothing in step {step}. Type its amounts, or take out the sign around it."
    ),
    "comma-between-steps": lambda told: told.translate(
        "Refusals",
        "“{value}” can be one number, or the end of a step and the start of the next. Put a space after a"
        " comma between steps, or write the number as {number}.",
    ),
    "negative-amount": lambda told: told.translate(
        "Refusals", "{value} ml is less than nothing. Enter 0 or more."
    ),
}

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


def _with_other_section(told: Told) -> Told:
    """Return `told` with the name of the second of two sections."""
    if told.plan is None:
        return told
    return told.plus(other_section=section_name(told.plan, told.text("other_id"), told.tongue))


EDITS: dict[str, Telling] = {
    "pieces-do-not-fill": lambda told: told.translate(
        "Refusals",
        "The pieces are {total_m} long together, and the roving is {length_m}. Measure them again, or put the"
        " length of the roving right first.",
    ),
    "places-not-rising": lambda told: told.translate(
        "Refusals",
        "The place at {place_m} does not come after the one before it. Enter places from start to end.",
    ),
    "place-past-end": lambda told: told.translate(
        "Refusals",
        "The place at {place_m} is past the end of the roving, which is {length_m} long. Take it out.",
    ),
    "boundary-locked": lambda told: told.translate(
        "Refusals", "{section} is locked, and its boundaries stay where they are. Unlock it first."
    ),
    "boundary-out-of-range": lambda told: told.translate(
        "Refusals", "The boundary cannot go to {position_m}. There is room from {low_m} to {high_m}."
    ),
    "not-neighbours": lambda told: told.translate(
        "Refusals", "The selected sections do not all lie side by side. Select a run without a break."
    ),
    "fold-out-of-range": lambda told: told.translate(
        "Refusals", "The fold cannot go to {position_m}. There is room from {low_m} to {high_m}."
    ),
    "only-section": lambda told: told.translate(
        "Refusals",
        "The only section is as long as the lay, {length_m}. Change the roving’s length or folds instead.",
    ),
    "section-locked": lambda told: told.translate("Refusals", "{section} is locked. Unlock it first."),
    "neighbours-locked": lambda told: told.translate(
        "Refusals",
        "{section} has only locked neighbours, which cannot grow into its place. Unlock one first.",
    ),
    "length-pinned": lambda told: told.translate(
        "Refusals",
        "{section}, at the end of the lay, is locked, so the lay keeps its length. Unlock it first.",
    ),
    "length-too-short": lambda told: told.translate(
        "Refusals",
        "A lay of {length_m} would end before a locked boundary at {pinned_m}. Unlock its section first.",
    ),
    "lengths-do-not-match": lambda told: told.translate(
        "Refusals", "{count} lengths do not fit {sections} sections. Give one length to each."
    ),
    "nothing-to-merge": lambda told: told.translate(
        "Refusals", "Choose two or more neighbouring sections to merge."
    ),
    "nothing-typed": lambda told: told.translate(
        "Refusals", "All amounts are 0. Enter how much to paint, such as 12 + 38."
    ),
    "liquor-in-use": lambda told: told.translate(
        "Refusals",
        "Liquor {liquor} is still painted somewhere ({count}). Give those sections another liquor first.",
    ),
    "liquor-in-stripes": lambda told: told.translate(
        "Refusals",
        "Liquor {liquor} is still wanted in stripes ({count}). Give those stripes another liquor first.",
    ),
    "no-stripes": lambda told: told.translate(
        "Refusals", "No stripes are wanted yet. Add one, or take them from the sections."
    ),
    "no-yarn-to-stripe": lambda told: told.translate(
        "Refusals",
        "No yarn comes of this roving: a strand is all wound off before plying. Wind off less.",
    ),
    "stripes-too-long": lambda told: told.translate(
        "Refusals",
        "The stripes need {needed_g} of each roving, and there are {available_g}: {over_g} too much, which is"
        " {over_plied_m} of yarn or {over_rows} rows. Shorten stripes by that, knit narrower, or take a"
        " heavier roving.",
    ),
    "liquor-not-painted": lambda told: told.translate(
        "Refusals",
        "Liquor {liquor} is not painted anywhere, so it has no jar to go by. Paint a section first.",
    ),
    "only-stock": lambda told: told.translate(
        "Refusals", "{stock} is the only stock in liquor {liquor}. Add another to share with."
    ),
    "no-let-down": lambda told: told.translate(
        "Refusals",
        "Liquor {liquor} needs let-down to fill its jar, and the shelf has none. Add water or acid water.",
    ),
    "depth-unreachable": _depth_unreachable,
    "stock-in-use": lambda told: told.translate(
        "Refusals", "{stock} is still in liquor {liquors}. Take it out there first."
    ),
    "letter-taken": lambda told: told.translate(
        "Refusals", "The letter {value} is that of liquor {liquor}. Choose another, such as {free}."
    ),
    "other-role": lambda told: told.translate(
        "Refusals", "{other} cannot take the place of {stock}: one is a dye, the other a let-down."
    ),
    "no-acid-water": lambda told: told.translate(
        "Refusals",
        "No let-down is known to carry acid, so {stock} cannot have the same. Enter its acid as a number.",
    ),
    "stock-is-acid-line": lambda told: told.translate(
        "Refusals", "{stock} is the acid line of every jar. End the acid line first."
    ),
    "no-steps": lambda told: told.translate(
        "Refusals", "There are no steps yet. Type at least one, such as 12+36."
    ),
    "step-empty": lambda told: told.translate(
        "Refusals", "Step {step} has 0 ml of everything. Enter how much to paint, or leave it out."
    ),
    "amounts-do-not-match": lambda told: told.translate(
        "Refusals",
        "Amounts in step {step}: {count}; stocks chosen: {stocks}. Type one amount for each stock, 0 where a"
        " step has none.",
    ),
    "stock-chosen-twice": lambda told: told.translate(
        "Refusals", "{stock} is chosen twice. Choose another stock for one of them."
    ),
    "liquor-empty": lambda told: told.translate(
        "Refusals", "Liquor {liquor} has nothing in it to fade from or to. Put a stock into it first."
    ),
    "fade-to-itself": lambda told: told.translate(
        "Refusals", "Both ends of the crossfade are liquor {liquor}. Choose another for one of them."
    ),
    "fade-of-one-section": lambda told: told.translate(
        "Refusals", "A fade needs two sections or more. Choose a longer run, or make new sections."
    ),
    "fade-ends-alike": lambda told: told.translate(
        "Refusals", "The fade ends as it begins. Choose another colour for one of its ends."
    ),
    "fade-of-many-dyes": lambda told: told.translate(
        "Refusals",
        "Colour {stop} of the fade is mixed of {dyes} dyes. Choose at most {most} for each colour.",
    ),
    "fade-out-of-reach": lambda told: told.translate(
        "Refusals",
        "Section {number} of the fade is to be {wanted_pct_owf} deep. It takes {needed_ml} of stock, and"
        " {liquid_ml} is painted. Mix stronger stocks, or ask for at most {reach_pct_owf}.",
    ),
    "section-without-liquid": lambda told: told.translate(
        "Refusals", "{section} is to get no liquid. Let it follow the fibre, or enter an amount, first."
    ),
    "no-dye-at-hand": lambda told: told.translate(
        "Refusals", "No bottle of dye is at hand. Put one on the shelf first."
    ),
    "no-colours": lambda told: told.translate("Refusals", "There is no colour yet. Add one first."),
    "nothing-lighter": lambda told: told.translate(
        "Refusals",
        "Liquor {liquor} cannot be let down by one graduation: less than that of dye is in its jar.",
    ),
    "nothing-deeper": lambda told: told.translate(
        "Refusals",
        "Liquor {liquor} cannot be deeper by one graduation: it has no dye, or no let-down to give way.",
    ),
    "no-hue-at-hand": _no_hue_at_hand,
    "section-wiped-dry": lambda told: told.translate(
        "Refusals", "What is wiped out of {section} takes nearly all its dye along. Wipe less there first."
    ),
    "let-down-runs-out": _let_down_runs_out,
    "more-strips-than-grams": lambda told: told.translate(
        "Refusals",
        "Ply {ply} weighs {ply_g}, too little to be split into {strips} strips of a gram or more. Split it"
        " into fewer.",
    ),
    "too-few-rovings": lambda told: told.translate(
        "Refusals",
        "{count} plies take a roving each, and the set has {rovings}. Paint more rovings, or ply fewer.",
    ),
    "lay-folded": lambda told: told.translate(
        "Refusals",
        "The lay is folded, so both halves are painted alike already. To make them weigh the same, fold by"
        " weight.",
    ),
    "lay-not-folded": lambda told: told.translate(
        "Refusals", "The lay is straight and has no fold to move. Fold it, or move boundaries to equal grams."
    ),
    "halves-not-alike": lambda told: told.translate(
        "Refusals",
        "Read from the two ends, colour number {count} is {liquor} on one and {other_liquor} on the other."
        " Mirror one half first.",
    ),
    "halves-locked-apart": lambda told: _with_other_section(told).translate(
        "Refusals",
        "{section} and {other_section} answer each other, {difference_g} apart, and both are locked there."
        " Unlock one of them.",
    ),
    "halves-without-room": lambda told: told.translate(
        "Refusals", "What is locked leaves no room for the boundaries between. Unlock a section first."
    ),
    "mend-is-advice": lambda told: told.translate(
        "Refusals", "This is advice for the bench; there is nothing the program could change by itself."
    ),
}
