"""If these fail, what is said of uneven spinning is not what the spins came to, or is of no use."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.spinning.simulation import Band, Spins, simulate
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import Strip, Structure, Yarn
from studio_gui.wording.translation import ENGLISH, Tongue
from studio_gui.wording.yarn_words import solid_words, spins_line, yarn_length
from tests.scenes.scene_plans import four_gates, two_shores

US = Tongue("us", is_english=True)


def spins_of(structure: Structure) -> Spins:
    plan = replace(two_shores(), yarn=Yarn(structure=structure))
    return simulate(worksheet(plan).yarn, 0.1, spins=5)


@pytest.fixture
def spins() -> Spins:
    return replace(
        spins_of("broken at the fold"),
        solid_share=Band(0.224, 0.5, 0.776),
        leftover_m=Band(1.43, 6.9, 16.9),
        slide_m=Band(3.48, 8.0, 15.2),
    )


def test_what_stands_beside_the_rows_is_rounded_once_and_in_its_own_unit() -> None:
    """Four Gates with 1:2 strips is 27.5 % solid of 475 m; in yards that is 519.5, and not 519.47."""
    yarn = worksheet(four_gates(Strip(), Strip())).yarn
    assert (solid_words(yarn, ENGLISH), yarn_length(yarn, ENGLISH)) == ("solid 27.5 %", "475 m")
    assert yarn_length(yarn, Tongue("us", is_english=True)) == "519.5 yd"


def test_four_spins_of_five_are_told_with_each_unit_once(spins: Spins) -> None:
    assert spins_line(spins, ENGLISH) == (
        "Four spins of five: solid 22 to 78 % · left on one bobbin 1.4 to 17 m"
        " · colours slide 3.5 to 15 m apart"
    )


def test_lengths_are_in_yards_in_the_united_states(spins: Spins) -> None:
    assert spins_line(spins, US).endswith(
        "left on one bobbin 1.6 to 18 yd · colours slide 3.8 to 17 yd apart"
    )


def test_nothing_left_and_nothing_slid_is_not_told(spins: Spins) -> None:
    nothing = Band(0.0, 0.0, 0.0)
    only_solid = "Four spins of five: solid 22 to 78 %"
    assert spins_line(replace(spins, leftover_m=nothing, slide_m=None), ENGLISH) == only_solid
    assert spins_line(replace(spins, leftover_m=nothing, slide_m=nothing), ENGLISH) == only_solid


def test_singles_are_solid_anyhow_so_their_length_is_told() -> None:
    single = replace(spins_of("single"), plied_m=Band(1402.2, 1430.0, 1461.8))
    assert spins_line(single, ENGLISH) == "Four spins of five: 1402 to 1462 m of yarn"


def test_a_chain_is_one_strand_but_its_changes_smear() -> None:
    chain = replace(spins_of("chain"), solid_share=Band(0.9708, 0.9712, 0.9716))
    assert spins_line(chain, ENGLISH) == "Four spins of five: solid 97 %"
