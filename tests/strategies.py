"""Hypothesis strategies for whole plans: `plans()` draws valid ones of every kind a painter may have.

Numbers keep to what a bench could hold, with every digit a float can carry; names come in any script.
"""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import strategies as st

from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.fibre import MATCHINGS, Fibre, Lay, MassMark, Roving, even_folds, mean_mass_g
from studio_gui.domain.geometry import equal_mass_folds, lay_length_m
from studio_gui.domain.liquors import DyeDepth, Liquor, Part
from studio_gui.domain.plan import AcidLimits, AcidLine, Bench, Liquid, Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.stocks import STRENGTHS_KNOWN, Stock
from studio_gui.domain.text import ID_MAX, LETTER_MAX, NAME_MAX
from studio_gui.domain.timetable import STEPS, Timetable
from studio_gui.domain.yarn import STRIPE_MEASURES, STRUCTURES, Knitting, Ply, Strip, Stripe, Yarn

_CHARACTERS = st.characters(exclude_categories=("Cc", "Cs"))
_NAMES_TO_TRY = (
    "Two Shores",
    "Фьорд",
    "藍と茜",
    "أزرق البحر",
    "שחור לבן",
    "नीला",
    "ไคร้ามาตรฐาน",
    "🐑🌊",
    "👩‍🎨🧶🏴󠁧󠁢󠁳󠁣󠁴󠁿",
    "\u202eright to left\u202c",
    "e\u0301 and é",
    'quote " backslash \\ brackets ]}[{',
    "line\u2028separator",
)


def texts(longest: int) -> st.SearchStrategy[str]:
    """Texts that a plan accepts and that are not blank, at most `longest` characters."""
    drawn = st.text(_CHARACTERS, min_size=1, max_size=min(longest, 12)).filter(
        lambda text: text.strip() != ""
    )
    return st.sampled_from([name for name in _NAMES_TO_TRY if len(name) <= longest]) | drawn


def names() -> st.SearchStrategy[str]:
    """Names in any script, from blank to as long as they may be."""
    return st.just("") | texts(NAME_MAX) | _CHARACTERS.map(lambda character: character * NAME_MAX)


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers from `low` to `high`, now and then a whole one typed as such."""
    floats = st.floats(low, high)
    whole_low, whole_high = int(-(-low // 1)), int(high // 1)
    return floats | st.integers(whole_low, whole_high) if whole_low <= whole_high else floats


def colours() -> st.SearchStrategy[str]:
    """Colours as `#rrggbb`, in either case."""
    return st.builds(str.format, st.sampled_from(("#{:06x}", "#{:06X}")), st.integers(0, 0xFFFFFF))


@st.composite
def fibres(draw: st.DrawFn) -> Fibre:
    """Rovings, even or with marks of weight, alike or weighed one by one: up to twice as heavy in places."""
    rovings, length_m, srgb = draw(st.integers(1, 6)), draw(numbers(0.5, 20.0)), draw(colours())
    if draw(st.booleans()) and draw(st.booleans()):
        each = tuple(Roving(draw(numbers(5.0, 500.0)), _marks(draw)) for _ in range(rovings))
        return Fibre(mean_mass_g(each), length_m, rovings, srgb, (), each)
    return Fibre(draw(numbers(5.0, 500.0)), length_m, rovings, srgb, _marks(draw))


def _marks(draw: st.DrawFn) -> tuple[MassMark, ...]:
    marks = draw(st.integers(0, 4))
    shares = [_rising_shares(draw, marks + 1) for _ in ("strip", "mass")]
    return tuple(MassMark(strip, mass) for strip, mass in zip(*shares, strict=True))


@st.composite
def lays(draw: st.DrawFn, fibre: Fibre) -> Lay:
    """Lays of one to four passes: legs equal, of equal weight, or neither; matched either way."""
    passes = draw(st.integers(1, 4))
    uneven = tuple(share * fibre.length_m for share in _rising_shares(draw, passes))
    folds = draw(
        st.sampled_from((even_folds(fibre.length_m, passes), equal_mass_folds(fibre, passes), uneven))
    )
    return Lay(folds, draw(st.sampled_from(MATCHINGS)), draw(numbers(0.0, 1.0)))


@st.composite
def stocks(draw: st.DrawFn, stock_id: str, *, dye: bool) -> Stock:
    """A dye with one to three swatches, or a let-down; acid known, none or unknown."""
    acid = draw(st.none() | st.just(0.0) | numbers(0.1, 50.0))
    take_up = draw(numbers(0.5, 10.0))
    if not dye:
        return Stock(stock_id, draw(texts(NAME_MAX)), "let-down", take_up_pct_owf=take_up, acid_g_per_l=acid)
    return Stock(
        id=stock_id,
        name=draw(texts(NAME_MAX)),
        role="dye",
        strength_g_per_l=draw(numbers(0.5, 100.0)),
        strength_known=draw(st.sampled_from(STRENGTHS_KNOWN)),
        take_up_pct_owf=take_up,
        acid_g_per_l=acid,
        swatches=tuple(draw(st.lists(_swatches(), min_size=1, max_size=3))),
        made_ml=draw(st.none() | numbers(1.0, 5000.0)),
        is_fluorescent=draw(st.sampled_from((False, False, False, True))),
    )


@st.composite
def liquors(draw: st.DrawFn, liquor_id: str, letter: str, bottles: tuple[Stock, ...]) -> Liquor:
    """A liquor made of `bottles`, on either basis; on parts also the empty one that paints nothing."""
    dyes = [stock.id for stock in bottles if stock.is_dye]
    let_downs = [stock.id for stock in bottles if not stock.is_dye]
    name = draw(names())
    if draw(st.booleans()) and let_downs:
        fillers = draw(st.lists(st.sampled_from(let_downs), unique=True, min_size=1, max_size=2))
        wanted = draw(st.lists(st.sampled_from(dyes), unique=True, max_size=3) if dyes else st.just([]))
        parts = tuple(Part(stock_id, draw(numbers(0.5, 100.0))) for stock_id in fillers)
        depths = tuple(DyeDepth(stock_id, draw(numbers(0.0, 4.0))) for stock_id in wanted)
        return Liquor(liquor_id, letter, name, "depth", parts, depths)
    chosen = draw(st.lists(st.sampled_from(dyes + let_downs), unique=True, max_size=4))
    return Liquor(
        liquor_id, letter, name, "parts", tuple(Part(id_, draw(numbers(0.0, 100.0))) for id_ in chosen)
    )


@st.composite
def sections(draw: st.DrawFn, section_id: str, liquor_ids: list[str]) -> Section:
    """A section, locked or not, whose liquid is fixed or follows the fibre; sometimes wiped."""
    return Section(
        id=section_id,
        name=draw(names()),
        liquor_id=draw(st.sampled_from(liquor_ids)),
        fixed_ml=draw(st.none() | numbers(0.0, 500.0)),
        wiped_ml=draw(st.just(0.0) | numbers(0.0, 100.0)),
        second_pass_ml=draw(st.just(0.0) | numbers(0.0, 100.0)),
        locked=draw(st.booleans()),
    )


@st.composite
def plans(draw: st.DrawFn, most_sections: int = 12) -> Plan:
    """Valid plans of 1 to `most_sections` sections; what may be absent is there in some of them only."""
    fibre = draw(fibres())
    lay = draw(lays(fibre))
    bottles = tuple(draw(stocks(stock_id, dye=draw(st.booleans()))) for stock_id in _ids(draw, 6))
    jars = _ids(draw, 6)
    letters = draw(st.lists(texts(LETTER_MAX), unique=True, min_size=len(jars), max_size=len(jars)))
    painted = tuple(draw(liquors(jar, letter, bottles)) for jar, letter in zip(jars, letters, strict=True))
    stretches = tuple(draw(sections(section_id, jars)) for section_id in _ids(draw, most_sections))
    return Plan(
        title=draw(names()),
        fibre=fibre,
        lay=lay,
        stocks=bottles,
        liquors=painted,
        sections=stretches,
        boundaries=_boundaries(draw, len(stretches), lay_length_m(fibre, lay)),
        liquid=draw(_liquids()),
        acid=draw(st.builds(AcidLimits, numbers(1.0, 3.0), numbers(0.0, 5.0))),
        wicking_mm=draw(numbers(0.0, 60.0)),
        bench=draw(st.builds(Bench, numbers(0.0, 0.5), numbers(0.0, 10.0), numbers(0.1, 10.0), _SYRINGES)),
        acid_line=draw(_acid_lines(bottles)),
        yarn=draw(yarns(fibre.rovings, jars)),
        timetable=draw(_timetables()),
    )


@st.composite
def yarns(draw: st.DrawFn, rovings: int = 1, liquor_ids: Sequence[str] = ()) -> Yarn:
    """Yarns of every structure, of a set of so many rovings, with stripes wanted of some liquors."""
    strips = st.lists(st.builds(Strip, numbers(1.0, 20.0), st.booleans()), min_size=1, max_size=4).map(tuple)
    count = draw(st.integers(1, 4))
    plies = tuple(
        Ply(draw(st.integers(1, rovings)), *ends, 1.0 / count, draw(strips), draw(numbers(0.0, 20.0)))
        for ends in draw(
            st.lists(
                st.sampled_from(((0.0, 1.0), (1.0, 0.0), (0.0, 0.5), (1.0, 0.25))),
                min_size=count,
                max_size=count,
            )
        )
    )
    wanted = st.builds(Stripe, st.sampled_from(liquor_ids or ("",)), numbers(0.1, 50.0), _MEASURES)
    return Yarn(
        singles_m_per_g=draw(numbers(1.0, 40.0)),
        take_up=draw(numbers(0.0, 0.3)),
        structure=draw(st.sampled_from(STRUCTURES)),
        splits=tuple(draw(st.lists(numbers(1.0, 60.0), min_size=2, max_size=4))),
        strips=draw(strips),
        offsets_m=tuple(draw(st.lists(numbers(0.0, 20.0), min_size=1, max_size=4))),
        plies=plies,
        loop_m=draw(numbers(0.05, 1.0)),
        knitting=Knitting(draw(numbers(0.1, 2.0)), draw(st.none() | numbers(0.1, 5.0)), draw(st.booleans())),
        stripes=tuple(draw(st.lists(wanted, max_size=3))) if liquor_ids else (),
    )


def _timetables() -> st.SearchStrategy[Timetable]:
    minutes = (numbers(0.0, 3000.0) for _ in STEPS)
    return st.builds(Timetable, *minutes, st.none() | st.integers(0, 1439))


_SYRINGES = st.none() | numbers(0.5, 100.0)
_MEASURES = st.sampled_from(STRIPE_MEASURES)


def _boundaries(draw: st.DrawFn, pieces: int, length_m: float) -> tuple[Boundary, ...]:
    """Draw the boundaries between `pieces` sections; gaps leave at least half of each section."""
    edges = [0.0, *(share * length_m for share in _rising_shares(draw, pieces)), length_m]
    boundaries = []
    for before, here, after in zip(edges, edges[1:], edges[2:], strict=False):
        widest_m = min(1.0, here - before, after - here) / 2.0
        boundaries.append(Boundary(here, widest_m * draw(st.just(0.0) | st.floats(-1.0, 1.0))))
    return tuple(boundaries)


def _swatches() -> st.SearchStrategy[Swatch]:
    spectra = st.tuples(st.floats(0.0, 1.2), st.floats(0.0, 1.2)).map(
        lambda ends: tuple((ends[0] * (30 - band) + ends[1] * band) / 30.0 for band in range(31))
    )
    return st.builds(Swatch, numbers(0.05, 5.0), colours(), colours(), st.none() | st.none() | spectra)


def _liquids() -> st.SearchStrategy[Liquid]:
    acid = st.none() | st.just(0.0) | numbers(0.1, 50.0)
    return st.builds(Liquid, numbers(0.5, 5.0), numbers(0.0, 2.0), numbers(2.0, 6.0), numbers(0.0, 2.0), acid)


def _acid_lines(bottles: tuple[Stock, ...]) -> st.SearchStrategy[AcidLine | None]:
    sour = [stock.id for stock in bottles if not stock.is_dye and stock.acid_g_per_l]
    if not sour:
        return st.none()
    return st.none() | st.builds(AcidLine, st.sampled_from(sour), numbers(0.0, 20.0))


def _ids(draw: st.DrawFn, most: int) -> list[str]:
    prefix = draw(st.just("") | texts(ID_MAX - 2))
    return [f"{prefix}{index}" for index in range(1, draw(st.integers(1, most)) + 1)]


def _rising_shares(draw: st.DrawFn, pieces: int) -> tuple[float, ...]:
    """Draw the `pieces - 1` rising shares, none at 0 or 1, that cut a whole into `pieces`; none too small."""
    weights = draw(st.lists(st.floats(1.0, 4.0), min_size=pieces, max_size=pieces))
    total = sum(weights)
    return tuple(sum(weights[: index + 1]) / total for index in range(pieces - 1))
