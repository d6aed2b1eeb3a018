"""If these fail, a part of the picture stays as it was before the change."""

from __future__ import annotations

from PySide6.QtCore import QSizeF

from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.changes import changed_span
from studio_gui.drawing.lay_layout import LayLayout, lay_layout
from studio_gui.drawing.lay_view import LayView
from studio_gui.drawing.troughs import MOST_TROUGHS, is_outline
from tests.drawing.plans import plain_plan


def laid(plan: Plan, view: LayView | None = None) -> LayLayout:
    return lay_layout(worksheet(plan), QSizeF(1400.0, 620.0), view)


def test_the_count_of_sections_in_trouble_is_painted_anew() -> None:
    plan = plain_plan(MOST_TROUGHS + 20)
    before = laid(plan)
    wetter, over = (laid(change_section(plan, "s90", fixed_ml=ml)) for ml in (2.6, 20.0))
    assert over.sheet.figures.over[89]
    wetter_span, over_span = changed_span(before, wetter), changed_span(before, over)
    assert wetter_span is not None
    assert wetter_span[0] > before.pane.left()
    assert over_span is not None
    assert over_span[0] == 0.0


def test_all_is_painted_anew_where_troughs_take_the_place_of_an_outline() -> None:
    plan = plain_plan(MOST_TROUGHS + 20)
    shown_m = plan.boundaries[MOST_TROUGHS - 1].position_m + 0.01
    view = LayView(px_per_m=laid(plan).pane.width() / shown_m, left_m=plan.lay.overhang_m / 2.0)
    before = laid(plan, view)
    after = laid(move_boundary(plan, MOST_TROUGHS - 1, shown_m + 0.01), view)
    assert (is_outline(before), is_outline(after)) == (True, False)
    assert changed_span(before, after) == (0.0, 1400.0)
