"""Published values that tests compare with, from tests/data/published_values.csv, each with its source."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

_TABLE = Path(__file__).parent / "data" / "published_values.csv"


@cache
def _rows() -> dict[str, float]:
    with _TABLE.open(encoding="utf-8", newline="") as table:
        return {row["id"]: float(row["value"]) for row in csv.DictReader(table)}


def published(row_id: str) -> float:
    """Return the value of a row, in the unit the row states."""
    return _rows()[row_id]
