"""What lies on the lay, and what has become of it, in short sentences to be heard.

The rule of this module: somebody who sees nothing hears of a section, a boundary or a fold what its drawing
shows, and of a change what is different now, and no more than that.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Literal

from studio_gui.domain.edits.boundaries import is_locked
from studio_gui.domain.edits.folds import fold_place_m
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import Worksheet
from studio_gui.wording.naming import MOST_NAMES_IN_A_ROW, one_line, section_letter, section_name
from studio_gui.wording.quantities import LAY_LENGTH, MASS, VOLUME, shown, shown_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue

Way = Literal["done", "undone", "redone"]

SAME_PLACE_M = 1e-9  # less than this is dust from adding, not a boundary that moved


def section_words(sheet: Worksheet, index: int, tongue: Tongue = TRANSLATED) -> str:
    """Return a section with its figures: "A Tideline, 60.0 cm, 42.0 ml, in range"."""
    section = sheet.plan.sections[index]
    words = [
        section_name(sheet.plan, section.id, tongue),
        shown(LAY_LENGTH, sheet.figures.length_m(index), tongue),
        shown(VOLUME, float(sheet.figures.liquid_ml[index]), tongue),
        wetness_words(sheet, index, tongue),
    ]
    return ", ".join(words + _locked(section.locked, tongue))


def section_place_words(sheet: Worksheet, index: int, tongue: Tongue = TRANSLATED) -> str:
    """Return where a section lies: "Section 2 of 6, 60.0 cm to 120.0 cm, 16.8 g of fibre"."""
    edges_m = sheet.figures.edges_m
    return tongue.translate("Lay", "Section {place} of {count}, {start} to {end}, {fibre} of fibre").format(
        place=index + 1,
        count=len(sheet.plan.sections),
        start=shown(LAY_LENGTH, float(edges_m[index]), tongue),
        end=shown(LAY_LENGTH, float(edges_m[index + 1]), tongue),
        fibre=shown(MASS, float(sheet.figures.fibre_g[index]), tongue),
    )


def wetness_words(sheet: Worksheet, index: int, tongue: Tongue = TRANSLATED) -> str:
    """Return how wet a section is: "in range", "core may stay white", "13.5 ml over the brim"."""
    saturation = sheet.figures.saturation(index)
    if saturation == "over":
        free = shown_briefly(VOLUME, float(sheet.figures.free_ml[index]), tongue)
        return tongue.translate("Lay", "{free} over the brim").format(free=free)
    if saturation == "under":
        return tongue.translate("Lay", "core may stay white")
    return tongue.translate("Lay", "in range")


def boundary_letters(plan: Plan, index: int) -> str:
    """Return the letters on both sides of a boundary: "A | B"."""
    beside = plan.sections[index : index + 2]
    return " | ".join(one_line(section_letter(plan, section.id)) for section in beside)


def boundary_words(sheet: Worksheet, index: int, tongue: Tongue = TRANSLATED) -> str:
    """Return a boundary with its place: "Boundary A | B, 60.0 cm from the start, gap 1.0 cm, locked"."""
    words = tongue.translate("Lay", "Boundary {letters}, {place} from the start").format(
        letters=boundary_letters(sheet.plan, index),
        place=shown(LAY_LENGTH, sheet.plan.boundaries[index].position_m, tongue),
    )
    gap_m = sheet.plan.boundaries[index].gap_m
    gap = [gap_words(gap_m, tongue)] if gap_m else []
    return ", ".join([words, *gap, *_locked(is_locked(sheet.plan, index), tongue)])


def gap_words(gap_m: float, tongue: Tongue = TRANSLATED) -> str:
    """Return the signed width of a gap: "gap 1.0 cm", "overlap 1.0 cm", "no gap"."""
    width = shown(LAY_LENGTH, abs(gap_m), tongue)
    if gap_m > 0.0:
        return tongue.translate("Lay", "gap {width}").format(width=width)
    return (
        tongue.translate("Lay", "overlap {width}").format(width=width)
        if gap_m
        else tongue.translate("Lay", "no gap")
    )


def fold_words(sheet: Worksheet, index: int, tongue: Tongue = TRANSLATED) -> str:
    """Return a fold with its place: "Fold 1 of 2, 150.0 cm from the start"."""
    return tongue.translate("Lay", "Fold {number} of {count}, {place} from the start").format(
        number=index + 1,
        count=len(sheet.plan.lay.fold_positions_m),
        place=shown(LAY_LENGTH, fold_place_m(sheet.plan, index), tongue),
    )


def changed_words(
    before: Worksheet, after: Worksheet, step: str, way: Way = "done", tongue: Tongue = TRANSLATED
) -> str:
    """Return what is different on the lay in `after`, in sentences; "" where nothing is.

    `step` is what was done, undone or redone, as undo calls it ("Split section"). A boundary that moved says
    more than the step's name, which is left out then.
    """
    sentences = [*_lay_changes(before, after, tongue), *_wetness_changes(before, after, tongue)]
    if way != "done" or len(_moved(before.plan, after.plan)) != 1:
        opening = _OPENINGS[way](tongue).format(step=step)
        sentences = [opening, *sentences] if sentences or way != "done" else []
    return " ".join(sentences)


_OPENINGS: dict[Way, Callable[[Tongue], str]] = {
    "done": lambda tongue: tongue.translate("Lay", "{step}."),
    "undone": lambda tongue: tongue.translate("Lay", "Undone: {step}."),
    "redone": lambda tongue: tongue.translate("Lay", "Redone: {step}."),
}


def _moved(before: Plan, after: Plan) -> list[int]:
    """Return which boundaries lie elsewhere in `after`; none where sections came or went."""
    if len(before.boundaries) != len(after.boundaries):
        return []
    places = enumerate(zip(before.boundaries, after.boundaries, strict=True))
    return [i for i, (old, new) in places if abs(old.position_m - new.position_m) > SAME_PLACE_M]


def _lay_changes(before: Worksheet, after: Worksheet, tongue: Tongue) -> Iterator[str]:
    count = len(after.plan.sections)
    moved = _moved(before.plan, after.plan)
    if len(before.plan.sections) != count:
        yield tongue.translate("Lay", "Sections now: {count}.").format(count=count)
    elif len(moved) == 1:
        yield from _move(after, moved[0], tongue)
    elif moved:
        yield tongue.translate("Lay", "Boundaries moved: {count}.").format(count=len(moved))
    else:
        yield from _gap_changes(before.plan, after.plan, tongue)


def _gap_changes(before: Plan, after: Plan, tongue: Tongue) -> Iterator[str]:
    for index, (old, new) in enumerate(zip(before.boundaries, after.boundaries, strict=True)):
        if old.gap_m != new.gap_m:
            yield tongue.translate("Lay", "Boundary {letters}: {gap}.").format(
                letters=boundary_letters(after, index), gap=gap_words(new.gap_m, tongue)
            )


def _move(sheet: Worksheet, index: int, tongue: Tongue) -> Iterator[str]:
    """Yield where a boundary is now, and what its neighbours measure and take."""
    place = shown(LAY_LENGTH, sheet.plan.boundaries[index].position_m, tongue)
    letters = boundary_letters(sheet.plan, index)
    yield tongue.translate("Lay", "Boundary {letters} at {place}.").format(letters=letters, place=place)
    for neighbour in (index, index + 1):
        yield tongue.translate("Lay", "{name}: {length}, {liquid}.").format(
            name=section_name(sheet.plan, sheet.plan.sections[neighbour].id, tongue),
            length=shown(LAY_LENGTH, sheet.figures.length_m(neighbour), tongue),
            liquid=shown(VOLUME, float(sheet.figures.liquid_ml[neighbour]), tongue),
        )


def _wetness_changes(before: Worksheet, after: Worksheet, tongue: Tongue) -> Iterator[str]:
    """Yield every section that is wetter or drier than it should be, or right again, since `before`."""
    was = {section.id: before.figures.saturation(i) for i, section in enumerate(before.plan.sections)}
    changed = [
        index
        for index, section in enumerate(after.plan.sections)
        if after.figures.saturation(index) != was.get(section.id, "in range")
    ]
    for index in changed[:MOST_NAMES_IN_A_ROW]:
        yield tongue.translate("Lay", "{name}: {wetness}.").format(
            name=section_name(after.plan, after.plan.sections[index].id, tongue),
            wetness=wetness_words(after, index, tongue),
        )
    more = len(changed) - MOST_NAMES_IN_A_ROW
    if more > 0:
        yield tongue.translate("Lay", "The wetness of {count} more changed.").format(count=more)


def _locked(locked: bool, tongue: Tongue) -> list[str]:
    return [tongue.translate("Lay", "locked")] if locked else []
