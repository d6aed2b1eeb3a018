"""What a save that was cut off left in a folder: temporary files that nobody will give a name any more.

The rule of this module: only files with a name that this program gives, of this user, that nothing was
written to for `LEAST_AGE_S` and that no running program holds are taken away. Whoever writes one holds the
system's lock on it; on a disk that knows no locks, nothing is taken away.
"""

from __future__ import annotations

import contextlib
import fcntl
import os
import re
import stat
import time
from pathlib import Path

#: No save takes as long, and no clock of a network is as wrong.
LEAST_AGE_S = 24 * 3600.0

_NAME = re.compile(r"\.roving-lay-[0-9a-f]{16}\.tmp")


def temporary_beside(target: Path) -> Path:
    """Return a new name in the folder of `target`; a short one, as that of `target` may fill all there is."""
    return target.parent / f".roving-lay-{os.urandom(8).hex()}.tmp"


def hold(descriptor: int) -> None:
    """Say that the open file is being written, until it is closed."""
    with contextlib.suppress(OSError):  # a disk that knows no locks: then nobody takes it away either
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)


def sweep(folder: Path) -> None:
    """Delete the leftovers in `folder`; what cannot be seen or deleted stays, and is no failure."""
    with contextlib.suppress(OSError):
        for file in [Path(entry) for entry in os.scandir(folder) if _NAME.fullmatch(entry.name)]:
            with contextlib.suppress(OSError):
                _delete_if_left(file)


def _delete_if_left(file: Path) -> None:
    if not _is_old_and_ours(file.lstat()):
        return
    descriptor = os.open(file, os.O_RDWR | os.O_NOFOLLOW | os.O_NONBLOCK | os.O_CLOEXEC)
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)  # fails while its writer lives
        # looked at again under the lock: its writer may have given it its name, or gone on, just before
        if _is_old_and_ours(os.fstat(descriptor)) and os.path.samestat(file.lstat(), os.fstat(descriptor)):
            file.unlink()
    finally:
        os.close(descriptor)


def _is_old_and_ours(status: os.stat_result) -> bool:
    is_old = time.time() - status.st_mtime > LEAST_AGE_S
    return stat.S_ISREG(status.st_mode) and status.st_uid == os.geteuid() and is_old
