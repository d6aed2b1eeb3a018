"""What the list of checks shows, from top to bottom: headings, findings, and how many more are like one.

The rule of this module: findings stand by their seriousness, then by their code. Many of one code stand as
the first of them until they are opened; what is not shown is counted.
"""

from __future__ import annotations

from collections.abc import Collection, Hashable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from studio_gui.domain.checks.check import Check, Severity

#: As many findings of one code stand as one.
FOLDED_FROM = 3

#: Findings that are alike: their code and their seriousness.
Alike = tuple[str, Severity]


@dataclass(frozen=True, slots=True)
class Heading:
    """All findings of one seriousness follow, when open."""

    severity: Severity
    count: int
    is_open: bool

    @property
    def key(self) -> Hashable:
        """What tells it from all others while figures move."""
        return self.severity


@dataclass(frozen=True, slots=True)
class One:
    """One finding."""

    check: Check

    @property
    def key(self) -> Hashable:
        """What makes a check the same one from worksheet to worksheet: its code, and whom it speaks of."""
        check = self.check
        return check.code, check.section_ids, check.params.get("stock_id"), check.params.get("liquor_id")


@dataclass(frozen=True, slots=True)
class More:
    """The findings that are like the one above, itself among them; those after it follow, when open."""

    checks: tuple[Check, ...]
    is_open: bool

    @property
    def alike(self) -> Alike:
        """What they have in common."""
        return self.checks[0].code, self.checks[0].severity

    @property
    def key(self) -> Hashable:
        """What tells it from all others while figures move."""
        return self.alike


Entry = Heading | One | More


def listed(
    checks: Sequence[Check], closed: Collection[Severity], opened: Collection[Alike], most: int
) -> tuple[list[Entry], int]:
    """Return the entries of the list, and how many findings are left out because `most` are shown.

    `checks` come with the most serious first, those of one code together.
    """
    entries: list[Entry] = []
    shown = left = 0
    for entry in _entries(checks, closed, opened):
        shown += isinstance(entry, One)
        if shown <= most:
            entries.append(entry)
        else:
            left += isinstance(entry, One)
    return entries, left


def _entries(
    checks: Sequence[Check], closed: Collection[Severity], opened: Collection[Alike]
) -> Iterator[Entry]:
    for severity, group in groupby(checks, key=lambda check: check.severity):
        found = list(group)
        yield Heading(severity, len(found), is_open=severity not in closed)
        if severity in closed:
            continue
        for code, like in groupby(found, key=lambda check: check.code):
            alike = tuple(like)
            is_open = (code, severity) in opened
            yield One(alike[0])
            if len(alike) >= FOLDED_FROM:
                yield More(alike, is_open)
            if len(alike) < FOLDED_FROM or is_open:
                yield from map(One, alike[1:])
