"""Saves, keeps and exports where it cannot work: `python -m tests.campaigns.faults`, as root on Linux.

Each fault is real: a small disk that is full, a limit on file size, a read-only mount, a protected folder as
another user, a folder that is gone, a name too long, a folder in the file's place. Prints one row for each,
with the code of the refusal; the old file has to be as it was and nothing may be left beside it.
"""

from __future__ import annotations

import contextlib
import os
import resource
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.export.registry import export_plan
from studio_gui.storage.files import save_plan
from studio_gui.storage.recovery import SnapshotFile
from tests.drawing.plans import plain_plan

OLD, NEW = plain_plan(3), plain_plan(300)
NOBODY = 65534
MOUNT, UMOUNT = shutil.which("mount") or "mount", shutil.which("umount") or "umount"
Fault = Callable[[Path], AbstractContextManager[Path]]


@contextmanager
def _mounted(folder: Path) -> Iterator[None]:
    subprocess.run([MOUNT, "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(folder)], check=True)
    try:
        yield
    finally:
        subprocess.run([UMOUNT, str(folder)], check=True)


@contextmanager
def full_disk(folder: Path) -> Iterator[Path]:
    with _mounted(folder):
        yield folder


@contextmanager
def read_only_disk(folder: Path) -> Iterator[Path]:
    with _mounted(folder):
        write_all(folder, OLD)
        subprocess.run([MOUNT, "-o", "remount,ro", str(folder)], check=True)
        yield folder


@contextmanager
def short_write(folder: Path) -> Iterator[Path]:
    write_all(folder, OLD)
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (8_000, before[1]))
    try:
        yield folder
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


@contextmanager
def protected_folder(folder: Path) -> Iterator[Path]:
    write_all(folder, OLD)
    folder.chmod(0o555)
    os.seteuid(NOBODY)
    try:
        yield folder
    finally:
        os.seteuid(0)


@contextmanager
def vanished_folder(folder: Path) -> Iterator[Path]:
    yield folder / "gone" / "deep"


@contextmanager
def folder_in_its_place(folder: Path) -> Iterator[Path]:
    for name in NAMES.values():
        (folder / name).mkdir()
    yield folder


FAULTS: dict[str, Fault] = {
    "disk full": full_disk,
    "read-only disk": read_only_disk,
    "short write": short_write,
    "protected folder": protected_folder,
    "vanished folder": vanished_folder,
    "folder in its place": folder_in_its_place,
}
NAMES = {"save": "mine.roving.json", "snapshot": f"{'0' * 32}.snapshot", "export": "map.json"}


def save(folder: Path, plan: Plan) -> None:
    save_plan(folder / NAMES["save"], plan)


def keep(folder: Path, plan: Plan) -> None:
    kept = SnapshotFile(folder, folder / NAMES["snapshot"])
    try:
        kept.write(plan, None, None)
    finally:
        kept.let_go()


def export(folder: Path, plan: Plan) -> None:
    export_plan(worksheet(plan), folder / NAMES["export"])


OPERATIONS = {"save": save, "snapshot": keep, "export": export}


def write_all(folder: Path, plan: Plan) -> None:
    for operation in OPERATIONS.values():
        operation(folder, plan)


def _seen(folder: Path) -> dict[str, bytes]:
    with contextlib.suppress(OSError):
        return {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}
    return {}


def outcome(fault: str, name: str) -> str:
    """Do an operation under a fault; return the code of its refusal, having seen that nothing changed."""
    with tempfile.TemporaryDirectory() as place:
        os.chmod(place, 0o777)  # noqa: S103, PTH101  (another user works in it)
        with FAULTS[fault](Path(place)) as folder:
            if fault == "disk full":
                OPERATIONS[name](folder, OLD)
            before = _seen(folder)
            try:
                OPERATIONS[name](folder, NEW)
            except FileProblem as problem:
                assert _seen(folder) == before, (fault, name)
                return problem.code
            return "done"


def main() -> None:
    print(f"{'fault':<22}" + "".join(f"{name:<22}" for name in OPERATIONS))
    for fault in FAULTS:
        print(f"{fault:<22}" + "".join(f"{outcome(fault, name):<22}" for name in OPERATIONS))


if __name__ == "__main__":
    main()
