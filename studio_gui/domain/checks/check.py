"""The shape of a check and of a mend.

The rule of this module: a check says what, where and how to mend as codes and plain parameters; words belong
to `studio_gui.wording`. A mend that can be applied by one click is `one_click`; the others are advice.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from studio_gui.domain.errors import Param

Severity = Literal["note", "warning", "error"]
SEVERITIES: tuple[Severity, ...] = ("error", "warning", "note")


@dataclass(frozen=True, slots=True)
class Mend:
    """One way out, with what it costs in `params`."""

    code: str
    params: Mapping[str, Param] = field(default_factory=dict)
    one_click: bool = True


@dataclass(frozen=True, slots=True)
class Check:
    """One finding. `section_ids` name the sections it speaks of, in the lay's order; it may name none."""

    code: str
    severity: Severity
    section_ids: tuple[str, ...] = ()
    params: Mapping[str, Param] = field(default_factory=dict)
    mends: tuple[Mend, ...] = ()
