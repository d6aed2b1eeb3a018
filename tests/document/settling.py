"""A preview that has been shown for so long that all has followed it."""

from __future__ import annotations

from PySide6.QtTest import QSignalSpy

from studio_gui.document.open_plan import TURNS, OpenPlan
from studio_gui.domain.plan import Plan

PATIENCE_MS = 5_000


def preview_and_wait(document: OpenPlan, plan: Plan) -> None:
    """Preview `plan` and wait until what may lag behind has followed."""
    turns = QSignalSpy(document.turn)
    document.preview(plan)
    while document.is_previewing and turns.count() < TURNS:
        assert turns.wait(PATIENCE_MS), "what lags behind was never told"
