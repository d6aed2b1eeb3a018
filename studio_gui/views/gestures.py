"""Gestures on the lay: a boundary, a run of sections, a gap or a fold in the hand.

The rule of this module: one gesture is one object. It starts, it moves and previews, and it ends as one undo
step or as if it had never been. Every gesture has its edit, which keyboard and fields use too.
"""

from __future__ import annotations

from typing import Protocol

from PySide6.QtCore import QPointF, Qt

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.boundaries import Drag, boundary_range, gap_range, move_boundary, set_gap
from studio_gui.domain.edits.folds import fold_place_m, fold_range, move_fold, start_m
from studio_gui.domain.edits.order import move_sections
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.drawing.lay_layout import ItemKind, LayLayout
from studio_gui.drawing.lay_state import Guide, Lifted
from studio_gui.drawing.ruler import CENTIMETRE_M, ruler_steps, ruler_unit_m, snapped
from studio_gui.drawing.snapping import REACH_PX, SnapMark, at_rest, boundary_marks, fold_marks, guide_words
from studio_gui.drawing.tags import TagColumn, boundary_tag, fold_tag, gap_tag, sections_tag
from studio_gui.wording.translation import translate

#: Keys that let go of marks and ticks. Some desktops keep Alt with the mouse to themselves.
LETS_GO = Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.ControlModifier
#: Gaps and overlaps come in halves of a centimetre or quarters of an inch, unless Alt lets go.
GAP_STEPS_A_CENTIMETRE, GAP_STEPS_AN_INCH = 2, 4


class Gesture(Protocol):
    """Something in the hand."""

    item: tuple[ItemKind, int]
    cursor: Qt.CursorShape
    ghost_m: float | None
    guide: Guide | None
    lifted: Lifted | None

    @property
    def place_m(self) -> float:
        """Where the thing is now, m along the lay."""

    def move(self, layout: LayLayout, point: QPointF, modifiers: Qt.KeyboardModifier) -> None:
        """Follow the pointer and preview what would come of it."""

    def tag(self) -> tuple[TagColumn, ...]:
        """Return the live numbers."""

    def name(self) -> str:
        """Return what the undo step is called."""


class _Held:
    """What all gestures share: where the hand took hold, and nothing shown yet."""

    cursor = Qt.CursorShape.SplitHCursor

    def __init__(
        self, document: OpenPlan, item: tuple[ItemKind, int], origin_m: float, layout: LayLayout, x: float
    ) -> None:
        self.item = item
        self.ghost_m: float | None = origin_m
        self.guide: Guide | None = None
        self.lifted: Lifted | None = None
        self._document = document
        self._origin_m = origin_m
        self._offset_m = origin_m - layout.lay_m(x)
        self._is_refused = False

    @property
    def _index(self) -> int:
        return self.item[1]

    def _refuse(self, refusal: RovingLayError) -> None:
        """Say why the thing does not follow, once for as long as it does not."""
        if not self._is_refused:
            self._is_refused = True
            self._document.refused.emit(refusal)

    def _wanted_m(self, layout: LayLayout, point: QPointF) -> float:
        return layout.lay_m(point.x()) + self._offset_m

    def _rest(
        self, layout: LayLayout, wanted_m: float, marks: tuple[SnapMark, ...], limits: tuple[float, float]
    ) -> tuple[float, Guide | None]:
        """Return where the thing rests inside its limits, and the guide that says why."""
        tick_m = ruler_steps(layout.px_per_m, ruler_unit_m())[1]
        rest = at_rest(wanted_m, self._origin_m, marks, REACH_PX / layout.px_per_m, tick_m)
        place_m = _within(rest.place_m, limits)
        if rest.mark is None or place_m != rest.place_m:
            return place_m, None
        return place_m, Guide(place_m, guide_words(rest.mark, self._document.plan), rest.mark.other_m)


class BoundaryDrag(_Held):
    """A boundary in the hand: plain trades length between its neighbours, Shift moves all that follows.

    Raises
    ------
    RovingLayError
        On making, when a locked section keeps the boundary in its place.
    """

    def __init__(self, document: OpenPlan, layout: LayLayout, index: int, x: float) -> None:
        boundary_range(document.plan, index)
        super().__init__(document, ("boundary", index), document.plan.boundaries[index].position_m, layout, x)
        self._drawing: tuple[Plan, Drag, tuple[SnapMark, ...]] | None = None

    @property
    def place_m(self) -> float:
        """Where the boundary is now, m along the lay."""
        return self._document.sheet.plan.boundaries[self._index].position_m

    def move(self, layout: LayLayout, point: QPointF, modifiers: Qt.KeyboardModifier) -> None:
        """Follow the pointer as far as possible; on marks and ticks unless a key lets go of them."""
        plan = self._document.plan
        drag: Drag = "shift" if modifiers & Qt.KeyboardModifier.ShiftModifier else "trade"
        self.guide = None
        try:
            limits = boundary_range(plan, self._index, drag)
            self._is_refused = False
        except RovingLayError as refusal:
            self._refuse(refusal)
            return  # something locked would have to follow: stay, as if held
        wanted = self._wanted_m(layout, point)
        if modifiers & LETS_GO:
            place_m = _within(wanted, limits)
        else:
            place_m, self.guide = self._rest(layout, wanted, self._marks(plan, drag), limits)
        self._document.preview(move_boundary(plan, self._index, place_m, drag))

    def _marks(self, plan: Plan, drag: Drag) -> tuple[SnapMark, ...]:
        """Return the marks that draw the boundary, kept while the plan before the drag stays the same."""
        if self._drawing is None or self._drawing[0] is not plan or self._drawing[1] != drag:
            self._drawing = plan, drag, boundary_marks(plan, self._index, drag)
        return self._drawing[2]

    def tag(self) -> tuple[TagColumn, ...]:
        """Return the numbers of both neighbours."""
        return boundary_tag(self._document.sheet, self._index, self._document.plan)

    def name(self) -> str:
        """Return what the undo step is called."""
        return move_name(self._document.plan, self._index)


class SectionsDrag(_Held):
    """A run of sections in the hand, looking for another place in the order."""

    cursor = Qt.CursorShape.ClosedHandCursor

    def __init__(self, document: OpenPlan, layout: LayLayout, run: tuple[int, int], x: float) -> None:
        edges = document.plan.edges_m
        super().__init__(document, ("section", run[0]), edges[run[0]], layout, x)
        self._run = run
        self._ids = tuple(section.id for section in document.plan.sections[run[0] : run[1] + 1])
        self.ghost_m = None

    @property
    def _now(self) -> tuple[int, int]:
        first = self._document.sheet.plan.section_index(self._ids[0])
        return first, first + len(self._ids) - 1

    @property
    def place_m(self) -> float:
        """Where the run starts now, m along the lay."""
        return self._document.sheet.plan.edges_m[self._now[0]]

    def move(self, layout: LayLayout, point: QPointF, modifiers: Qt.KeyboardModifier) -> None:
        """Put the run where its start is nearest to the hand; what is locked does not give way."""
        plan, (first, last) = self._document.plan, self._run
        wanted = self._wanted_m(layout, point)
        try:
            self._document.preview(move_sections(plan, first, last, _nearest_start(plan, self._run, wanted)))
            self._is_refused = False
        except RovingLayError as refusal:
            self._document.cancel_preview()  # put down there, it goes back to where it was
            self._refuse(refusal)
        self.item = ("section", self._now[0])
        self.lifted = Lifted(*self._now, (wanted - self.place_m) * layout.px_per_m)

    def tag(self) -> tuple[TagColumn, ...]:
        """Return from where to where the run would lie."""
        return sections_tag(self._document.sheet, *self._now)

    def name(self) -> str:
        """Return what the undo step is called."""
        sections = self._document.plan.sections[self._run[0] : self._run[1] + 1]
        letters = [self._document.plan.liquor(section.liquor_id).letter for section in sections]
        return translate("Gestures", "Move {0} to another place").format(" ".join(letters))


class GapDrag(_Held):
    """The width of a gap in the hand: to the right it opens, to the left it closes and then overlaps."""

    def __init__(self, document: OpenPlan, layout: LayLayout, index: int, x: float) -> None:
        boundary = document.plan.boundaries[index]
        super().__init__(document, ("gap", index), boundary.position_m, layout, x)
        self._gap_m = boundary.gap_m
        self.ghost_m = None

    @property
    def place_m(self) -> float:
        """Where the gap's boundary is, m along the lay."""
        return self._origin_m

    def move(self, layout: LayLayout, point: QPointF, modifiers: Qt.KeyboardModifier) -> None:
        """Open or close the gap on both sides alike, twice what the hand moves."""
        low, high = gap_range(self._document.plan, self._index)
        gap_m = self._gap_m + 2.0 * (self._wanted_m(layout, point) - self._origin_m)
        if not modifiers & LETS_GO:
            gap_m = snapped(gap_m, _gap_step_m())
        self._document.preview(set_gap(self._document.plan, self._index, min(max(gap_m, low), high)))

    def tag(self) -> tuple[TagColumn, ...]:
        """Return the width."""
        return gap_tag(self._document.sheet, self._index)

    def name(self) -> str:
        """Return what the undo step is called."""
        return gap_name(self._document.plan, self._index)


class FoldDrag(_Held):
    """A fold in the hand: the legs beside it become longer or shorter, the last one gives or takes."""

    def __init__(self, document: OpenPlan, layout: LayLayout, index: int, x: float) -> None:
        super().__init__(document, ("fold", index), fold_place_m(document.plan, index), layout, x)
        self._limits = fold_range(document.plan, index)

    @property
    def place_m(self) -> float:
        """Where the fold is now, m along the lay."""
        return fold_place_m(self._document.sheet.plan, self._index)

    def move(self, layout: LayLayout, point: QPointF, modifiers: Qt.KeyboardModifier) -> None:
        """Follow the pointer as far as the legs and the sections allow."""
        plan = self._document.plan
        # while the far end reaches out before the start, all places on the lay count from there
        reached_out_m = start_m(self._document.sheet.plan) - start_m(plan)
        wanted = self._wanted_m(layout, point) - reached_out_m
        guide: Guide | None = None
        if modifiers & LETS_GO:
            place_m = _within(wanted, self._limits)
        else:
            place_m, guide = self._rest(layout, wanted, fold_marks(plan, self._index), self._limits)
        try:
            self._document.preview(move_fold(plan, self._index, place_m))
        except RovingLayError:
            return  # no room left for a section: stay, as if held
        self.guide = None if guide is None else Guide(self.place_m, guide.words)
        self.ghost_m = self._origin_m + start_m(self._document.sheet.plan) - start_m(plan)

    def tag(self) -> tuple[TagColumn, ...]:
        """Return length and weight of the legs beside the fold."""
        return fold_tag(self._document.sheet, self._index)

    def name(self) -> str:
        """Return what the undo step is called."""
        return translate("Gestures", "Move the fold")


def move_name(plan: Plan, index: int) -> str:
    """Return what a step that moves a boundary is called."""
    return translate("Gestures", "Move boundary {0} | {1}").format(*_letters(plan, index))


def gap_name(plan: Plan, index: int) -> str:
    """Return what a step that changes a gap is called."""
    return translate("Gestures", "Gap between {0} and {1}").format(*_letters(plan, index))


def _gap_step_m() -> float:
    unit_m = ruler_unit_m()
    return unit_m / (GAP_STEPS_A_CENTIMETRE if unit_m == CENTIMETRE_M else GAP_STEPS_AN_INCH)


def _letters(plan: Plan, index: int) -> list[str]:
    return [plan.liquor(section.liquor_id).letter for section in plan.sections[index : index + 2]]


def _within(place_m: float, limits: tuple[float, float]) -> float:
    return min(max(place_m, limits[0]), limits[1])


def _nearest_start(plan: Plan, run: tuple[int, int], wanted_m: float) -> int:
    """Return the section before which a run starts nearest to `wanted_m` when it is put there."""
    edges, (first, last) = plan.edges_m, run
    length_m = edges[last + 1] - edges[first]

    def away_m(at: int) -> float:
        return abs((edges[at] if at <= first else edges[at] - length_m) - wanted_m)

    nearest: int = min((*range(first + 1), *range(last + 2, len(edges))), key=away_m)
    return nearest
