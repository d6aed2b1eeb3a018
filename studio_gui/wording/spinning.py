"""What structures of yarn are called, and what each does with the rovings.

The rule of this module: every structure that a plan can name has a name and one line here; grams and metres
of singles are said together, grams first.
"""

from __future__ import annotations

import numpy as np

from studio_gui.domain.spinning.strands import Strand
from studio_gui.domain.yarn import Structure
from studio_gui.wording.quantities import MASS, YARN_LENGTH, shown
from studio_gui.wording.translation import TRANSLATED, Tongue


def structure_name(structure: Structure, tongue: Tongue = TRANSLATED, *, folded: bool = True) -> str:
    """Return what a structure is called, as an entry of a list; `folded` where the roving has a fold."""
    names = {
        "single": tongue.translate("Spinning", "Single"),
        "both ends": tongue.translate("Spinning", "Two-ply, both ends of one ball"),
        "broken at the fold": tongue.translate("Spinning", "Two-ply, two bobbins broken at the fold")
        if folded
        else tongue.translate("Spinning", "Two-ply, two bobbins broken in the middle"),
        "lengthwise": tongue.translate("Spinning", "Split lengthwise, matched"),
        "fractal": tongue.translate("Spinning", "Fractal: one whole, one in strips"),
        "chain": tongue.translate("Spinning", "Chain, three strands"),
        "rovings": tongue.translate("Spinning", "Rovings of the set, one to a ply"),
        "free": tongue.translate("Spinning", "Free plies"),
    }
    return names[structure]


def structure_explained(structure: Structure, tongue: Tongue = TRANSLATED) -> str:
    """Return what a structure does with the rovings, in one sentence."""
    lines = {
        "single": tongue.translate("Spinning", "One roving spun from end to end and left unplied."),
        "both ends": tongue.translate(
            "Spinning",
            "One roving spun from end to end onto one ball, whose two ends are plied: nothing is left over.",
        ),
        "broken at the fold": tongue.translate(
            "Spinning",
            "One roving broken at its middle fold, or without folds where half its weight lies; each half is"
            " spun from its outer end onto a bobbin.",
        ),
        "lengthwise": tongue.translate(
            "Spinning", "One roving split lengthwise; every part is a ply, spun from the same end."
        ),
        "fractal": tongue.translate(
            "Spinning",
            "One roving split lengthwise in two; one part is spun whole, the other in strips, one after the"
            " other.",
        ),
        "chain": tongue.translate(
            "Spinning",
            "One roving spun from end to end and laid three strands thick in loops: its colours stay"
            " together.",
        ),
        "rovings": tongue.translate(
            "Spinning", "Each ply is spun from a roving of its own, all from the same end."
        ),
        "free": tongue.translate("Spinning", "Say for each ply what it is spun from."),
    }
    return lines[structure]


def strand_note(strand: Strand, tongue: Tongue = TRANSLATED) -> str:
    """Return what a ply's singles weigh and how long they are."""
    return _grams_and_metres(strand, strand.length_m, tongue)


def strip_notes(strand: Strand, tongue: Tongue = TRANSLATED) -> list[str]:
    """Return the same of each of a ply's strips."""
    lengths = np.diff(strand.piece_ends_m).tolist()
    return [_grams_and_metres(strand, length_m, tongue) for length_m in lengths]


def _grams_and_metres(strand: Strand, length_m: float, tongue: Tongue) -> str:
    grams = shown(MASS, length_m / strand.m_per_g, tongue)
    return f"{grams} · {shown(YARN_LENGTH, length_m, tongue)}"
