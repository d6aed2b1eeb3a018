"""What the person is doing on the canvas, as far as it shows.

The rule of this module: a state is a value. The canvas makes one, the painters read it.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from studio_gui.drawing.lay_layout import ItemKind


@dataclass(frozen=True, slots=True)
class Guide:
    """A line that says where a dragged thing has come to rest, and why; `other_m` is marked with it."""

    place_m: float
    words: str
    other_m: float | None = None


@dataclass(frozen=True, slots=True)
class Lifted:
    """A run of sections in the hand: how far (px) its slips are from where they would be put down."""

    first: int
    last: int
    by_px: float


@dataclass(frozen=True, slots=True)
class LayState:
    """Selection, hover, focus and drag.

    `ghost_m` is where the dragged thing was. Pictures for files have no pegs: there is nothing to take
    hold of.
    """

    selected: frozenset[int] = field(default_factory=frozenset)
    hovered: tuple[ItemKind, int] | None = None
    focused: tuple[ItemKind, int] | None = None
    dragged: tuple[ItemKind, int] | None = None
    ghost_m: float | None = None
    guide: Guide | None = None
    lifted: Lifted | None = None
    pegs: bool = True
