"""When what is done: from soaking to dry wool.

The rule of this module: a plan says how long each step takes and, where somebody has typed it, at what time
of day the first one starts; all other times follow. Durations and times are minutes.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Literal

from studio_gui.domain.ranges import checked

Step = Literal["soak", "paint", "wrap", "steam", "cool", "rinse", "dry"]
STEPS: tuple[Step, ...] = ("soak", "paint", "wrap", "steam", "cool", "rinse", "dry")

MINUTES_A_DAY = 1440


@dataclass(frozen=True, slots=True)
class Timetable:
    """How long each step takes, minutes, and when the first starts, minutes after midnight.

    `start_min` is None while the start is open. Defaults: common practice, no source.
    """

    soak_min: float = 30.0
    paint_min: float = 60.0
    wrap_min: float = 15.0
    steam_min: float = 45.0
    cool_min: float = 720.0
    rinse_min: float = 30.0
    dry_min: float = 1440.0
    start_min: float | None = None

    def __post_init__(self) -> None:
        for step in STEPS:
            checked(f"{step}_min", self.minutes(step))
        if self.start_min is not None:
            checked("start_min", self.start_min)

    def minutes(self, step: Step) -> float:
        """Return how long a step takes."""
        minutes: float = getattr(self, f"{step}_min")
        return minutes


@dataclass(frozen=True, slots=True)
class TimedStep:
    """One step; `begins_min` and `ends_min` count from midnight of the first day, or from an open start."""

    step: Step
    begins_min: float
    ends_min: float

    @property
    def minutes(self) -> float:
        """How long it takes."""
        return self.ends_min - self.begins_min


def timed_steps(timetable: Timetable) -> tuple[TimedStep, ...]:
    """Return all steps, each from the end of the one before.

    >>> [(one.step, one.ends_min) for one in timed_steps(Timetable(start_min=540.0))][:3]
    [('soak', 570.0), ('paint', 630.0), ('wrap', 645.0)]
    """
    start_min = timetable.start_min or 0.0
    edges = accumulate((timetable.minutes(step) for step in STEPS), initial=start_min)
    return tuple(
        TimedStep(step, begins, ends) for step, (begins, ends) in zip(STEPS, pairwise(edges), strict=True)
    )
