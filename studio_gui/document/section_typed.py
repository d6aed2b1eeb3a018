"""What is typed into a cell of the table of sections, as a named edit.

The rule of this module: one cell, one pure edit, one undo step. Bare numbers have the unit of the column.
"""

from __future__ import annotations

from functools import partial

from studio_gui.document.open_plan import Edit
from studio_gui.document.section_rows import Column, SectionRow
from studio_gui.domain.edits.boundaries import move_boundary, set_gap, set_section_length
from studio_gui.domain.edits.sections import change_section, paint_per_gram
from studio_gui.wording.quantities import LAY_LENGTH, VOLUME, WETNESS, parse
from studio_gui.wording.translation import translate

_FOLLOW = ("", "follow", "follows", "follows fibre")


def can_be_typed(row: SectionRow, column: int) -> bool:
    """Tell whether a cell can be typed into; the two ends of the lay are not moved here."""
    if column == Column.FROM:
        return not row.is_first
    if column in (Column.TO, Column.GAP):
        return not row.is_last
    return column in (
        Column.LETTER,
        Column.NAME,
        Column.LENGTH,
        Column.LIQUID,
        Column.PER_ROVING,
        Column.APPLIED,
        Column.WIPED,
    )


def typed_edit(row: SectionRow, column: int, typed: str) -> tuple[str, Edit]:
    """Return the edit that `typed` means in a cell that can be typed into, and its name.

    Raises
    ------
    InvalidPlan
        When it is no value for that cell.
    """
    section_id = row.id
    if column == Column.NAME:
        return translate("Steps", "Rename section"), partial(
            change_section, section_id=section_id, name=typed
        )
    if column == Column.LETTER:
        liquor = partial(change_section, section_id=section_id, liquor_id=_liquor_id(row, typed))
        return translate("Steps", "Choose liquor"), liquor
    if column in (Column.FROM, Column.TO, Column.LENGTH, Column.GAP):
        return _place_edit(row, column, typed)
    if column == Column.WIPED:
        wiped_ml = parse(VOLUME, typed, "wiped_ml")
        return translate("Steps", "Plan a wipe"), partial(
            change_section, section_id=section_id, wiped_ml=wiped_ml
        )
    return _liquid_edit(row, column, typed)


def _place_edit(row: SectionRow, column: int, typed: str) -> tuple[str, Edit]:
    if column == Column.GAP:
        gap_m = parse(LAY_LENGTH, typed, "gap_m")
        return translate("Steps", "Set gap"), partial(set_gap, index=row.index, gap_m=gap_m)
    place_m = parse(LAY_LENGTH, typed, "boundary_m")
    if column == Column.LENGTH:
        return translate("Steps", "Set length"), partial(
            set_section_length, index=row.index, length_m=place_m
        )
    boundary = row.index - 1 if column == Column.FROM else row.index
    return translate("Steps", "Move boundary"), partial(move_boundary, index=boundary, position_m=place_m)


def _liquid_edit(row: SectionRow, column: int, typed: str) -> tuple[str, Edit]:
    """Return the edit of an amount: for the whole set, for one roving, or for each gram."""
    if typed.strip().casefold() in (*_FOLLOW, translate("Steps", "follow").casefold()):
        return follow_edit(row)
    fix = translate("Steps", "Fix liquid")
    if column == Column.APPLIED:
        applied = parse(WETNESS, typed, "applied_ml_per_g")
        return fix, partial(paint_per_gram, section_id=row.id, applied_ml_per_g=applied)
    fixed_ml = parse(VOLUME, typed, "fixed_ml")
    if column == Column.PER_ROVING:
        fixed_ml *= row.sheet.plan.fibre.rovings
    return fix, partial(change_section, section_id=row.id, fixed_ml=fixed_ml)


def follow_edit(row: SectionRow) -> tuple[str, Edit]:
    """Return the edit that lets a section's liquid follow its fibre, and its name."""
    name = translate("Steps", "Let liquid follow the fibre")
    return name, partial(change_section, section_id=row.id, fixed_ml=None)


def _liquor_id(row: SectionRow, typed: str) -> str:
    """Return the id of the liquor that is meant by its id or its letter; what was typed where none is."""
    by_letter = {one.letter.casefold(): one.id for one in row.sheet.plan.liquors}
    return by_letter.get(typed.strip().casefold(), typed)
