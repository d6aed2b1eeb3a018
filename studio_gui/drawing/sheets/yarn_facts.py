"""What is said of a yarn on its page: figures, how it is spun, wanted stripes, pairs and runs.

The rule of this module: what a spinner needs first comes first; every figure is the worksheet's. Of a yarn
that changes very often the first runs and pairs are told, and how many more there are.
"""

from __future__ import annotations

from collections.abc import Iterator

from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.flow import Entry
from studio_gui.wording.naming import one_line
from studio_gui.wording.quantities import LAY_LENGTH, MASS, SHARE, YARN_LENGTH, shown
from studio_gui.wording.spin_steps import spin_steps
from studio_gui.wording.spinning import strand_note
from studio_gui.wording.stripes import bare_amount, fit_words, measure_name, place_words
from studio_gui.wording.translation import translate
from studio_gui.wording.yarn_words import letters_of, yarn_figures_told

#: More runs, or pairs, than this are only counted: each would be a hair's breadth of the yarn.
MOST_TOLD = 80


def yarn_entries(sheet: Worksheet) -> Iterator[Entry]:
    """Yield all that is said of a worksheet's yarn."""
    yield from _figures(sheet)
    yield from _steps(sheet)
    if sheet.yarn.plied_m > 0.0:
        yield from _stripes(sheet)
        yield from _pairs(sheet)
        yield from _runs(sheet)


def _figures(sheet: Worksheet) -> Iterator[Entry]:
    yarn = sheet.yarn
    told = yarn_figures_told(yarn)
    heading = translate("YarnSheet", "Figures of one roving")
    if sheet.plan.fibre.rovings == 1 or sheet.plan.yarn.structure in ("rovings", "free"):
        heading = translate("YarnSheet", "Figures")
    yield Entry(heading, is_heading=True)
    yield Entry(translate("YarnSheet", "Yarn"), told["length"])
    yield Entry(translate("YarnSheet", "Grist"), told["grist"])
    yield Entry(translate("YarnSheet", "Solid"), told["solid"])
    yield Entry(translate("YarnSheet", "Barber-pole"), told["barber_pole"])
    if yarn.is_chain:
        yield Entry(translate("YarnSheet", "A change mixes"), told["smear_each"])
        yield Entry(translate("YarnSheet", "All changes mix"), told["smear_all"])
    for number, strand in enumerate(yarn.strands, start=1):
        yield Entry(translate("YarnSheet", "Ply {0}, singles").format(number), strand_note(strand))
    if not any(yarn.leftover_m):
        yield Entry(translate("YarnSheet", "Left over"), translate("YarnSheet", "nothing"))
    figures = zip(yarn.leftover_m, yarn.leftover_g, yarn.leftover_shares, strict=True)
    for number, (left_m, left_g, share) in enumerate(figures, start=1):
        if left_m > 0.0:
            parts = (shown(YARN_LENGTH, left_m), shown(MASS, left_g), shown(SHARE, share))
            yield Entry(translate("YarnSheet", "Left of ply {0}").format(number), " · ".join(parts))


def _steps(sheet: Worksheet) -> Iterator[Entry]:
    yield Entry(translate("YarnSheet", "Spinning"), is_heading=True)
    for number, step in enumerate(spin_steps(sheet), start=1):
        yield Entry(f"{number}. {step}")


def _stripes(sheet: Worksheet) -> Iterator[Entry]:
    plan, laid = sheet.plan, sheet.stripes
    if not plan.yarn.stripes:
        return
    yield Entry(translate("YarnSheet", "Wanted stripes"), is_heading=True)
    yield Entry(" ".join(filter(None, (fit_words(laid), place_words(laid)))))
    lengths: dict[int, float] = {}
    for place, start_m, end_m in zip(laid.order, laid.edges_m, laid.edges_m[1:], strict=False):
        lengths[place] = lengths.get(place, 0.0) + end_m - start_m
    rows = {liquor.id: row for row, liquor in enumerate(plan.liquors)}
    for number, stripe in enumerate(plan.yarn.stripes):
        liquor = plan.liquor(stripe.liquor_id)
        amount = f"{bare_amount(stripe)} {measure_name(stripe.measure)}"
        on_lay = translate("YarnSheet", "{0} of lay").format(shown(LAY_LENGTH, lengths.get(number, 0.0)))
        yield Entry(
            one_line(f"{number + 1}. {liquor.letter} {liquor.name}"),
            f"{amount} · {on_lay}",
            colours=(hex_from_srgb(sheet.liquor_colours.srgb[rows[liquor.id]]),),
        )


def _pairs(sheet: Worksheet) -> Iterator[Entry]:
    yarn = sheet.yarn
    yield Entry(translate("YarnSheet", "Side by side"), is_heading=True)
    many = translate("YarnSheet", "smeared") if yarn.is_chain else translate("YarnSheet", "barber-pole")
    for pair in yarn.pairs[:MOST_TOLD]:
        liquors = tuple(dict.fromkeys(pair.liquors)) if pair.solid else pair.liquors
        look = translate("YarnSheet", "solid") if pair.solid else many
        parts = (shown(YARN_LENGTH, pair.plied_m), shown(SHARE, yarn.share(pair.plied_m)))
        yield Entry(
            f"{one_line(letters_of(sheet.plan, liquors))} {look}",
            " · ".join(parts),
            colours=_colours(sheet, liquors),
        )
    yield from _more(len(yarn.pairs))


def _runs(sheet: Worksheet) -> Iterator[Entry]:
    runs = sheet.yarn.runs
    yield Entry(translate("YarnSheet", "From the start"), is_heading=True)
    for run in runs[:MOST_TOLD]:
        liquors = tuple(dict.fromkeys(run.liquors)) if run.solid else run.liquors
        look = translate("YarnSheet", "solid") if run.solid else translate("YarnSheet", "barber-pole")
        place = translate("YarnSheet", "{0} from {1}").format(
            shown(YARN_LENGTH, run.end_m - run.start_m), shown(YARN_LENGTH, run.start_m)
        )
        letters = one_line(letters_of(sheet.plan, liquors))
        yield Entry(f"{letters} {look}", place, colours=_colours(sheet, liquors))
    yield from _more(len(runs))


def _more(count: int) -> Iterator[Entry]:
    if count > MOST_TOLD:
        yield Entry(translate("YarnSheet", "and {0} more").format(count - MOST_TOLD))


def _colours(sheet: Worksheet, liquors: tuple[int, ...]) -> tuple[str, ...]:
    return tuple(hex_from_srgb(sheet.liquor_colours.srgb[liquor]) for liquor in liquors)
