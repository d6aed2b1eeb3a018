"""If these fail, some code has no words of its own, or words for something that its code does not tell.

All codes are collected from the syntax trees of the program: what is handed to an error, a check or a mend.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.edits.mends import EACH_ON_ITS_OWN
from studio_gui.domain.errors import EditRefused, FileProblem, InvalidPlan, Param, RovingLayError
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.ranges import RANGES
from studio_gui.wording.check_sentences import CHECK_WORDS
from studio_gui.wording.edit_sentences import EDITS
from studio_gui.wording.fields import FIELD_KINDS, field_name
from studio_gui.wording.file_sentences import INSIDE, OUTSIDE
from studio_gui.wording.mend_sentences import MEND_ALL_LABELS, MEND_WORDS
from studio_gui.wording.numbers import UNKNOWN
from studio_gui.wording.saving_sentences import ON_SAVING
from studio_gui.wording.sentences import (
    check_reason,
    check_text,
    check_title,
    mend_all_label,
    mend_cost,
    mend_label,
    refusal,
    refusal_to_save,
)
from studio_gui.wording.translation import ENGLISH
from studio_gui.wording.typed_sentences import TYPED
from studio_gui.wording.value_sentences import VALUES

PACKAGE = Path(__file__).resolve().parents[2] / "studio_gui"
ERRORS: dict[str, type[RovingLayError]] = {
    error.__name__: error for error in (InvalidPlan, EditRefused, FileProblem)
}
CODE = re.compile(r"[a-z]+(-[a-z0-9]+)+")
#: Of this form, in modules that hand on codes they keep in tables, and yet no code.
NO_CODES = {"roving-lay-plan", "roving-lay-ladders", "roving-lay-recovery"}
COUNTED = {
    "count",
    "most",
    "length",
    "longest",
    "rovings",
    "sections",
    "version",
    "ours",
    "line",
    "column",
    "ply",
    "least",
}
COUNTED |= {"process", "step", "stocks", "deepest", "most_bytes", "ratio", "factor", "bulk", "fibre"}
UNITS_AT_THE_END = (
    "_ml",
    "_mm",
    "_m",
    "_g",
    "_pct",
    "_pct_owf",
    "_share",
    "_per_g",
    "_per_l",
    "_parts",
    "_rows",
)


@dataclass(frozen=True)
class Site:
    """A place in the program where a code is handed on: to what, and with which parameters if known."""

    maker: str
    code: str
    params: dict[str, Param] | None


def sites() -> Iterator[Site]:
    for path in sorted(PACKAGE.rglob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        calls = [node for node in ast.walk(tree) if isinstance(node, ast.Call)]
        for call in calls:
            match call:
                case ast.Call(func=ast.Name(id=maker), args=[ast.Constant(value=str(code)), *_]):
                    if maker in ERRORS or maker in ("Check", "Mend"):
                        yield Site(maker, code, _params(call))
                case ast.Call(func=ast.Name(id=maker), args=[ast.expr(), *_]) if maker in ERRORS:
                    yield from (Site(maker, code, None) for code in _kept_codes(tree))


def _kept_codes(tree: ast.Module) -> set[str]:
    """What may be a code among the texts of a module that hands on codes from elsewhere in it."""
    texts = {node.value for node in ast.walk(tree) if isinstance(node, ast.Constant)}
    return {text for text in texts if isinstance(text, str) and CODE.fullmatch(text)} - NO_CODES


def _params(call: ast.Call) -> dict[str, Param]:
    return {keyword.arg: _example(keyword.arg, keyword.value) for keyword in call.keywords if keyword.arg}


def _example(name: str, value: ast.expr) -> Param:
    if isinstance(value, ast.Constant) and isinstance(value.value, (str, bool)):
        return value.value
    if name in COUNTED:
        return 3
    if name.endswith(UNITS_AT_THE_END):
        return 1.5
    others: dict[str, Param] = {
        "field": "mass_g",
        "low": 1.0,
        "high": 2.0,
        "wanted": "mass",
        "found": "length",
    }
    return others.get(name, "Abc")


SITES = list(sites())
REFUSALS = [site for site in SITES if site.maker in ERRORS and site.params is not None]


def codes_of(*makers: str) -> set[str]:
    return {site.code for site in SITES if site.maker in makers}


def test_the_collection_finds_what_is_known_to_be_there() -> None:
    assert {"section-too-short", "unknown-stock", "not-a-number"} <= codes_of("InvalidPlan")
    assert {"boundary-locked", "depth-unreachable"} <= codes_of("EditRefused")
    assert {"file-not-found", "disk-full", "key-twice", "file-newer"} <= codes_of("FileProblem")
    assert {"over", "acid-uneven"} <= codes_of("Check")
    assert {"wipe", "acid-line"} <= codes_of("Mend")


def test_every_check_and_every_mend_has_words_and_no_words_are_left_over() -> None:
    assert codes_of("Check") == set(CHECK_WORDS)
    assert codes_of("Mend") == set(MEND_WORDS)


def test_every_mend_that_can_be_done_for_all_has_a_label_with_their_number() -> None:
    assert set(MEND_ALL_LABELS) == set(EACH_ON_ITS_OWN)
    labels = {mend_all_label([Mend(code)] * 7, ENGLISH) for code in EACH_ON_ITS_OWN}
    assert len(labels) == len(EACH_ON_ITS_OWN)
    assert all("7" in label for label in labels)
    assert mend_all_label([Mend("something-new")] * 2, ENGLISH) == "Mend"


def test_every_refusal_has_words_and_no_words_are_left_over() -> None:
    assert codes_of(*ERRORS) == set(TYPED | VALUES | EDITS | INSIDE | OUTSIDE)


def test_a_code_has_its_words_in_one_place() -> None:
    tables = (TYPED, VALUES, EDITS, INSIDE, OUTSIDE)
    assert sum(len(table) for table in tables) == len(TYPED | VALUES | EDITS | INSIDE | OUTSIDE)


def assert_well_said(sentence: str, code: str) -> None:
    assert sentence.strip() == sentence
    assert sentence
    assert "\n" not in sentence
    assert not set("{}") & set(sentence)
    if "-" in code:
        assert code not in sentence


@pytest.mark.parametrize("site", REFUSALS, ids=lambda site: site.code)
def test_a_refusal_says_all_of_its_sentence_from_what_its_code_tells(site: Site) -> None:
    sentence = refusal(ERRORS[site.maker](site.code, **site.params or {}), tongue=ENGLISH)
    assert_well_said(sentence, site.code)
    assert UNKNOWN not in sentence
    assert sentence.endswith(".")
    assert sentence[0].isupper() or sentence[0] in "“3"


@pytest.mark.parametrize("code", sorted(codes_of(*ERRORS)))
def test_a_refusal_without_any_parameters_is_still_a_sentence(code: str) -> None:
    for error in ERRORS.values():
        assert_well_said(refusal(error(code), tongue=ENGLISH), code)
        assert_well_said(refusal(error(code), new_plan(), ENGLISH), code)


@pytest.mark.parametrize("code", sorted(ON_SAVING))
def test_what_is_said_otherwise_on_saving_is_a_code_and_says_all_of_its_sentence(code: str) -> None:
    assert code in INSIDE | OUTSIDE
    known: dict[str, Param] = {"path": "/a/b.roving.json", "user": "ann", "most_bytes": 3}
    for params in ({}, known):
        sentence = refusal_to_save(FileProblem(code, **params), ENGLISH)
        assert_well_said(sentence, code)
        assert "copy" not in sentence


def test_any_other_refusal_is_said_on_saving_as_everywhere() -> None:
    problem = FileProblem("disk-full", path="/a/b.roving.json")
    assert refusal_to_save(problem, ENGLISH) == refusal(problem, tongue=ENGLISH)


def test_two_refusals_never_say_the_same() -> None:
    sentences = {
        site.code: refusal(InvalidPlan(site.code, **site.params or {}), tongue=ENGLISH) for site in REFUSALS
    }
    assert len(set(sentences.values())) == len(sentences)


@pytest.mark.parametrize("code", [*sorted(codes_of("Check")), "something-new"])
def test_a_check_without_any_parameters_is_still_said(code: str) -> None:
    for section_ids in ((), ("s1",), ("gone",)):
        check = Check(code, "warning", section_ids, {}, (Mend("something-new"),))
        for say in (check_title, check_reason, check_text):
            assert_well_said(say(check, new_plan(), ENGLISH), code)


@pytest.mark.parametrize("code", [*sorted(codes_of("Mend")), "something-new"])
def test_a_mend_without_any_parameters_is_still_said(code: str) -> None:
    for say in (mend_label, mend_cost):
        assert_well_said(say(Mend(code), new_plan(), ENGLISH), code)


def test_an_unknown_refusal_is_answered_with_a_sentence() -> None:
    assert refusal(EditRefused("something-new", strange=1), tongue=ENGLISH) == (
        "That is not possible here; everything stays as it was."
    )
    assert refusal(FileProblem("something-new", path="/a/b.roving.json", place="lay"), tongue=ENGLISH) == (
        "b.roving.json, at lay: That is not possible here; everything stays as it was."
    )


def fields_named_anywhere() -> set[str]:
    named = {str(site.params["field"]) for site in SITES if site.params and "field" in site.params}
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            match node:
                case ast.Call(
                    func=ast.Name(id="checked" | "checked_text" | "checked_srgb"),
                    args=[ast.Constant(value=str(field)), *_],
                ):
                    named.add(field)
    return named


def test_every_field_has_a_name_of_its_own() -> None:
    fields = fields_named_anywhere() | set(RANGES)
    assert len(fields) > 40
    names = {field: field_name(field, ENGLISH) for field in fields}
    assert "This value" not in names.values()
    assert field_name("something_new", ENGLISH) == "This value"


def test_every_number_of_a_plan_has_its_kind() -> None:
    assert set(RANGES) <= set(FIELD_KINDS)
    for field, kind in FIELD_KINDS.items():
        for ending, dimensions in (
            ("_ml_per_g", {"wetness"}),
            ("_g_per_l", {"strength"}),
            ("_pct_owf", {"percent"}),
            ("_share", {"share"}),
            ("_ml", {"volume"}),
            ("_mm", {"width"}),
            ("_m_per_g", {"grist"}),
            ("_g_per_m", {"linear_density"}),
            ("_m", {"length", "linear_density"}),
            ("_g", {"mass", "wetness", "grist"}),
        ):
            if field.endswith(ending):
                assert kind.dimension in dimensions, field
