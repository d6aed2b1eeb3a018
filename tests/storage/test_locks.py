"""If these fail, two windows write over each other's work, or a plan stays shut after its program died."""

from __future__ import annotations

import errno
import fcntl
import getpass
import os
import socket
from pathlib import Path

import pytest

from studio_gui.domain.errors import FileProblem
from studio_gui.storage import locks
from studio_gui.storage.locks import PROGRAM, FileLock, Holder, lock_file, lock_path, this_holder
from studio_gui.storage.strict_json import Json, serialise
from tests.storage.owners import another_holder


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "Two Shores.roving.json"
    path.write_bytes(b"{}")
    return path


def held(path: Path) -> FileProblem:
    with pytest.raises(FileProblem) as caught:
        lock_file(path)
    return caught.value


def taken(path: Path, *, take_over: bool = False) -> FileLock:
    lock = lock_file(path, take_over=take_over)
    assert lock is not None
    return lock


def leave_words(path: Path, host: str, process: int = 1) -> None:
    words: Json = {"program": PROGRAM, "user": "ann", "host": host, "process": process, "since": "2026-01-02"}
    lock_path(path).write_bytes(serialise(words))


def test_a_plan_open_twice_in_one_program_names_this_program(plan: Path) -> None:
    lock = taken(plan)
    problem = held(plan)
    assert problem.code == "plan-held"
    assert problem.params["process"] == os.getpid()
    assert problem.params["host"] == socket.gethostname()
    assert problem.params["program"] == PROGRAM
    lock.release()
    lock.release()
    again = taken(plan)
    again.release()
    assert [path.name for path in plan.parent.iterdir()] == [plan.name]


def test_another_program_that_has_it_open_is_named_until_it_is_killed(plan: Path) -> None:
    with another_holder(plan) as other:
        problem = held(plan)
        assert (problem.code, problem.params["process"]) == ("plan-held", other.pid)
    assert lock_path(plan).exists(), "a killed program leaves its words"
    taken(plan).release()


def test_a_link_to_the_plan_shares_its_lock(plan: Path) -> None:
    link = plan.parent / "link.json"
    link.symlink_to(plan.name)
    lock = taken(link)
    assert held(plan).code == "plan-held"
    lock.release()


def test_a_holder_on_another_machine_is_asked_about_and_may_be_taken_over_from(plan: Path) -> None:
    leave_words(plan, "loft")
    problem = held(plan)
    assert (problem.code, problem.params["host"], problem.params["user"]) == ("plan-held-far", "loft", "ann")
    assert held(plan).code == "plan-held-far", "asking takes nothing"
    taken(plan, take_over=True).release()


def test_a_dead_holder_of_this_machine_is_passed_over_though_its_number_lives_on(plan: Path) -> None:
    leave_words(plan, socket.gethostname(), os.getppid())
    taken(plan).release()


@pytest.mark.parametrize("words", [b"", b"{", b"[]", b"\xff", b'{"program": 3}', b"x" * 9_000])
def test_words_that_nobody_understands_hold_nothing(plan: Path, words: bytes) -> None:
    lock_path(plan).write_bytes(words)
    taken(plan).release()


def test_whoever_holds_it_without_words_is_still_a_holder(plan: Path) -> None:
    with lock_path(plan).open("w+b") as file:
        fcntl.flock(file, fcntl.LOCK_EX)
        problem = held(plan)
    assert (problem.code, problem.params["user"]) == ("plan-held", "")


def test_where_no_lock_can_be_made_nothing_is_guarded(tmp_path: Path, plan: Path) -> None:
    assert lock_file(tmp_path / "gone" / "plan.json") is None
    lock_path(plan).symlink_to("elsewhere")
    assert lock_file(plan) is None
    assert not (tmp_path / "elsewhere").exists()


@pytest.mark.parametrize("name", ["x" * 255, "é" * 127])
def test_the_longest_name_can_be_locked(tmp_path: Path, name: str) -> None:
    taken(tmp_path / name).release()


def test_a_lock_whose_file_was_taken_away_is_let_go_quietly(plan: Path) -> None:
    lock = taken(plan)
    lock_path(plan).unlink()
    other = taken(plan)
    lock.release()
    assert held(plan).code == "plan-held"
    other.release()


def test_a_lock_in_a_folder_that_was_closed_meanwhile_is_let_go_quietly(
    plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lock = taken(plan)

    def failing(_: Path) -> None:
        raise PermissionError(errno.EACCES, "closed")

    monkeypatch.setattr(Path, "unlink", failing)
    lock.release()
    taken(plan).release()


@pytest.mark.parametrize("when", ["before", "after"])
def test_a_holder_who_leaves_at_that_moment_is_waited_out(
    plan: Path, monkeypatch: pytest.MonkeyPatch, when: str
) -> None:
    flock, tries = fcntl.flock, []

    def racing(descriptor: int, how: int) -> None:
        tries.append(how)
        if len(tries) < 3:
            lock_path(plan).unlink()
            if when == "before":
                raise BlockingIOError
        flock(descriptor, how)

    monkeypatch.setattr(fcntl, "flock", racing)
    taken(plan).release()
    assert len(tries) == 3


def test_a_holder_who_always_leaves_at_that_moment_is_no_endless_loop(
    plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(locks, "_is_at", lambda _path, _descriptor: False)
    assert lock_file(plan) is None


@pytest.mark.parametrize(
    ("number", "host", "process", "code"),
    [
        (errno.ENOLCK, "loft", 1, "plan-held-far"),
        (errno.ENOLCK, socket.gethostname(), 0, "plan-held"),  # 0: this very process
        (errno.EOPNOTSUPP, socket.gethostname(), 2**22 + 1, ""),
        (errno.EIO, socket.gethostname(), 2**22 + 1, "plan-held"),
    ],
)
def test_on_a_disk_that_knows_no_locks_the_words_count(
    plan: Path, monkeypatch: pytest.MonkeyPatch, number: int, host: str, process: int, code: str
) -> None:
    def refusing(_descriptor: int, _how: int) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(fcntl, "flock", refusing)
    leave_words(plan, host, process or os.getpid())
    if code:
        assert held(plan).code == code
    else:
        taken(plan).release()
    lock_path(plan).unlink(missing_ok=True)
    if number == errno.ENOLCK:
        taken(plan).release()


def test_a_process_that_is_somebody_else_s_is_taken_for_running(
    plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refusing(_descriptor: int, _how: int) -> None:
        raise OSError(errno.ENOLCK, os.strerror(errno.ENOLCK))

    def not_ours(_process: int, _signal: int) -> None:
        raise PermissionError(errno.EPERM, "not yours")

    monkeypatch.setattr(fcntl, "flock", refusing)
    monkeypatch.setattr(os, "kill", not_ours)
    leave_words(plan, socket.gethostname())
    assert held(plan).code == "plan-held"


def test_words_that_cannot_be_read_or_written_do_not_stop_the_lock(
    plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def failing(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "pread", failing)
    monkeypatch.setattr(os, "pwrite", failing)
    lock = taken(plan)
    assert held(plan).params["user"] == ""
    lock.release()


@pytest.mark.parametrize("error", [KeyError("uid"), OSError("no such user")])
def test_a_user_without_a_name_is_told_by_number(monkeypatch: pytest.MonkeyPatch, error: Exception) -> None:
    def nameless() -> str:
        raise error

    monkeypatch.setattr(getpass, "getuser", nameless)
    assert this_holder() == Holder(
        PROGRAM, str(os.getuid()), socket.gethostname(), os.getpid(), this_holder().since
    )
