"""If these fail, somebody is refused without being told what, where and how to mend."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.liquors import set_depths
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.errors import EditRefused, FileProblem, InvalidPlan, RovingLayError
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.ranges import checked
from studio_gui.storage.files import read_plan
from studio_gui.storage.plan_json import plan_from_json, plan_to_json
from studio_gui.wording.amounts import parse_amounts
from studio_gui.wording.naming import LONGEST_NAME, one_line
from studio_gui.wording.quantities import GRIST, MASS, PLAIN, ROVING_LENGTH, VOLUME, parse
from studio_gui.wording.sentences import refusal
from studio_gui.wording.translation import ENGLISH, Tongue


def answer(work: Callable[[], object]) -> str:
    with pytest.raises(RovingLayError) as caught:
        work()
    return refusal(caught.value, new_plan(), ENGLISH)


@pytest.mark.parametrize(
    ("work", "sentence"),
    [
        (lambda: parse(MASS, "", "mass_g", ENGLISH), "Nothing is typed in. Enter a number."),
        (
            lambda: parse(MASS, "9**9**9", "mass_g", ENGLISH),
            "“9**9**9” is not a number. Write it like 12.5 or 12,5.",
        ),
        (
            lambda: parse(MASS, "1,234", "mass_g", ENGLISH),
            "“1,234” can be read two ways. Write 1234 or 1.234.",
        ),
        (
            lambda: parse(MASS, "4 furlongs", "mass_g", ENGLISH),
            "“furlongs” is not a unit that can be used here. Use one of: g, kg, oz, lb.",
        ),
        (
            lambda: parse(VOLUME, "4 oz", "fixed_ml", ENGLISH),
            "“oz” is a weight, and this is an amount of liquid."
            " Use one of: ml, l, US fl oz, US tsp, US tbsp, US cup.",
        ),
        (
            lambda: parse(PLAIN, "4 g", "parts", ENGLISH),
            "“g” is a weight, and this is a plain number: leave it out.",
        ),
        (
            lambda: parse(PLAIN, "4 x", "parts", ENGLISH),
            "“x” does not belong here, as this is a plain number: leave it out.",
        ),
        (
            lambda: parse(ROVING_LENGTH, "1000 m", "length_m", ENGLISH),
            "Length of one roving: 1000 m is not possible. Enter 0.1 m to 500 m.",
        ),
        (
            lambda: parse_amounts("12 ++ 38", ENGLISH),
            "An amount is missing in “12 ++ 38”. Write it like 12 + 38; 0 for a stock that is left out.",
        ),
        (lambda: parse_amounts("12 + -38", ENGLISH), "-38 ml is less than nothing. Enter 0 or more."),
        (
            lambda: parse(MASS, "g" * 99, "mass_g", ENGLISH),
            "That is 99 characters long, and at most 60 can be read here. Shorten it.",
        ),
        (
            lambda: parse(GRIST, "0 tex", "singles_m_per_g", ENGLISH),
            "Linear density: 0 tex is not possible. Enter 5 tex to 10000 tex.",
        ),
        (
            lambda: parse(GRIST, "18 denier", "singles_m_per_g", ENGLISH),
            "Linear density: 2 tex is not possible. Enter 5 tex to 10000 tex.",
        ),
        (
            lambda: parse(GRIST, "500 Nm", "singles_m_per_g", ENGLISH),
            "Grist of the singles: 500 m/g is not possible. Enter 0.1 m/g to 200 m/g.",
        ),
        (
            lambda: parse(GRIST, "20 g/m", "singles_m_per_g", ENGLISH),
            "“g/m” is a weight per length, and this is a length of yarn per weight."
            " Use one of: m/g, yd/oz, m/100 g, yd/lb, Nm, worsted, cotton, run, tex, ktex, denier.",
        ),
        (lambda: checked("uptake_ml_per_g", 50.0), (
            "Uptake: 50 ml/g is not possible. Enter 0.01 ml/g to 20 ml/g."
        )),
        (
            lambda: set_depths(new_plan(), "q1", {"k1": 3.0}),
            "A Deep: depth 3.00 % is out of reach. It takes 150 ml of stock, and 125 ml is painted (2.5"
            " ml/g). Mix Blue at 1.2 % or stronger, or paint 3 ml/g, or enter a depth of at most 2.50 %.",
        ),
        (
            lambda: move_boundary(change_section(new_plan(), "s2", locked=True), 0, 1.0),
            "B Pale is locked, and its boundaries stay where they are. Unlock it first.",
        ),
        (
            lambda: move_boundary(new_plan(), 0, 4.0),
            "The boundary cannot go to 400 cm. There is room from 0.1 cm to 399.9 cm.",
        ),
    ],
)  # fmt: skip
def test_a_refusal_says_what_and_how_to_mend(work: Callable[[], object], sentence: str) -> None:
    assert answer(work) == sentence


def test_a_refused_length_is_said_in_the_units_of_the_user() -> None:
    error = EditRefused("boundary-out-of-range", position_m=4.0, low_m=0.0254, high_m=3.0)
    assert refusal(error, tongue=Tongue("us", is_english=True)) == (
        "The boundary cannot go to 157.48 in. There is room from 1 in to 118.11 in."
    )


def test_a_section_is_named_without_its_plan_too() -> None:
    error = EditRefused("section-locked", section="Kelp", section_id="s3")
    assert refusal(error, tongue=ENGLISH) == "Kelp is locked. Unlock it first."
    nameless = EditRefused("section-locked", section="", section_id="s3")
    assert refusal(nameless, tongue=ENGLISH) == "A section without a name is locked. Unlock it first."


@pytest.mark.parametrize(
    ("length_m", "sentence"),
    [
        (0.0003, "Kelp would be 0.03 cm long. Leave 0.1 cm or more."),
        (-0.1, "Nothing would be left of Kelp. Leave 0.1 cm or more."),
    ],
)
def test_a_section_that_vanishes_is_said_so(length_m: float, sentence: str) -> None:
    error = InvalidPlan("section-too-short", field="boundaries", section="Kelp", length_m=length_m, low=0.001)
    assert refusal(error, tongue=ENGLISH) == sentence


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        (b'"wicking_mm": 20.0', b'"wicking_mm": 9e9', (
            "At wicking_mm: Wicking width: 9000000000 mm is not possible. Enter 0 mm to 500 mm."
        )),
        (b'"wicking_mm": 20.0', b'"wicking_mm": "wide"', (
            "At wicking_mm: Here belongs a number, and there is text in quotes."
            " Put it right, or take the file from a copy."
        )),
        (b'"wicking_mm"', b'"wicking"', (
            "At wicking: “wicking” does not belong here. Write “wicking_mm” if that is meant, or take it out."
        )),
        (b'"wicking_mm"', b'"sparkle": 1, "wicking_mm"', (
            "At sparkle: “sparkle” does not belong here. Take it out."
        )),
        (b'"wicking_mm": 20.0', b'"wicking_mm": NaN', (
            "At wicking_mm: “NaN” is no number that a plan can have. Write one, such as 12.5."
        )),
        (b'"document"', b'"dokument"', (
            "At document: This does not say that it is a plan of Roving Lay."
            " Choose a file that ends in .roving.json."
        )),
        (b'"title"', b'"wicking_mm"', "At wicking_mm: “wicking_mm” stands there twice. Take one out."),
        (b'"version": 4', b'"version": 7', (
            "At version: A newer Roving Lay saved this (format 7; this one knows 4). Open it with that one."
        )),
        (b'"roving-lay-plan"', b'"poem"', (
            "At document: This is not a plan of Roving Lay (found: poem)."
            " Choose a file that ends in .roving.json."
        )),
        (b'"document"', b"document", (
            "Line 2, column 3: This cannot be read as JSON. Put it right, or take the file from a copy."
        )),
        (b'"jars"', b'"buckets"', "At mixing: “buckets” is not one of the choices, which are: jars."),
        (b'"Blue"', b'"\xff"', (
            "Line {line}, column {column}: The text is not in UTF-8."
            " Save it so, or take the file from a copy."
        )),
    ],
)  # fmt: skip
def test_a_slip_in_a_file_is_told_with_its_place(old: bytes, new: bytes, sentence: str) -> None:
    data = plan_to_json(new_plan())
    assert old in data
    before = data[: data.index(old)]
    place = {"line": before.count(b"\n") + 1, "column": len(before) - before.rfind(b"\n") + 1}
    assert answer(lambda: plan_from_json(data.replace(old, new, 1))) == sentence.format(**place)


def test_a_file_cut_short_is_said_so() -> None:
    data = plan_to_json(new_plan())
    assert answer(lambda: plan_from_json(data[:-40])).endswith(
        "The file ends in the middle, as if cut short. Take it from a copy."
    )


def test_the_file_itself_is_named_where_it_is_to_blame(tmp_path: Path) -> None:
    missing, folder = tmp_path / "gone.roving.json", tmp_path / "folder"
    folder.mkdir()
    assert answer(lambda: read_plan(missing)) == f"{missing} is not there. It may have been moved or renamed."
    assert answer(lambda: read_plan(folder)) == f"{folder} is a folder. Choose a file."
    torn = tmp_path / "torn.roving.json"
    torn.write_bytes(b"\xef\xbb\xbf{}")
    assert answer(lambda: read_plan(torn)) == (
        "torn.roving.json, line 1, column 1: The text begins with a byte order mark."
        " Save it as plain UTF-8, without one."
    )


def test_the_reason_that_the_system_gives_is_passed_on() -> None:
    error = FileProblem("file-failed", path="/a/b.roving.json", reason="Input/output error")
    assert refusal(error, tongue=ENGLISH) == (
        "/a/b.roving.json could not be used: Input/output error. Try again, or use another folder."
    )


def test_a_name_that_cannot_be_printed_does_not_break_the_line() -> None:
    error = FileProblem("file-not-found", path="/a/two\nlines\udcff.roving.json")
    sentence = refusal(error, tongue=ENGLISH)
    assert sentence.encode("utf-8")
    assert "\n" not in sentence


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("Kelp", "Kelp"),
        ("two\nlines\u2028more", "two lines more"),
        ("\u202edrawer", "drawer"),
        ("\u2066a\u2069", "a"),
        ("أزرق", "\u2068أزرق\u2069"),
        ("a\x00b", "a\ufffdb"),
        ("x" * 100, "x" * (LONGEST_NAME - 1) + "…"),
        ("{free_ml} {0} %s", "{free_ml} {0} %s"),
    ],
)
def test_a_typed_name_is_made_fit_for_one_line(typed: str, shown: str) -> None:
    assert one_line(typed) == shown


def test_braces_in_a_name_are_only_a_name() -> None:
    error = EditRefused("section-locked", section="{section}{0.__class__}", section_id="s1")
    assert refusal(error, tongue=ENGLISH) == "{section}{0.__class__} is locked. Unlock it first."


def test_stripes_that_do_not_fit_are_told_what_is_missing() -> None:
    params = {"needed_g": 157.9, "available_g": 150.0, "over_g": 7.9, "over_plied_m": 37.5, "over_rows": 25.0}
    error = EditRefused("stripes-too-long", **params)
    assert refusal(error, new_plan(), ENGLISH) == (
        "The stripes need 157.9 g of each roving, and there are 150 g: 7.9 g too much, which is 37.5 m of"
        " yarn or 25 rows. Shorten stripes by that, knit narrower, or take a heavier roving."
    )
    yards = refusal(error, new_plan(), Tongue("us", is_english=True))
    assert "0.28 oz too much, which is 41 yd of yarn or 25 rows" in yards
