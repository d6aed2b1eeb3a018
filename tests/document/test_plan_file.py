"""If these fail, two windows write over each other, or what is recovered is taken for what is saved."""

from __future__ import annotations

import shutil
from dataclasses import replace
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.errors import FileProblem
from studio_gui.domain.plan import Plan
from studio_gui.paths import samples_dir
from studio_gui.storage.files import Fingerprint, fingerprint, read_plan, save_plan
from studio_gui.storage.locks import lock_path
from studio_gui.storage.plan_json import VERSION
from studio_gui.storage.recovery import Snapshot
from studio_gui.storage.strict_json import Json, serialise
from tests.drawing.plans import plain_plan
from tests.storage.owners import another_holder

DATA = Path(__file__).parents[1] / "data"
MOVE: Edit = partial(move_boundary, index=0, position_m=1.2)


@pytest.fixture
def mine(qapp: QCoreApplication, tmp_path: Path) -> Path:  # noqa: ARG001  (open plans need an application)
    path = tmp_path / "mine.roving.json"
    save_plan(path, plain_plan(4))
    return path


def held_code(document: OpenPlan, path: Path) -> str:
    before = document.plan, document.path
    with pytest.raises(FileProblem) as caught:
        document.open_file(path)
    assert (document.plan, document.path) == before
    return caught.value.code


def far_holder(path: Path) -> None:
    words: Json = {"program": "x", "user": "ann", "host": "loft", "process": 1, "since": "2026-01-02"}
    lock_path(path).write_bytes(serialise(words))


# -- locks -------------------------------------------------------------------------------------------------


def test_a_plan_open_in_one_window_is_not_opened_in_another_until_that_lets_go(mine: Path) -> None:
    first, second = OpenPlan.from_file(mine), OpenPlan(plain_plan(2))
    assert held_code(second, mine) == "plan-held"
    with pytest.raises(FileProblem):
        OpenPlan.from_file(mine)
    first.open_file(mine)  # itself again
    second.open_copy(mine)
    assert second.plan == first.plan
    assert second.path is None
    first.replace(plain_plan(2))
    second.open_file(mine)
    second.let_go()
    assert not lock_path(mine).exists()


def test_a_plan_open_in_another_program_is_opened_once_that_is_killed(mine: Path) -> None:
    document = OpenPlan(plain_plan(2))
    with another_holder(mine):
        assert held_code(document, mine) == "plan-held"
        with pytest.raises(FileProblem) as caught:
            document.save(mine)
        assert caught.value.code == "plan-held"
        assert read_plan(mine) == plain_plan(4)
    document.open_file(mine)
    document.let_go()


def test_saving_under_another_name_moves_the_lock(mine: Path, tmp_path: Path) -> None:
    document, other = OpenPlan.from_file(mine), tmp_path / "other.roving.json"
    document.save(other)
    assert not lock_path(mine).exists()
    assert lock_path(other).exists()
    with pytest.raises(FileProblem):
        document.save(tmp_path / "gone" / "x.roving.json")
    assert lock_path(other).exists(), "a save that failed gives nothing up"
    document.let_go()


def test_a_bad_file_does_not_stay_locked(mine: Path, tmp_path: Path) -> None:
    bad = tmp_path / "bad.roving.json"
    bad.write_bytes(b"{")
    document = OpenPlan.from_file(mine)
    assert held_code(document, bad) == "not-json"
    assert not lock_path(bad).exists()
    with pytest.raises(FileProblem):
        OpenPlan.from_file(bad)
    assert not lock_path(bad).exists()
    document.let_go()


def test_a_sample_may_be_open_any_number_of_times(mine: Path) -> None:
    sample = samples_dir() / "two-shores.roving.json"
    one, other = OpenPlan.from_file(sample), OpenPlan.from_file(sample)
    assert one.plan == other.plan
    one.open_file(mine)
    one.let_go()


def test_a_holder_on_another_computer_is_taken_over_from_only_when_asked_to(mine: Path) -> None:
    far_holder(mine)
    document = OpenPlan(plain_plan(2))
    assert held_code(document, mine) == "plan-held-far"
    document.open_file(mine, take_over=True)
    assert document.path == mine
    document.let_go()
    far_holder(mine)
    document.replace(plain_plan(3))
    with pytest.raises(FileProblem):
        document.save(mine)
    document.save(mine, take_over=True)
    assert read_plan(mine) == plain_plan(3)
    document.let_go()


# -- older formats -----------------------------------------------------------------------------------------


def test_saving_over_a_file_of_an_older_format_keeps_the_original_once(mine: Path) -> None:
    shutil.copy(DATA / "plan_version_1.roving.json", mine)
    original = mine.read_bytes()
    document = OpenPlan.from_file(mine)
    document.edit("Rename", lambda plan: replace(plan, title="Renamed"))
    kept = document.save(mine)
    assert kept is not None
    assert kept.read_bytes() == original
    assert read_plan(mine).title == "Renamed"
    document.edit("Rename", lambda plan: replace(plan, title="Again"))
    assert document.save(mine) is None
    document.let_go()


def test_a_file_of_a_newer_format_is_refused_and_not_rewritten(mine: Path) -> None:
    data = mine.read_bytes().replace(b'"version": %d' % VERSION, b'"version": %d' % (VERSION + 1))
    mine.write_bytes(data)
    assert held_code(OpenPlan(plain_plan(2)), mine) == "file-newer"
    assert mine.read_bytes() == data
    assert [path.name for path in mine.parent.iterdir()] == [mine.name]


# -- recovery ----------------------------------------------------------------------------------------------


def kept(plan: Plan, path: Path | None = None, was: Fingerprint | None = None) -> Snapshot:
    return Snapshot(plan, path, was, datetime.now(UTC))


def recovered(snapshot: Snapshot) -> OpenPlan:
    document = OpenPlan(plain_plan(2))
    document.recover(snapshot, "Recover unsaved work")
    assert document.plan == snapshot.plan
    assert document.is_modified
    assert document.is_recovered
    return document


def test_recovered_work_is_one_step_away_from_its_file(mine: Path) -> None:
    document = recovered(kept(MOVE(plain_plan(4)), mine, fingerprint(mine)))
    assert document.path == mine
    assert document.file.outside() is None
    assert document.undo_stack.undoText() == "Recover unsaved work"
    document.undo_stack.undo()
    assert document.plan == plain_plan(4)
    assert not document.is_modified
    document.undo_stack.redo()
    document.save(mine)
    assert not document.is_recovered
    assert not document.is_modified
    document.let_go()


def test_recovered_work_like_its_file_is_still_not_taken_for_saved(mine: Path) -> None:
    recovered(kept(plain_plan(4), mine, fingerprint(mine))).let_go()


def test_recovered_work_whose_file_changed_since_asks_before_it_writes(mine: Path) -> None:
    was = fingerprint(mine)
    save_plan(mine, plain_plan(5))
    document = recovered(kept(MOVE(plain_plan(4)), mine, was))
    assert document.file.outside() is not None
    document.let_go()


def test_recovered_work_whose_file_is_gone_or_broken_keeps_its_place(mine: Path) -> None:
    was = fingerprint(mine)
    mine.unlink()
    document = recovered(kept(plain_plan(4), mine, was))
    assert document.path == mine
    assert document.file.outside() is None
    document.let_go()
    mine.write_bytes(b"{")
    document = recovered(kept(plain_plan(4), mine, was))
    assert document.file.outside() is not None
    document.let_go()


def test_recovered_work_whose_file_is_open_elsewhere_comes_back_without_it(mine: Path) -> None:
    was, holder = fingerprint(mine), OpenPlan.from_file(mine)
    document = recovered(kept(MOVE(plain_plan(4)), mine, was))
    assert document.path is None
    holder.let_go()


def test_recovered_work_that_was_never_saved_has_no_file() -> None:
    assert recovered(kept(plain_plan(3))).path is None
