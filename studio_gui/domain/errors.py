"""What can be wrong, as codes with typed parameters.

The rule of this module: every refusal anywhere in the program is a `RovingLayError`. It carries a stable
`code` and plain parameters, never a sentence; `studio_gui.wording` turns it into words.
"""

from __future__ import annotations

from typing import ClassVar

Param = str | int | float | bool | None


class RovingLayError(Exception):
    """Base of all refusals.

    Parameters
    ----------
    code
        Stable kebab-case name of what is wrong, e.g. ``"boundary-locked"``.
    params
        Plain values the sentence needs; units are in the names.
    """

    kind: ClassVar[str] = "error"

    def __init__(self, code: str, **params: Param) -> None:
        super().__init__(code, params)
        self.code = code
        self.params: dict[str, Param] = params

    def __str__(self) -> str:
        detail = ", ".join(f"{name}={value!r}" for name, value in self.params.items())
        return f"{self.code}({detail})"


class InvalidPlan(RovingLayError):
    """A value that no plan may hold: the field, the value and the range it must keep to."""

    kind = "invalid"


class EditRefused(RovingLayError):
    """An edit that would break the plan or move something locked; the plan stays as it was."""

    kind = "refused"


class FileProblem(RovingLayError):
    """A file that cannot be read or written; carries the place and what would mend it."""

    kind = "file"
