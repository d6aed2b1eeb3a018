"""What typed numbers, amounts and colours that cannot be read are answered with: what, and how to write them.

The rule of this module: every code of reading what is typed has one sentence here.
"""

from __future__ import annotations

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
