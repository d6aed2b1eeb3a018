"""If these fail, saved ladders come back as others, or a slip in their file passes in silence."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.ladders import LENGTHS
from studio_gui.domain.errors import FileProblem, InvalidPlan
from studio_gui.domain.sections import LIQUID_MODES
from studio_gui.storage.ladder_templates import (
    MOST_LADDERS,
    LadderTemplate,
    LadderTemplates,
    ladders_from_json,
    ladders_to_json,
)
from tests.strategies import texts

HALVING = LadderTemplate("Halving", "48+0, 24+24")
TIDE = LadderTemplate("Tide", "12+36; 24+24", "by amount", "follows fibre")
BOTH = LadderTemplates((HALVING, TIDE))


@given(
    st.lists(
        st.builds(
            LadderTemplate, texts(300), texts(300), st.sampled_from(LENGTHS), st.sampled_from(LIQUID_MODES)
        ),
        unique_by=lambda ladder: ladder.name,
        max_size=5,
    )
)
def test_ladders_come_back_as_they_were(ladders: list[LadderTemplate]) -> None:
    templates = LadderTemplates(tuple(ladders))
    assert ladders_from_json(ladders_to_json(templates)) == templates


def test_the_first_version_of_the_file_stays_as_it_is() -> None:
    assert ladders_to_json(LadderTemplates((HALVING,))).decode() == (
        '{\n  "document": "roving-lay-ladders",\n  "version": 1,\n  "ladders": [\n    {\n'
        '      "name": "Halving",\n      "line": "48+0, 24+24",\n      "lengths": "equal",\n'
        '      "liquid": "fixed"\n    }\n  ]\n}\n'
    )


def test_ladders_are_added_renamed_and_removed() -> None:
    assert LadderTemplates((HALVING,)).plus(TIDE) == BOTH
    assert [ladder.name for ladder in BOTH.renamed("Halving", "Down").ladders] == ["Down", "Tide"]
    assert BOTH.without("Halving").ladders == (TIDE,)
    assert BOTH.find("Tide") is TIDE


@pytest.mark.parametrize(
    ("edit", "code"),
    [
        (lambda: BOTH.plus(LadderTemplate("Tide", "1+1")), "name-taken"),
        (lambda: BOTH.renamed("Tide", "Halving"), "name-taken"),
        (lambda: BOTH.renamed("Tide", " "), "text-empty"),
        (lambda: BOTH.renamed("Ebb", "Flow"), "ladder-not-there"),
        (lambda: BOTH.without("Ebb"), "ladder-not-there"),
        (lambda: LadderTemplate("", "1+1"), "text-empty"),
        (lambda: LadderTemplate("Tide", "1+1\n2+2"), "text-unprintable"),
        (
            lambda: LadderTemplates(
                tuple(LadderTemplate(str(number), "1") for number in range(MOST_LADDERS + 1))
            ),
            "too-many",
        ),
    ],
)
def test_what_no_list_may_hold_is_refused(edit: Callable[[], object], code: str) -> None:
    with pytest.raises(InvalidPlan) as problem:
        edit()
    assert problem.value.code == code


def written(**changes: object) -> bytes:
    document = json.loads(ladders_to_json(BOTH))
    return json.dumps(document | changes).encode()


@pytest.mark.parametrize(
    ("data", "code", "place"),
    [
        (b"[]", "not-ladders", ""),
        (b"{}", "not-ladders", "document"),
        (written(document="roving-lay-plan"), "not-ladders", "document"),
        (written(document=3), "not-ladders", "document"),
        (written(version=2), "file-newer", "version"),
        (written(version=0), "version-unknown", "version"),
        (written(colour="blue"), "unknown-key", "colour"),
        (written(ladders={}), "wrong-type", "ladders"),
        (written(ladders=[{"name": "Tide"}]), "key-missing", "ladders[0].line"),
        (
            written(ladders=[{"name": "Tide", "line": "1", "lengths": "long", "liquid": "fixed"}]),
            "not-one-of",
            "ladders[0].lengths",
        ),
        (
            written(ladders=[{"name": " ", "line": "1", "lengths": "equal", "liquid": "fixed"}]),
            "text-empty",
            "ladders[0].name",
        ),
        (
            written(ladders=[{"name": "Tide", "line": "1", "lengths": "equal", "liquid": "fixed"}] * 2),
            "name-taken",
            "ladders",
        ),
    ],
)
def test_what_is_no_list_of_ladders_is_refused_with_its_place(data: bytes, code: str, place: str) -> None:
    with pytest.raises(FileProblem) as problem:
        ladders_from_json(data)
    assert (problem.value.code, problem.value.params["place"]) == (code, place)


def test_a_file_cut_short_is_refused() -> None:
    with pytest.raises(FileProblem) as problem:
        ladders_from_json(ladders_to_json(BOTH)[:-5])
    assert problem.value.params["cut_short"]
