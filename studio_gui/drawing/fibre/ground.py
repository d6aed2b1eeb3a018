"""From pixels to wool: where on its strand every pixel of a leg or a turn lies.

The rule of this module: `s` runs along the wool from the roving's own start, wherever the picture begins, and
`v` across it from one edge (-1) to the other (1), without a break where a leg goes over into a turn.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.drawing.fibre.place import LegPiece, Piece, TurnPiece
from studio_gui.drawing.fibre.tile import Floats

Doubles = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Frame:
    """The pixels that are built: the picture with `pad` px more on every side, for shadows from outside."""

    width: int
    height: int
    pad: int

    def columns(self, left: float, right: float) -> slice:
        """Return the built columns whose middles lie from `left` up to `right`."""
        return _middles(left, right, self.width, self.pad)

    def rows(self, top: float, bottom: float) -> slice:
        """Return the built rows whose middles lie from `top` up to `bottom`."""
        return _middles(top, bottom, self.height, self.pad)

    def places(self, part: slice) -> Doubles:
        """Return the middles of built columns or rows in px of the picture."""
        return np.arange(part.start, part.stop) + (0.5 - self.pad)


def _middles(low: float, high: float, size: int, pad: int) -> slice:
    last = size + 2 * pad
    start, stop = (int(np.ceil(min(max(edge, -pad), size + pad) - 0.5)) + pad for edge in (low, high))
    return slice(start, min(max(start, stop), last))


@dataclass(frozen=True, eq=False)
class Ground:
    """Wool under the pixels (rows, columns) of a built frame; every array broadcasts to their shape.

    `s` is px along the wool, `v` across it. (`across_x`, `across_y`) is the direction on the screen in which
    `v` grows, and `along_x` how much of the way along the wool goes to the right. `inside` is how near the
    pixel is to a bend, 0 to 1, signed by the edge that lies inside. `end` is px to the nearer free end,
    negative beyond it; None where no end is near.
    """

    rows: slice
    columns: slice
    s: Doubles
    v: Floats
    across_x: Floats
    across_y: Floats
    along_x: Floats
    inside: Floats
    end: Floats | None


def ground(piece: Piece, frame: Frame, margin: float, fray: float) -> Ground | None:
    """Return the wool of a piece with `margin` px beyond its edges and `fray` px beyond free ends.

    None where nothing of it is in the frame.
    """
    if isinstance(piece, LegPiece):
        return _leg(piece, frame, margin, fray)
    return _turn(piece, frame, margin)


def _leg(piece: LegPiece, frame: Frame, margin: float, fray: float) -> Ground | None:
    frays = (
        (piece.frays_before, piece.frays_after) if piece.forward else (piece.frays_after, piece.frays_before)
    )
    columns = frame.columns(piece.left - fray * frays[0], piece.right + fray * frays[1])
    half = piece.height / 2.0
    rows = frame.rows(piece.middle - half - margin, piece.middle + half + margin)
    if columns.start == columns.stop or rows.start == rows.stop:
        return None
    x = frame.places(columns)[np.newaxis, :]
    y = frame.places(rows)[:, np.newaxis]
    side = 1.0 if piece.forward else -1.0
    s = piece.start_s + (x - piece.left if piece.forward else piece.right - x)
    ends = [s - piece.start_s] if piece.frays_before else []
    ends += [piece.end_s - s] if piece.frays_after else []
    return Ground(
        rows,
        columns,
        s,
        v=_floats(side * (y - piece.middle) / half),
        across_x=_floats(np.zeros((1, 1))),
        across_y=_floats(np.full((1, 1), side)),
        along_x=_floats(np.full((1, 1), side)),
        inside=_leg_inside(piece, s, side),
        end=_floats(np.minimum.reduce(ends)) if ends else None,
    )


def _leg_inside(piece: LegPiece, s: Doubles, side: float) -> Floats:
    """Return the bends' nearness: the bend before a leg lies above it on the screen, the one after below."""
    inside = np.zeros_like(s)
    if piece.bends_before:
        inside -= side * _nearness(s - piece.start_s, piece.height)
    if piece.bends_after:
        inside += side * _nearness(piece.end_s - s, piece.height)
    return _floats(inside)


def _turn(piece: TurnPiece, frame: Frame, margin: float) -> Ground | None:
    outer = piece.radius + piece.height / 2.0 + margin
    columns = (
        frame.columns(piece.x, piece.x + outer)
        if piece.rightwards
        else frame.columns(piece.x - outer, piece.x)
    )
    rows = frame.rows(piece.middle - outer, piece.middle + outer)
    if columns.start == columns.stop or rows.start == rows.stop:
        return None
    way = 1.0 if piece.rightwards else -1.0
    dx = way * (frame.places(columns)[np.newaxis, :] - piece.x)
    dy = frame.places(rows)[:, np.newaxis] - piece.middle
    r = np.hypot(dx, dy) + 1e-6
    angle = np.arctan2(dy, dx) + np.pi / 2.0
    run = angle * piece.radius
    # The first leg of a turn to the right has its lower edge, v = 1, inside; that of one to the left v = -1.
    return Ground(
        rows,
        columns,
        s=piece.start_s + run,
        v=_floats(-way * (r - piece.radius) / (piece.height / 2.0)),
        across_x=_floats(-dx / r),
        across_y=_floats(-way * dy / r),
        along_x=_floats(-way * dy / r),
        inside=_floats(way * _nearness(-np.minimum(run, piece.length - run), piece.height)),
        end=None,
    )


def _nearness(distance: Doubles, height: float) -> Doubles:
    """Return 0 a strand's height before a bend, rising without a kink to 1 as far into it."""
    share = np.clip(0.5 - distance / (2.0 * height), 0.0, 1.0)
    return share * share * (3.0 - 2.0 * share)


def _floats(values: Doubles) -> Floats:
    return values.astype(np.float32)
