"""Opens plans that were changed at random: `python -m tests.campaigns.mutations --count 100000`.

Half are changed as text (bytes flipped, cut, doubled, spliced), half as JSON (values swapped, keys taken out,
doubled or renamed, numbers made extreme, lists made long). Each is opened as a plan or refused by a
`FileProblem`; one that opens has to come back the same from its own file. Each may take `MOST_MB` of address
space, beyond which it would be a `MemoryError`. Reports the slowest.
"""

from __future__ import annotations

import argparse
import json
import random
import resource
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from studio_gui.domain.errors import FileProblem
from studio_gui.paths import samples_dir
from studio_gui.storage.plan_json import plan_from_json, plan_to_json

MOST_MB = 200
DATA = Path(__file__).parents[1] / "data"
SEEDS = [path.read_bytes() for path in sorted([*samples_dir().glob("*.json"), *DATA.glob("plan_*.json")])]
VALUES: tuple[Any, ...] = (
    None, True, 0, -1, 1e308, -1e308, 5e-324, 2**53, 2**53 + 1, 0.1, "", "s1", "\u202e", "x" * 400, "\ud800",
    [], {}, [[]], [0.0] * 3, {"id": "s1"}, float("nan"), float("inf"), "=1+1", "<b>", "../../etc",
)  # fmt: skip
BYTES = (
    b"{",
    b"}",
    b"[",
    b"]",
    b'"',
    b",",
    b":",
    b"\\",
    b"\xff",
    b"\x00",
    b"NaN",
    b"1e999",
    b"\\ud800",
    b"9" * 30,
)


def opened(data: bytes) -> str:
    """Return how opening went: "opened" or the code of the refusal; any other exception is a fault."""
    try:
        plan = plan_from_json(data)
    except FileProblem as problem:
        return problem.code
    assert plan_from_json(plan_to_json(plan)) == plan
    return "opened"


def mutated(rng: random.Random) -> bytes:
    """Return a plan changed in one to four places."""
    data = rng.choice(SEEDS)
    if rng.random() < 0.5:
        for _ in range(rng.randint(1, 4)):
            data = _changed_bytes(data, rng)
        return data
    document = json.loads(data)
    for _ in range(rng.randint(1, 4)):
        _change_value(document, rng)
    return json.dumps(document).encode()


def _changed_bytes(data: bytes, rng: random.Random) -> bytes:
    at, to = sorted(rng.randrange(len(data) + 1) for _ in range(2))
    return rng.choice((
        lambda: data[:at],
        lambda: data[:at] + data[to:],
        lambda: data[:to] + data[at:],
        lambda: data[:at] + rng.choice(BYTES) + data[at:],
        lambda: data[:at] + bytes([rng.randrange(256)]) + data[at + 1 :],
        lambda: data[:at] + rng.choice(SEEDS)[at:],
    ))()  # fmt: skip


def _change_value(document: Any, rng: random.Random) -> None:  # noqa: ANN401  (any JSON)
    holders = [holder for holder in _holders(document) if holder]
    if not holders:
        return
    holder = rng.choice(holders)
    key = rng.choice(list(holder)) if isinstance(holder, dict) else rng.randrange(len(holder))
    how = rng.randrange(6)
    if how == 0:
        del holder[key]
    elif how == 1 and isinstance(holder, list):
        holder.extend([holder[key]] * rng.choice((1, 7, 3_000)))
    elif how == 2 and isinstance(holder, dict):
        holder[rng.choice((f"{key}x", "id", "document", "version", "__class__"))] = holder[key]
    elif how == 3:
        other = rng.choice(holders)
        holder[key] = json.loads(
            json.dumps(rng.choice(list(other.values() if isinstance(other, dict) else other)))
        )
    elif how == 4 and isinstance(holder[key], (int, float)):
        holder[key] *= rng.choice((-1, 0, 1e-9, 1e9, 1.0000001))
    else:
        holder[key] = rng.choice(VALUES)


def _holders(value: Any) -> list[Any]:  # noqa: ANN401  (any JSON)
    if not isinstance(value, (dict, list)):
        return []
    inner = value.values() if isinstance(value, dict) else value
    return [value, *(holder for item in inner for holder in _holders(item))]


@contextmanager
def limited(most_mb: int) -> Iterator[None]:
    """Allow the process so much more address space than it has."""
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0])
    before, hard = resource.getrlimit(resource.RLIMIT_AS)
    most = pages * resource.getpagesize() + most_mb * 2**20
    resource.setrlimit(resource.RLIMIT_AS, (most, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_AS, (before, hard))


def campaign(count: int, seed: int) -> tuple[Counter[str], float]:
    """Open so many mutated plans; return how they went, and the processor seconds of the slowest."""
    rng, ends, slowest = random.Random(seed), Counter[str](), 0.0
    for _ in range(count):
        data = mutated(rng)
        began = time.process_time()
        with limited(MOST_MB):
            ends[opened(data)] += 1
        slowest = max(slowest, time.process_time() - began)
    return ends, slowest


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    ends, slowest = campaign(arguments.count, arguments.seed)
    print(f"{ends.total()} plans, slowest {slowest:.3f} s, none over {MOST_MB} MB, no fault")
    print(", ".join(f"{code} {count}" for code, count in ends.most_common()))


if __name__ == "__main__":
    main()
