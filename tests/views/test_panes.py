"""If these fail, a pane stays in the old language or colours, or cannot be used by keys or by ear."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from itertools import pairwise

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt, QTranslator
from PySide6.QtGui import QAccessible, QColor, QPalette
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QLineEdit, QTableView, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.inputs import set_passes
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.edits.swatches import change_swatch
from studio_gui.domain.plan import Plan
from studio_gui.drawing.look import contrast, look_for
from studio_gui.views.bench_pane import BenchPane
from studio_gui.views.checks_pane import ChecksPane
from studio_gui.views.inputs_pane import InputsPane
from studio_gui.views.labels import TonedLabel
from studio_gui.views.panes import Panes
from studio_gui.views.section_pane import SectionPane
from studio_gui.views.section_table import SectionTable
from studio_gui.views.stock_form import StockForm
from studio_gui.views.stocks_pane import StocksPane
from studio_gui.views.swatch_view import SwatchView
from studio_gui.views.totals_bar import TotalsBar
from studio_gui.views.yarn_pane import YarnPane
from tests.drawing.plans import plain_plan
from tests.views.keys import shown

PANES: tuple[Callable[[OpenPlan], QWidget], ...] = (
    ChecksPane,
    InputsPane,
    SectionPane,
    SectionTable,
    StocksPane,
    TotalsBar,
    SwatchView,
    YarnPane,
    BenchPane,
)


class Shouting(QTranslator):
    """A language in which everything is said in capitals; what is filled in stays findable."""

    def translate(self, context: str, text: str, *_: object) -> str:  # noqa: ARG002  (Qt's signature)
        return "".join(part if part.startswith("{") else part.upper() for part in _parts(text))

    def isEmpty(self) -> bool:
        return False


def _parts(text: str) -> Iterator[str]:
    while text:
        before, brace, rest = text.partition("{")
        yield before
        if brace:
            name, _, rest = rest.partition("}")
            yield f"{{{name}}}"
        text = rest


@pytest.fixture
def shouting(qapp: QApplication) -> Iterator[Callable[[], None]]:
    """Change the language of the running program when called."""
    translator = Shouting()

    def change() -> None:
        QCoreApplication.installTranslator(translator)
        qapp.processEvents()

    yield change
    QCoreApplication.removeTranslator(translator)
    qapp.processEvents()


def full_plan() -> Plan:
    """A folded plan with a check of several kinds and one liquor by depth."""
    plan = set_passes(plain_plan(4, rovings=2), 2)
    plan = change_section(plan, "s2", fixed_ml=400.0)
    return replace(plan, stocks=(*plan.stocks, replace(plan.stocks[2], id="k9", name="Spare")))


def texts(pane: QWidget) -> list[str]:
    """Return everything a pane says: labels, buttons, lists, fields, tables, tooltips, accessible names."""
    said: list[str] = []
    for widget in (pane, *pane.findChildren(QWidget)):
        said += [widget.toolTip(), widget.accessibleName(), widget.accessibleDescription()]
        if isinstance(widget, (QLabel, QAbstractButton, QLineEdit)):
            said.append(widget.text())
        if isinstance(widget, QLineEdit):
            said.append(widget.placeholderText())
        elif isinstance(widget, QComboBox):
            said += [widget.itemText(place) for place in range(widget.count())]
            said.append(widget.placeholderText())
        elif isinstance(widget, QTableView) and widget.model() is not None:
            said += _table_texts(widget)
    return [text for text in said if text]


def _table_texts(view: QTableView) -> list[str]:
    model = view.model()
    columns = range(model.columnCount())
    headings = [str(model.headerData(column, Qt.Orientation.Horizontal)) for column in columns]
    cells = [str(model.index(0, column).data()) for column in columns]
    return headings + cells


@pytest.mark.parametrize("pane_class", PANES)
def test_a_pane_changes_its_language_while_it_is_shown(
    pane_class: Callable[[OpenPlan], QWidget], qtbot: QtBot, shouting: Callable[[], None]
) -> None:
    document = OpenPlan(full_plan())
    pane = shown(pane_class(document), qtbot, 400, 900)
    english = texts(pane)
    shouting()
    fresh = pane_class(document)
    qtbot.addWidget(fresh)
    assert texts(pane) == texts(fresh)
    assert texts(pane) != english


@pytest.mark.parametrize("pane_class", PANES)
def test_a_pane_follows_the_palette_and_stays_readable(
    pane_class: Callable[[OpenPlan], QWidget], qtbot: QtBot, qapp: QApplication
) -> None:
    document = OpenPlan(full_plan())
    pane = shown(pane_class(document), qtbot, 400, 900)
    light = qapp.palette()
    dark = QPalette(QColor("#3a3b3f"), QColor("#2f3033"))
    dark.setColor(QPalette.ColorRole.Base, QColor("#1c1d20"))
    try:
        for palette in (dark, light):
            qapp.setPalette(palette)
            qapp.processEvents()
            for label in pane.findChildren(TonedLabel):
                around = label.parentWidget()
                assert around is not None
                ground = around.palette().color(label.backgroundRole())
                assert contrast(label.palette().color(label.foregroundRole()), ground) >= 4.5, label.text()
            assert look_for(pane.palette()) is look_for(palette)
    finally:
        qapp.setPalette(light)
        qapp.sendPostedEvents(None, QEvent.Type.PaletteChange)


@pytest.mark.parametrize("pane_class", PANES)
def test_whatever_takes_the_keyboard_has_a_name(
    pane_class: Callable[[OpenPlan], QWidget], qtbot: QtBot
) -> None:
    pane = shown(pane_class(OpenPlan(full_plan())), qtbot, 400, 900)
    for widget in pane.findChildren(QWidget):
        if widget.isVisible() and widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
            interface = QAccessible.queryAccessibleInterface(widget)
            assert interface.text(QAccessible.Text.Name), f"{type(widget).__name__} is nameless"


@pytest.mark.parametrize(
    "pane_class", [InputsPane, SectionPane, StocksPane, SectionTable, ChecksPane, YarnPane, BenchPane]
)
def test_tab_goes_through_a_pane_and_out_again(
    pane_class: Callable[[OpenPlan], QWidget], qtbot: QtBot
) -> None:
    pane = shown(pane_class(OpenPlan(full_plan())), qtbot, 400, 1400)
    QApplication.processEvents()
    stops = {
        widget
        for widget in pane.findChildren(QWidget)
        if widget.isVisible()
        and widget.isEnabled()
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and widget.focusProxy() is None
    }
    visited: list[QWidget] = []
    QTest.keyClick(pane, Qt.Key.Key_Tab)
    for _ in range(len(stops)):
        here = QApplication.focusWidget()
        assert here is not None
        visited.append(here)
        QTest.keyClick(here, Qt.Key.Key_Tab)
    assert len(set(visited)) == len(stops), "a stop is left out or come to twice"
    heights = [widget.mapTo(pane, widget.rect().center()).y() for widget in visited]
    jumps_up = [after for before, after in pairwise([*heights, heights[0]]) if after < before - 30]
    assert len(jumps_up) <= 1, f"not from top to bottom: {heights}"


@pytest.mark.parametrize("pane_class", PANES)
def test_forty_sections_and_long_names_do_not_widen_a_pane(
    pane_class: Callable[[OpenPlan], QWidget], qtbot: QtBot
) -> None:
    pane = shown(pane_class(OpenPlan(full_plan())), qtbot, 400, 900)
    narrow = pane.minimumSizeHint().width()
    long = plain_plan(40)
    for section in long.sections[:3]:
        long = change_section(long, section.id, name="A name that goes on and on " * 10)
    stocks = tuple(replace(stock, name="Sea blue as deep as it gets " * 10) for stock in long.stocks)
    liquors = tuple(replace(liquor, name="Of many waters " * 20) for liquor in long.liquors)
    wide = pane_class(OpenPlan(replace(long, stocks=stocks, liquors=liquors, title="Two Shores " * 20)))
    qtbot.addWidget(wide)
    assert wide.minimumSizeHint().width() <= max(narrow, 360)


def test_many_rows_come_and_go(qtbot: QtBot) -> None:
    document = OpenPlan(plain_plan(4))
    for pane_class in PANES:
        qtbot.addWidget(pane_class(document))
    for plan in (plain_plan(200), plain_plan(1), plain_plan(4)):
        document.edit("Replace", partial(_other, other=plan))
    while document.undo_stack.canUndo():
        document.undo_stack.undo()
    assert len(document.sheet.plan.sections) == 4


def _other(_: Plan, other: Plan) -> Plan:
    return other


def test_what_a_measurement_says_outlasts_another_selection(document: OpenPlan, qtbot: QtBot) -> None:
    window = QWidget()
    panes = Panes(document, window)
    panes.inputs.setParent(window)
    shown(window, qtbot)
    panel = panes.inputs.measuring.weighings
    for field, grams in zip(panel.fields.values(), (10.0, 20.0, 45.0, 52.0), strict=True):
        field.entered.emit(grams)
    said = panel.hint.text()
    document.select("s2")
    assert said
    assert panel.hint.text() == said


def test_what_is_said_of_a_swatch_stays_when_the_plan_moves_on(document: OpenPlan, qtbot: QtBot) -> None:
    panes = Panes(document, document)
    pane = shown(panes.stocks, qtbot, 300, 900)
    form = pane.findChild(StockForm)
    assert form is not None
    form.show_stock("k1")
    form.open_fields(True)
    row = form.swatches.rows[0]

    document.edit("Bluer than its fibre", partial(change_swatch, stock_id="k1", place=0, srgb="#5a86ff"))
    QApplication.processEvents()
    document.edit("Another title", lambda plan: replace(plan, title="Moved on"))
    QApplication.processEvents()

    assert "bluer than its fibre" in row.fit.text()
    assert row.fit.isVisible()
