"""Files read with care and replaced whole.

The rule of this module: a file on disk is either the old one or the new one, never a part of one. New content
goes to a temporary file beside the target, is forced to disk, and takes the target's name in one step. What
a save that was cut off left beside the target, the next one there takes away (`leftovers.py`).

Codes: ``file-not-found``, ``file-not-readable``, ``file-not-writable``, ``folder-missing``,
``folder-not-writable``, ``disk-full``, ``is-a-folder``, ``not-a-folder``, ``not-a-regular-file``,
``name-too-long``, ``file-too-large``, ``file-failed``; each with ``path``, and with ``reason`` (the system's
own words) when the system gave one.
"""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
import stat
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from io import BufferedReader
from pathlib import Path

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.plan import Plan
from studio_gui.storage.leftovers import hold, sweep, temporary_beside
from studio_gui.storage.plan_json import plan_and_version, plan_to_json
from studio_gui.storage.strict_json import LARGEST_FILE_BYTES

PLAN_SUFFIX = ".roving.json"
_PRIVATE_MODE = 0o600

_CODES = {
    errno.EISDIR: "is-a-folder",
    errno.ENAMETOOLONG: "name-too-long",
}
_READ_CODES = _CODES | {
    errno.ENOENT: "file-not-found",
    errno.ENOTDIR: "file-not-found",
    errno.EACCES: "file-not-readable",
    errno.EPERM: "file-not-readable",
}
_WRITE_CODES = _CODES | {
    errno.ENOENT: "folder-missing",
    errno.ENOTDIR: "folder-missing",
    errno.EACCES: "folder-not-writable",
    errno.EPERM: "folder-not-writable",
    errno.EROFS: "folder-not-writable",
    errno.ENOSPC: "disk-full",
    errno.EDQUOT: "disk-full",
    errno.EFBIG: "file-too-large",
}
_FOLDER_CODES = _WRITE_CODES | {errno.EEXIST: "not-a-folder"}
_PROTECTED_CODES = _WRITE_CODES | {
    errno.EACCES: "file-not-writable",
    errno.EPERM: "file-not-writable",
}


@dataclass(frozen=True, slots=True)
class Fingerprint:
    """What tells one state of a file from another; two are equal when the content is.

    `mtime_ns` (time of the last change, ns since 1970) is there to be shown: a file that was only touched has
    not changed.
    """

    size_bytes: int
    sha256: str
    mtime_ns: int = field(compare=False)


def read_plan(path: Path) -> Plan:
    """Return the plan in the file at `path`; raises as `read_plan_and_version`."""
    return read_plan_and_version(path)[0]


def read_plan_and_version(path: Path) -> tuple[Plan, int]:
    """Return the plan in the file at `path`, and the version it is written in.

    Never reads more than the largest plan may have.

    Raises
    ------
    FileProblem
        What is wrong with the file, or with its content as `plan_from_json` tells it, with ``path``.
    """
    try:
        return plan_and_version(read_bytes(path))
    except FileProblem as problem:
        raise FileProblem(problem.code, **problem.params | {"path": str(path)}) from problem


def read_bytes(path: Path) -> bytes:
    """Return the content of the file at `path`, of a file too large for any document only its beginning.

    Raises
    ------
    FileProblem
        When there is no such file or it cannot be read.
    """
    return read_at_most(path, LARGEST_FILE_BYTES)


def read_at_most(path: Path, most_bytes: int) -> bytes:
    """Return the content of the file at `path`, of a larger one `most_bytes` and one more; raises so too."""
    with _opened(path) as file:
        return file.read(most_bytes + 1)


def set_aside(path: Path) -> Path:
    """Give the file at `path` another name beside it, which is returned, so that nothing writes over it.

    Raises
    ------
    FileProblem
        When the file cannot be renamed.
    """
    number = 1
    while (kept := path.with_name(f"{path.stem} (set aside {number}){path.suffix}")).exists():
        number += 1
    with _as_file_problem(path, _WRITE_CODES):
        return path.rename(kept)


def make_folder(path: Path) -> None:
    """Make the folder at `path`, and those it stands in, unless it is there; `FileProblem` on failure."""
    with _as_file_problem(path, _FOLDER_CODES):
        path.mkdir(parents=True, exist_ok=True)


def save_plan(path: Path, plan: Plan) -> Fingerprint:
    """Write `plan` to `path` as `write_atomically` does, and return the fingerprint of what was written."""
    return write_atomically(path, plan_to_json(plan))


def fingerprint(path: Path) -> Fingerprint:
    """Return the fingerprint of the file at `path`; take it before reading, so that no change is missed.

    Raises
    ------
    FileProblem
        When there is no such file or it cannot be read.
    """
    with _opened(path) as file:
        status = os.fstat(file.fileno())
        digest = hashlib.file_digest(file, "sha256")
        return Fingerprint(file.tell(), digest.hexdigest(), status.st_mtime_ns)


def write_atomically(path: Path, data: bytes, *, mode: int | None = None) -> Fingerprint:
    """Make `data` the content of the file at `path`, in one step, and return its fingerprint.

    A symbolic link stays one and its target gets the content; an existing file keeps its mode, a new one gets
    the process's default, unless a `mode` is given. On any failure the old file is as it was and nothing is
    left beside it.

    Raises
    ------
    FileProblem
        When the file cannot be written.
    """
    with _as_file_problem(path, _WRITE_CODES):
        target = Path(os.path.realpath(path))
        kept_mode = _replaceable_mode(target)
        temporary = temporary_beside(target)
        try:
            written = _write_new(temporary, data, kept_mode if mode is None else mode)
            temporary.replace(target)
        except BaseException:
            with contextlib.suppress(OSError):
                temporary.unlink()
            raise
        _sync_folder(target.parent)
        sweep(target.parent)
    return written


def try_writing(path: Path, data: bytes) -> None:
    """Fail as `write_atomically` would, and write nothing to `path`: what is written is taken away again.

    Raises
    ------
    FileProblem
        When no such file could be written beside it.
    """
    with _as_file_problem(path, _WRITE_CODES):
        temporary = temporary_beside(path)
        try:
            _write_new(temporary, data, _PRIVATE_MODE)
        finally:
            with contextlib.suppress(OSError):
                temporary.unlink()


def _replaceable_mode(target: Path) -> int | None:
    """Return the mode of the file to be replaced, None when there is none; refuse what must stay."""
    try:
        status = target.stat()
    except FileNotFoundError:
        return None
    _refuse_irregular(target, status)
    # Its folder would let a protected file be replaced all the same, but somebody has protected it.
    with _as_file_problem(target, _PROTECTED_CODES), target.open("r+b"):
        pass
    return stat.S_IMODE(status.st_mode)


def _write_new(path: Path, data: bytes, mode: int | None) -> Fingerprint:
    with path.open("xb", buffering=0) as file:
        hold(file.fileno())
        if mode is not None:
            path.chmod(mode)
        unwritten = memoryview(data)
        while unwritten:
            count = os.write(file.fileno(), unwritten)
            if not count:
                raise OSError(errno.EIO, os.strerror(errno.EIO))
            unwritten = unwritten[count:]
        os.fsync(file.fileno())
        mtime_ns = os.fstat(file.fileno()).st_mtime_ns
    return Fingerprint(len(data), hashlib.sha256(data).hexdigest(), mtime_ns)


def _sync_folder(folder: Path) -> None:
    # The new file is in place by now; a system that cannot sync a folder has not failed to save.
    with contextlib.suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)


@contextlib.contextmanager
def _opened(path: Path) -> Iterator[BufferedReader]:
    """Open a regular file for reading; a pipe or a device, which might never end, is refused unopened."""
    with _as_file_problem(path, _READ_CODES):
        _refuse_irregular(path, path.stat())
        with path.open("rb") as file:
            yield file


def _refuse_irregular(path: Path, status: os.stat_result) -> None:
    if stat.S_ISDIR(status.st_mode):
        raise FileProblem("is-a-folder", path=str(path))
    if not stat.S_ISREG(status.st_mode):
        raise FileProblem("not-a-regular-file", path=str(path))


@contextlib.contextmanager
def _as_file_problem(path: Path, codes: Mapping[int, str]) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        code = codes.get(error.errno or 0, "file-failed")
        if code == "folder-missing" and path.parent.is_dir():  # as of /proc, where nothing can be made
            code = "folder-not-writable"
        raise FileProblem(code, path=str(path), reason=error.strerror or "") from error
