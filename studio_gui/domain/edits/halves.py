"""Edits that make the halves of a roving match.

The rule of this module: halves match by weight, never by length, so that equal marks give equal metres of
singles. Places are g along the mean roving of the set. What is locked stays where it is, or the edit is
refused. A plan whose halves match already is returned as it is.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from studio_gui.domain.edits.boundaries import is_locked
from studio_gui.domain.edits.inputs import fold_by_weight
from studio_gui.domain.edits.sections import new_id
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.geometry import equal_mass_folds, lay_position, mass_to, strip_at_mass, strip_position
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RELATIVE_TOLERANCE
from studio_gui.domain.sections import Boundary, Section

FloatArray = NDArray[np.float64]
Half = Literal["first", "second"]


# -- fold by weight ----------------------------------------------------------------------------------------


def fold_halves_by_weight(plan: Plan) -> Plan:
    """Fold where every leg weighs the same, with marks by weight on each leg.

    Raises
    ------
    EditRefused
        ``lay-not-folded``; ``length-pinned``, ``length-too-short`` when a locked section is in the way.
    """
    if plan.lay.passes == 1:
        raise EditRefused("lay-not-folded")
    folds = equal_mass_folds(plan.fibre, plan.lay.passes)
    far_m = np.abs(np.subtract(folds, plan.lay.fold_positions_m)).max()
    if plan.lay.matching == "by weight" and far_m <= RELATIVE_TOLERANCE * plan.fibre.length_m:
        return plan
    return fold_by_weight(plan)


# -- equal grams -------------------------------------------------------------------------------------------


def equal_halves(plan: Plan) -> Plan:
    """Move the boundaries of an unfolded lay so that each colour weighs the same in both halves.

    Two boundaries that answer each other meet in the middle between them; one that is locked stays, and its
    partner follows it. Boundaries inside a colour keep their share of its weight.

    Raises
    ------
    EditRefused
        ``lay-folded``; ``halves-not-alike`` when the colours do not read the same from both ends;
        ``halves-locked-apart`` when both of a pair are locked where they do not match;
        ``halves-without-room`` when what is locked leaves no room for what has to move.
    InvalidPlan
        ``section-too-short``.
    """
    _refuse_folded(plan)
    places_g, total_g = _boundaries_g(plan), plan.fibre.mass_g
    changes = _colour_changes(plan)
    pairs = list(zip(changes, reversed(changes), strict=True))[: len(changes) // 2]
    apart_g = [places_g[one] + places_g[other] - total_g for one, other in pairs]
    if all(abs(grams) <= RELATIVE_TOLERANCE * total_g for grams in apart_g):
        return plan
    locked = {index for index in range(len(places_g)) if is_locked(plan, index)}
    knots = {index: places_g[index] for index in locked}
    for (one, other), grams in zip(pairs, apart_g, strict=True):
        if one in locked and other in locked:
            if abs(grams) > RELATIVE_TOLERANCE * total_g:
                raise _locked_apart(plan, one, other, abs(grams))
        elif one in locked or other in locked:
            stays, follows = (one, other) if one in locked else (other, one)
            knots[follows] = total_g - places_g[stays]
        else:
            knots[one], knots[other] = places_g[one] - grams / 2.0, places_g[other] - grams / 2.0
    before_g = [0.0, *(places_g[index] for index in sorted(knots)), total_g]
    after_g = [0.0, *(knots[index] for index in sorted(knots)), total_g]
    if min(np.diff(after_g)) <= RELATIVE_TOLERANCE * total_g:
        raise EditRefused("halves-without-room")
    return _moved(plan, places_g, np.interp(places_g, before_g, after_g))


def _colour_changes(plan: Plan) -> list[int]:
    """Return the boundaries where the colour changes; refuse colours that differ from the two ends."""
    liquors = [section.liquor_id for section in plan.sections]
    changes = [index for index, (one, other) in enumerate(pairwise(liquors)) if one != other]
    colours = [liquors[index] for index in (*changes, -1)]
    for number, (one, other) in enumerate(zip(colours, reversed(colours), strict=True), start=1):
        if one != other:
            letters = plan.liquor(one).letter, plan.liquor(other).letter
            raise EditRefused("halves-not-alike", count=number, liquor=letters[0], other_liquor=letters[1])
    return changes


def _locked_apart(plan: Plan, one: int, other: int, difference_g: float) -> EditRefused:
    """Return the refusal that names a locked section beside each of two boundaries."""
    near, far = (plan.sections[index if plan.sections[index].locked else index + 1] for index in (one, other))
    return EditRefused(
        "halves-locked-apart",
        section=near.name,
        section_id=near.id,
        other_section=far.name,
        other_id=far.id,
        difference_g=difference_g,
    )


def _moved(plan: Plan, old_g: FloatArray, new_g: FloatArray) -> Plan:
    """Return the plan with its boundaries at `new_g`; those that stay keep their place to the last digit."""
    places_m = _lay_m(plan, new_g)
    stays = np.abs(new_g - old_g) <= 1e-3 * RELATIVE_TOLERANCE * plan.fibre.mass_g
    boundaries = tuple(
        boundary if stay else replace(boundary, position_m=place)
        for boundary, place, stay in zip(plan.boundaries, places_m.tolist(), stays.tolist(), strict=True)
    )
    return plan.with_boundaries(boundaries)


# -- mirror ------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Reading:
    """Sections of an unfolded lay read from the end of the half that is kept; boundaries in g from there."""

    sections: tuple[Section, ...]
    places_g: tuple[float, ...]
    gaps_m: tuple[float, ...]

    def turned(self, total_g: float) -> _Reading:
        """The same, read from the other end."""
        places_g = tuple(total_g - place for place in reversed(self.places_g))
        return _Reading(self.sections[::-1], places_g, self.gaps_m[::-1])


def mirror_half(plan: Plan, keep: Half = "first") -> Plan:
    """Paint one half of an unfolded lay as the mirror of the half that is kept, by weight.

    The section at the middle lies across it, and its ml go with its weight. Mirrored sections have the name,
    liquor and ml of those they mirror; they take the places, and ids, of what lay there.

    Raises
    ------
    EditRefused
        ``lay-folded``; ``section-locked`` when a locked section would change.
    InvalidPlan
        ``section-too-short``, ``too-many``.
    """
    _refuse_folded(plan)
    total_g, places_g = plan.fibre.mass_g, _boundaries_g(plan)
    gaps_m = tuple(boundary.gap_m for boundary in plan.boundaries)
    old = _Reading(plan.sections, tuple(places_g.tolist()), gaps_m)
    read = old if keep == "first" else old.turned(total_g)
    new = _mirrored(read, total_g)
    new = new if keep == "first" else new.turned(total_g)
    if _is_same(old, new, total_g):
        return plan
    for section in plan.sections:
        if section.locked and not _keeps(old, new, section, total_g):
            raise EditRefused("section-locked", section=section.name, section_id=section.id)
    there = _lay_m(plan, new.places_g).tolist()
    kept = sum(place < total_g / 2.0 - RELATIVE_TOLERANCE * total_g for place in read.places_g)
    ours = dict(enumerate(plan.boundaries[:kept]))
    if keep == "second":
        first = len(there) - kept
        ours = dict(enumerate(plan.boundaries[len(plan.boundaries) - kept :], start=first))
    boundaries = tuple(
        ours.get(number) or Boundary(place, gap_m)  # those of the half that is kept stay to the last digit
        for number, (place, gap_m) in enumerate(zip(there, new.gaps_m, strict=True))
    )
    return replace(plan, sections=new.sections, boundaries=boundaries)


def _mirrored(read: _Reading, total_g: float) -> _Reading:
    """Return the reading whose first half is kept, with its mirror for the other."""
    middle_g, least_g = total_g / 2.0, RELATIVE_TOLERANCE * total_g
    inner = sum(place < middle_g - least_g for place in read.places_g)
    places_g, gaps_m = read.places_g[:inner], read.gaps_m[:inner]
    edges_g = (0.0, *read.places_g, total_g)
    start_g, end_g = edges_g[inner : inner + 2]
    middle = _with_ml(read.sections[inner], 2.0 * (middle_g - start_g) / (end_g - start_g))
    beyond = read.sections[inner + 1 :][::-1]
    taken = [section.id for section in read.sections]
    copies = []
    for number, section in enumerate(read.sections[:inner]):
        if number < len(beyond):
            there = beyond[number]
        else:
            there = Section(new_id("s", taken), "", section.liquor_id)
            taken.append(there.id)
        copies.append(replace(section, id=there.id, locked=there.locked))
    return _Reading(
        (*read.sections[:inner], middle, *copies[::-1]),
        (*places_g, *(total_g - place for place in reversed(places_g))),
        (*gaps_m, *gaps_m[::-1]),
    )


def _with_ml(section: Section, share: float) -> Section:
    if abs(share - 1.0) <= RELATIVE_TOLERANCE:
        return section
    return replace(
        section,
        fixed_ml=None if section.fixed_ml is None else section.fixed_ml * share,
        wiped_ml=section.wiped_ml * share,
        second_pass_ml=section.second_pass_ml * share,
    )


def _is_same(old: _Reading, new: _Reading, total_g: float) -> bool:
    return (
        old.sections == new.sections
        and old.gaps_m == new.gaps_m
        and bool(np.allclose(old.places_g, new.places_g, rtol=0.0, atol=RELATIVE_TOLERANCE * total_g))
    )


def _keeps(old: _Reading, new: _Reading, section: Section, total_g: float) -> bool:
    """Tell whether a section is in both readings what it is and where it is."""
    if section not in new.sections:
        return False
    spots_g = []
    for read in (old, new):
        at = read.sections.index(section)
        spots_g.append((0.0, *read.places_g, total_g)[at : at + 2])
    return bool(np.allclose(spots_g[0], spots_g[1], rtol=0.0, atol=RELATIVE_TOLERANCE * total_g))


# -- places ------------------------------------------------------------------------------------------------


def _refuse_folded(plan: Plan) -> None:
    if plan.lay.passes > 1:
        raise EditRefused("lay-folded", passes=plan.lay.passes)


def _boundaries_g(plan: Plan) -> FloatArray:
    """Return where the boundaries of an unfolded lay lie, g along the mean roving."""
    return mass_to(plan.fibre, strip_position(plan.fibre, plan.lay, 0, plan.edges_m[1:-1]))


def _lay_m(plan: Plan, places_g: ArrayLike) -> FloatArray:
    """Return the places on an unfolded lay (m) before which so many g of the mean roving lie."""
    return lay_position(plan.fibre, plan.lay, strip_at_mass(plan.fibre, places_g))
