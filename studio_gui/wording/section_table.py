"""What a section map says, section by section: names, notes and figures as they are printed.

The rule of this module: every kind of figure has one unit, which stands in the heading; amounts are for the
whole set, for one roving and for one strand. A liquor is named where its name is not that of the section.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from studio_gui.domain.legs import section_on_legs
from studio_gui.domain.plan import Plan
from studio_gui.domain.strands import strand_ml
from studio_gui.domain.worksheet import Worksheet
from studio_gui.wording.figure_columns import FigureColumn, edge_columns, figure_column
from studio_gui.wording.naming import one_line
from studio_gui.wording.quantities import LAY_LENGTH, MASS, VOLUME, shown, shown_bare, shown_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue

#: Longer than any name may be: on paper nothing is cut to a number of letters.
_WHOLE = 1_000


@dataclass(frozen=True, slots=True)
class SectionTable:
    """Rows in the lay's order.

    `liquors` are empty where a section is called like its liquor. `each_ml` is there with several rovings.
    With several strands to a roving there is either `strand_ml`, where they all take the same, or
    `strands_ml`, one column to a strand.
    """

    letters: tuple[str, ...]
    names: tuple[str, ...]
    liquors: tuple[str, ...]
    notes: tuple[tuple[str, ...], ...]
    places: tuple[str, ...]
    lengths: FigureColumn
    grams: FigureColumn
    set_ml: FigureColumn
    each_ml: FigureColumn | None
    strand_ml: FigureColumn | None
    strands_ml: tuple[FigureColumn, ...]

    def __len__(self) -> int:
        return len(self.letters)


def section_table(sheet: Worksheet, tongue: Tongue = TRANSLATED) -> SectionTable:
    """Return the table of a worksheet."""
    plan, figures = sheet.plan, sheet.figures
    painted = [plan.liquors[row] for row in figures.liquor_index.tolist()]
    places, lengths = edge_columns(LAY_LENGTH, figures.edges_m.tolist(), tongue)
    each_ml = figure_column(VOLUME, figures.liquid_ml_per_roving.tolist(), tongue)
    strands = _strand_columns(sheet, tongue) if plan.lay.passes > 1 else ()
    alike = len(set(strands)) == 1
    return SectionTable(
        letters=tuple(one_line(liquor.letter) for liquor in painted),
        names=tuple(one_line(section.name, _WHOLE) for section in plan.sections),
        liquors=tuple(
            _liquor(liquor.name, section.name, tongue)
            for liquor, section in zip(painted, plan.sections, strict=True)
        ),
        notes=tuple(tuple(_notes(sheet, index, tongue)) for index in range(len(figures))),
        places=places,
        lengths=lengths,
        grams=figure_column(MASS, figures.fibre_g.tolist(), tongue),
        set_ml=figure_column(VOLUME, figures.liquid_ml.tolist(), tongue),
        each_ml=each_ml if plan.fibre.rovings > 1 else None,
        strand_ml=strands[0] if alike else None,
        strands_ml=() if alike else strands,
    )


def _strand_columns(sheet: Worksheet, tongue: Tongue) -> tuple[FigureColumn, ...]:
    rows = [strand_ml(sheet.figures, index) for index in range(len(sheet.figures))]
    return tuple(figure_column(VOLUME, column, tongue, summed=False) for column in zip(*rows, strict=True))


def _liquor(name: str, section: str, tongue: Tongue) -> str:
    if not name.strip() or one_line(name, _WHOLE).casefold() == one_line(section, _WHOLE).casefold():
        return ""
    if not section.strip():
        return one_line(name, _WHOLE)
    return tongue.translate("SectionMap", "liquor {0}").format(one_line(name, _WHOLE))


def _notes(sheet: Worksheet, index: int, tongue: Tongue) -> Iterator[str]:
    """Yield what a painter has to know of a section besides its amounts."""
    plan, figures = sheet.plan, sheet.figures
    section = plan.sections[index]
    yield from _leg_notes(plan, index, tongue)
    if not figures.painted[index]:
        yield tongue.translate("SectionMap", "stays undyed")
        return
    if section.second_pass_ml > 0.0:
        later_ml = min(section.second_pass_ml, float(figures.liquid_ml[index]))
        yield tongue.translate(
            "SectionMap", "twice: {first}, heat, press out {later}, then paint {later}"
        ).format(
            first=shown_briefly(VOLUME, float(figures.liquid_ml[index]) - later_ml, tongue),
            later=shown_briefly(VOLUME, later_ml, tongue),
        )
    if section.wiped_ml > 0.0:
        yield tongue.translate("SectionMap", "wipe out {0}").format(
            shown_briefly(VOLUME, section.wiped_ml, tongue)
        )
    if index + 1 < len(plan.sections):
        yield from _edge_notes(plan, index, tongue)


def _leg_notes(plan: Plan, index: int, tongue: Tongue) -> Iterator[str]:
    """Yield where the section lies on each leg, where a tape along the film would mislead."""
    for number, (start_m, end_m) in enumerate(section_on_legs(plan, index), start=1):
        yield tongue.translate("SectionMap", "leg {number}: {start} to {end}").format(
            number=number,
            start=shown_bare(LAY_LENGTH, start_m, tongue),
            end=shown(LAY_LENGTH, end_m, tongue),
        )


def _edge_notes(plan: Plan, index: int, tongue: Tongue) -> Iterator[str]:
    gap_m = plan.boundaries[index].gap_m
    width = shown_briefly(LAY_LENGTH, abs(gap_m), tongue)
    if gap_m > 0.0:
        yield tongue.translate("SectionMap", "then {0} left bare").format(width)
    if gap_m < 0.0:
        yield tongue.translate("SectionMap", "{0} painted over the next").format(width)


def set_line(sheet: Worksheet, tongue: Tongue = TRANSLATED) -> str:
    """Return the line that says what is painted: rovings, grams, length, strands.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> from studio_gui.domain.worksheet import worksheet
    >>> from studio_gui.wording.translation import ENGLISH
    >>> set_line(worksheet(new_plan()), ENGLISH)
    'one roving of 100 g and 400 cm'
    """
    plan = sheet.plan
    count, passes = plan.fibre.rovings, plan.lay.passes
    parts = {
        "count": str(count),
        "passes": str(passes),
        "all": str(count * passes),
        "mass": shown_briefly(MASS, plan.fibre.mass_g, tongue),
        "total": shown_briefly(MASS, sheet.totals.fibre_g, tongue),
        "length": shown_briefly(LAY_LENGTH, plan.fibre.length_m, tongue),
    }
    if count == 1:
        line = tongue.translate("SectionMap", "one roving of {mass} and {length}")
    elif plan.fibre.measured:
        line = tongue.translate("SectionMap", "{count} rovings, {total} together, each {length}")
    else:
        line = tongue.translate("SectionMap", "{count} rovings, each {mass} and {length}")
    if passes > 1:
        folded = (
            tongue.translate("SectionMap", "{line}, laid in {passes} strands")
            if count == 1
            else tongue.translate("SectionMap", "{line}, {all} strands side by side")
        )
        return folded.format(line=line.format(**parts), **parts)
    return line.format(**parts)


def errors_line(sheet: Worksheet, tongue: Tongue = TRANSLATED) -> str:
    """Return the line that warns of errors that stand in the plan; "" where none do."""
    count = sum(check.severity == "error" for check in sheet.checks)
    if not count:
        return ""
    return tongue.translate("SectionMap", "Not ready to paint: errors stand in the checks ({0})").format(
        count
    )


def picture_words(sheet: Worksheet, tongue: Tongue = TRANSLATED) -> str:
    """Return what a picture of the lay shows, for those who hear it: each section's length and liquid."""
    plan, figures = sheet.plan, sheet.figures
    return "; ".join(
        f"{plan.liquors[figures.liquor_index[index]].letter} {section.name}: "
        f"{shown_briefly(LAY_LENGTH, figures.length_m(index), tongue)}, "
        f"{shown_briefly(VOLUME, float(figures.liquid_ml[index]), tongue)}"
        for index, section in enumerate(plan.sections)
    )
