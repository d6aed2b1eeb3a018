"""Kills saving, autosaving and exporting: `python -m tests.campaigns.kills --count 200`.

A child process does one operation and is killed by SIGKILL at a random moment within it; a kill after its end
does not count. What is on disk then has to be the state before or the state after, whole. Each kill that
counts is logged with its delay, the operation's usual time and the state found.
"""

from __future__ import annotations

import argparse
import os
import random
import signal
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.export.registry import export_plan
from studio_gui.storage.files import read_plan, save_plan
from studio_gui.storage.recovery import Snapshot, SnapshotFile, orphans
from tests.drawing.plans import plain_plan

#: Large enough that a kill falls within an operation, which of an export is long anyway.
SECTIONS = {"save": 400, "autosave": 400, "export": 24}
PLANS = {
    name: (plain_plan(count), replace(plain_plan(count), title="After")) for name, count in SECTIONS.items()
}
Operation = Callable[[Path, Plan], None]


def save(folder: Path, plan: Plan) -> None:
    save_plan(folder / "mine.roving.json", plan)


def keep(folder: Path, plan: Plan) -> None:
    kept = SnapshotFile(folder, folder / f"{'0' * 32}.snapshot")
    kept.write(plan, folder / "mine.roving.json", None)
    kept.let_go()


def export(folder: Path, plan: Plan) -> None:
    export_plan(worksheet(plan), folder / "map.json")


def saved_state(folder: Path) -> str:
    return _state_of(read_plan(folder / "mine.roving.json"))


def kept_state(folder: Path) -> str:
    (orphan,) = orphans(folder)
    assert isinstance(orphan.found, Snapshot), orphan.found
    return _state_of(orphan.found.plan)


def exported_state(folder: Path) -> str:
    data = (folder / "map.json").read_bytes()
    before, after = PLANS["export"]
    return {_exported(before): "before", _exported(after): "after"}[data]


_known: dict[str, bytes] = {}


def _exported(plan: Plan) -> bytes:
    if plan.title not in _known:
        with tempfile.TemporaryDirectory() as folder:
            export(Path(folder), plan)
            _known[plan.title] = (Path(folder) / "map.json").read_bytes()
    return _known[plan.title]


def _state_of(plan: Plan) -> str:
    before, after = PLANS["save"]
    return {before: "before", after: "after"}[plan]


OPERATIONS: dict[str, tuple[Operation, Callable[[Path], str]]] = {
    "save": (save, saved_state),
    "autosave": (keep, kept_state),
    "export": (export, exported_state),
}


def killed(operation: Operation, folder: Path, plan: Plan, delay_s: float) -> bool:
    """Run `operation` in a child and kill it after a delay; return whether it was still at it."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        os.write(writing, b"b")
        operation(folder, plan)
        os.write(writing, b"e")
        os._exit(0)
    os.close(writing)
    assert os.read(reading, 1) == b"b"
    time.sleep(delay_s)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(reading, "rb") as pipe:
        return pipe.read() == b""


def campaign(name: str, count: int, seed: int, log: Callable[[str], None]) -> Counter[str]:
    """Kill an operation so many times within its time; return how often which state was found."""
    operation, state = OPERATIONS[name]
    before, after = PLANS[name]
    rng, found = random.Random(seed), Counter[str]()
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        began = time.perf_counter()
        operation(folder, before)
        usual_s = 1.5 * (time.perf_counter() - began)
        while found.total() < count:
            operation(folder, before)
            delay_s = rng.uniform(0.0, usual_s)
            if killed(operation, folder, after, delay_s):
                ending = state(folder)
                found[ending] += 1
                moment = f"{delay_s * 1e3:.1f} ms into {usual_s * 1e3:.1f}"
                log(f"{name} {found.total()}: killed {moment}: {ending}")
    return found


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--only", choices=OPERATIONS, help="kill one operation alone")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--log", type=Path, default=Path("kills.log"))
    arguments = parser.parse_args()
    with arguments.log.open("w", encoding="utf-8") as file:
        for name in [arguments.only] if arguments.only else OPERATIONS:
            found = campaign(
                name, arguments.count, arguments.seed, lambda line: print(line, file=file, flush=True)
            )
            print(f"{name}: {found.total()} kills, {dict(found)}, no other state")


if __name__ == "__main__":
    main()
