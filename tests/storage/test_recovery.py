"""If these fail, a crash costs work, or what it left behind is lost, mixed up or misread."""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.plan import Plan
from studio_gui.storage import recovery
from studio_gui.storage.files import Fingerprint, fingerprint, read_plan, save_plan
from studio_gui.storage.locks import lock_path
from studio_gui.storage.recovery import (
    Orphan,
    Snapshot,
    SnapshotFile,
    Typed,
    adopt,
    check_left,
    discard,
    orphans,
)
from studio_gui.storage.strict_json import Json, serialise
from tests.storage.owners import another_keeper
from tests.strategies import plans

PLAN = replace(new_plan(), title="Two Shores")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "state" / "recovery"


def only(folder: Path) -> Orphan:
    (orphan,) = orphans(folder)
    return orphan


def snapshot(folder: Path) -> Snapshot:
    found = only(folder).found
    assert isinstance(found, Snapshot), found
    return found


def problem(folder: Path) -> FileProblem:
    found = only(folder).found
    assert isinstance(found, FileProblem)
    return found


def orphaned(
    folder: Path, plan: Plan = PLAN, path: Path | None = None, was: Fingerprint | None = None
) -> Path:
    kept = SnapshotFile(folder)
    kept.write(plan, path, was)
    kept.let_go()
    return kept.file


@given(plans(most_sections=3), st.binary(min_size=1, max_size=20))
def test_what_is_kept_comes_back_whole_wherever_it_belongs(plan: Plan, name: bytes) -> None:
    with tempfile.TemporaryDirectory() as place:
        path = Path(place) / os.fsdecode(name.replace(b"\0", b"?").replace(b"/", b"?"))
        was = Fingerprint(7, hashlib.sha256(name).hexdigest(), 0)
        before = datetime.now(UTC)

        orphaned(Path(place), plan, path, was)

        found = snapshot(Path(place))
        assert (found.plan, found.path, found.was) == (plan, path, was)
        assert before <= found.saved_at <= datetime.now(UTC)


def test_a_plan_that_was_never_saved_is_kept_too(folder: Path) -> None:
    orphaned(folder)
    found = snapshot(folder)
    assert (found.plan, found.path, found.was) == (PLAN, None, None)


@pytest.mark.parametrize(
    ("text", "comes_back"),
    [
        ("12", "12"),
        ("", ""),
        ("“Slate”\n\0\U0001f9f6", "“Slate”\n\0\U0001f9f6"),
        ("\ud800", "?"),
        ("x" * 9_999, "x" * 1_000),
    ],
)
def test_what_was_being_typed_comes_back_beside_the_plan(folder: Path, text: str, comes_back: str) -> None:
    kept = SnapshotFile(folder)
    kept.write(PLAN, None, None, Typed("Title", text))
    kept.let_go()
    assert (snapshot(folder).plan, snapshot(folder).typed) == (PLAN, Typed("Title", comes_back))


def test_a_snapshot_of_the_version_before_typing_was_kept_is_read(folder: Path) -> None:
    file = orphaned(folder)
    head, plan = file.read_bytes().split(b"\n", 1)
    words = json.loads(head) | {"version": 1}
    file.write_bytes(json.dumps(words).encode() + b"\n" + plan)
    assert (snapshot(folder).plan, snapshot(folder).typed) == (PLAN, None)


def test_the_plan_s_own_file_and_folder_are_not_touched(folder: Path, tmp_path: Path) -> None:
    path = tmp_path / "plans" / "mine.roving.json"
    path.parent.mkdir()
    save_plan(path, PLAN)
    before = path.read_bytes(), path.stat()
    orphaned(folder, replace(PLAN, title="Changed"), path, fingerprint(path))
    assert (path.read_bytes(), path.stat()) == before
    assert list(path.parent.iterdir()) == [path]


def test_a_running_program_s_snapshot_is_no_orphan_until_it_is_killed(folder: Path, tmp_path: Path) -> None:
    path = tmp_path / "mine.roving.json"
    save_plan(path, PLAN)
    with another_keeper(folder, path):
        assert orphans(folder) == []
    found = snapshot(folder)
    assert (found.plan, found.path, found.was) == (PLAN, path, fingerprint(path))


def test_an_orphan_goes_on_in_the_same_file_and_is_nobody_else_s(folder: Path) -> None:
    file = orphaned(folder)
    orphan = only(folder)
    kept = adopt(orphan)
    assert kept.file == file
    assert orphans(folder) == []
    for late in (check_left, adopt, discard):
        with pytest.raises(FileProblem, match="snapshot-taken"):
            late(orphan)
    kept.write(replace(PLAN, title="Further"), None, None)
    kept.let_go()
    assert snapshot(folder).plan.title == "Further"
    check_left(orphan)
    adopt(orphan).close()
    for late in (check_left, adopt, discard):
        with pytest.raises(FileProblem, match="snapshot-gone"):
            late(orphan)
    assert list(folder.iterdir()) == []


def test_what_cannot_be_deleted_is_not_said_to_be(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    orphaned(folder)
    monkeypatch.setattr(SnapshotFile, "remove", lambda _file: None)
    with pytest.raises(FileProblem, match="snapshot-stays"):
        discard(only(folder))


def test_where_nothing_can_be_locked_what_was_found_is_taken_as_left(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    orphaned(folder)
    monkeypatch.setattr(recovery, "lock_file", lambda *_, **__: None)
    check_left(only(folder))


def test_only_a_choice_deletes(folder: Path) -> None:
    orphaned(folder)
    adopt(only(folder)).let_go()
    assert orphans(folder)
    discard(only(folder))
    assert list(folder.iterdir()) == []


def test_a_snapshot_ends_when_its_plan_is_saved_and_begins_anew_with_the_next_edit(folder: Path) -> None:
    kept = SnapshotFile(folder)
    kept.write(PLAN, None, None)
    kept.remove()
    kept.remove()
    assert not kept.file.exists()
    kept.write(PLAN, None, None)
    kept.close()
    kept.write(PLAN, None, None)
    assert list(folder.iterdir()) == [], "what comes late is not kept"
    SnapshotFile(folder).close()


def test_a_snapshot_of_another_machine_stays_there_and_its_work_goes_on_beside_it(folder: Path) -> None:
    file = orphaned(folder)
    words: Json = {"program": "x", "user": "ann", "host": "loft", "process": 1, "since": "2026-01-02"}
    lock_path(file).write_bytes(serialise(words))
    orphan = only(folder)
    assert orphan.host == "loft"
    assert isinstance(orphan.found, Snapshot)
    kept = adopt(orphan)
    kept.write(PLAN, None, None)
    assert kept.file != file
    assert file.exists()
    kept.close()
    discard(orphan)
    assert list(folder.iterdir()) == []


def test_a_folder_of_snapshots_that_cannot_be_locked_still_offers_them(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    orphaned(folder)
    monkeypatch.setattr("studio_gui.storage.recovery.lock_file", lambda _path, **_named: None)
    assert snapshot(folder).plan == PLAN


def test_the_newest_comes_first_and_other_files_are_left_alone(folder: Path) -> None:
    first = orphaned(folder)
    second = orphaned(folder)
    (folder / "notes.txt").write_text("mine")
    broken = folder / f"{'0' * 32}.snapshot"
    broken.write_bytes(b"")
    os.utime(broken, (0, 0))
    assert [orphan.file for orphan in orphans(folder)] == [second, first, broken]
    assert orphans(folder / "gone") == []


def test_a_broken_snapshot_that_vanishes_meanwhile_is_still_told(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    orphaned(folder).write_bytes(b"")

    def gone(_: Path, **_named: bool) -> None:
        raise FileNotFoundError

    monkeypatch.setattr(Path, "stat", gone)
    assert isinstance(only(folder).found, FileProblem)


HEAD = {"document": "roving-lay-recovery", "version": 1, "saved_at": "2026-01-02T03:04:05+00:00"}
EMPTY = hashlib.sha256(b"").hexdigest()


@pytest.mark.parametrize(
    ("head", "code"),
    [
        ("[]", "snapshot-broken"),
        ("{}", "snapshot-broken"),
        (json.dumps({"document": "else"}), "snapshot-broken"),
        (json.dumps(HEAD | {"version": 3}), "snapshot-newer"),
        (json.dumps(HEAD), "key-missing"),
        (json.dumps(HEAD | {"plan_sha256": "0"}), "snapshot-broken"),
        (json.dumps(HEAD | {"plan_sha256": EMPTY}), "file-empty"),
        ("{", "not-json"),
    ],
)
def test_what_is_no_snapshot_is_told_and_kept(folder: Path, head: str, code: str) -> None:
    file = orphaned(folder)
    file.write_bytes(head.encode() + b"\n")
    told = problem(folder)
    assert (told.code, told.params["path"]) == (code, str(file))
    assert file.exists()


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (b'"saved_at": "2', b'"saved_at": "x'),
        (b"+00:00", b""),
        (b'"path": "', b'"path": "%00'),
        (b"Two Shores", b"Two Snores"),
    ],
    ids=["no time", "no time zone", "no path", "another plan"],
)
def test_a_snapshot_that_was_tampered_with_is_told(
    folder: Path, tmp_path: Path, old: bytes, new: bytes
) -> None:
    file = orphaned(folder, path=tmp_path / "mine.roving.json")
    data = file.read_bytes()
    assert old in data
    file.write_bytes(data.replace(old, new, 1))
    assert problem(folder).code == "snapshot-broken"


def test_a_snapshot_cut_anywhere_is_told_and_never_half_a_plan(folder: Path) -> None:
    file = orphaned(folder)
    data = file.read_bytes()
    for length in range(0, len(data), 97):
        file.write_bytes(data[:length])
        assert isinstance(only(folder).found, FileProblem)


def test_a_snapshot_that_cannot_be_kept_is_told_and_the_one_before_stays(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(FileProblem) as caught:
        SnapshotFile(tmp_path / "file" / "recovery").write(PLAN, None, None)
    assert caught.value.code == "folder-missing"


def test_a_recovered_plan_reads_like_its_file(folder: Path, tmp_path: Path) -> None:
    path = tmp_path / "mine.roving.json"
    save_plan(path, PLAN)
    orphaned(folder, read_plan(path), path, fingerprint(path))
    assert snapshot(folder).was == fingerprint(path)


def test_a_trial_tells_whether_a_copy_could_be_kept_and_keeps_none(tmp_path: Path) -> None:
    kept = SnapshotFile(tmp_path / "recovery")
    kept.write(new_plan(), None, None)
    kept.try_out(new_plan())
    assert not kept.file.exists()
    kept.close()
    assert list(kept.file.parent.iterdir()) == []
    kept.try_out(new_plan())
    blocked = SnapshotFile(tmp_path / "recovery" / "file")
    blocked.file.parent.write_bytes(b"")
    with pytest.raises(FileProblem, match="not-a-folder"):
        blocked.try_out(new_plan())
