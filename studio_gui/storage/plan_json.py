"""Plans as JSON: what stands in `NAME.roving.json`.

The rule of this module: the file says what `studio_gui.storage.shapes` makes of the dataclasses, and nothing
else is accepted. Saving what was loaded gives the same bytes.

Codes, besides those of `strict_json`, of `shapes` and of the plan itself: ``not-a-plan``.
"""

from __future__ import annotations

from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.errors import FileProblem
from studio_gui.domain.fibre import Fibre, Lay, MassMark, Roving
from studio_gui.domain.liquors import DyeDepth, Liquor, Part
from studio_gui.domain.plan import AcidLimits, AcidLine, Bench, Liquid, Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.stocks import Stock
from studio_gui.domain.timetable import Timetable
from studio_gui.domain.yarn import Knitting, Ply, Strip, Stripe, Yarn
from studio_gui.storage.shapes import Shapes, take_version
from studio_gui.storage.strict_json import Json, check_bounds, kind_of, parse, place_of, quoted, serialise

DOCUMENT = "roving-lay-plan"
VERSION = 4

#: The oldest version that is still read: it had no yarn, and no rovings weighed one by one. Version 2 had no
#: timetable, no volumes of stocks to make, and no syringe. Version 3 had no spectra of swatches, and no
#: fluorescent dyes.
OLDEST = 1

_KEYS = (
    "title",
    "fibre",
    "lay",
    "liquid",
    "acid",
    "wicking_mm",
    "mixing",
    "bench",
    "timetable",
    "acid_line",
    "stocks",
    "liquors",
    "sections",
    "boundaries",
    "yarn",
)

#: What the dataclasses call a value in their refusals, where that is not the name of one of their own fields.
_KEY_OF_FIELD = {
    "fold_position_m": "fold_positions_m",
    "acid_ratio_limit": "ratio",
    "acid_floor_pct_owf": "floor_pct_owf",
    "acid_g_per_l": "jar_g_per_l",
    "swatch_depth_pct_owf": "depth_pct_owf",
    "stock_id": "id",
    "stock_name": "name",
    "liquor_id": "id",
    "liquor_name": "name",
    "section_id": "id",
    "section_name": "name",
    "boundary_m": "position_m",
    "fold_positions_m": "lay.fold_positions_m",
    "letter": "liquors",
    "depths": "liquors",
    "parts": "liquors",
    "strip_weight": "weight",
    "split_weight": "splits",
    "ply_roving": "roving",
    "offset_m": "offsets_m",
    "knitted_width_m": "width_m",
    "stripe_amount": "amount",
    "stripes": "yarn.stripes",
    "plies": "yarn.plies",
}

_SHAPES = Shapes(
    (
        Plan,
        Fibre,
        MassMark,
        Roving,
        Lay,
        Liquid,
        AcidLimits,
        AcidLine,
        Bench,
        Timetable,
        Stock,
        Swatch,
        Liquor,
        Part,
        DyeDepth,
        Section,
        Boundary,
        Yarn,
        Strip,
        Ply,
        Stripe,
        Knitting,
    ),
    _KEY_OF_FIELD,
)


def plan_to_json(plan: Plan) -> bytes:
    """Return the file's content for `plan`; the same plan always gives the same bytes.

    Raises
    ------
    FileProblem
        ``file-too-large``, ``too-many-values`` for a plan that could not be read again.
    """
    members = _SHAPES.encoded(plan)
    document: dict[str, Json] = {"document": DOCUMENT, "version": VERSION}
    data = serialise(document | {key: members[key] for key in _KEYS if key in members})
    check_bounds(data)
    return data


def plan_from_json(data: bytes) -> Plan:
    """Return the plan that `data` holds; raises as `plan_and_version`."""
    return plan_and_version(data)[0]


def plan_and_version(data: bytes) -> tuple[Plan, int]:
    """Return the plan that `data` holds, and the version it is written in.

    Raises
    ------
    FileProblem
        With the place, ``place`` (JSON path) or ``line`` and ``column``, unless the whole is too large. A
        value that no plan may hold keeps the code and the parameters of its `InvalidPlan`.
    """
    document = parse(data)
    if not isinstance(document, dict):
        raise FileProblem("not-a-plan", place="", found=kind_of(document))
    name = document.pop("document", "")
    if name != DOCUMENT:
        found = quoted(name) if isinstance(name, str) else kind_of(name)
        raise FileProblem("not-a-plan", place="document", found=found)
    version = take_version(document, VERSION, OLDEST)
    if version < 2:
        _take_from_version_1(document)
    if version < 3:
        _take_from_version_2(document)
    if version < 4:
        _take_from_version_3(document)
    return _SHAPES.decoded(Plan, document, ""), version


def _take_from_version_1(document: dict[str, Json]) -> None:
    """Add what version 1 did not have, unless the file has it against its version."""
    fibre = document.get("fibre")
    _refuse(fibre, "measured", "fibre")
    if isinstance(fibre, dict):
        fibre["measured"] = []
    _refuse(document, "yarn")
    document["yarn"] = _SHAPES.encoded(Yarn())


def _take_from_version_2(document: dict[str, Json]) -> None:
    """Add what version 2 did not have, unless the file has it against its version."""
    _refuse(document.get("bench"), "syringe_ml", "bench")
    stocks = document.get("stocks")
    for place, stock in enumerate(stocks if isinstance(stocks, list) else ()):
        _refuse(stock, "made_ml", f"stocks[{place}]")
    _refuse(document, "timetable")
    document["timetable"] = _SHAPES.encoded(Timetable())


def _take_from_version_3(document: dict[str, Json]) -> None:
    """Add what version 3 did not have, unless the file has it against its version."""
    stocks = document.get("stocks")
    for place, stock in enumerate(stocks if isinstance(stocks, list) else ()):
        _refuse(stock, "is_fluorescent", f"stocks[{place}]")
        if not isinstance(stock, dict):
            continue
        stock["is_fluorescent"] = False
        swatches = stock.get("swatches")
        for number, swatch in enumerate(swatches if isinstance(swatches, list) else ()):
            _refuse(swatch, "reflectance", f"stocks[{place}].swatches[{number}]")


def _refuse(holder: Json, key: str, place: str = "") -> None:
    """Refuse a key that the file's version does not know; what is no object is refused later."""
    if isinstance(holder, dict) and key in holder:
        raise FileProblem("unknown-key", place=place_of(place, key), key=key, absent="")
