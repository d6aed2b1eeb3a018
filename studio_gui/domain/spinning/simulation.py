"""What uneven spinning does to a yarn: many spins of the same plan, each with its own unevenness.

The rule of this module: the same seed gives the same spins. Along every strand the grist wanders: the strand
is cut into `STRETCHES` of equal weight, and each is spun finer or thicker by a share drawn evenly from minus
to plus the spread. Model: our choice, no source. The two ends of one ball are of one strand, and have its
unevenness between them.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.spinning.figures import Likeness, YarnFigures, plied
from studio_gui.domain.spinning.strands import Strand, roving_cuts, strand
from studio_gui.domain.yarn import CHAIN_PLIES, Ply

FloatArray = NDArray[np.float64]
IndexArray = NDArray[np.intp]

SPINS = 300
#: Stretches of even grist along a strand.
STRETCHES = 32
LOW_PCT, HIGH_PCT = 10.0, 90.0


@dataclass(frozen=True, slots=True)
class Band:
    """Where four spins of five lie: a tenth is below `low`, a tenth above `high`, half below `median`."""

    low: float
    median: float
    high: float


@dataclass(frozen=True, eq=False)
class Spins:
    """What many spins of a plan came to.

    Attributes
    ----------
    plied_m, solid_share, leftover_m, leftover_share
        Bands of length, of the share of one colour, and of the largest leftover.
    slide_m
        Band of the farthest that two strands' changes slide apart; None where they do not have the same.
    typical
        The yarn of the spin whose solid share is the median.
    """

    plied_m: Band
    solid_share: Band
    leftover_m: Band
    leftover_share: Band
    slide_m: Band | None
    typical: YarnFigures


def simulate(yarn: YarnFigures, spread: float, seed: int = 1, spins: int = SPINS) -> Spins:
    """Spin a yarn `spins` times with a grist that wanders up and down by `spread` (share, 0 to 0.5).

    Cost is linear in spins times the runs of all strands.
    """
    draw = np.random.default_rng(seed)
    strands = _whole_ball(yarn) if yarn.plan.yarn.structure == "both ends" else yarn.strands
    lines = [_Lines.drawn(one, spread, spins, draw) for one in strands]
    if yarn.plan.yarn.structure == "both ends":
        lines[1] = lines[0].turned()
    laid_m, spun_m = _laid_m(yarn, lines)
    cuts_m = [line.at(one.cuts_m) - one.ply.offset_m for one, line in zip(strands, lines, strict=True)]
    folds = CHAIN_PLIES if yarn.is_chain else 1
    solid_share = _solid_share(yarn, strands, cuts_m, laid_m * folds)
    leftover_m = np.max([length - laid_m * folds for length in spun_m], axis=0)
    leftover_m = np.where(leftover_m > 1e-9 * laid_m, leftover_m, 0.0)
    typical = int(np.argsort(solid_share, kind="stable")[(spins - 1) // 2])
    return Spins(
        plied_m=_band(laid_m * (1.0 - yarn.take_up)),
        solid_share=_band(solid_share),
        leftover_m=_band(leftover_m),
        leftover_share=_band(leftover_m / np.max(spun_m, axis=0)),
        slide_m=_slides(yarn, strands, cuts_m),
        typical=_yarn_of(yarn, strands, lines, typical, float(laid_m[typical] * folds)),
    )


@dataclass(frozen=True, eq=False)
class _Lines:
    """Uneven spins of a strand: `even_m` (k + 1,) as it was meant, `spun_m` (spins, k + 1) as it came out."""

    even_m: FloatArray
    spun_m: FloatArray

    @classmethod
    def drawn(cls, one: Strand, spread: float, spins: int, draw: np.random.Generator) -> _Lines:
        even_m = np.linspace(0.0, one.length_m, STRETCHES + 1)
        steps = 1.0 + spread * draw.uniform(-1.0, 1.0, (spins, STRETCHES))
        spun_m = np.zeros((spins, STRETCHES + 1))
        np.cumsum(steps * (one.length_m / STRETCHES), axis=1, out=spun_m[:, 1:])
        return cls(even_m, spun_m)

    def turned(self) -> _Lines:
        """Return the same spins from their other end."""
        return _Lines(self.even_m, (self.spun_m[:, -1:] - self.spun_m)[:, ::-1])

    def at(self, even_m: FloatArray) -> FloatArray:
        """Return (spins, n) where metres (n,) of the strand as it was meant came out."""
        last = len(self.even_m) - 2
        stretch = np.clip(np.searchsorted(self.even_m, even_m, side="right") - 1, 0, last)
        start, end = self.even_m[stretch], self.even_m[stretch + 1]
        part = (even_m - start) / (end - start)
        spun: FloatArray = self.spun_m[:, stretch] * (1.0 - part) + self.spun_m[:, stretch + 1] * part
        return spun


def _whole_ball(yarn: YarnFigures) -> tuple[Strand, ...]:
    """Return the strand of a ball from both its ends, whole: where they meet is known once it is spun."""
    cuts = roving_cuts(yarn.plan, 0)
    grist = yarn.plan.yarn.singles_m_per_g
    return (strand(Ply(), cuts, grist), strand(Ply(from_share=1.0, to_share=0.0), cuts, grist))


def _laid_m(yarn: YarnFigures, lines: list[_Lines]) -> tuple[FloatArray, list[FloatArray]]:
    """Return (spins,) laid m, and (spins,) m of each strand's singles."""
    lengths = [line.spun_m[:, -1] for line in lines]
    if yarn.plan.yarn.structure == "both ends":
        half = lengths[0] / 2.0
        return half, [half, half]
    offsets = [one.ply.offset_m for one in yarn.strands]
    usable = np.min([length - offset for length, offset in zip(lengths, offsets, strict=True)], axis=0)
    return np.maximum(usable, 0.0) / (CHAIN_PLIES if yarn.is_chain else 1), lengths


def _solid_share(
    yarn: YarnFigures, strands: tuple[Strand, ...], cuts_m: list[FloatArray], used_m: FloatArray
) -> FloatArray:
    """Return (spins,) the share of one colour: the cuts of every spin are sorted, and passed in order."""
    if yarn.is_chain:
        return np.maximum(1.0 - CHAIN_PLIES * float(yarn.smear_m.sum()) / np.maximum(used_m, 1e-12), 0.0)
    inner = [cuts[:, 1:-1] for cuts in cuts_m]
    places = np.clip(np.concatenate(inner, axis=1), 0.0, used_m[:, np.newaxis])
    order = np.argsort(places, axis=1)
    places = np.take_along_axis(places, order, axis=1)
    places = np.concatenate((np.zeros((len(places), 1)), places, used_m[:, np.newaxis]), axis=1)
    solid = _all_alike(yarn.likeness, strands, order, [cuts.shape[1] for cuts in inner])
    total = (np.diff(places, axis=1) * solid).sum(axis=1)
    shares: FloatArray = np.divide(total, used_m, out=np.zeros_like(used_m), where=used_m > 0.0)
    return shares


def _all_alike(
    likeness: Likeness, strands: tuple[Strand, ...], order: IndexArray, counts: list[int]
) -> NDArray[np.bool_]:
    """Return (spins, stretches) whether all strands show one colour between neighbouring cuts."""
    colours, kinds = _kinds(likeness)
    first, columns = 0, []
    for one, count in zip(strands, counts, strict=True):
        passed = np.cumsum((order >= first) & (order < first + count), axis=1)
        run = np.concatenate((np.zeros((len(order), 1), dtype=np.intp), passed), axis=1)
        columns.append(kinds[one.sections[run]])
        first += count
    solid = np.ones(columns[0].shape, dtype=np.bool_)
    for number, one_kind in enumerate(columns):
        for other in columns[number + 1 :]:
            solid &= colours[one_kind, other]
    return solid


def _kinds(likeness: Likeness) -> tuple[NDArray[np.bool_], IndexArray]:
    """Return (kinds, kinds) which colours are alike, and (sections,) the kind of each section."""
    rows = np.column_stack((likeness.liquor_index, likeness.lab.round(6)))
    _, firsts, kinds = np.unique(rows, axis=0, return_index=True, return_inverse=True)
    one, other = np.broadcast_arrays(firsts[:, np.newaxis], firsts[np.newaxis, :])
    return likeness.alike(one, other), kinds.reshape(-1)


def _slides(yarn: YarnFigures, strands: tuple[Strand, ...], cuts_m: list[FloatArray]) -> Band | None:
    """Return the band of the farthest slide, where two strands have the same changes in the same order."""
    if len(strands) != 2:
        return None
    first, second = (yarn.likeness.liquor_index[one.sections].tolist() for one in strands)
    if first != second or len(first) < 2:
        return None
    inner = (cuts_m[0] - cuts_m[1])[:, 1:-1]
    if yarn.plan.yarn.structure == "both ends":
        inner = inner[:, : inner.shape[1] // 2]  # they meet there
    return _band(np.abs(inner).max(axis=1))


def _yarn_of(
    yarn: YarnFigures, strands: tuple[Strand, ...], lines: list[_Lines], spin: int, used_m: float
) -> YarnFigures:
    """Return the yarn of one spin."""
    spun = tuple(_spun(one, line, spin) for one, line in zip(strands, lines, strict=True))
    if yarn.plan.yarn.structure == "both ends":
        spun = tuple(_cut_off(one, used_m) for one in spun)
    return plied(yarn.plan, spun, yarn.likeness)


def _spun(one: Strand, line: _Lines, spin: int) -> Strand:
    """Return a strand as one spin has it: every stretch of it a piece."""
    even_m = np.union1d(line.even_m, one.piece_ends_m)
    even_m = even_m[np.concatenate(([True], np.diff(even_m) > 1e-9 * one.length_m))]
    even_m[-1] = one.length_m
    piece = np.searchsorted(one.piece_ends_m, (even_m[:-1] + even_m[1:]) / 2.0, side="right") - 1
    piece = np.clip(piece, 0, len(one.piece_from_g) - 1)
    per_m = (one.piece_to_g - one.piece_from_g) / np.diff(one.piece_ends_m)
    from_g = one.piece_from_g[piece] + (even_m[:-1] - one.piece_ends_m[piece]) * per_m[piece]
    to_g = one.piece_from_g[piece] + (even_m[1:] - one.piece_ends_m[piece]) * per_m[piece]
    return replace(
        one,
        piece_ends_m=line.at(even_m)[spin],
        piece_from_g=from_g,
        piece_to_g=to_g,
        cuts_m=line.at(one.cuts_m)[spin],
    )


def _cut_off(one: Strand, length_m: float) -> Strand:
    """Return the first `length_m` of a strand."""
    pieces = int(np.searchsorted(one.piece_ends_m, length_m, side="left"))
    runs = int(np.searchsorted(one.cuts_m, length_m, side="left"))
    end_g = float(one.roving_g(length_m))
    return replace(
        one,
        piece_ends_m=np.append(one.piece_ends_m[:pieces], length_m),
        piece_from_g=one.piece_from_g[:pieces],
        piece_to_g=np.append(one.piece_to_g[: pieces - 1], end_g),
        cuts_m=np.append(one.cuts_m[:runs], length_m),
        sections=one.sections[:runs],
    )


def _band(values: FloatArray) -> Band:
    return Band(*np.percentile(values, (LOW_PCT, 50.0, HIGH_PCT)).tolist())
