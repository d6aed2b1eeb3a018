"""If these fail, undo does not bring back what was, an edit is lost or half made, or a file is misjudged."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from functools import partial
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.edits.boundaries import equalise, move_boundary, reverse
from studio_gui.domain.edits.inputs import set_fibre, set_liquid, set_passes
from studio_gui.domain.edits.liquors import own_liquor, paint_amounts, to_depth_basis
from studio_gui.domain.edits.sections import change_section, duplicate, merge, set_locked, split
from studio_gui.domain.errors import EditRefused, FileProblem, InvalidPlan, RovingLayError
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.plan import Plan
from tests.drawing.plans import plain_plan

MOVE: Edit = partial(move_boundary, index=0, position_m=1.2)
RENAME: Edit = partial(change_section, section_id="s1", name="Tideline")

EDITS: tuple[Edit, ...] = (
    MOVE,
    RENAME,
    partial(split, index=1, position_m=1.5),
    lambda plan: merge(plan, 0, 1) if len(plan.sections) > 2 else plan,
    partial(duplicate, index=0),
    partial(equalise, first=0, last=1),
    reverse,
    partial(set_fibre, length_m=4.4, mass_g=113.4),
    partial(set_passes, passes=2),
    partial(set_liquid, uptake_ml_per_g=1.4),
    partial(paint_amounts, section_id="s1", amounts_ml={"k1": 12.0, "k3": 38.0}),
    partial(own_liquor, section_id="s4"),
    partial(to_depth_basis, liquor_id="q1"),
    partial(set_locked, section_ids=("s2",), locked=True),
)


def steps(document: OpenPlan) -> list[str]:
    stack = document.undo_stack
    return [stack.text(index) for index in range(stack.count())]


class Heard:
    """What the document signalled."""

    def __init__(self, document: OpenPlan) -> None:
        self.shown = self.selected = self.file_changed = 0
        self.refused: list[RovingLayError] = []
        document.shown.connect(self._on_shown)
        document.selected.connect(self._on_selected)
        document.file_changed.connect(self._on_file)
        document.refused.connect(self.refused.append)

    def _on_shown(self) -> None:
        self.shown += 1

    def _on_selected(self) -> None:
        self.selected += 1

    def _on_file(self) -> None:
        self.file_changed += 1


# -- edits -------------------------------------------------------------------------------------------------


def test_an_edit_is_one_named_step_and_is_shown_once(document: OpenPlan) -> None:
    heard = Heard(document)
    assert document.edit("Move boundary", MOVE)
    assert steps(document) == ["Move boundary"]
    assert document.plan.boundaries[0].position_m == 1.2
    assert document.sheet.plan is document.plan
    assert heard.shown == 1
    assert document.is_modified


def test_undo_and_redo_bring_back_the_very_plans(document: OpenPlan) -> None:
    before = document.plan
    document.edit("Move boundary", MOVE)
    after = document.plan
    document.undo_stack.undo()
    assert document.plan is before
    assert document.sheet.plan is before
    document.undo_stack.redo()
    assert document.plan is after


def test_an_edit_that_changes_nothing_leaves_no_step(document: OpenPlan) -> None:
    heard = Heard(document)
    assert document.edit("Move boundary", partial(move_boundary, index=0, position_m=1.0))
    assert document.edit("Nothing", lambda plan: plan)
    assert steps(document) == []
    assert not document.is_modified
    assert heard.shown == 0


@pytest.mark.parametrize(
    ("edit", "kind", "code"),
    [
        (partial(move_boundary, index=0, position_m=3.5), EditRefused, "boundary-out-of-range"),
        (partial(set_fibre, mass_g=0.0), InvalidPlan, "out-of-range"),
        (partial(change_section, section_id="nobody", name="x"), InvalidPlan, "unknown-section"),
    ],
)
def test_a_refused_edit_changes_nothing_and_says_why(
    document: OpenPlan, edit: Edit, kind: type[RovingLayError], code: str
) -> None:
    document.edit("Rename", RENAME)
    plan, heard = document.plan, Heard(document)
    assert not document.edit("Too far", edit)
    assert document.plan is plan
    assert steps(document) == ["Rename"]
    assert heard.shown == 0
    assert [(type(error), error.code) for error in heard.refused] == [(kind, code)]


def test_a_refused_edit_keeps_what_can_be_redone(document: OpenPlan) -> None:
    document.edit("Rename", RENAME)
    document.undo_stack.undo()
    document.edit("Too far", partial(move_boundary, index=0, position_m=9.0))
    assert document.undo_stack.canRedo()


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.sampled_from(EDITS), max_size=12))
def test_as_many_undos_as_steps_bring_back_the_start(document: OpenPlan, edits: list[Edit]) -> None:
    start = plain_plan(4)
    document.replace(start)
    for number, edit in enumerate(edits):
        document.edit(f"Step {number}", edit)
    end = document.plan
    count = document.undo_stack.count()
    for _ in range(count):
        document.undo_stack.undo()
    assert document.plan is start
    assert not document.is_modified
    for _ in range(count):
        document.undo_stack.redo()
    assert document.plan is end


# -- previews ----------------------------------------------------------------------------------------------


def test_a_preview_is_shown_and_is_no_step(document: OpenPlan) -> None:
    before, heard = document.plan, Heard(document)
    document.preview(MOVE(before))
    assert document.is_previewing
    assert document.plan is before
    assert document.sheet.plan.boundaries[0].position_m == 1.2
    assert (heard.shown, steps(document), document.is_modified) == (1, [], False)


def test_a_committed_preview_is_one_step_however_often_it_moved(document: OpenPlan) -> None:
    before = document.plan
    for place in (1.1, 1.3, 1.2):
        document.preview(move_boundary(before, 0, place))
    document.commit_preview("Move boundary")
    assert steps(document) == ["Move boundary"]
    assert document.plan == MOVE(before)
    assert not document.is_previewing
    document.undo_stack.undo()
    assert document.plan is before


def test_a_cancelled_preview_leaves_no_trace(document: OpenPlan) -> None:
    before = document.plan
    document.preview(MOVE(before))
    document.cancel_preview()
    assert document.sheet.plan is before
    assert steps(document) == []


def test_a_preview_back_where_it_began_leaves_no_step(document: OpenPlan) -> None:
    before = document.plan
    document.preview(MOVE(before))
    document.preview(move_boundary(before, 0, 1.0))
    document.commit_preview("Move boundary")
    assert steps(document) == []
    assert document.sheet.plan is before
    assert not document.is_previewing


def test_an_edit_starts_from_the_plan_and_not_from_a_preview(document: OpenPlan) -> None:
    document.preview(MOVE(document.plan))
    document.edit("Rename", RENAME)
    assert document.plan.boundaries[0].position_m == 1.0
    assert document.plan.section("s1").name == "Tideline"
    assert not document.is_previewing


def test_a_refused_edit_ends_the_preview(document: OpenPlan) -> None:
    document.preview(MOVE(document.plan))
    document.edit("Too far", partial(move_boundary, index=0, position_m=9.0))
    assert not document.is_previewing


# -- selection ---------------------------------------------------------------------------------------------


def test_selected_sections_come_in_the_order_of_the_lay(document: OpenPlan) -> None:
    heard = Heard(document)
    document.select("s3", "s2", "nobody")
    assert document.selected_ids == ("s2", "s3")
    assert document.selected_index == 1
    document.select("s3", "s2", "nobody")
    assert heard.selected == 1, "selecting the same again is no change"


def test_with_nothing_selected_the_first_section_is_shown(document: OpenPlan) -> None:
    document.select()
    assert document.selected_ids == ()
    assert document.selected_index == 0


def test_a_selected_section_that_goes_and_comes_back_is_selected_again(document: OpenPlan) -> None:
    document.select("s2", "s3")
    document.edit("Merge", partial(merge, first=0, last=1))
    assert list(document.selected_ids) == ["s3"]
    document.undo_stack.undo()
    assert list(document.selected_ids) == ["s2", "s3"]


# -- files -------------------------------------------------------------------------------------------------


def test_saving_makes_clean_and_undo_beyond_it_makes_modified(document: OpenPlan, tmp_path: Path) -> None:
    document.edit("Rename", RENAME)
    heard = Heard(document)
    document.save(tmp_path / "plan.roving.json")
    assert heard.file_changed >= 1
    modified = [document.is_modified]
    for step in (document.undo_stack.undo, document.undo_stack.redo):
        step()
        modified.append(document.is_modified)
    assert modified == [False, True, False]


def test_what_was_saved_is_what_is_opened(document: OpenPlan, tmp_path: Path) -> None:
    path = tmp_path / "plan.roving.json"
    document.edit("Rename", RENAME)
    document.save(path)
    saved = document.plan
    document.replace(new_plan())
    document.open_file(path)
    assert document.plan == saved
    assert document.path == path
    assert document.selected_ids == ("s1",)
    assert (steps(document), document.is_modified) == ([], False)


def test_saving_keeps_what_can_be_undone(document: OpenPlan, tmp_path: Path) -> None:
    document.edit("Rename", RENAME)
    document.save(tmp_path / "plan.roving.json")
    assert document.undo_stack.canUndo()


def test_a_bad_file_leaves_everything_as_it_was(document: OpenPlan, tmp_path: Path) -> None:
    document.edit("Rename", RENAME)
    plan = document.plan
    path = tmp_path / "bad.roving.json"
    path.write_text("{", encoding="utf-8")
    with pytest.raises(FileProblem):
        document.open_file(path)
    assert document.plan is plan
    assert document.path is None
    assert steps(document) == ["Rename"]


def test_a_failed_save_stays_modified(document: OpenPlan, tmp_path: Path) -> None:
    document.edit("Rename", RENAME)
    with pytest.raises(FileProblem):
        document.save(tmp_path / "no such folder" / "plan.roving.json")
    assert document.is_modified
    assert document.path is None


def test_a_file_changed_by_somebody_else_is_noticed_until_it_is_saved_over(
    document: OpenPlan, tmp_path: Path
) -> None:
    path = tmp_path / "plan.roving.json"
    assert document.file.outside() is None, "a plan never saved has no file"
    document.save(path)
    assert document.file.outside() is None
    path.write_text(path.read_text(encoding="utf-8").replace("Section 1", "Section X"), encoding="utf-8")
    assert document.file.outside() is not None
    document.save(path)
    assert document.file.outside() is None


def test_a_file_that_is_gone_is_no_conflict(document: OpenPlan, tmp_path: Path) -> None:
    path = tmp_path / "plan.roving.json"
    document.save(path)
    path.unlink()
    assert document.file.outside() is None


def test_reloading_a_plan_that_is_in_no_file_changes_nothing(document: OpenPlan) -> None:
    before = document.plan
    document.reload("Reload")
    assert document.plan is before
    assert not document.undo_stack.canUndo()


def test_starting_over_tells_every_view(document: OpenPlan, qtbot: QtBot) -> None:
    document.select("s3")
    signals = [document.shown, document.selected, document.file_changed]
    with qtbot.waitSignals(signals, timeout=1000):
        document.replace(new_plan())
    assert document.selected_ids == ("s1",)


def test_a_plan_of_an_edit_is_never_changed_by_the_document(document: OpenPlan) -> None:
    made: list[Plan] = []

    def rename(plan: Plan) -> Plan:
        made.append(replace(plan, title="Kelp to Quince"))
        return made[0]

    document.edit("Title", rename)
    assert document.plan is made[0]


# -- collection --------------------------------------------------------------------------------------------

CIRCLES = """
import gc, sys, weakref
from PySide6.QtCore import QCoreApplication
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.boundaries import move_boundary
from tests.drawing.plans import plain_plan

application, gone = QCoreApplication([]), []
for turn in range(60):
    document = OpenPlan(plain_plan(4))
    document.itself = document  # as through a window that holds it
    weakref.finalize(document, gone.append, turn)
    for step in range(8):
        assert document.edit("Move", lambda plan: move_boundary(plan, 0, 1.0 + 0.01 * step))
    document.undo_stack.undo()
    del document
    if turn % 7 == 0:
        gc.collect()
gc.collect()
print(len(gone))
"""


def test_an_open_plan_with_steps_to_undo_can_be_collected_in_any_order() -> None:
    run = subprocess.run(
        [sys.executable, "-c", CIRCLES],
        cwd=Path(__file__).parents[2],
        env=os.environ | {"QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert (run.returncode, run.stdout) == (0, "60\n"), run.stderr
