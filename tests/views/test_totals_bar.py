"""If these fail, the sums in view are not those of the set."""

from __future__ import annotations

from functools import partial

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.inputs import set_fibre, set_passes
from studio_gui.views.totals_bar import TotalsBar
from studio_gui.wording.translation import Units, install_units
from tests.views.keys import shown


@pytest.fixture
def bar(document: OpenPlan, qtbot: QtBot) -> TotalsBar:
    return shown(TotalsBar(document), qtbot, 500, 60)


def sums(bar: TotalsBar) -> list[str]:
    return [value.text() for value in bar.values if value.isVisible()]


def test_fibre_liquid_film_jars_and_sections(bar: TotalsBar, document: OpenPlan) -> None:
    # 100 g at 2.5 ml/g, 4 m and 20 cm of film, and 5 % spare
    assert sums(bar) == ["100.0 g", "250.0 ml", "4.20 m", "262.5 ml", "4"]
    document.edit("", partial(set_fibre, rovings=4))
    document.edit("", partial(set_passes, passes=2))
    assert sums(bar) == ["400.0 g", "1000.0 ml", "250.0 ml", "2.20 m", "1050.0 ml", "4"]
    assert bar.values[2].accessibleName() == "for each roving: 250.0 ml"


def test_a_preview_shows_and_goes(bar: TotalsBar, document: OpenPlan) -> None:
    document.preview(set_fibre(document.plan, mass_g=50.0))
    assert sums(bar)[0] == "50.0 g"
    document.cancel_preview()
    assert sums(bar)[0] == "100.0 g"


def test_a_screen_reader_hears_which_sum_it_is(bar: TotalsBar) -> None:
    assert bar.values[0].accessibleName() == "Fibre: 100.0 g"


@pytest.mark.parametrize("width", [280, 384, 500, 760, 1200])
@pytest.mark.parametrize("units", ["metric", "us"])
def test_no_sum_is_cut_at_any_width(
    width: int, units: Units, bar: TotalsBar, document: OpenPlan, qapp: QApplication
) -> None:
    install_units(units)
    try:
        qapp.sendEvent(bar, QEvent(QEvent.Type.LanguageChange))
        document.edit("", partial(set_fibre, rovings=30, mass_g=3000.0))
        bar.resize(max(width, bar.minimumSizeHint().width()), bar.sizeHint().height())
        qapp.processEvents()
        bar.resize(bar.width(), bar.sizeHint().height())
        qapp.processEvents()
        for value in bar.values:
            assert value.width() >= value.fontMetrics().horizontalAdvance(value.text())
            assert bar.rect().contains(value.geometry())
    finally:
        install_units("metric")


def test_nothing_moves_while_figures_do(bar: TotalsBar, document: OpenPlan) -> None:
    places = [value.geometry() for value in bar.values]
    document.preview(set_fibre(document.plan, mass_g=9999.0))
    QApplication.processEvents()
    assert [value.geometry() for value in bar.values] == places
    document.cancel_preview()
