"""Who has a file open: a small file beside it that names its holder.

The rule of this module: whoever has a plan open holds the system's own lock on that small file for as long
as the program runs, so that one who died, however he died, is known to be gone. Another machine's lock may
not be seen here; then the words in the file are all there is, and the person has to decide. Where no such
file can be made, nothing is guarded: what is there then cannot be saved to either.

Codes: ``plan-held`` (somebody has it open now), ``plan-held-far`` (somebody on another machine had it open
and may still), both with ``path``, ``program``, ``user``, ``host``, ``process`` and ``since``.
"""

from __future__ import annotations

import contextlib
import errno
import fcntl
import getpass
import hashlib
import os
import socket
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from studio_gui.domain.errors import FileProblem
from studio_gui.storage.shapes import Shapes
from studio_gui.storage.strict_json import parse, quoted, serialise

PROGRAM = "Roving Lay"
#: The codes that say that somebody else has a file open.
HELD = ("plan-held", "plan-held-far")
LONGEST_LOCK_BYTES = 4_096
_TRIES = 20

#: What a system says of a disk that knows no locks.
_KNOWS_NO_LOCKS = (errno.ENOLCK, errno.ENOSYS, errno.EOPNOTSUPP, errno.EINVAL)


@dataclass(frozen=True, slots=True)
class Holder:
    """Who has a file open, and since when (UTC, as ISO 8601 writes it)."""

    program: str
    user: str
    host: str
    process: int
    since: str


_SHAPES = Shapes((Holder,), {})


def this_holder() -> Holder:
    """Return this program, as it names itself to others."""
    now = datetime.now(UTC).isoformat(timespec="seconds")
    return Holder(PROGRAM, _user(), socket.gethostname(), os.getpid(), now)


class FileLock:
    """A lock that is held until it is released, or until the program ends in whatever way."""

    def __init__(self, path: Path, descriptor: int) -> None:
        self._path, self._descriptor = path, descriptor

    def release(self) -> None:
        """Let go of it, and take the small file away; a lock that was let go stays so."""
        if self._descriptor < 0:
            return
        if _is_at(self._path, self._descriptor):
            with contextlib.suppress(OSError):
                self._path.unlink()
        os.close(self._descriptor)
        self._descriptor = -1


def lock_path(path: Path) -> Path:
    """Return where the lock of the file at `path` stands: one for all links to it, never too long."""
    target = Path(os.path.realpath(path))
    return target.parent / f".roving-lay-{hashlib.sha256(os.fsencode(target.name)).hexdigest()[:16]}.lock"


def lock_file(path: Path, *, take_over: bool = False) -> FileLock | None:
    """Return the lock on the file at `path`, None where there can be none.

    Parameters
    ----------
    take_over
        Take it from a holder on another machine, of whom nobody here knows whether he is still there.

    Raises
    ------
    FileProblem
        ``plan-held``, ``plan-held-far``.
    """
    where = lock_path(path)
    for _ in range(_TRIES):
        try:
            descriptor = os.open(where, os.O_RDWR | os.O_CREAT | os.O_NOFOLLOW | os.O_CLOEXEC, 0o666)
        except OSError:
            return None
        try:
            if _take(descriptor, path, where, take_over=take_over):
                return FileLock(where, descriptor)
        except FileProblem:
            os.close(descriptor)
            raise
        os.close(descriptor)
    return None


def _take(descriptor: int, path: Path, where: Path, *, take_over: bool) -> bool:
    """Take the lock and write our name; False when its file was taken away meanwhile, as its holder left."""
    holder = _read(descriptor)
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        if not _is_at(where, descriptor):
            return False
        raise _held("plan-held", path, holder) from None
    except OSError as error:
        if error.errno not in _KNOWS_NO_LOCKS:
            raise _held("plan-held", path, holder) from error
        if holder is not None and _is_running(holder):
            raise _held("plan-held", path, holder) from error
    if not _is_at(where, descriptor):
        return False
    holder = _read(descriptor)
    if holder is not None and holder.host != socket.gethostname() and not take_over:
        raise _held("plan-held-far", path, holder)
    _write(descriptor)
    return True


def _read(descriptor: int) -> Holder | None:
    """Return who is named in a lock's file; None when it names nobody who can be understood."""
    try:
        words = parse(os.pread(descriptor, LONGEST_LOCK_BYTES, 0))
        return _SHAPES.decoded(Holder, words, "") if isinstance(words, dict) else None
    except (OSError, FileProblem):
        return None


def _write(descriptor: int) -> None:
    # A full disk leaves a lock without words; it holds all the same.
    with contextlib.suppress(OSError):
        os.ftruncate(descriptor, 0)
        os.pwrite(descriptor, serialise(_SHAPES.encoded(this_holder())), 0)


def _is_at(path: Path, descriptor: int) -> bool:
    """Tell whether the file that is open still stands at `path`."""
    try:
        return os.path.samestat(path.stat(follow_symlinks=False), os.fstat(descriptor))
    except OSError:
        return False


def _is_running(holder: Holder) -> bool:
    """Tell whether the process named may be there; of another machine nobody can say that it is not."""
    if holder.host != socket.gethostname():
        return False
    try:
        os.kill(holder.process, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True


def _held(code: str, path: Path, holder: Holder | None) -> FileProblem:
    if holder is None:
        return FileProblem(code, path=str(path), program="", user="", host="", process=0, since="")
    return FileProblem(
        code,
        path=str(path),
        program=quoted(holder.program),
        user=quoted(holder.user),
        host=quoted(holder.host),
        process=holder.process,
        since=quoted(holder.since),
    )


def _user() -> str:
    try:
        return getpass.getuser()
    except (KeyError, OSError):
        return str(os.getuid())
