"""What is chosen when a plan is printed.

The rule of this module: choices say how sheets are laid out and which are wanted, never what is on them; all
of them have a value that prints well for somebody who chose nothing.
"""

from __future__ import annotations

from dataclasses import dataclass

from studio_gui.drawing.sheets.paper import A4, Paper


@dataclass(frozen=True, slots=True)
class Choices:
    """Paper and kinds of sheet.

    `left_out` are the keys of sheets that are not wanted: one that a later program adds is printed. With
    `mirrored`, sheets that lie beside the lay come a second time for who stands opposite. With
    `tape_on_a_roll` the tape is one page as long as the lay.
    """

    paper: Paper = A4
    left_out: frozenset[str] = frozenset()
    mirrored: bool = False
    tape_on_a_roll: bool = False
