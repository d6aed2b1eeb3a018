"""If these fail, halves of a folded roving do not match, or their marks are misplaced: "Two Shores"."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.edits.inputs import fold_by_weight, set_fibre, set_lay
from studio_gui.domain.edits.mends import apply_mend
from studio_gui.domain.fibre import MassMark
from studio_gui.domain.geometry import equal_mass_folds, legs, mass_to, strip_position
from studio_gui.domain.legs import leg_marks
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.halves import halves
from studio_gui.domain.strip import strip_runs
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import Yarn
from studio_gui.wording.sentences import check_text
from tests.scenes.scene_plans import two_shores


def halves_g(plan: Plan) -> list[float]:
    """Weights of the two halves of one roving, g."""
    first = float(mass_to(plan.fibre, plan.lay.fold_positions_m[0]))
    return [first, plan.fibre.mass_g - first]


def uneven() -> Plan:
    """The same top, found to be 78 g in its first half and 72 g in its second, even along each."""
    return set_fibre(two_shores(), mass_marks=(MassMark(0.5, 0.52),))


def test_weights_and_liquid_of_every_section() -> None:
    sheet = worksheet(two_shores())
    assert sheet.figures.fibre_g.tolist() == pytest.approx([30.0, 20.0, 40.0, 25.0, 35.0], abs=0.05)
    assert sheet.figures.liquid_ml.tolist() == pytest.approx([42.0, 28.0, 56.0, 35.0, 49.0], abs=0.05)
    assert sheet.totals.liquid_ml == pytest.approx(210.0)
    assert sheet.totals.film_length_m == pytest.approx(3.2)


def test_the_unfolded_strip_has_the_section_at_the_fold_once() -> None:
    runs = strip_runs(two_shores())
    assert [run.section_index for run in runs] == [0, 1, 2, 3, 4, 3, 2, 1, 0]
    lengths_cm = [100.0 * (run.end_m - run.start_m) for run in runs]
    assert lengths_cm == pytest.approx([60, 40, 80, 50, 140, 50, 80, 40, 60], abs=0.05)
    assert runs[-1].end_m == 6.0


def test_both_halves_are_spun_from_their_outer_ends() -> None:
    first, second = legs(two_shores().fibre, two_shores().lay)
    assert first.forward
    assert not second.forward
    assert [first.strip_from_m, first.strip_to_m, second.strip_to_m] == [0.0, 3.0, 6.0]


def test_halves_of_an_even_top_weigh_the_same() -> None:
    assert halves_g(two_shores()) == pytest.approx([75.0, 75.0])


def test_a_fold_that_slips_by_4_cm_shows_in_the_halves() -> None:
    slipped = set_lay(two_shores(), fold_positions_m=(3.04,))
    assert halves_g(slipped) == pytest.approx([76.0, 74.0], abs=0.05)
    assert slipped.lay_length_m == pytest.approx(3.04)
    # the longer half sticks out where the roving starts; at the fold both lie together
    assert strip_position(slipped.fibre, slipped.lay, 0, 0.0) == 0.0
    assert strip_position(slipped.fibre, slipped.lay, 1, 3.04) == pytest.approx(3.04)
    assert worksheet(slipped).totals.fibre_g == pytest.approx(150.0)


def test_an_uneven_top_folded_by_length_gives_78_and_72_g() -> None:
    assert halves_g(uneven()) == pytest.approx([78.0, 72.0], abs=0.05)
    grams = worksheet(uneven()).figures.fibre_g
    assert grams.tolist() == pytest.approx([30.0, 20.0, 40.0, 25.0, 35.0], abs=0.05)  # both halves together


def test_folding_by_weight_moves_the_fold_11_54_cm_into_the_heavy_half() -> None:
    (fold,) = equal_mass_folds(uneven().fibre, 2)
    assert 100.0 * (3.0 - fold) == pytest.approx(11.54, abs=0.005)
    folded = fold_by_weight(uneven())
    assert 100.0 * folded.lay.fold_positions_m[0] == pytest.approx(288.46, abs=0.005)
    assert 100.0 * (6.0 - folded.lay.fold_positions_m[0]) == pytest.approx(311.54, abs=0.005)
    assert halves_g(folded) == pytest.approx([75.0, 75.0])


def test_marks_on_each_half_lie_by_weight_share() -> None:
    folded = fold_by_weight(uneven())
    end_of_a = folded.boundaries[0].position_m
    heavy_cm = 100.0 * float(strip_position(folded.fibre, folded.lay, 0, end_of_a))
    light_cm = 100.0 * (6.0 - float(strip_position(folded.fibre, folded.lay, 1, end_of_a)))
    assert heavy_cm == pytest.approx(57.69, abs=0.005)
    assert light_cm == pytest.approx(62.5, abs=0.005)
    runs = strip_runs(folded)
    grams = [float(mass_to(folded.fibre, run.end_m) - mass_to(folded.fibre, run.start_m)) for run in runs]
    assert grams == pytest.approx([15.0, 10.0, 20.0, 12.5, 35.0, 12.5, 20.0, 10.0, 15.0], abs=0.05)


def broken(plan: Plan) -> Plan:
    return replace(plan, yarn=Yarn(structure="broken at the fold"))


def test_a_slipped_fold_leaves_20_m_on_one_bobbin() -> None:
    yarn = worksheet(broken(set_lay(two_shores(), fold_positions_m=(3.04,)))).yarn
    assert [one.length_m for one in yarn.strands] == pytest.approx([760.0, 740.0], abs=0.05)
    assert yarn.leftover_m == pytest.approx((20.0, 0.0), abs=0.05)
    assert yarn.leftover_share == pytest.approx(0.0263, abs=0.0001)


def test_plied_from_both_ends_nothing_is_left_and_the_colours_slide() -> None:
    slipped = set_lay(two_shores(), fold_positions_m=(3.04,))
    yarn = worksheet(replace(slipped, yarn=Yarn(structure="both ends"))).yarn
    assert yarn.leftover_m == (0.0, 0.0)
    ends = [[round(m, 1) for m in one.cuts_m[1:-1].tolist()] for one in yarn.strands]
    # bands lie square across the film: from the outer ends every change is 20 m out
    assert [a - b for a, b in zip(*ends, strict=True)] == pytest.approx([20.0] * 4, abs=0.05)


def test_an_uneven_top_slides_though_the_boundaries_line_up() -> None:
    yarn = worksheet(broken(uneven())).yarn
    assert [one.length_m for one in yarn.strands] == pytest.approx([780.0, 720.0], abs=0.05)
    first, second = (one.cuts_m.tolist() for one in yarn.strands)
    slides = [a - b for a, b in zip(first[1:], second[1:], strict=True)]
    assert (first[1], second[1]) == pytest.approx((156.0, 144.0), abs=0.05)
    assert (slides[0], slides[2], slides[4]) == pytest.approx((12.0, 36.0, 60.0), abs=0.05)


def test_half_against_half_colour_by_colour() -> None:
    found = halves(uneven())
    assert found.weights_g == pytest.approx((78.0, 72.0), abs=0.05)
    assert found.difference_g == pytest.approx(6.0, abs=0.05)
    assert found.difference_share == pytest.approx(0.08, abs=0.0005)
    of_a = found.pairs[0]
    assert of_a.first is not None
    assert of_a.second is not None
    assert (of_a.first.weight_g, of_a.second.weight_g) == pytest.approx((15.6, 14.4), abs=0.05)
    assert (of_a.first.end_m, of_a.second.end_m) == pytest.approx((156.0, 144.0), abs=0.05)
    slides = [pair.slide_m for pair in found.pairs]
    assert (slides[0], slides[2], slides[4]) == pytest.approx((12.0, 36.0, 60.0), abs=0.05)
    mended = halves(fold_by_weight(uneven()))
    assert [pair.slide_m for pair in mended.pairs] == pytest.approx([0.0] * 5, abs=1e-9)


def test_the_difference_is_told_with_the_mend() -> None:
    plan = broken(uneven())
    (check,) = (check for check in worksheet(plan).checks if check.code == "halves-differ")
    assert check_text(check, plan) == (
        "Halves differ 6 g (8 %). 78 g and 72 g: 60 m of singles stay on one bobbin. Fold by weight, not by"
        " length. To mend: Fold by weight."
    )
    assert apply_mend(plan, check.mends[0]) == fold_by_weight(plan)


def test_by_weight_each_half_has_marks_of_its_own() -> None:
    marks_cm = 100.0 * leg_marks(fold_by_weight(uneven()))[:, 0]
    assert marks_cm.tolist() == pytest.approx([57.69, 62.5], abs=0.005)
