"""If these fail, a colour taken from a photo is that of the lamp, or of a single hair."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.patches import WHITE_PAPER_SRGB, Patch, Pixels, corrected, patch_of
from studio_gui.domain.colour.spaces import hex_from_srgb, linear_from_srgb, srgb_from_hex, srgb_from_linear
from studio_gui.domain.errors import InvalidPlan


def plain(srgb: str, side: int = 4) -> Pixels:
    return np.full((side, side, 3), np.rint(srgb_from_hex(srgb) * 255.0), dtype=np.uint8)


def lit(srgb: str, light: tuple[float, float, float]) -> Patch:
    """A patch of a colour under a light that is not white."""
    seen = linear_from_srgb(srgb_from_hex(srgb)) * np.array(light)
    return patch_of(plain(hex_from_srgb(srgb_from_linear(seen))))


def test_a_plain_patch_is_its_colour() -> None:
    patch = patch_of(plain("#3a6ea5"))
    assert (patch.srgb, patch.burnt) == ("#3a6ea5", False)
    assert patch.spread == pytest.approx(0.0, abs=1e-9)


def test_light_is_averaged_not_its_encoding() -> None:
    half = np.concatenate((plain("#000000"), plain("#ffffff")))
    assert patch_of(half).srgb == "#bcbcbc"
    assert patch_of(half).spread > 30.0


def test_a_patch_that_the_camera_could_not_hold_is_said_to_be_burnt() -> None:
    glossy = plain("#3a6ea5", 10)
    glossy[0, :5] = 255
    assert patch_of(glossy).burnt


def test_no_pixel_is_no_patch() -> None:
    with pytest.raises(InvalidPlan, match="patch-empty"):
        patch_of(np.zeros((0, 4, 3), dtype=np.uint8))


@given(
    st.tuples(*[st.floats(0.5, 1.0)] * 3),
    st.sampled_from(("#3a6ea5", "#b4432f", "#8fa882", "#e3a91f", "#5b2f5f")),
)
def test_a_white_patch_takes_the_light_off(light: tuple[float, float, float], srgb: str) -> None:
    colour, clipped = corrected(lit(srgb, light), lit(WHITE_PAPER_SRGB, light))
    # both patches were rounded to 8 bits before
    assert np.abs(srgb_from_hex(colour) - srgb_from_hex(srgb)).max() <= 3.0 / 255.0
    assert not clipped


def test_without_a_white_patch_the_photo_is_taken_at_its_word() -> None:
    assert corrected(patch_of(plain("#3a6ea5")), None) == ("#3a6ea5", False)


def test_what_comes_out_brighter_than_white_is_clipped_and_said_to_be() -> None:
    assert corrected(patch_of(plain("#f0f0f0")), patch_of(plain("#808080"))) == ("#ffffff", True)


def test_a_dark_reference_tells_no_light() -> None:
    with pytest.raises(InvalidPlan) as refusal:
        corrected(patch_of(plain("#3a6ea5")), patch_of(plain("#20f0f0")))
    assert (refusal.value.code, refusal.value.params) == ("white-too-dark", {"value": "#20f0f0"})
