"""Other programs that hold a lock or keep a snapshot, each a process of its own."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

_Other = AbstractContextManager[subprocess.Popen[str]]

ROOT = Path(__file__).parents[2]

_HOLDING = """
import sys
from pathlib import Path
from studio_gui.storage.locks import lock_file
lock = lock_file(Path(sys.argv[1]))
print("held" if lock else "none", flush=True)
sys.stdin.read()
"""

_KEEPING = """
import sys
from pathlib import Path
from studio_gui.storage.files import fingerprint, read_plan
from studio_gui.storage.recovery import SnapshotFile
folder, path = Path(sys.argv[1]), Path(sys.argv[2])
SnapshotFile(folder).write(read_plan(path), path, fingerprint(path))
print("kept", flush=True)
sys.stdin.read()
"""


@contextmanager
def another(script: str, *arguments: object) -> Iterator[subprocess.Popen[str]]:
    """Run a script that says one line and then waits; it is killed at the end."""
    process = subprocess.Popen(
        [sys.executable, "-c", script, *map(str, arguments)],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    with process:
        assert process.stdout is not None
        assert process.stdout.readline().strip()
        try:
            yield process
        finally:
            process.kill()


def another_holder(path: Path) -> _Other:
    """Return another program that holds the lock on the file at `path`."""
    return another(_HOLDING, path)


def another_keeper(folder: Path, path: Path) -> _Other:
    """Return another program that keeps a snapshot of the plan at `path`."""
    return another(_KEEPING, folder, path)
