"""A day at the bench, as a machine lives it: edits, undo, gestures, saves, crashes and recoveries.

The rule of this module: the model is a list of the plans that undo goes through and the plan on disk; after
every step the open plan has to agree with both.
"""

from __future__ import annotations

import random
from dataclasses import replace
from pathlib import Path

from studio_gui.document.autosave import Autosave
from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.edits.boundaries import move_boundary, reverse
from studio_gui.domain.edits.sections import merge, split
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.storage.files import read_plan, save_plan
from studio_gui.storage.recovery import Snapshot, adopt, orphans
from tests.drawing.plans import plain_plan

MOST_SECTIONS = 40


class BenchDay:
    """One open plan with its file and its snapshots in `folder`, and what they have to be."""

    def __init__(self, folder: Path) -> None:
        self.path, self.snapshots = folder / "mine.roving.json", folder / "recovery"
        save_plan(self.path, plain_plan(4))
        self._open()

    def _open(self) -> None:
        self.document = OpenPlan.from_file(self.path)
        self.autosave = Autosave(self.document, self.snapshots)
        self.history, self.at = [self.document.plan], 0

    def _stepped(self) -> None:
        """Take up that an edit may have made a step."""
        if self.document.plan != self.history[self.at]:  # recovered, the same plan is another object
            self.history[self.at + 1 :] = [self.document.plan]
            self.at += 1

    def move(self, share: float) -> None:
        """Move a boundary to a share of the room between its neighbours."""
        self._edit(lambda plan: self._moved(plan, share))

    def _moved(self, plan: Plan, share: float) -> Plan:
        if not plan.boundaries:
            return plan
        index = int(share * 997) % len(plan.boundaries)
        low, high = plan.edges_m[index], plan.edges_m[index + 2]
        return move_boundary(plan, index, low + share * (high - low))

    def drag(self, shares: list[float], *, drop: bool) -> None:
        """Drag a boundary over several places; let it go, or put it back."""
        before = self.document.plan
        for share in shares:
            try:
                self.document.preview(self._moved(before, share))
            except RovingLayError:
                continue
        if drop:
            self.document.commit_preview("Drag")
            self._stepped()
        else:
            self.document.cancel_preview()
            assert self.document.plan is before

    def split(self, share: float) -> None:
        """Split the section at a share of the lay."""

        def edit(plan: Plan) -> Plan:
            place_m = share * plan.lay_length_m
            index = sum(edge <= place_m for edge in plan.edges_m[1:-1])
            return split(plan, index, place_m) if len(plan.sections) < MOST_SECTIONS else plan

        self._edit(edit)

    def merge(self, share: float) -> None:
        """Merge two neighbours."""
        self._edit(
            lambda plan: (
                merge(plan, first := int(share * (len(plan.sections) - 1)), first + 1)
                if len(plan.sections) > 1
                else plan
            )
        )

    def rename(self, title: str) -> None:
        """Call the plan otherwise."""
        self._edit(lambda plan: replace(plan, title=title))

    def reverse(self) -> None:
        """Turn the sections' order round."""
        self._edit(reverse)

    def _edit(self, edit: Edit) -> None:
        self.document.edit("Edit", edit)
        self._stepped()

    def undo(self, steps: int = 1) -> None:
        """Go back."""
        for _ in range(min(steps, self.at)):
            self.document.undo_stack.undo()
            self.at -= 1

    def redo(self) -> None:
        """Go forward."""
        if self.at + 1 < len(self.history):
            self.document.undo_stack.redo()
            self.at += 1

    def save(self) -> None:
        """Save, which leaves the plan clean."""
        self.document.save(self.path)
        assert not self.document.is_modified

    def reload(self) -> None:
        """Open the file again, giving up what is not saved."""
        self.document.open_file(self.path)
        self.history, self.at = [self.document.plan], 0

    def crash_and_recover(self) -> None:
        """Have the program vanish once its changes are kept, and start anew."""
        was, is_kept = self.document.plan, self.document.is_modified or self.document.is_recovered
        was_modified = self.document.is_modified
        self.autosave.keep_now()
        self.autosave.vanish()
        self.document.let_go()
        self._open()
        found = orphans(self.snapshots)
        assert is_kept == bool(found), "what is not saved is kept, and nothing else"
        if not found:
            assert self.document.plan == was
            return
        kept = found[0].found
        assert isinstance(kept, Snapshot)
        self.document.recover(kept, "Recover")
        self.autosave.go_on_with(adopt(found[0]))
        assert self.document.is_modified
        stack = self.document.undo_stack
        self.history = (
            [self.document.plan] if not stack.count() else [read_plan(self.path), self.document.plan]
        )
        self.at = len(self.history) - 1
        assert self.document.plan == (was if was_modified else kept.plan)

    def end(self) -> None:
        """Go home: as many undos as there were steps restore the exact start."""
        self.undo(self.at)
        self.check()
        self.autosave.end()
        self.document.let_go()

    def check(self) -> None:
        """Hold what is open against the model, the disk and the laws of a plan."""
        plan = self.document.plan
        assert plan == self.history[self.at]
        assert self.document.sheet.plan is plan
        if not self.document.is_modified:
            assert read_plan(self.path) == plan, "clean equals disk"
        assert plan.edges_m[0] == 0.0
        assert plan.edges_m[-1] == plan.lay_length_m
        assert all(a < b for a, b in zip(plan.edges_m, plan.edges_m[1:], strict=False)), "sections tile"
        figures = self.document.sheet.figures
        total, parts = figures.liquid_ml.sum(), figures.amounts_ml.sum()
        assert abs(total - parts) <= 1e-9 * max(1.0, total), "volumes add up"


def random_step(day: BenchDay, rng: random.Random) -> None:
    """Do something that somebody at the bench does."""
    rng.choices(
        (
            lambda: day.move(rng.random()),
            lambda: day.drag([rng.random() for _ in range(8)], drop=rng.random() < 0.8),
            lambda: day.split(rng.random()),
            lambda: day.merge(rng.random()),
            lambda: day.rename(f"Plan {rng.random():.6f}"),
            day.reverse,
            lambda: day.undo(rng.randint(1, 5)),
            day.redo,
            day.save,
        ),
        weights=(8, 8, 4, 3, 2, 1, 4, 2, 1),
    )[0]()
    day.check()
