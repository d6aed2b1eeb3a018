"""If these fail, what cut-off saves left piles up beside plans, or a file still wanted is taken away."""

from __future__ import annotations

import fcntl
import os
import signal
import time
from functools import partial
from pathlib import Path

import pytest

from studio_gui.storage.files import write_atomically
from studio_gui.storage.leftovers import LEAST_AGE_S, hold, sweep, temporary_beside

OLD_NAME = f".roving-lay-{'a' * 16}.tmp"


def aged(file: Path, age_s: float = 2 * LEAST_AGE_S) -> Path:
    file.write_bytes(b"half a plan")
    then = time.time() - age_s
    os.utime(file, (then, then))
    return file


def stall(told: int, _descriptor: int) -> None:
    os.write(told, b"w")
    time.sleep(60)


def test_a_save_takes_away_what_a_killed_one_left(tmp_path: Path) -> None:
    target, reading = tmp_path / "mine.roving.json", os.pipe()
    child = os.fork()
    if not child:
        os.fsync = partial(stall, reading[1])
        write_atomically(target, b"never whole")
        os._exit(0)
    assert os.read(reading[0], 1) == b"w"
    (left,) = tmp_path.iterdir()
    then = time.time() - 2 * LEAST_AGE_S
    os.utime(left, (then, then))
    write_atomically(target, b"whole")
    assert left.exists(), "its writer lives, however long it takes"
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    write_atomically(target, b"whole again")
    assert [path.name for path in tmp_path.iterdir()] == [target.name]
    for end in reading:
        os.close(end)


def test_what_may_still_be_wanted_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "deeper").mkdir()
    young = aged(temporary_beside(tmp_path / "x"), LEAST_AGE_S / 2)
    stay = [
        young,
        aged(tmp_path / "notes.tmp"),
        aged(tmp_path / ".roving-lay-backup.tmp"),
        aged(tmp_path / f".roving-lay-{'a' * 16}.tmp.roving.json"),
        aged(tmp_path / "deeper" / OLD_NAME),
    ]
    folder, link = tmp_path / f".roving-lay-{'b' * 16}.tmp", tmp_path / f".roving-lay-{'c' * 16}.tmp"
    folder.mkdir()
    link.symlink_to(stay[1])
    sweep(tmp_path)
    assert all(path.exists() for path in [*stay, folder, link])
    foreign = aged(tmp_path / OLD_NAME)
    monkeypatch.setattr(os, "geteuid", lambda: foreign.stat().st_uid + 1)
    sweep(tmp_path)
    assert foreign.exists(), "it is somebody else's"
    monkeypatch.undo()
    sweep(tmp_path)
    assert not foreign.exists()


def test_one_that_got_its_name_just_before_is_not_taken_away(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    left, lock = aged(tmp_path / OLD_NAME), fcntl.flock

    def replaced_meanwhile(descriptor: int, how: int) -> None:
        left.rename(tmp_path / "mine.roving.json")
        left.write_bytes(b"another's")
        lock(descriptor, how)

    monkeypatch.setattr(fcntl, "flock", replaced_meanwhile)
    sweep(tmp_path)
    assert left.read_bytes() == b"another's"
    assert (tmp_path / "mine.roving.json").read_bytes() == b"half a plan"


def test_a_disk_without_locks_keeps_leftovers_and_still_saves(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def unknown(*_: object) -> None:
        raise OSError

    left = aged(tmp_path / OLD_NAME)
    monkeypatch.setattr(fcntl, "flock", unknown)
    write_atomically(tmp_path / "mine.roving.json", b"whole")
    assert left.exists()
    hold(-1)  # says nothing either


def test_a_folder_that_cannot_be_looked_into_is_no_failure(tmp_path: Path) -> None:
    sweep(tmp_path / "gone")
    assert not (tmp_path / "gone").exists()
