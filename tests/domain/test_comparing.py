"""If these fail, a colour of the plan cannot be compared, or another one is compared in its place."""

from __future__ import annotations

from dataclasses import replace

from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.comparing import plan_colours
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.worksheet import worksheet


def test_sections_swatches_and_the_fibre_have_their_colours() -> None:
    sheet = worksheet(new_plan())
    found = {colour.key: colour for colour in plan_colours(sheet)}
    plan = sheet.plan
    for index, section in enumerate(plan.sections):
        assert found["section", section.id, 0].srgb == hex_from_srgb(sheet.colours.srgb[index])
    for stock in plan.dyes:
        for place, swatch in enumerate(stock.swatches):
            assert found["swatch", stock.id, place].srgb == swatch.srgb
    assert found["undyed", "", 0].srgb == plan.fibre.undyed_srgb


def test_greys_on_the_screen_change_no_colour_that_is_compared() -> None:
    sheet = worksheet(new_plan())
    assert plan_colours(replace(sheet, in_grey=True)) == plan_colours(sheet)
