"""If these fail, a crash, a full disk or a wrong click costs somebody a colourway that was safely saved."""

from __future__ import annotations

import errno
import hashlib
import os
import stat
import subprocess
import sys
import tempfile
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import NoReturn

import pytest
from hypothesis import given

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.plan import Plan
from studio_gui.storage.files import (
    PLAN_SUFFIX,
    Fingerprint,
    fingerprint,
    make_folder,
    read_plan,
    read_plan_and_version,
    save_plan,
    set_aside,
    try_writing,
    write_atomically,
)
from studio_gui.storage.plan_json import plan_to_json
from studio_gui.storage.strict_json import LARGEST_FILE_BYTES
from tests.strategies import plans

SAMPLE = Path(__file__).parent.parent / "data" / f"plan_version_2{PLAN_SUFFIX}"
OLD = b"the old sheet\n"
NEW = b"the new sheet, somewhat longer\n"
NOBODY = 65534


@pytest.fixture
def target(tmp_path: Path) -> Path:
    path = tmp_path / f"Two Shores{PLAN_SUFFIX}"
    path.write_bytes(OLD)
    return path


@pytest.fixture
def guest_folder() -> Iterator[Path]:
    """A folder for a test that runs as somebody whom permissions stop; root passes them all."""
    user = os.geteuid()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        folder.chmod(0o777)
        if user == 0:
            os.seteuid(NOBODY)
        try:
            yield folder
        finally:
            os.seteuid(user)
            folder.chmod(0o777)


def write_problem(path: Path) -> FileProblem:
    with pytest.raises(FileProblem) as caught:
        write_atomically(path, NEW)
    return caught.value


def read_problem(path: Path) -> FileProblem:
    with pytest.raises(FileProblem) as caught:
        read_plan(path)
    with pytest.raises(FileProblem) as of_fingerprint:
        fingerprint(path)
    assert of_fingerprint.value.code == caught.value.code
    return caught.value


def left_in(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@given(plans(most_sections=3))
def test_a_saved_plan_is_read_back(plan: Plan) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"両岸 🐑{PLAN_SUFFIX}"

        save_plan(path, plan)

        assert read_plan(path) == plan
        assert left_in(path.parent) == {path.name: plan_to_json(plan)}


@pytest.mark.parametrize("data", [b"", NEW, bytes(range(256)) * 20_000], ids=["empty", "text", "binary"])
def test_any_bytes_replace_the_old_ones_whole_and_leave_nothing_beside(target: Path, data: bytes) -> None:
    write_atomically(target, data)

    assert left_in(target.parent) == {target.name: data}


def test_a_new_file_has_the_mode_that_other_programs_give_theirs(tmp_path: Path) -> None:
    before = os.umask(0o027)
    try:
        write_atomically(tmp_path / "new.csv", NEW)
    finally:
        os.umask(before)

    assert stat.S_IMODE((tmp_path / "new.csv").stat().st_mode) == 0o640


@pytest.mark.parametrize("mode", [0o600, 0o664, 0o755])
def test_an_existing_file_keeps_its_mode(target: Path, mode: int) -> None:
    target.chmod(mode)

    write_atomically(target, NEW)

    assert stat.S_IMODE(target.stat().st_mode) == mode


def test_a_link_stays_a_link_and_its_target_is_saved_where_it_stands(target: Path) -> None:
    shelf = target.parent / "shelf"
    shelf.mkdir()
    first = shelf / "current.json"
    second = shelf / "again.json"
    first.symlink_to(Path("..") / target.name)
    second.symlink_to("current.json")

    write_atomically(second, NEW)

    assert target.read_bytes() == NEW
    assert (first.readlink(), second.readlink()) == (Path("..") / target.name, Path("current.json"))
    assert sorted(path.name for path in shelf.iterdir()) == ["again.json", "current.json"]


def test_a_link_to_a_file_that_is_gone_makes_it_anew(tmp_path: Path) -> None:
    link = tmp_path / "link.json"
    link.symlink_to("gone.json")

    write_atomically(link, NEW)

    assert link.is_symlink()
    assert (tmp_path / "gone.json").read_bytes() == NEW


def test_links_that_lead_in_a_circle_are_refused(tmp_path: Path) -> None:
    one, other = tmp_path / "one.json", tmp_path / "other.json"
    one.symlink_to(other)
    other.symlink_to(one)

    assert write_problem(one).code == "file-failed"
    assert read_problem(one).code == "file-failed"
    assert one.is_symlink()


def test_content_is_on_disk_before_it_takes_the_name_and_the_name_after(
    target: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    steps: list[str] = []
    sync, replace = os.fsync, Path.replace

    def noted_sync(descriptor: int) -> None:
        status = os.fstat(descriptor)
        steps.append("folder" if stat.S_ISDIR(status.st_mode) else f"{status.st_size} bytes")
        sync(descriptor)

    def noted_replace(self: Path, to: Path) -> Path:
        steps.append(f"{self.parent == to.parent}")
        return replace(self, to)

    monkeypatch.setattr(os, "fsync", noted_sync)
    monkeypatch.setattr(Path, "replace", noted_replace)

    write_atomically(target, NEW)

    assert steps == [f"{len(NEW)} bytes", "True", "folder"]


def test_a_system_that_cannot_sync_folders_still_saves(target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refusing(path: Path, flags: int) -> int:
        raise PermissionError(errno.EACCES, f"{path} {flags}")

    monkeypatch.setattr(os, "open", refusing)

    write_atomically(target, NEW)

    assert target.read_bytes() == NEW


def test_a_system_that_writes_in_small_pieces_still_saves_all(
    target: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write = os.write
    monkeypatch.setattr(os, "write", lambda descriptor, data: write(descriptor, data[:7]))

    write_atomically(target, NEW)

    assert target.read_bytes() == NEW


FULL_DISK = """
import resource, sys
from pathlib import Path
from typing import NoReturn
from studio_gui.domain.errors import FileProblem
from studio_gui.storage.files import write_atomically
resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
try:
    write_atomically(Path(sys.argv[1]), b"x" * 5000)
except FileProblem as problem:
    print(problem.code)
"""


def test_when_only_the_first_part_fits_the_old_file_stays(target: Path) -> None:
    run = subprocess.run(
        [sys.executable, "-c", FULL_DISK, str(target)],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[2],
    )

    assert run.stdout == "file-too-large\n"
    assert left_in(target.parent) == {target.name: OLD}


@pytest.mark.parametrize(
    ("number", "code"),
    [
        (errno.ENOSPC, "disk-full"),
        (errno.EDQUOT, "disk-full"),
        (errno.EROFS, "folder-not-writable"),
        (errno.EIO, "file-failed"),
    ],
)
@pytest.mark.parametrize(
    ("holder", "step"), [(os, "write"), (os, "fsync"), (Path, "chmod"), (Path, "replace")]
)
def test_whatever_fails_while_saving_the_old_file_stays_and_nothing_is_left(
    target: Path, monkeypatch: pytest.MonkeyPatch, holder: object, step: str, number: int, code: str
) -> None:
    def failing(*_: object) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(holder, step, failing)

    problem = write_problem(target)

    assert (problem.code, problem.params) == (code, {"path": str(target), "reason": os.strerror(number)})
    assert left_in(target.parent) == {target.name: OLD}


def test_a_system_that_writes_nothing_and_says_nothing_is_no_endless_loop(
    target: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "write", lambda _descriptor, _data: 0)

    assert write_problem(target).code == "file-failed"
    assert left_in(target.parent) == {target.name: OLD}


def test_an_interrupted_save_cleans_up_and_passes_the_interruption_on(
    target: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupted)

    with pytest.raises(KeyboardInterrupt):
        write_atomically(target, NEW)

    assert left_in(target.parent) == {target.name: OLD}


def test_a_problem_is_told_even_when_cleaning_up_fails_too(
    target: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def failing(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", failing)
    monkeypatch.setattr(Path, "unlink", failing)

    assert write_problem(target).code == "disk-full"
    assert target.read_bytes() == OLD


def test_a_reader_at_any_time_sees_the_one_plan_or_the_other(target: Path) -> None:
    sheets = [b"A" * 200_000, b"B" * 200_000]
    write_atomically(target, sheets[0])
    seen: list[bytes] = []
    done = threading.Event()

    def reading() -> None:
        while not done.is_set():
            seen.append(target.read_bytes())

    reader = threading.Thread(target=reading)
    reader.start()
    try:
        for turn in range(40):
            write_atomically(target, sheets[turn % 2])
    finally:
        done.set()
        reader.join()

    assert seen
    assert set(seen) <= set(sheets)


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    assert write_problem(tmp_path).code == "is-a-folder"
    assert read_problem(tmp_path).code == "is-a-folder"
    assert left_in(tmp_path) == {}


def test_a_pipe_is_neither_waited_for_nor_replaced(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)

    assert write_problem(pipe).code == "not-a-regular-file"
    assert read_problem(pipe).code == "not-a-regular-file"
    assert pipe.is_fifo()


@pytest.mark.parametrize("name", ["vanished/plan.json", f"Two Shores{PLAN_SUFFIX}/plan.json"])
def test_a_folder_that_is_not_there_is_told(target: Path, name: str) -> None:
    path = target.parent / name

    assert write_problem(path).code == "folder-missing"
    assert read_problem(path).code == "file-not-found"
    assert left_in(target.parent) == {target.name: OLD}


def test_a_file_that_is_not_there_is_told_by_its_path(tmp_path: Path) -> None:
    problem = read_problem(tmp_path / "gone.json")

    assert problem.code == "file-not-found"
    assert problem.params == {"path": str(tmp_path / "gone.json"), "reason": os.strerror(errno.ENOENT)}


def test_a_name_that_is_too_long_is_told(tmp_path: Path) -> None:
    path = tmp_path / ("é" * 150)

    assert write_problem(path).code == "name-too-long"
    assert read_problem(path).code == "name-too-long"


def test_the_longest_name_there_is_can_be_saved(tmp_path: Path) -> None:
    path = tmp_path / ("x" * (255 - len(PLAN_SUFFIX)) + PLAN_SUFFIX)

    write_atomically(path, NEW)

    assert path.read_bytes() == NEW


def test_a_folder_that_takes_no_files_is_told(guest_folder: Path) -> None:
    guest_folder.joinpath("closed").mkdir(mode=0o555)

    assert write_problem(guest_folder / "closed" / "plan.json").code == "folder-not-writable"


def test_a_protected_file_is_not_replaced_behind_its_owner_s_back(guest_folder: Path) -> None:
    path = guest_folder / "plan.json"
    path.write_bytes(OLD)
    path.chmod(0o444)

    assert write_problem(path).code == "file-not-writable"
    assert left_in(guest_folder) == {"plan.json": OLD}


def test_a_file_that_may_not_be_read_is_told(guest_folder: Path) -> None:
    path = guest_folder / "plan.json"
    path.write_bytes(OLD)
    path.chmod(0o000)

    assert read_problem(path).code == "file-not-readable"


@pytest.mark.parametrize("size", [LARGEST_FILE_BYTES + 1, 2**40])
def test_a_huge_file_is_refused_without_reading_it_whole(tmp_path: Path, size: int) -> None:
    path = tmp_path / f"huge{PLAN_SUFFIX}"
    with path.open("wb") as file:
        file.truncate(size)

    with pytest.raises(FileProblem) as caught:
        read_plan(path)

    assert caught.value.code == "file-too-large"
    assert caught.value.params == {"path": str(path), "most_bytes": LARGEST_FILE_BYTES}


def test_what_is_wrong_inside_a_file_keeps_its_place_and_gains_its_path(tmp_path: Path) -> None:
    path = tmp_path / f"slip{PLAN_SUFFIX}"
    path.write_bytes(SAMPLE.read_bytes().replace(b'"matching"', b'"macthing"'))

    with pytest.raises(FileProblem) as caught:
        read_plan(path)

    assert caught.value.code == "unknown-key"
    assert caught.value.params["place"] == "lay.macthing"
    assert caught.value.params["path"] == str(path)


def test_a_fingerprint_tells_size_content_and_time(target: Path) -> None:
    os.utime(target, ns=(5, 1_700_000_000_123_456_789))

    taken = fingerprint(target)

    assert taken == Fingerprint(len(OLD), hashlib.sha256(OLD).hexdigest(), 0)
    assert taken.mtime_ns == 1_700_000_000_123_456_789


def test_saving_returns_the_fingerprint_that_the_file_then_has(target: Path) -> None:
    written = save_plan(target, read_plan(SAMPLE))
    taken, content = fingerprint(target), target.read_bytes()

    assert written == taken == Fingerprint(len(content), hashlib.sha256(content).hexdigest(), 0)
    assert written.mtime_ns == taken.mtime_ns


def test_a_touched_file_is_the_same_and_a_changed_one_of_the_same_size_and_time_is_not(target: Path) -> None:
    before = fingerprint(target)
    os.utime(target, ns=(0, 0))
    touched = fingerprint(target)
    target.write_bytes(OLD.upper())
    os.utime(target, ns=(0, 0))

    assert touched == before
    assert fingerprint(target) != before


def test_a_plan_tells_the_version_it_was_written_in() -> None:
    assert read_plan_and_version(SAMPLE)[1] == 2


# -- folders, and files set aside ----------------------------------------------------------------------------


def test_a_file_set_aside_keeps_its_content_under_a_name_that_is_free(target: Path) -> None:
    first = set_aside(target)
    target.write_bytes(NEW)
    second = set_aside(target)
    assert left_in(target.parent) == {first.name: OLD, second.name: NEW}
    assert first.suffix == target.suffix


def test_what_is_not_there_cannot_be_set_aside(tmp_path: Path) -> None:
    with pytest.raises(FileProblem):
        set_aside(tmp_path / "nothing.json")


def test_a_folder_is_made_with_those_it_stands_in_or_refused(target: Path) -> None:
    deep = target.parent / "a" / "b"
    for _ in range(2):
        make_folder(deep)
    assert deep.is_dir()
    with pytest.raises(FileProblem):
        make_folder(target / "c")


def test_a_folder_that_is_there_is_not_said_to_be_missing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Some, such as /proc, answer as if they were not there when a file is to be made in them."""

    def answering(*_: object, **__: object) -> NoReturn:
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT))

    monkeypatch.setattr(Path, "open", answering)
    with pytest.raises(FileProblem, match="folder-not-writable"):
        write_atomically(tmp_path / "map.pdf", b"x")


def test_a_file_where_a_folder_belongs_is_told_as_such(target: Path) -> None:
    with pytest.raises(FileProblem, match="not-a-folder"):
        make_folder(target)


def test_trying_to_write_fails_as_writing_would_and_leaves_nothing(target: Path) -> None:
    try_writing(target, NEW)
    with pytest.raises(FileProblem, match="folder-missing"):
        try_writing(target.parent / "gone" / "x", NEW)
    assert left_in(target.parent) == {target.name: OLD}
