"""The file of an open plan: its lock, what was last read or written, and in which version.

The rule of this module: a `PlanFile` is a fact that does not change; reading and saving return another, and
on a failure the one before holds on, lock and all. Two for the same file share one lock.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.plan import Plan
from studio_gui.paths import samples_dir
from studio_gui.storage.files import (
    Fingerprint,
    fingerprint,
    read_plan_and_version,
    save_plan,
)
from studio_gui.storage.kept_beside import keep_original, keep_other_version
from studio_gui.storage.locks import HELD, FileLock, lock_file, lock_path
from studio_gui.storage.plan_json import VERSION
from studio_gui.storage.recovery import Snapshot


@dataclass(frozen=True)
class Outside:
    """What something else has made of a plan's file: since when, and the plan, or why none can be read."""

    changed_at: datetime | None
    found: Plan | FileProblem


@dataclass(frozen=True, eq=False)
class PlanFile:
    """Where a plan is kept; `path` is None for one never saved.

    `was` is the file's fingerprint when it was last read or written here, `version` that of its format then,
    and `lock` what keeps others out, None where there can be none.
    """

    path: Path | None = None
    was: Fingerprint | None = None
    version: int = VERSION
    lock: FileLock | None = None

    def read(self, path: Path, *, take_over: bool = False) -> tuple[PlanFile, Plan]:
        """Return the plan in the file at `path` with its `PlanFile`.

        Raises
        ------
        FileProblem
            When it cannot be read, or is open elsewhere; `take_over` takes it from another machine.
        """
        lock = self._lock_on(path, take_over=take_over)
        try:
            was = fingerprint(path)  # before reading, so that no change in between is missed
            plan, version = read_plan_and_version(path)
        except FileProblem:
            self._give_back(lock)
            raise
        return PlanFile(path, was, version, lock), plan

    def saved(
        self, path: Path, plan: Plan, *, take_over: bool = False, keep_other: bool = False
    ) -> tuple[PlanFile, Path | None]:
        """Write `plan` to `path`, and return its `PlanFile`; `FileProblem` leaves the old file intact.

        A file of an older version that it was read from is copied beside it first, and with `keep_other`
        whatever stands there; the copy is returned too.
        """
        lock = self._lock_on(path, take_over=take_over)
        try:
            kept = self._kept_beside(path, keep_other=keep_other)
            was = save_plan(path, plan)
        except FileProblem:
            self._give_back(lock)
            raise
        return PlanFile(path, was, VERSION, lock), kept

    def recovered(self, kept: Snapshot) -> tuple[PlanFile, Plan | None]:
        """Return the `PlanFile` of a snapshot, and the plan in its file unless that changed since or is gone.

        Where another program has the file open, the snapshot comes back without one.
        """
        if kept.path is None:
            return PlanFile(), None
        try:
            file, plan = self.read(kept.path)
        except FileProblem as problem:
            if problem.code in HELD:
                return PlanFile(), None
            return PlanFile(kept.path, kept.was, VERSION, self._lock_on(kept.path)), None
        if file.was == kept.was:
            return file, plan
        return replace(file, was=kept.was, version=VERSION), None  # saving asks about what stands there now

    def outside(self) -> Outside | None:
        """Return what the file holds where it is no longer what was last read or written here.

        A file that is gone holds nothing: saving makes it anew.
        """
        now = self._now()
        if isinstance(now, FileProblem):
            return None if now.code == "file-not-found" else Outside(None, now)
        if self.path is None or now is None or now == self.was:
            return None
        changed_at = datetime.fromtimestamp(now.mtime_ns // 10**9, UTC)
        try:
            return Outside(changed_at, read_plan_and_version(self.path)[0])
        except FileProblem as problem:
            return Outside(changed_at, problem)

    def is_gone(self) -> bool:
        """Tell whether the file was there when it was last read or written here, and is not any more."""
        now = self._now()
        return isinstance(now, FileProblem) and now.code == "file-not-found"

    def _now(self) -> Fingerprint | FileProblem | None:
        """Return what the file is now, or why that cannot be told; None for one that was never there."""
        if self.path is None or self.was is None:
            return None
        try:
            return fingerprint(self.path)
        except FileProblem as problem:
            return problem

    def let_go(self, after: PlanFile) -> None:
        """Let others have the file, unless `after` goes on with it."""
        if self.lock is not None and self.lock is not after.lock:
            self.lock.release()

    def is_at(self, path: Path) -> bool:
        """Tell whether it is the file at `path`, by whatever name."""
        return self.path is not None and lock_path(self.path) == lock_path(path)

    def _kept_beside(self, path: Path, *, keep_other: bool) -> Path | None:
        if keep_other:
            return keep_other_version(path)
        is_older = self.is_at(path) and self.version < VERSION
        return keep_original(path, self.version) if is_older else None

    def _lock_on(self, path: Path, *, take_over: bool = False) -> FileLock | None:
        if self.lock is not None and self.is_at(path):
            return self.lock
        if samples_dir() in path.absolute().parents:
            return None  # samples are everybody's, and nobody's work
        return lock_file(path, take_over=take_over)

    def _give_back(self, lock: FileLock | None) -> None:
        if lock is not None and lock is not self.lock:
            lock.release()
