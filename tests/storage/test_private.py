"""If these fail, another user of the machine reads recipes that were never meant to be shared."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from studio_gui.domain.new_plan import new_plan
from studio_gui.storage.log import note, start_log, stop_log
from studio_gui.storage.private import close_to_others, make_private_folder
from studio_gui.storage.recovery import SnapshotFile


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_a_snapshot_its_lock_and_their_folder_are_the_owner_s_alone(tmp_path: Path) -> None:
    folder = tmp_path / "recovery"
    folder.mkdir(mode=0o755)
    older = folder / f"{'0' * 32}.snapshot"
    older.write_bytes(b"kept before")
    older.chmod(0o644)
    kept = SnapshotFile(folder)
    kept.write(new_plan(), None, None)
    assert mode(folder) == 0o700
    assert {mode(path) for path in folder.iterdir()} == {0o600}
    assert len(list(folder.iterdir())) == 3
    kept.let_go()
    kept = SnapshotFile(folder, older)
    older.chmod(0o644)
    kept.write(new_plan(), None, None)
    assert mode(older) == 0o600
    kept.let_go()


def test_the_log_is_the_owner_s_alone(tmp_path: Path) -> None:
    start_log(tmp_path / "log")
    note("started")
    stop_log()
    assert mode(tmp_path / "log") == 0o700
    assert [mode(path) for path in (tmp_path / "log").iterdir()] == [0o600]


def test_what_belongs_to_others_stays_as_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    tmp_path.chmod(0o755)
    (tmp_path / "deeper").mkdir(mode=0o755)
    monkeypatch.setattr(os, "geteuid", lambda: tmp_path.stat().st_uid + 1)
    make_private_folder(tmp_path)
    assert mode(tmp_path) == 0o755
    monkeypatch.undo()
    close_to_others(tmp_path / "gone")
    make_private_folder(tmp_path)
    assert mode(tmp_path) == 0o700
    assert mode(tmp_path / "deeper") == 0o755, "only files are closed: what is deeper cannot be reached"
