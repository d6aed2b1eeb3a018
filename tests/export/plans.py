"""Plans for tests of exports."""

from __future__ import annotations

import dataclasses

from hypothesis import strategies as st

from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.fibre import WHITE_WOOL_SRGB
from studio_gui.domain.plan import Plan
from studio_gui.paths import samples_dir
from studio_gui.storage.files import PLAN_SUFFIX, read_plan
from tests.strategies import plans

SWATCHES = (Swatch(1.0, "#2b5c8a", WHITE_WOOL_SRGB),)


def sample(name: str) -> Plan:
    """A plan of `sample_projects`."""
    return read_plan(samples_dir() / f"{name}{PLAN_SUFFIX}")


def plans_of_one_colour() -> st.SearchStrategy[Plan]:
    """Plans of every kind, but all dyes alike: a dye of its own for each takes most of a test's time."""
    return plans().map(_of_one_colour)


def _of_one_colour(plan: Plan) -> Plan:
    stocks = (dataclasses.replace(stock, swatches=SWATCHES if stock.is_dye else ()) for stock in plan.stocks)
    fibre = dataclasses.replace(plan.fibre, undyed_srgb=WHITE_WOOL_SRGB)
    return dataclasses.replace(plan, fibre=fibre, stocks=tuple(stocks))
