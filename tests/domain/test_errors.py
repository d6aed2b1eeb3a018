"""If these fail, a refusal loses its code, or cannot be read in a log."""

from __future__ import annotations

import pytest

from studio_gui.domain.errors import EditRefused, FileProblem, InvalidPlan, RovingLayError


@pytest.mark.parametrize(
    ("kind", "error"), [("invalid", InvalidPlan), ("refused", EditRefused), ("file", FileProblem)]
)
def test_every_refusal_is_one_error_of_a_known_kind(kind: str, error: type[RovingLayError]) -> None:
    refusal = error("boundary-locked", section="Slate", position_m=0.5)
    assert isinstance(refusal, RovingLayError)
    assert refusal.kind == kind
    assert refusal.code == "boundary-locked"
    assert refusal.params == {"section": "Slate", "position_m": 0.5}


def test_a_refusal_reads_as_its_code_with_its_params() -> None:
    assert (
        str(InvalidPlan("out-of-range", field="mass_g", value=0.0))
        == "out-of-range(field='mass_g', value=0.0)"
    )
