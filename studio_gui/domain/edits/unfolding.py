"""A folded lay made straight, painted as it was on every leg.

The rule of this module: the strip stays what it is, colour by colour and metre by metre; a section that lay
on several legs becomes as many. Fixed liquid, wipe and second pass of a section go with its weight.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np

from studio_gui.domain.edits.sections import new_id
from studio_gui.domain.geometry import mass_to
from studio_gui.domain.plan import Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.strip import StripRun, strip_runs


def unfold_as_painted(plan: Plan) -> Plan:
    """Lay the rovings straight, with a section for every run of the strip; rovings that differ as their mean.

    A straight lay is returned as it is. `InvalidPlan` ``too-many`` sections, ``section-too-short``.
    """
    if plan.lay.passes == 1:
        return plan
    mean = replace(plan.fibre, mass_marks=plan.fibre.weight_marks, measured=())
    runs = strip_runs(replace(plan, fibre=mean))
    runs_g = np.diff(mass_to(mean, [0.0, *(run.end_m for run in runs)]))
    of_section_g = np.bincount(
        [run.section_index for run in runs], weights=runs_g, minlength=len(plan.sections)
    )
    sections: list[Section] = []
    taken = [section.id for section in plan.sections]
    for run, run_g in zip(runs, runs_g.tolist(), strict=True):
        whole = plan.sections[run.section_index]
        share = run_g / float(of_section_g[run.section_index])
        part = _part(whole, share)
        if any(section.id == whole.id for section in sections):
            taken.append(new_id("s", taken))
            part = replace(part, id=taken[-1])
        sections.append(part)
    boundaries = tuple(Boundary(run.end_m, _gap_m(plan, run, after)) for run, after in pairwise(runs))
    lay = replace(plan.lay, fold_positions_m=(), matching="by length")
    return replace(plan, lay=lay, sections=tuple(sections), boundaries=boundaries)


def _part(section: Section, share: float) -> Section:
    """Return a share, by weight, of a section."""
    fixed_ml = section.fixed_ml
    return replace(
        section,
        fixed_ml=None if fixed_ml is None else fixed_ml * share,
        wiped_ml=section.wiped_ml * share,
        second_pass_ml=section.second_pass_ml * share,
    )


def _gap_m(plan: Plan, run: StripRun, after: StripRun) -> float:
    """Return the gap between two runs: that of their boundary. At a fold one section goes on, in one run."""
    return plan.boundaries[min(run.section_index, after.section_index)].gap_m
