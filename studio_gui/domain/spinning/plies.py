"""What every structure of yarn is spun from.

The rule of this module: a structure is nothing but a way to write down plies; everything else is reckoned
from the plies alone. (A chain is one ply, laid threefold.)
"""

from __future__ import annotations

from collections.abc import Callable

from studio_gui.domain.geometry import mass_to, strip_at_mass
from studio_gui.domain.plan import Plan
from studio_gui.domain.yarn import CHAIN_PLIES, Ply, Structure


def plies_of(plan: Plan) -> tuple[Ply, ...]:
    """Return the plies of the plan's yarn, in their order; pairs of colours are named by the first first.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> [(ply.from_share, ply.to_share) for ply in plies_of(new_plan())]
    [(0.0, 0.5), (1.0, 0.5)]
    """
    return _PLIES[plan.yarn.structure](plan)


def strands_twisted(plan: Plan) -> int:
    """Return how many strands lie beside one another in the yarn: the plies; three of a chain's one.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> strands_twisted(new_plan())
    2
    """
    return CHAIN_PLIES if plan.yarn.structure == "chain" else len(plies_of(plan))


def break_m(plan: Plan, roving: int = 0) -> float:
    """Return where a roving (from 0) is broken in two, m along it: at its middle fold.

    Without folds, where half its weight lies: there is only the scale to go by.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> break_m(new_plan()) == new_plan().fibre.length_m / 2.0
    True
    """
    folds = plan.lay.fold_positions_m
    if folds:
        return folds[len(folds) // 2]
    fibre = plan.fibre.roving(roving)
    return float(strip_at_mass(fibre, fibre.mass_g / 2.0))


def break_share(plan: Plan, roving: int = 0) -> float:
    """Return the share of a roving's weight (0 to 1) that lies before `break_m`; rovings count from 0."""
    if not plan.lay.fold_positions_m:
        return 0.5
    fibre = plan.fibre.roving(roving)
    return float(mass_to(fibre, break_m(plan, roving))) / fibre.mass_g


def _broken(plan: Plan) -> tuple[Ply, ...]:
    share = break_share(plan)
    return (Ply(to_share=share), Ply(from_share=1.0, to_share=share))


def _lengthwise(plan: Plan) -> tuple[Ply, ...]:
    return tuple(Ply(cross_section=share) for share in _shares(plan.yarn.splits))


def _fractal(plan: Plan) -> tuple[Ply, ...]:
    whole, split = _shares(plan.yarn.splits[:2])
    return (Ply(cross_section=whole), Ply(cross_section=split, strips=plan.yarn.strips))


def _rovings(plan: Plan) -> tuple[Ply, ...]:
    offsets_m = plan.yarn.offsets_m[: plan.fibre.rovings]
    return tuple(Ply(roving=number, offset_m=offset) for number, offset in enumerate(offsets_m, start=1))


def _shares(weights: tuple[float, ...]) -> tuple[float, ...]:
    total = sum(weights)
    return tuple(weight / total for weight in weights)


_PLIES: dict[Structure, Callable[[Plan], tuple[Ply, ...]]] = {
    "single": lambda _: (Ply(),),
    "chain": lambda _: (Ply(),),
    "both ends": lambda _: (Ply(to_share=0.5), Ply(from_share=1.0, to_share=0.5)),
    "broken at the fold": _broken,
    "lengthwise": _lengthwise,
    "fractal": _fractal,
    "rovings": _rovings,
    "free": lambda plan: plan.yarn.plies,
}
