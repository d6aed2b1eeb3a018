"""Matches made while nobody waits for them, a few colours at a time.

The rule of this module: matching begins once no key has been struck for a moment, and what was asked before
is dropped. Between one few and the next it tells how far it is, and can be stopped.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import QObject, Signal

from studio_gui.document.background import RestedRun
from studio_gui.domain.colour.spaces import Array
from studio_gui.domain.edits.matching import Matched, match_section, sections_for
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan

#: Colours that are matched before it is told how far it is: with a dozen bottles they take about 0.1 s.
COLOURS_AT_ONCE = 4


@dataclass(frozen=True, slots=True, eq=False)
class Wanted:
    """Wanted colours, each CIE Lab (3,), on sections `first` to `last`; a single one is for the first."""

    plan: Plan
    first: int
    last: int
    labs: tuple[Array, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Matching:
    """What has been matched so far, on which sections of which plan."""

    plan: Plan
    section_ids: tuple[str, ...]
    labs: tuple[Array, ...]
    found: tuple[Matched, ...] = ()


class Matching(QObject):
    """Has wanted colours matched.

    Signals
    -------
    went_on
        How many colours are matched, of how many.
    done
        All are: a tuple of `Matched`.
    failed
        What the colours were refused with.
    """

    went_on = Signal(int, int)
    done = Signal(object)
    failed = Signal(object)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._wanted: Wanted | None = None
        self._run = RestedRun(self._work, self)
        self._run.done.connect(self._go_on)
        self._run.failed.connect(self._fail)

    @property
    def is_running(self) -> bool:
        """Whether something was asked that is neither done nor refused nor stopped."""
        return self._run.is_running

    def ask(self, wanted: Wanted) -> None:
        """Match these colours, and no others, once this has not been called for a moment."""
        self._run.stop()
        self._wanted = wanted
        self._run.ask_at_rest()

    def stop(self) -> None:
        """Want nothing any more."""
        self._run.stop()

    def _work(self) -> Callable[[], object] | None:
        return None if self._wanted is None else partial(_begun, self._wanted)

    def _go_on(self, matching: _Matching) -> None:
        matched, count = len(matching.found), len(matching.labs)
        if matched == count:
            self.done.emit(matching.found)
        else:
            self._run.ask(_continued, matching)
            self.went_on.emit(matched, count)

    def _fail(self, problem: Exception) -> None:
        if not isinstance(problem, RovingLayError):
            raise problem
        self.failed.emit(problem)


def _begun(wanted: Wanted) -> _Matching:
    last = wanted.first if len(wanted.labs) == 1 else wanted.last
    plan, ids = sections_for(wanted.plan, wanted.first, last, len(wanted.labs))
    return _continued(_Matching(plan, ids, wanted.labs))


def _continued(matching: _Matching) -> _Matching:
    begin = len(matching.found)
    few = slice(begin, begin + COLOURS_AT_ONCE)
    places = zip(matching.section_ids[few], matching.labs[few], strict=True)
    found = tuple(match_section(matching.plan, section_id, lab) for section_id, lab in places)
    return _Matching(matching.plan, matching.section_ids, matching.labs, matching.found + found)
