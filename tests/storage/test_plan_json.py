"""If these fail, a saved colourway comes back as another one, or a slip in a file passes in silence."""

from __future__ import annotations

import dataclasses
import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.errors import FileProblem, Param
from studio_gui.domain.fibre import Fibre, Lay, MassMark, Roving
from studio_gui.domain.liquors import DyeDepth, Liquor, Part
from studio_gui.domain.plan import AcidLimits, AcidLine, Bench, Liquid, Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.stocks import Stock
from studio_gui.domain.timetable import Timetable
from studio_gui.domain.yarn import Knitting, Ply, Strip, Stripe, Yarn
from studio_gui.storage.plan_json import VERSION, plan_from_json, plan_to_json
from studio_gui.storage.strict_json import LARGEST_FILE_BYTES, LONGEST_QUOTE
from tests.strategies import plans

#: Written by the first versions of the program; every later one must open them.
DATA = Path(__file__).parent.parent / "data"
VERSION_1 = DATA / "plan_version_1.roving.json"
VERSION_2 = DATA / "plan_version_2.roving.json"
VERSION_3 = DATA / "plan_version_3.roving.json"
VERSION_4 = DATA / "plan_version_4.roving.json"

FIRST = Plan(
    title="Zwei Ufer · 両岸 · ضفتان 🐑",
    fibre=Fibre(150.0, 6.0, 2, "#f3eee2", (MassMark(0.25, 0.3), MassMark(0.75, 0.7))),
    lay=Lay((2.9,), "by weight", 0.2),
    liquid=Liquid(2.5, 1.0, 4.0, 1.5, 10.0),
    acid=AcidLimits(1.25, 1.0),
    wicking_mm=20.0,
    mixing="jars",
    bench=Bench(0.05, 2.0, 1.0),
    acid_line=AcidLine("citric", 8.0),
    stocks=(
        Stock(
            "slate",
            "Slate 1 %",
            "dye",
            10.0,
            "weighed",
            6.0,
            20.0,
            (Swatch(0.5, "#9aa5b0", "#f3eee2"), Swatch(2.0, "#4a5a6a", "#f3eee2")),
        ),
        Stock("rust", "Rust, by spoon", "dye", 8.5, "spoon", 5.0, 0.0, (Swatch(1.0, "#b4532a", "#f2ebdc"),)),
        Stock("water", "Acid water", "let-down", acid_g_per_l=16.0),
        Stock("citric", "Citric stock", "let-down", acid_g_per_l=100.0),
    ),
    liquors=(
        Liquor("tide", "A", "Tide", "parts", (Part("slate", 12.0), Part("water", 38.0))),
        Liquor("cliff", "B", "Cliff", "depth", (Part("water", 1.0),), (DyeDepth("rust", 1.2),)),
    ),
    sections=(
        Section("s1", "Deep end", "tide", None, 0.0, 0.0, True),
        Section("s2", "", "cliff", 125.0, 10.0, 25.0, False),
        Section("s3", "Foam", "tide", 130.0),
    ),
    boundaries=(Boundary(1.0, 0.02), Boundary(2.1, -0.01)),
)

SECOND = dataclasses.replace(
    FIRST,
    fibre=Fibre(
        150.0,
        6.0,
        2,
        "#f3eee2",
        (),
        (Roving(148.0, (MassMark(0.25, 0.3), MassMark(0.75, 0.7))), Roving(152.0)),
    ),
    yarn=Yarn(
        structure="free",
        plies=(Ply(2, 1.0, 0.5, 0.5, (Strip(14.0), Strip(12.0, flipped=True)), 2.0),),
        knitting=Knitting(0.4, 1.3),
        stripes=(Stripe("tide", 4.0), Stripe("cliff", 12.5, "metres")),
    ),
)

THIRD = dataclasses.replace(
    SECOND,
    bench=Bench(0.05, 2.0, 1.0, 60.0),
    stocks=(dataclasses.replace(FIRST.stocks[0], made_ml=250.0), *FIRST.stocks[1:]),
    timetable=Timetable(soak_min=40.0, steam_min=50.0, start_min=570.0),
)

SLATE, RUST, *LET_DOWNS = THIRD.stocks
MEASURED = Swatch(1.0, "#8ba1b4", "#f3eee2", tuple(round(0.5 - band / 100.0, 2) for band in range(31)))
EVERY_KEY = dataclasses.replace(
    THIRD,
    stocks=(
        dataclasses.replace(SLATE, swatches=(*SLATE.swatches, MEASURED)),
        dataclasses.replace(RUST, is_fluorescent=True),
        *LET_DOWNS,
    ),
)

#: The keys that an unknown value leaves out.
OPTIONAL = {
    "row_m",
    "syringe_ml",
    "made_ml",
    "start_min",
    "acid_line",
    "soak_acid_g_per_l",
    "acid_g_per_l",
    "fixed_ml",
    "reflectance",
}

Steps = tuple[str | int, ...]
Tree = dict[Any, Any]


def document() -> Tree:
    read: Tree = json.loads(VERSION_4.read_bytes())
    return read


def walk(value: object, steps: Steps = ()) -> Iterator[tuple[Steps, object]]:
    """Yield every value below `value` with the steps that lead to it."""
    members: Iterator[tuple[str | int, object]] = iter(())
    if isinstance(value, dict):
        members = iter(value.items())
    elif isinstance(value, list):
        members = iter(enumerate(value))
    for step, inner in members:
        yield (*steps, step), inner
        yield from walk(inner, (*steps, step))


def place(steps: Steps) -> str:
    return "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in steps).removeprefix(".")


def owner(tree: Tree, steps: Steps) -> Tree:
    """Return the object or list that holds the value at `steps`."""
    for step in steps[:-1]:
        tree = tree[step]
    return tree


def changed(steps: Steps, change: Callable[[Tree, str | int], object]) -> bytes:
    """Return the sample file after `change(owner, key)` on the value at `steps`."""
    tree = document()
    change(owner(tree, steps), steps[-1])
    return json.dumps(tree).encode()


def with_value(steps: Steps, value: object) -> bytes:
    return changed(steps, lambda holder, key: holder.__setitem__(key, value))


def refusal(data: bytes) -> tuple[str, dict[str, Param]]:
    with pytest.raises(FileProblem) as caught:
        plan_from_json(data)
    return caught.value.code, caught.value.params


def read_or_refused(data: bytes) -> Plan | FileProblem:
    try:
        return plan_from_json(data)
    except FileProblem as problem:
        return problem


VALUES = dict(walk(document()))
KEYS = [steps for steps in VALUES if isinstance(steps[-1], str)]
NUMBERS = [steps for steps, value in VALUES.items() if type(value) in (int, float) and steps != ("version",)]
TEXTS = [steps for steps, value in VALUES.items() if isinstance(value, str)]
OBJECTS: list[Steps] = [(), *(steps for steps, value in VALUES.items() if isinstance(value, dict))]
KINDS = {
    type(None): "null",
    bool: "boolean",
    int: "integer",
    float: "number",
    str: "string",
    list: "array",
    dict: "object",
}
#: Every value of the sample with one of every type it may not have.
OTHERS: tuple[object, ...] = (None, True, 7, 7.5, "7", [], {})
RETYPED = [
    pytest.param(steps, other, id=f"{place(steps)}-{KINDS[type(other)]}")
    for steps, value in VALUES.items()
    for other in OTHERS
    if type(other) is not type(value) and not (type(value) is float and type(other) is int)
]
#: The acid line stands on this one.
ACID_OF_CITRIC = ("stocks", 3, "acid_g_per_l")


def test_the_fourth_version_of_the_file_stays_as_it_is() -> None:
    assert plan_to_json(EVERY_KEY) == VERSION_4.read_bytes()
    assert plan_from_json(VERSION_4.read_bytes()) == EVERY_KEY


def test_a_file_of_the_first_version_gets_the_usual_yarn() -> None:
    assert plan_from_json(VERSION_1.read_bytes()) == FIRST
    assert FIRST.yarn == Yarn()


def test_a_file_of_the_second_version_gets_the_usual_timetable() -> None:
    assert plan_from_json(VERSION_2.read_bytes()) == SECOND
    assert SECOND.timetable == Timetable()


@pytest.mark.parametrize(
    ("steps", "value"),
    [(("timetable",), {}), (("bench", "syringe_ml"), 60.0), (("stocks", 1, "made_ml"), 100.0)],
)
def test_a_file_of_the_second_version_has_nothing_of_the_third(steps: Steps, value: object) -> None:
    tree = json.loads(VERSION_2.read_bytes())
    owner(tree, steps)[steps[-1]] = value

    code, params = refusal(json.dumps(tree).encode())
    assert (code, params["place"]) == ("unknown-key", place(steps))


def test_a_file_of_the_second_version_with_strange_stocks_is_told_so() -> None:
    for strange in (7, [7]):
        tree = json.loads(VERSION_2.read_bytes()) | {"stocks": strange}

        assert refusal(json.dumps(tree).encode())[0] == "wrong-type"


def test_a_file_of_the_third_version_has_colours_without_spectra_of_dyes_that_do_not_glow() -> None:
    assert plan_from_json(VERSION_3.read_bytes()) == THIRD
    assert not any(stock.is_fluorescent for stock in THIRD.stocks)


@pytest.mark.parametrize(
    ("steps", "value"),
    [(("stocks", 0, "is_fluorescent"), True), (("stocks", 0, "swatches", 1, "reflectance"), [0.5] * 31)],
)
def test_a_file_of_the_third_version_has_nothing_of_the_fourth(steps: Steps, value: object) -> None:
    tree = json.loads(VERSION_3.read_bytes())
    owner(tree, steps)[steps[-1]] = value

    code, params = refusal(json.dumps(tree).encode())
    assert (code, params["place"]) == ("unknown-key", place(steps))


@pytest.mark.parametrize(
    "steps", [("stocks",), ("stocks", 0), ("stocks", 0, "swatches"), ("stocks", 0, "swatches", 0)], ids=place
)
def test_a_file_of_the_third_version_with_strange_swatches_is_told_so(steps: Steps) -> None:
    tree = json.loads(VERSION_3.read_bytes())
    owner(tree, steps)[steps[-1]] = 7

    code, params = refusal(json.dumps(tree).encode())
    assert (code, params["place"]) == ("wrong-type", place(steps))


def test_the_colour_of_a_measured_swatch_is_that_of_its_spectrum_whatever_a_file_says() -> None:
    assert plan_from_json(with_value(("stocks", 0, "swatches", 2, "srgb"), "#ff0000")) == EVERY_KEY


def test_a_file_of_the_first_version_without_fibre_is_told_so() -> None:
    tree = json.loads(VERSION_1.read_bytes()) | {"fibre": 7}

    assert refusal(json.dumps(tree).encode())[0] == "wrong-type"


@pytest.mark.parametrize(("steps", "value"), [(("yarn",), {}), (("fibre", "measured"), [])])
def test_a_file_of_the_first_version_has_nothing_of_the_second(steps: Steps, value: object) -> None:
    tree = json.loads(VERSION_1.read_bytes())
    owner(tree, steps)[steps[-1]] = value

    assert refusal(json.dumps(tree).encode())[0] == "unknown-key"


def test_the_sample_has_every_key_of_every_dataclass() -> None:
    written = {steps[-1] for steps in KEYS}
    parts = (Plan, Fibre, MassMark, Lay, Liquid, AcidLimits, AcidLine, Bench, Stock, Swatch, Liquor, Part)
    others = (DyeDepth, Section, Boundary, Roving, Yarn, Ply, Strip, Stripe, Knitting, Timetable)
    fields = {field.name for part in (*parts, *others) for field in dataclasses.fields(part)}

    assert written == fields | {"document", "version"}


@given(plans())
def test_a_plan_comes_back_as_it_was_and_saves_to_the_same_bytes(plan: Plan) -> None:
    data = plan_to_json(plan)

    loaded = plan_from_json(data)

    assert loaded == plan
    assert plan_to_json(loaded) == data


@given(plans(most_sections=3))
def test_the_file_needs_no_particular_order_or_layout(plan: Plan) -> None:
    shuffled = json.dumps(json.loads(plan_to_json(plan)), sort_keys=True)

    assert plan_from_json(shuffled.encode()) == plan


def test_one_number_changed_is_one_line_changed() -> None:
    moved = dataclasses.replace(EVERY_KEY, boundaries=(Boundary(1.1, 0.02), Boundary(2.1, -0.01)))

    before, after = (plan_to_json(plan).splitlines() for plan in (EVERY_KEY, moved))

    assert len(before) == len(after)
    assert [(old, new) for old, new in zip(before, after, strict=True) if old != new] == [
        (b'    {"position_m": 1.0, "gap_m": 0.02},', b'    {"position_m": 1.1, "gap_m": 0.02},')
    ]


def test_whole_numbers_and_capitals_are_taken_and_written_one_way() -> None:
    by_hand = json.loads(VERSION_4.read_bytes())
    by_hand["fibre"] |= {"mass_g": 150, "undyed_srgb": "#F3EEE2"}
    by_hand["wicking_mm"] = 20

    assert plan_to_json(plan_from_json(json.dumps(by_hand).encode())) == VERSION_4.read_bytes()
    assert plan_to_json(dataclasses.replace(EVERY_KEY, wicking_mm=20)) == VERSION_4.read_bytes()


@pytest.mark.parametrize(
    "steps", [steps for steps in KEYS if steps[-1] in OPTIONAL and steps != ACID_OF_CITRIC], ids=place
)
def test_an_unknown_value_leaves_its_key_out(steps: Steps) -> None:
    unknown = plan_from_json(changed(steps, lambda holder, key: holder.pop(key)))

    assert unknown != EVERY_KEY
    assert steps not in dict(walk(json.loads(plan_to_json(unknown))))


@pytest.mark.parametrize("steps", [steps for steps in KEYS if steps[-1] not in OPTIONAL], ids=place)
def test_a_missing_key_is_named(steps: Steps) -> None:
    code, params = refusal(changed(steps, lambda holder, key: holder.pop(key)))

    assert code == ("not-a-plan" if steps == ("document",) else "key-missing")
    assert params["place"] == place(steps)


@pytest.mark.parametrize("steps", KEYS, ids=place)
def test_a_misspelt_key_is_named_beside_those_it_may_stand_for(steps: Steps) -> None:
    code, params = refusal(changed(steps, lambda holder, key: holder.update({f"{key}s": holder.pop(key)})))

    if steps in {("document",), ("version",)}:
        assert params["place"] == place(steps)
    else:
        assert (code, params["place"], params["key"]) == ("unknown-key", f"{place(steps)}s", f"{steps[-1]}s")
        assert str(steps[-1]) in str(params["absent"]).split(", ")


@pytest.mark.parametrize(("steps", "value"), RETYPED)
def test_a_value_of_another_type_is_refused_with_what_was_expected(steps: Steps, value: object) -> None:
    code, params = refusal(with_value(steps, value))

    assert params["place"] == place(steps)
    if steps == ("document",):
        assert code == "not-a-plan"
    else:
        kinds = (KINDS[type(VALUES[steps])], KINDS[type(value)])
        assert (code, params["expected"], params["found"]) == ("wrong-type", *kinds)


@pytest.mark.parametrize("steps", OBJECTS, ids=place)
def test_a_key_of_one_s_own_is_refused_in_every_object(steps: Steps) -> None:
    tree = document()
    owner(tree, (*steps, ""))["remark"] = "dyed twice"

    code, params = refusal(json.dumps(tree).encode())

    assert (code, params["key"]) == ("unknown-key", "remark")
    assert params["place"] == place((*steps, "remark"))


@pytest.mark.parametrize("steps", NUMBERS, ids=place)
def test_a_number_out_of_range_is_refused_with_its_place(steps: Steps) -> None:
    for value in (-1_000_000, 1_000_001):
        code, params = refusal(with_value(steps, value))

        let_down = steps[-1] == "strength_g_per_l" and steps[1] in (2, 3)
        assert code == ("let-down-with-dye" if let_down else "out-of-range")
        assert params["place"] == re.sub(r"\[\d+\]$", "", place(steps))
        assert let_down or {"field", "value", "low", "high"} <= params.keys()


@pytest.mark.parametrize("steps", TEXTS, ids=place)
def test_a_text_that_no_plan_may_hold_is_refused_with_its_place_and_a_short_quote(steps: Steps) -> None:
    _, params = refusal(with_value(steps, "\x00" + "x" * 100_000))

    pointing = {
        ("acid_line", "stock_id"): "acid_line",
        ("sections", "liquor_id"): "sections",
    }
    named = pointing.get((str(steps[0]), str(steps[-1])), place(steps))
    if steps[0] == "liquors" and steps[-1] == "stock_id":
        named = "liquors"
    assert params["place"] == named
    quoted = [value for name, value in params.items() if isinstance(value, str) and name != "allowed"]
    assert all(len(value) <= LONGEST_QUOTE for value in quoted)


@pytest.mark.parametrize(
    ("steps", "value", "code", "where"),
    [
        (("liquors", 1, "letter"), "A", "letter-twice", "liquors"),
        (("liquors", 1, "id"), "tide", "id-twice", "liquors"),
        (("liquors", 1, "depths", 0, "stock_id"), "water", "stock-twice", "liquors[1].parts"),
        (("liquors", 1, "depths", 0, "stock_id"), "citric", "depth-of-let-down", "liquors"),
        (("liquors", 1, "parts", 0, "stock_id"), "slate", "dye-among-let-downs", "liquors"),
        (("liquors", 0, "basis"), "depth", "dye-among-let-downs", "liquors"),
        (("liquors", 1, "basis"), "parts", "depths-on-parts-basis", "liquors[1].depths"),
        (("stocks", 3, "id"), "water", "id-twice", "stocks"),
        (("stocks", 3, "acid_g_per_l"), 0, "acid-line-without-acid", "acid_line"),
        (("stocks", 0, "swatches"), [], "dye-without-swatch", "stocks[0].swatches"),
        (("stocks", 0, "swatches", 1, "srgb"), "slate", "not-a-colour", "stocks[0].swatches[1].srgb"),
        (
            ("fibre", "measured", 0, "mass_marks", 1, "strip_share"),
            0.25,
            "marks-not-rising",
            "fibre.measured[0].mass_marks",
        ),
        (("lay", "fold_positions_m"), [2.9, 2.9], "folds-not-rising", "lay.fold_positions_m"),
        (("lay", "fold_positions_m"), [6], "fold-past-end", "lay.fold_positions_m"),
        (("sections",), [], "no-sections", "sections"),
        (("boundaries",), [], "boundaries-do-not-match", "boundaries"),
        (("boundaries", 1, "position_m"), 1, "section-too-short", "boundaries"),
    ],
)
def test_what_the_plan_itself_refuses_keeps_its_code_and_gains_a_place(
    steps: Steps, value: object, code: str, where: str
) -> None:
    assert refusal(with_value(steps, value))[0] == code
    assert refusal(with_value(steps, value))[1]["place"] == where


def test_a_choice_is_refused_beside_all_there_is_to_choose_from() -> None:
    assert refusal(with_value(("lay", "matching"), "by eye")) == (
        "not-one-of",
        {"place": "lay.matching", "value": "by eye", "allowed": "by length, by weight"},
    )


def test_a_file_of_a_newer_program_is_told_from_a_broken_one() -> None:
    newer = document() | {"version": VERSION + 1, "mixing": "syringe", "spools": 3}

    assert refusal(json.dumps(newer).encode()) == (
        "file-newer",
        {"place": "version", "version": VERSION + 1, "ours": VERSION},
    )


@pytest.mark.parametrize("version", [0, -1])
def test_a_version_that_never_was_is_refused(version: int) -> None:
    expected = {"place": "version", "version": version, "ours": VERSION}

    assert refusal(with_value(("version",), version)) == ("version-unknown", expected)


@pytest.mark.parametrize(
    ("data", "where", "found"),
    [
        (b"[]", "", "array"),
        (b"12", "", "integer"),
        (b'"roving-lay-plan"', "", "string"),
        (b"null", "", "null"),
        (b"{}", "document", ""),
        (b'{"name": "some-package", "version": 1}', "document", ""),
        (b'{"document": "section-map", "version": 1}', "document", "section-map"),
        (b'{"document": ["roving-lay-plan"], "version": 1}', "document", "array"),
    ],
)
def test_another_document_is_no_plan_whatever_else_is_in_it(data: bytes, where: str, found: str) -> None:
    assert refusal(data) == ("not-a-plan", {"place": where, "found": found})


def test_a_file_cut_anywhere_is_refused() -> None:
    data = VERSION_4.read_bytes()
    complete = len(data) - len(b"\n")

    for length in range(complete):
        code, _ = refusal(data[:length])
        assert code in {"not-json", "not-utf8"} if length else code == "file-empty"
    assert plan_from_json(data[:complete]) == EVERY_KEY


@given(plans(most_sections=3), st.data())
def test_any_value_anywhere_is_read_or_refused_and_never_a_crash(plan: Plan, data: st.DataObject) -> None:
    tree = json.loads(plan_to_json(plan))
    steps = data.draw(st.sampled_from([steps for steps, _ in walk(tree)]))
    scalars = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5)
    owner(tree, steps)[steps[-1]] = data.draw(
        scalars | st.lists(scalars, max_size=3) | st.dictionaries(st.text(max_size=5), scalars, max_size=3)
    )

    outcome = read_or_refused(json.dumps(tree).encode())

    if isinstance(outcome, Plan):
        assert plan_from_json(plan_to_json(outcome)) == outcome
    else:
        assert "place" in outcome.params


def test_a_plan_too_large_to_be_read_again_is_not_written() -> None:
    stocks = tuple(Stock(f"{'🐑' * 60}{n}", "Water", "let-down") for n in range(30))
    parts = tuple(Part(stock.id, 1.0) for stock in stocks)
    liquors = tuple(Liquor(str(n), str(n)[-3:].zfill(3), "", "parts", parts) for n in range(1000))
    plan = dataclasses.replace(
        EVERY_KEY,
        stocks=stocks,
        liquors=liquors,
        sections=(Section("s1", "", "0"),),
        boundaries=(),
        acid_line=None,
        yarn=Yarn(),
    )

    with pytest.raises(FileProblem) as caught:
        plan_to_json(plan)

    assert (caught.value.code, caught.value.params) == (
        "file-too-large",
        {"most_bytes": LARGEST_FILE_BYTES},
    )
