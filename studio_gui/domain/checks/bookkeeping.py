"""Checks of the plan itself: short sections, bottles and liquors nobody uses, jars that are really two.

The rule of this module: what is merely untidy is a note; what spoils the lay is a warning.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from studio_gui.domain.bench import jar_numbers
from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.errors import Param
from studio_gui.domain.figures import LEAST_PAINTABLE_M, SectionFigures
from studio_gui.domain.liquid import above


def crushed_sections(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``section-unpaintable`` for each section too short to be painted; nothing else is said of it."""
    sections = figures.plan.sections
    for index in np.flatnonzero(~figures.paintable).tolist():
        section = sections[index]
        params: dict[str, Param] = {"length_m": figures.length_m(index), "least_m": LEAST_PAINTABLE_M}
        mends = (
            () if section.locked or len(sections) == 1 else (Mend("take-out", {"section_id": section.id}),)
        )
        yield Check("section-unpaintable", "error", (section.id,), params, mends)


def short_sections(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``section-short`` once, naming sections shorter than twice the wicking width."""
    least_m = 2.0 * figures.plan.wicking_mm / 1000.0
    lengths = np.diff(figures.edges_m)
    short = np.flatnonzero(above(least_m, lengths) & figures.paintable).tolist()
    if short:
        params: dict[str, Param] = {
            "shortest_m": float(lengths[short].min()),
            "least_m": least_m,
            "count": len(short),
        }
        yield Check("section-short", "warning", tuple(figures.plan.sections[i].id for i in short), params)


def unused_stocks(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``stock-unused`` for each stock of which no section takes anything."""
    in_liquors = {stock_id for liquor in figures.plan.liquors for stock_id in liquor.stock_ids}
    line = figures.plan.acid_line
    for stock, is_used in zip(figures.plan.stocks, figures.used_stocks, strict=True):
        if is_used or (line is not None and line.stock_id == stock.id):
            continue
        mends = () if stock.id in in_liquors else (Mend("remove-stock", {"stock_id": stock.id}),)
        yield Check("stock-unused", "note", (), {"stock_id": stock.id}, mends)


def liquors(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``liquor-empty`` for used liquors with nothing in them, ``liquor-unused`` for the unused.

    One that a wanted stripe is to have is not unused.
    """
    sections = figures.plan.sections
    wanted = {stripe.liquor_id for stripe in figures.plan.yarn.stripes}
    users: dict[str, list[str]] = {}
    for section in sections:
        users.setdefault(section.liquor_id, []).append(section.id)
    for liquor in figures.plan.liquors:
        params: dict[str, Param] = {"liquor_id": liquor.id}
        if liquor.id not in users and liquor.id not in wanted:
            yield Check("liquor-unused", "note", (), params, (Mend("remove-liquor", params),))
        elif liquor.id in users and liquor.is_empty:
            yield Check("liquor-empty", "warning", tuple(users[liquor.id]), params)


def two_jars(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``two-jars`` for each liquor by depth that has to be mixed more than once."""
    painted = np.flatnonzero(figures.judged)
    first = painted[np.unique(jar_numbers(figures)[painted], return_index=True)[1]]
    jars_of_liquor = np.bincount(figures.liquor_index[first], minlength=len(figures.plan.liquors))
    for column in np.flatnonzero(jars_of_liquor > 1).tolist():
        users = painted[figures.liquor_index[painted] == column].tolist()
        params: dict[str, Param] = {
            "liquor_id": figures.plan.liquors[column].id,
            "count": int(jars_of_liquor[column]),
        }
        yield Check("two-jars", "note", tuple(figures.plan.sections[index].id for index in users), params)


def strengths_by_spoon(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``strength-by-spoon`` for each used dye whose stock was measured by spoon."""
    for stock, is_used in zip(figures.plan.stocks, figures.used_stocks, strict=True):
        if is_used and stock.is_dye and stock.strength_known == "spoon":
            yield Check("strength-by-spoon", "note", (), {"stock_id": stock.id})
