"""Copies beside a plan's file of what a save takes the place of: an older format, or somebody else's work.

The rule of this module: a copy is there, whole, before anything is written over, and no other file is ever
written over for it.

Codes, besides those of `files`: ``too-large-to-keep``, with ``path``.
"""

from __future__ import annotations

import os
from pathlib import Path

from studio_gui.domain.errors import FileProblem
from studio_gui.storage.files import PLAN_SUFFIX, read_bytes, write_atomically
from studio_gui.storage.strict_json import LARGEST_FILE_BYTES

#: No disk in use takes longer names.
LONGEST_NAME_BYTES = 255


def keep_original(path: Path, version: int) -> Path:
    """Copy the plan's file at `path`, of an older version, beside it, and return the copy's path.

    A copy of the same content serves again; no other file is ever written over.

    Raises
    ------
    FileProblem
        When the file cannot be read or the copy not be written; ``too-large-to-keep`` when no plan is as
        large.
    """
    return _keep_beside(path, f"format {version}")


def keep_other_version(path: Path) -> Path:
    """Copy what stands at `path`, of whatever kind, beside it as `keep_original` does; raises so too."""
    return _keep_beside(path, "other version")


def _keep_beside(path: Path, what: str) -> Path:
    data, number = read_bytes(path), 0
    if len(data) > LARGEST_FILE_BYTES:
        raise FileProblem("too-large-to-keep", path=str(path))
    while True:
        number += 1
        words = f" ({what})" if number == 1 else f" ({what}, {number})"
        kept = path.with_name(f"{_stem(path, len(words))}{words}{PLAN_SUFFIX}")
        if not kept.exists():
            write_atomically(kept, data)
            return kept
        if kept.is_file() and read_bytes(kept) == data:
            return kept


def _stem(path: Path, room: int) -> str:
    """Return a plan's name without its ending, cut so that so many characters can be added."""
    stem = path.name.removesuffix(PLAN_SUFFIX)
    while len(os.fsencode(stem)) + room + len(PLAN_SUFFIX) > LONGEST_NAME_BYTES:
        stem = stem[:-1]
    return stem
