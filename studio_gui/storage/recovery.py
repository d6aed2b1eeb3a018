"""Copies of unsaved plans, for after a crash or a power cut.

The rule of this module: a snapshot stands in a folder of the program's own and never touches the plan's file.
Each open plan has one, replaced whole, and holds a lock on it while the program runs; one that nobody holds
is an orphan. Nothing is deleted here but by whom it belongs to, and nobody else can read it.

The file is one line of JSON, which says where the plan belongs, when it was kept and what its file was then,
and after it the plan as `plan_json` writes it.

Codes, besides those of `files`, `locks` and `plan_json`: ``snapshot-broken``, ``snapshot-newer``,
``snapshot-taken``, ``snapshot-gone``, ``snapshot-stays``.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import re
import threading
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from urllib.parse import quote_from_bytes, unquote_to_bytes

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.plan import Plan
from studio_gui.storage.files import Fingerprint, read_at_most, try_writing, write_atomically
from studio_gui.storage.locks import FileLock, lock_file, lock_path
from studio_gui.storage.plan_json import plan_from_json, plan_to_json
from studio_gui.storage.private import close_to_others, make_private_folder
from studio_gui.storage.shapes import Shapes
from studio_gui.storage.strict_json import LARGEST_FILE_BYTES, parse

DOCUMENT = "roving-lay-recovery"
VERSION = 2
#: Without what was being typed.
VERSION_BEFORE_TYPING = 1
#: What is longer is kept so far; no field takes as much.
LONGEST_TYPED = 1_000
SUFFIX = ".snapshot"
LONGEST_HEAD_BYTES = 64 * 1024
_MODE = 0o600
_NAME = re.compile(r"[0-9a-f]{32}\.snapshot")


@dataclass(frozen=True, slots=True)
class _Head:
    """The first line: the path has its bytes as a URL has them, since a name need not be Unicode."""

    saved_at: str
    plan_sha256: str
    path: str | None
    file_bytes: int | None
    file_sha256: str | None
    typed: str | None
    typed_where: str | None


_SHAPES = Shapes((_Head,), {})


@dataclass(frozen=True, slots=True)
class Typed:
    """Text that stood in a field and was not entered: it may be half a value, and is no part of a plan.

    `where` is what the field is called, "" where it has no name.
    """

    where: str
    text: str


@dataclass(frozen=True, slots=True)
class Snapshot:
    """An unsaved plan as it was kept.

    Parameters
    ----------
    path, was
        The file that the plan belongs to, and its fingerprint when it was last read or written; both None for
        a plan that was never saved.
    saved_at
        When it was kept, with a time zone.
    typed
        What was being typed then, None for nothing.
    """

    plan: Plan
    path: Path | None
    was: Fingerprint | None
    saved_at: datetime
    typed: Typed | None = None


@dataclass(frozen=True, slots=True)
class Orphan:
    """A snapshot that its program left behind: what is in it, or why that cannot be read.

    `host` is the machine that it was kept on, "" for this one; there it may be in use all the same.
    """

    file: Path
    found: Snapshot | FileProblem
    host: str = ""


class SnapshotFile:
    """The snapshot of one open plan. Its methods may be called from any thread.

    Parameters
    ----------
    folder
        Where snapshots are kept; made when the first is written.
    file
        An orphan to go on with, whose lock is `lock`.
    """

    def __init__(self, folder: Path, file: Path | None = None, lock: FileLock | None = None) -> None:
        self.file = folder / f"{os.urandom(16).hex()}{SUFFIX}" if file is None else file
        self._lock = lock
        self._turn = threading.Lock()
        self._is_closed = False

    def write(
        self, plan: Plan, path: Path | None, was: Fingerprint | None, typed: Typed | None = None
    ) -> None:
        """Keep `plan` and what is being typed; `FileProblem` on failure, which leaves what was kept."""
        with self._turn:
            if self._is_closed:
                return
            if self._lock is None:
                make_private_folder(self.file.parent)
                self._lock = lock_file(self.file)
                close_to_others(lock_path(self.file))
            write_atomically(self.file, _snapshot_bytes(plan, path, was, typed), mode=_MODE)

    def remove(self) -> None:
        """Delete what was kept, since it is saved, or given up by choice."""
        with self._turn, contextlib.suppress(OSError):
            self.file.unlink(missing_ok=True)

    def try_out(self, plan: Plan) -> None:
        """Delete what was kept, and find out whether `plan` could be; `FileProblem` where it could not."""
        self.remove()
        with self._turn:
            if not self._is_closed:
                make_private_folder(self.file.parent)
                try_writing(self.file, _snapshot_bytes(plan, None, None, None))

    def close(self) -> None:
        """Delete what was kept and keep nothing more; what is still under way comes too late."""
        self.remove()
        self.let_go()

    def let_go(self) -> None:
        """Keep nothing more, and leave what was kept as an orphan."""
        with self._turn:
            self._is_closed = True
            if self._lock is not None:
                self._lock.release()
                self._lock = None


def orphans(folder: Path) -> list[Orphan]:
    """Return the snapshots in `folder` that no running program holds, the newest first."""
    found = [orphan for file in _files(folder) for orphan in _left_alone(file)]
    return sorted(found, key=_time, reverse=True)


def adopt(orphan: Orphan) -> SnapshotFile:
    """Return the file to go on with: the orphan's own, or a new one beside one of another machine.

    Raises
    ------
    FileProblem
        ``snapshot-taken`` when another window was faster, ``snapshot-gone`` when one has saved it or given it
        up since.
    """
    if orphan.host:
        return SnapshotFile(orphan.file.parent)
    return SnapshotFile(orphan.file.parent, orphan.file, _lock_left(orphan))


def discard(orphan: Orphan) -> None:
    """Delete an orphan, as somebody has chosen.

    Raises
    ------
    FileProblem
        As `adopt` when it is none any more, ``snapshot-stays`` when it may not be deleted.
    """
    SnapshotFile(orphan.file.parent, orphan.file, _lock_left(orphan)).close()
    if orphan.file.exists():
        raise FileProblem("snapshot-stays")


def check_left(orphan: Orphan) -> None:
    """Make sure that what was found is an orphan still; raises as `adopt` when it is none any more."""
    lock = _lock_left(orphan)
    if lock is not None:
        lock.release()


def _lock_left(orphan: Orphan) -> FileLock | None:
    """Return the lock of a snapshot that is an orphan still; raises as `adopt`."""
    try:
        lock = lock_file(orphan.file, take_over=bool(orphan.host))
    except FileProblem as problem:
        raise FileProblem("snapshot-taken") from problem
    if lock is not None and not orphan.file.exists():
        lock.release()
        raise FileProblem("snapshot-gone")
    return lock


def _files(folder: Path) -> list[Path]:
    try:
        return sorted(file for file in folder.iterdir() if _NAME.fullmatch(file.name))
    except OSError:
        return []  # nothing was ever kept, or nothing can be seen of it


def _left_alone(file: Path) -> list[Orphan]:
    """Return the orphan that a snapshot is, none while somebody holds it."""
    try:
        lock = lock_file(file)
    except FileProblem as problem:
        far = problem.code == "plan-held-far"
        return [Orphan(file, _found(file), str(problem.params["host"]))] if far else []
    found = _found(file)
    if lock is not None:
        lock.release()
    return [Orphan(file, found)]


def _found(file: Path) -> Snapshot | FileProblem:
    try:
        return _snapshot(read_at_most(file, LONGEST_HEAD_BYTES + LARGEST_FILE_BYTES))
    except FileProblem as problem:
        return FileProblem(problem.code, **problem.params | {"path": str(file)})


def _time(orphan: Orphan) -> float:
    if isinstance(orphan.found, Snapshot):
        return orphan.found.saved_at.timestamp()
    try:
        return orphan.file.stat().st_mtime
    except OSError:
        return 0.0


def _snapshot_bytes(plan: Plan, path: Path | None, was: Fingerprint | None, typed: Typed | None) -> bytes:
    data = plan_to_json(plan)
    head = _Head(
        saved_at=datetime.now(UTC).isoformat(),
        plan_sha256=hashlib.sha256(data).hexdigest(),
        path=None if path is None else quote_from_bytes(os.fsencode(path.absolute())),
        file_bytes=None if was is None else was.size_bytes,
        file_sha256=None if was is None else was.sha256,
        typed=None if typed is None else _plain(typed.text),
        typed_where=None if typed is None else _plain(typed.where),
    )
    words = {"document": DOCUMENT, "version": VERSION, **_SHAPES.encoded(head)}
    return json.dumps(words).encode() + b"\n" + data


def _snapshot(data: bytes) -> Snapshot:
    line, _, plan_data = data.partition(b"\n")
    words = parse(line)
    if not isinstance(words, dict) or words.pop("document", None) != DOCUMENT:
        raise FileProblem("snapshot-broken")
    if words.pop("version", None) not in (VERSION, VERSION_BEFORE_TYPING):
        raise FileProblem("snapshot-newer")
    head = _SHAPES.decoded(_Head, words, "")
    if hashlib.sha256(plan_data).hexdigest() != head.plan_sha256:
        raise FileProblem("snapshot-broken")
    typed = None if head.typed is None else Typed(head.typed_where or "", head.typed)
    return Snapshot(plan_from_json(plan_data), _path(head), _fingerprint(head), _moment(head), typed)


def _plain(text: str) -> str:
    """Return text that can be read back: a lone surrogate, which some keyboards send, cannot."""
    return text[:LONGEST_TYPED].encode(errors="replace").decode()


def _path(head: _Head) -> Path | None:
    if head.path is None:
        return None
    name = unquote_to_bytes(head.path)
    if b"\0" in name:  # no system has such names, and Python refuses them at the first use
        raise FileProblem("snapshot-broken")
    return Path(os.fsdecode(name))


def _fingerprint(head: _Head) -> Fingerprint | None:
    if head.file_bytes is None or head.file_sha256 is None:
        return None
    return Fingerprint(head.file_bytes, head.file_sha256, 0)


def _moment(head: _Head) -> datetime:
    try:
        moment = datetime.fromisoformat(head.saved_at)
    except ValueError:
        raise FileProblem("snapshot-broken") from None
    if moment.tzinfo is None:
        raise FileProblem("snapshot-broken")
    return moment
