"""Files made to be slow, large or deep, each up to the largest that is read at all.

`FILES` makes them by name. Some keep just within what is counted before anything is made of the text; these
are what takes longest to refuse.
"""

from __future__ import annotations

import json
from collections.abc import Callable

from studio_gui.paths import samples_dir
from studio_gui.storage.strict_json import LARGEST_FILE_BYTES, MOST_SIGNS

_SAMPLE = json.loads((samples_dir() / "storm-kettle.roving.json").read_bytes())


def _full(unit: bytes, opening: bytes = b"", closing: bytes = b"") -> bytes:
    """Return `unit` again and again, up to the largest file."""
    count = (LARGEST_FILE_BYTES - len(opening) - len(closing)) // len(unit)
    return opening + unit * count + closing


def _counted(unit: bytes, signs: int, opening: bytes = b"[", closing: bytes = b"0]") -> bytes:
    """Return `unit`, which has so many signs, as often as is still taken."""
    return opening + unit * ((MOST_SIGNS - 100) // signs) + closing


def _plan_with(entry: object, signs: int, *path: str | int) -> bytes:
    """Return a plan in which the list at `path` has as many equal entries as are still taken."""
    plan = json.loads(json.dumps(_SAMPLE))
    inner = plan
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = [entry] * ((MOST_SIGNS - 5_000) // signs)
    return json.dumps(plan, separators=(",", ":")).encode()


def _many_keys() -> bytes:
    members = (b'"k%d":0.5' % number for number in range(MOST_SIGNS // 2 - 100))
    return b"{" + b",".join(members) + b"}"


FILES: dict[str, Callable[[], bytes]] = {
    "numbers": lambda: _full(b"1,", b"[", b"1]"),
    "one long number": lambda: _full(b"9"),
    "one long text": lambda: _full(b"a", b'"', b'"'),
    "one long text in another script": lambda: _full("é".encode(), b'"', b'"'),
    "escapes": lambda: _full(b"\\u0041", b'"', b'"'),
    "pairs of surrogates": lambda: _full(b"\\ud800\\udc00", b'"', b'"'),
    "half characters": lambda: _full(b"\\ud800x", b'"', b'"'),
    "empty texts": lambda: _full(b'"",', b"[", b'""]'),
    "empty objects": lambda: _full(b"{},", b"[", b"{}]"),
    "empty lists": lambda: _full(b"[],", b"[", b"[]]"),
    "one key again and again": lambda: _full(b'"a":0,', b"{", b'"a":0}'),
    "brackets that open": lambda: _full(b"["),
    "brackets that close": lambda: _full(b"]"),
    "as deep as may be": lambda: _full(b"[" * 31 + b"]" * 31 + b",", b"[", b"[]]"),
    "spaces": lambda: _full(b" "),
    "lines, then no text": lambda: _full(b"\n", closing=b"\xff"),
    "lines, then too deep": lambda: _full(b"\n", closing=b"[" * 40),
    "quotes": lambda: _full(b'"'),
    "backslashes": lambda: _full(b"\\", b'"'),
    "no numbers": lambda: _full(b"NaN,", b"[", b"1]"),
    "one long key": lambda: _full(b"k", b'{"', b'":1}'),
    "one long key that is no name": lambda: _full(b"k k", b'{"', b'":1}'),
    "large exponents": lambda: _full(b"1e999,", b"[", b"1]"),
    "numbers, as many as are counted": lambda: _counted(b"1.5,", 1),
    "numbers, the last of them none": lambda: _counted(b"1.5,", 1, closing=b"NaN]"),
    "objects, as many as are counted": lambda: _counted(b"{},", 3),
    "depths, as many as are counted": lambda: _counted(b"[" * 30 + b"]" * 30 + b",", 61),
    "keys, as many as are counted": _many_keys,
    "folds": lambda: _plan_with(0.25, 1, "lay", "fold_positions_m"),
    "sections": lambda: _plan_with(_SAMPLE["sections"][0], 26, "sections"),
    "boundaries": lambda: _plan_with({"position_m": 0.1, "gap_m": 0.0}, 6, "boundaries"),
    "parts": lambda: _plan_with({"stock_id": "k1", "parts": 1.0}, 7, "liquors", 0, "parts"),
    "stripes": lambda: _plan_with(
        {"liquor_id": "q1", "amount": 1.0, "measure": "rows"}, 10, "yarn", "stripes"
    ),
    "marks": lambda: _plan_with({"strip_share": 0.5, "mass_share": 0.5}, 6, "fibre", "mass_marks"),
}
