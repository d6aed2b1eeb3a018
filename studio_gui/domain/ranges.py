"""One place that says which numbers a plan may hold.

The rule of this module: a number in a plan is finite and inside its named range. The ranges are wide enough
for any bench and narrow enough that a slip of the keyboard (a million metres) is caught at the field.
"""

from __future__ import annotations

import math
import sys
from dataclasses import dataclass

from studio_gui.domain.errors import InvalidPlan

#: Relative tolerance of every comparison with a limit: a limit hit exactly is inside it.
RELATIVE_TOLERANCE = 1e-9

#: No comparison with it holds for nan, infinities, and whole numbers too large for a float.
LARGEST_FLOAT = sys.float_info.max


@dataclass(frozen=True, slots=True)
class Range:
    """Range of a number, `low` to `high`, in the unit its field name carries; `low` may be excluded."""

    low: float
    high: float
    low_excluded: bool = False


RANGES: dict[str, Range] = {
    "mass_g": Range(1.0, 20_000.0),
    "length_m": Range(0.1, 500.0),
    "rovings": Range(1, 100),
    "strip_share": Range(0.0, 1.0),
    "mass_share": Range(0.0, 1.0),
    "fold_position_m": Range(0.0, 500.0),
    "overhang_m": Range(0.0, 5.0),
    "boundary_m": Range(0.0, 500.0),
    "gap_m": Range(-1.0, 1.0),
    "uptake_ml_per_g": Range(0.01, 20.0),
    "applied_ml_per_g": Range(0.0, 40.0),
    "soak_ml_per_g": Range(0.0, 20.0),
    "limit_ml_per_g": Range(0.1, 40.0),
    "penetration_ml_per_g": Range(0.0, 20.0),
    "soak_acid_g_per_l": Range(0.0, 500.0),
    "acid_ratio_limit": Range(1.0, 100.0),
    "acid_floor_pct_owf": Range(0.0, 100.0),
    "wicking_mm": Range(0.0, 500.0),
    "strength_g_per_l": Range(0.01, 500.0),
    "take_up_pct_owf": Range(0.1, 100.0),
    "acid_g_per_l": Range(0.0, 500.0),
    "depth_pct_owf": Range(0.0, 100.0),
    "swatch_depth_pct_owf": Range(0.0, 100.0, low_excluded=True),
    "parts": Range(0.0, 1_000_000.0),
    "fixed_ml": Range(0.0, 1_000_000.0),
    "wiped_ml": Range(0.0, 1_000_000.0),
    "second_pass_ml": Range(0.0, 1_000_000.0),
    "spare_share": Range(0.0, 5.0),
    "dead_ml": Range(0.0, 1_000.0),
    "syringe_ml": Range(0.5, 1_000.0),
    "made_ml": Range(0.1, 1_000_000.0),
    "soak_min": Range(0.0, 20_160.0),
    "paint_min": Range(0.0, 20_160.0),
    "wrap_min": Range(0.0, 20_160.0),
    "steam_min": Range(0.0, 20_160.0),
    "cool_min": Range(0.0, 20_160.0),
    "rinse_min": Range(0.0, 20_160.0),
    "dry_min": Range(0.0, 20_160.0),
    "start_min": Range(0.0, 1_439.0),
    "sample_g": Range(0.01, 20_000.0),
    "reflectance": Range(0.0, 2.0),
    "wavelength_nm": Range(100.0, 3_000.0),
    "lightness": Range(0.0, 100.0),
    "green_to_red": Range(-200.0, 200.0),
    "blue_to_yellow": Range(-200.0, 200.0),
    "graduation_ml": Range(0.01, 100.0),
    "tuft_g": Range(0.01, 20_000.0),
    "tuft_ml": Range(0.01, 200_000.0),
    "lot_g": Range(0.1, 2_000_000.0),
    "lot_ml": Range(0.0, 1_000_000.0),
    "fade_steps": Range(2, 60),
    "fade_strength": Range(0.01, 100.0),
    "singles_m_per_g": Range(0.1, 200.0),
    "grist_m_per_g": Range(1e-4, 1e4),
    "linear_density_g_per_m": Range(1e-4, 1e4),
    "take_up": Range(0.0, 0.9),
    "staple_m": Range(0.005, 1.0),
    "loop_m": Range(0.01, 5.0),
    "strip_weight": Range(0.01, 20_000.0),
    "strip_count": Range(1, 8),
    "split_weight": Range(0.1, 20_000.0),
    "ply_roving": Range(1, 100),
    "from_share": Range(0.0, 1.0),
    "to_share": Range(0.0, 1.0),
    "cross_section": Range(1e-6, 1.0),
    "offset_m": Range(0.0, 100_000.0),
    "alike_difference": Range(0.0, 100.0),
    "note_share": Range(0.0, 1.0),
    "warn_share": Range(0.0, 1.0),
    "stripe_amount": Range(0.01, 100_000.0),
    "stripe_ply": Range(1, 8),
    "knitted_width_m": Range(0.02, 10.0),
    "row_m": Range(0.01, 100.0),
    "spread": Range(0.0, 0.5),
}


def checked(name: str, value: object) -> float:
    """Return `value` when it is finite and inside the range called `name`.

    Raises
    ------
    InvalidPlan
        ``not-a-number`` for text, nan and infinities; ``out-of-range`` with field, value, low and high, and
        ``low_excluded=True`` where the low end is.

    >>> checked("wicking_mm", 20.0)
    20.0
    """
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not abs(value) <= LARGEST_FLOAT:
        raise InvalidPlan("not-a-number", field=name, value=str(value))
    bounds = RANGES[name]
    if not bounds.low <= value <= bounds.high or (bounds.low_excluded and value == bounds.low):
        out = {"low_excluded": True} if bounds.low_excluded else {}
        raise InvalidPlan("out-of-range", field=name, value=value, low=bounds.low, high=bounds.high, **out)
    return value


def exceeds(value: float, limit: float) -> bool:
    """Tell whether `value` is above `limit` by more than `RELATIVE_TOLERANCE`; equal is not above.

    >>> exceeds(0.1 + 0.2, 0.3)
    False
    """
    return value > limit and not math.isclose(value, limit, rel_tol=RELATIVE_TOLERANCE, abs_tol=1e-12)
