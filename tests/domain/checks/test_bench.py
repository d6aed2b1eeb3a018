"""If these fail, a bottle runs dry at the bench and nobody was told."""

from __future__ import annotations

from studio_gui.domain.checks.bench import stocks_short
from studio_gui.domain.edits.mends import apply_mend
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Bench
from tests.scenes.scene_plans import by_parts, dye, laid, let_down

#: 125 ml on 50 g: 31 ml of D and 94 ml of AW, as they are measured.
PLAN = laid(
    [("Pale", 2.0)],
    [dye("D"), let_down("AW", 10.0)],
    [by_parts("Pale", {"D": 1.0, "AW": 3.0})],
    bench=Bench(spare_share=0.0),
)


def test_a_stock_that_is_made_too_small_is_warned_of() -> None:
    (check,) = stocks_short(section_figures(change_stock(PLAN, "D", made_ml=25.0)))
    assert (check.code, check.severity, check.section_ids) == ("stock-short", "warning", ())
    assert check.params == {"stock_id": "D", "need_ml": 31.0, "made_ml": 25.0, "short_ml": 6.0}


def test_what_does_and_what_is_only_suggested_is_not() -> None:
    assert list(stocks_short(section_figures(PLAN))) == []
    assert list(stocks_short(section_figures(change_stock(PLAN, "D", made_ml=31.0)))) == []


def test_one_click_makes_enough() -> None:
    short = change_stock(PLAN, "AW", made_ml=50.0)
    (check,) = stocks_short(section_figures(short))
    mended = apply_mend(short, check.mends[0])
    assert mended.stock("AW").made_ml == 100.0
    assert list(stocks_short(section_figures(mended))) == []
