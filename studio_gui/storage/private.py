"""Folders that are nobody else's business: recipes lie there that were never meant to be shared.

The rule of this module: what is kept there can be read by its owner alone. What was made otherwise before is
closed; what belongs to somebody else, or stands on a disk that knows no such rights, stays as it is and is no
failure.
"""

from __future__ import annotations

import contextlib
import os
import stat
from pathlib import Path

from studio_gui.storage.files import make_folder

#: The rights of a group and of everybody.
OTHERS = stat.S_IRWXG | stat.S_IRWXO


def make_private_folder(path: Path) -> None:
    """Make a folder as `make_folder` does, and close it, and the files in it, to others."""
    make_folder(path)
    close_to_others(path)
    with contextlib.suppress(OSError):
        for file in path.iterdir():
            if stat.S_ISREG(file.lstat().st_mode):
                close_to_others(file)


def close_to_others(path: Path) -> None:
    """Take all rights of others on a file or folder away, where that can be done."""
    with contextlib.suppress(OSError):
        status = path.stat()
        if status.st_uid == os.geteuid() and stat.S_IMODE(status.st_mode) & OTHERS:
            path.chmod(stat.S_IMODE(status.st_mode) & ~OTHERS)
