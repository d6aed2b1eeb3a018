"""How each kind of item on the lay presents itself to somebody who does not see it.

The rule of this module: one entry of `MANNERS` is all that a kind of item needs to be found, heard and moved
by assistive technology.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from PySide6.QtGui import QAccessible

from studio_gui.document.open_plan import Edit
from studio_gui.domain.edits.boundaries import boundary_range, move_boundary
from studio_gui.domain.edits.folds import fold_place_m, fold_range, move_fold
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.lay_layout import ItemKind
from studio_gui.views.gestures import move_name
from studio_gui.wording.lay_sentences import (
    boundary_words,
    fold_words,
    section_place_words,
    section_words,
)
from studio_gui.wording.quantities import LAY_LENGTH, shown
from studio_gui.wording.translation import translate

Role = QAccessible.Role


@dataclass(frozen=True, slots=True)
class Slide:
    """How an item is moved along the lay by its value: place, range (both m) and edit."""

    place_m: Callable[[Plan, int], float]
    range_m: Callable[[Plan, int], tuple[float, float]]
    edit: Callable[[int, float], Edit]
    step_name: Callable[[Plan, int], str]


@dataclass(frozen=True, slots=True)
class Manner:
    """How items of one kind present themselves."""

    role: QAccessible.Role
    count: Callable[[Plan], int]
    name: Callable[[Worksheet, int], str]
    value: Callable[[Worksheet, int], str]
    description: Callable[[Worksheet, int], str] = lambda _sheet, _index: ""
    slide: Slide | None = None


MANNERS: dict[ItemKind, Manner] = {
    "section": Manner(
        Role.ListItem,
        count=lambda plan: len(plan.sections),
        name=section_words,
        value=lambda sheet, index: shown(LAY_LENGTH, sheet.figures.length_m(index)),
        description=section_place_words,
    ),
    "boundary": Manner(
        Role.Slider,
        count=lambda plan: len(plan.boundaries),
        name=boundary_words,
        value=lambda sheet, index: shown(LAY_LENGTH, sheet.plan.boundaries[index].position_m),
        slide=Slide(
            place_m=lambda plan, index: plan.boundaries[index].position_m,
            range_m=boundary_range,
            edit=lambda index, place_m: partial(move_boundary, index=index, position_m=place_m),
            step_name=move_name,
        ),
    ),
    "fold": Manner(
        Role.Slider,
        count=lambda plan: len(plan.lay.fold_positions_m),
        name=fold_words,
        value=lambda sheet, index: shown(LAY_LENGTH, fold_place_m(sheet.plan, index)),
        slide=Slide(
            place_m=fold_place_m,
            range_m=fold_range,
            edit=lambda index, place_m: partial(move_fold, index=index, place_m=place_m),
            step_name=lambda _plan, _index: translate("Gestures", "Move the fold"),
        ),
    ),
}
