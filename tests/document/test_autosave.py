"""If these fail, a crash costs more than the last few seconds, or keeping copies disturbs the work."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from studio_gui.document.autosave import KEEP_AFTER_MS, Autosave, recovery_folder
from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.errors import FileProblem
from studio_gui.storage.recovery import Orphan, Snapshot, SnapshotFile, Typed, adopt, orphans

MOVE: Edit = partial(move_boundary, index=0, position_m=1.2)
BACK: Edit = partial(move_boundary, index=0, position_m=1.1)


@pytest.fixture
def autosave(document: OpenPlan, qtbot: QtBot, tmp_path: Path) -> Iterator[Autosave]:  # noqa: ARG001  (timers)
    kept = Autosave(document, tmp_path / "recovery")
    yield kept
    kept.end()
    document.let_go()


def kept_plan(autosave: Autosave) -> Snapshot:
    """What would be found if the program were killed now; the lock is looked past."""
    copy = autosave.folder / f"{'f' * 32}.snapshot"
    copy.write_bytes(autosave.file.read_bytes())
    found = next(orphan.found for orphan in orphans(autosave.folder) if orphan.file == copy)
    copy.unlink()
    assert isinstance(found, Snapshot)
    return found


def test_an_edit_is_kept_within_five_seconds_and_the_window_goes_on(
    autosave: Autosave, document: OpenPlan, qtbot: QtBot
) -> None:
    assert KEEP_AFTER_MS < 4_000
    document.edit("Move", MOVE)
    assert not autosave.file.exists(), "nothing is written while an edit is made"
    qtbot.waitUntil(autosave.file.exists, timeout=KEEP_AFTER_MS + 3_000)
    assert kept_plan(autosave).plan == document.plan


def test_edits_that_never_pause_are_kept_all_the_same(
    autosave: Autosave, document: OpenPlan, qtbot: QtBot
) -> None:
    for turn in range(100):
        document.edit("Move", BACK if turn % 2 else MOVE)
        qtbot.wait(KEEP_AFTER_MS // 40)
        if autosave.file.exists():
            return
    raise AssertionError("every edit put off keeping the one before")


def test_a_gesture_under_way_is_no_edit(autosave: Autosave, document: OpenPlan) -> None:
    document.preview(MOVE(document.plan))
    autosave.keep_now()
    assert not autosave.file.exists()
    document.cancel_preview()


def test_the_plan_s_own_file_is_never_touched_and_saving_ends_the_copy(
    autosave: Autosave, document: OpenPlan, qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "mine.roving.json"
    document.save(path)
    before = path.read_bytes()
    document.edit("Move", MOVE)
    qtbot.waitUntil(autosave.file.exists, timeout=KEEP_AFTER_MS + 3_000)
    assert path.read_bytes() == before
    found = kept_plan(autosave)
    assert (found.path, found.was) == (path, document.was)
    document.save(path)
    qtbot.waitUntil(lambda: not autosave.file.exists(), timeout=3_000)


def test_undoing_to_what_is_saved_ends_the_copy_and_the_next_edit_begins_another(
    autosave: Autosave, document: OpenPlan, qtbot: QtBot
) -> None:
    document.edit("Move", MOVE)
    qtbot.waitUntil(autosave.file.exists, timeout=KEEP_AFTER_MS + 3_000)
    document.undo_stack.undo()
    qtbot.waitUntil(lambda: not autosave.file.exists(), timeout=3_000)
    document.undo_stack.redo()
    autosave.keep_now()
    assert kept_plan(autosave).plan == document.plan


def test_what_was_given_up_by_choice_is_not_offered_again(autosave: Autosave, document: OpenPlan) -> None:
    document.edit("Move", MOVE)
    autosave.keep_now()
    autosave.end()
    document.edit("Move", BACK)
    autosave.keep_now()
    assert orphans(autosave.folder) == []


def test_that_nothing_can_be_kept_is_told_once_and_tried_again(
    document: OpenPlan, qtbot: QtBot, tmp_path: Path
) -> None:
    (tmp_path / "file").write_bytes(b"")
    autosave = Autosave(document, tmp_path / "file" / "recovery")
    heard: list[FileProblem] = []
    autosave.failed.connect(heard.append)
    for edit in (MOVE, BACK):
        document.edit("Move", edit)
        qtbot.wait(KEEP_AFTER_MS + 500)
    assert [problem.code for problem in heard] == ["folder-missing"]
    with pytest.raises(FileProblem):
        autosave.keep_now()
    (tmp_path / "file").unlink()
    document.edit("Move", MOVE)
    with qtbot.waitSignal(autosave.mended, timeout=KEEP_AFTER_MS + 3_000):
        pass
    assert autosave.file.exists()
    assert autosave.problem is None
    autosave.end()


def test_whoever_asks_is_told_every_time_and_of_every_cause(document: OpenPlan, tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    autosave = Autosave(document, tmp_path / "file")
    heard: list[str] = []
    autosave.failed.connect(lambda problem: heard.append(problem.code))
    document.edit("Move", MOVE)
    for _ in range(2):
        with pytest.raises(FileProblem):
            autosave.keep_now()
    (tmp_path / "file").unlink()
    autosave.file.mkdir(parents=True)
    with pytest.raises(FileProblem):
        autosave.keep_now()
    assert heard == ["not-a-folder", "not-a-folder", "is-a-folder"]
    autosave.file.rmdir()
    autosave.keep_now()
    assert autosave.problem is None
    autosave.end()


def test_after_saving_it_is_found_out_whether_copies_can_be_kept_again(
    document: OpenPlan, qtbot: QtBot, tmp_path: Path
) -> None:
    """And what an earlier copy had kept is not offered against what was saved since."""
    autosave = Autosave(document, tmp_path / "recovery")
    document.edit("Move", MOVE)
    autosave.keep_now()
    kept = autosave.file.read_bytes()
    autosave.file.unlink()
    autosave.file.mkdir()
    document.edit("Move", BACK)
    with pytest.raises(FileProblem):
        autosave.keep_now()
    autosave.file.rmdir()
    autosave.file.write_bytes(kept)
    with qtbot.waitSignal(autosave.mended, timeout=3_000):
        document.save(tmp_path / "mine.roving.json")
    assert [file.name for file in autosave.folder.iterdir() if file.suffix != ".lock"] == []
    autosave.try_again()
    assert autosave.problem is None
    autosave.end()


def test_trying_again_leaves_what_a_recovered_plan_came_from(document: OpenPlan, tmp_path: Path) -> None:
    path = tmp_path / "mine.roving.json"
    document.save(path)
    before = SnapshotFile(tmp_path / "recovery")
    before.write(MOVE(document.plan), path, document.was)
    before.let_go()
    autosave = Autosave(document, tmp_path / "recovery")
    (orphan,) = orphans(autosave.folder)
    assert isinstance(orphan.found, Snapshot)
    document.recover(orphan.found, "Recover")
    autosave.go_on_with(adopt(orphan))
    aside = orphan.file.rename(tmp_path / "aside")
    orphan.file.mkdir()
    document.edit("Move", BACK)
    with pytest.raises(FileProblem):
        autosave.keep_now()
    orphan.file.rmdir()
    aside.rename(orphan.file)
    document.undo_stack.setIndex(0)
    autosave.try_again()
    assert document.is_recovered
    assert orphan.file.exists()
    autosave.vanish()


def orphaned(folder: Path, document: OpenPlan) -> Orphan:
    kept = SnapshotFile(folder)
    kept.write(document.plan, document.path, document.was)
    kept.let_go()
    (orphan,) = orphans(folder)
    return orphan


def test_a_recovered_plan_goes_on_in_its_own_snapshot(
    autosave: Autosave, document: OpenPlan, qtbot: QtBot
) -> None:
    document.edit("Move", MOVE)
    orphan = orphaned(autosave.folder, document)
    assert isinstance(orphan.found, Snapshot)
    document.recover(orphan.found, "Recover")
    autosave.go_on_with(adopt(orphan))
    assert autosave.file == orphan.file
    assert orphan.file.exists(), "it is not taken away before it is saved"
    document.edit("Move", BACK)
    qtbot.wait(KEEP_AFTER_MS + 1_000)
    assert kept_plan(autosave).plan == document.plan


def test_snapshots_stand_among_the_person_s_state(qtbot: QtBot) -> None:  # noqa: ARG001  (Qt knows where)
    assert recovery_folder().parts[-2:] == ("roving-lay", "recovery")


def test_what_is_being_typed_is_kept_by_itself_and_goes_when_it_is_dropped(
    autosave: Autosave, document: OpenPlan, qtbot: QtBot
) -> None:
    typed = Typed("Title", "Two Sho")
    autosave.hear_typing(typed)
    assert not autosave.file.exists(), "nothing is written at a key"
    qtbot.waitUntil(autosave.file.exists, timeout=KEEP_AFTER_MS + 3_000)
    found = kept_plan(autosave)
    assert (found.plan, found.typed) == (document.plan, typed)
    autosave.hear_typing(None)
    qtbot.waitUntil(lambda: not autosave.file.exists(), timeout=3_000)
    autosave.hear_typing(typed)
    document.edit("Move", MOVE)
    autosave.keep_now()
    autosave.hear_typing(None)
    qtbot.waitUntil(lambda: kept_plan(autosave).typed is None, timeout=KEEP_AFTER_MS + 3_000)
