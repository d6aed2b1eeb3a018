"""If these fail, units are mixed up on the screen, or a choice of how things are shown is forgotten."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QLabel, QLineEdit, QTableView, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.drawing.ruler import INCH_M
from studio_gui.paths import samples_dir
from studio_gui.storage.files import read_plan
from studio_gui.views.bench_pane import BenchPane
from studio_gui.views.main_window import MainWindow
from studio_gui.wording.quantities import LAY_LENGTH, shown
from studio_gui.wording.translation import TRANSLATED, install_units
from tests.views.keys import choose, type_into

#: A number followed by a metric measure of fibre or liquid. Strengths and acid are % and g/L in all units.
METRIC = re.compile(r"\d\s*(g|cm|mm|m|ml|ml/g|ml/oz)\b(?!/L)")
METRIC_HEADING = re.compile(r"^(.*, )?(g|cm|mm|m|ml|ml/g|(Need|Jar) ml)$")


@pytest.fixture
def settings(tmp_path: Path) -> QSettings:
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


def opened(qtbot: QtBot, settings: QSettings, sample: str = "storm-kettle") -> MainWindow:
    plan = read_plan(samples_dir() / f"{sample}.roving.json")
    window = MainWindow(OpenPlan(plan), Preferences(settings))
    qtbot.addWidget(window, before_close_func=lambda one: one.document.undo_stack.setClean())
    with qtbot.waitExposed(window):
        window.show()
    assert window.panes is not None
    return window


def said(window: QWidget) -> Iterator[tuple[str, str]]:
    """Where and what: every text, tooltip, accessible text and heading in a window."""
    for widget in window.findChildren(QWidget):
        if _is_of_the_bench(widget):
            continue
        where = f"{type(widget).__name__} {widget.accessibleName()}"
        if isinstance(widget, QLabel | QLineEdit | QAbstractButton):
            yield where, widget.text()
        yield f"tooltip of {where}", widget.toolTip()
        yield f"name of {where}", widget.accessibleName()
        yield f"description of {where}", widget.accessibleDescription()
        if isinstance(widget, QTableView):
            yield from cells(widget)


def _is_of_the_bench(widget: QWidget) -> bool:
    """Whether it is where jars are measured and powder is weighed: in ml and g whatever the units."""
    around: QWidget | None = widget
    while around is not None and not isinstance(around, BenchPane):
        around = around.parentWidget()
    return around is not None


def cells(view: QTableView) -> Iterator[tuple[str, str]]:
    model = view.model()
    roles = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole)
    for column in range(model.columnCount()):
        heading = str(model.headerData(column, Qt.Orientation.Horizontal))
        yield f"heading in {view.accessibleName()}", f"1 {heading}" if METRIC_HEADING.match(heading) else ""
        for row in range(model.rowCount()):
            for role in roles:
                yield f"{view.accessibleName()} {row} {heading}", str(model.index(row, column).data(role))


def metric(window: MainWindow) -> list[tuple[str, str]]:
    found = [(where, text) for where, text in said(window) if METRIC.search(text)]
    # an example of what may be typed, in any unit; the sum of a line of amounts, in ml as the line is
    return [
        (where, text)
        for where, text in found
        if not where.startswith("tooltip of DepthField") and not text.startswith("= ")
    ]


@pytest.mark.parametrize("sample", ["storm-kettle", "harbour-thaw", "long-dusk"])
def test_no_pane_keeps_a_metric_measure_in_us_units(qtbot: QtBot, settings: QSettings, sample: str) -> None:
    window = opened(qtbot, settings, sample)
    in_metric = metric(window)
    assert len(in_metric) > 20
    choose(window.choices.units_box.box, "US")
    assert metric(window) == []
    choose(window.choices.units_box.box, "Metric")
    assert metric(window) == in_metric


def test_menu_and_tool_bar_choose_alike_and_say_so(qtbot: QtBot, settings: QSettings) -> None:
    window = opened(qtbot, settings)
    assert window.choices.units_box.box.currentText() == "Metric"
    window.choices.units_menu.choices["mixed"].trigger()
    assert window.choices.units_box.box.currentText() == "Mixed"
    assert window.statusBar().currentMessage() == "Units: Mixed. Plans stay metric in their files."
    choose(window.choices.units_box.box, "US")
    assert window.choices.units_menu.choices["us"].isChecked()
    assert not window.isWindowModified(), "a choice of units is no change of the plan"


def test_the_units_come_back_at_the_next_start(qtbot: QtBot, settings: QSettings) -> None:
    opened(qtbot, settings).choices.units_menu.choices["us"].trigger()
    install_units("metric")  # as the program starts
    again = opened(qtbot, settings)
    assert TRANSLATED.units == "us"
    assert again.totals.values[0].text().endswith(" oz")
    assert again.choices.units_box.box.currentText() == "US"


def test_kept_nonsense_is_metric(settings: QSettings) -> None:
    settings.setValue("units", "furlongs")
    assert Preferences(settings).units == "metric"


def test_what_is_half_typed_keeps_the_units_it_was_typed_in(qtbot: QtBot, settings: QSettings) -> None:
    window = opened(qtbot, settings, "harbour-thaw")
    field = window.panes.inputs.fields["mass_g"]
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "90")
    window.choices.units_menu.choices["us"].trigger()
    assert window.document.plan.fibre.mass_g == 90.0
    assert field.text() == "3.17 oz"
    type_into(field, "4")
    assert window.document.plan.fibre.mass_g == pytest.approx(113.398, abs=1e-3)


def test_a_refusal_does_not_stay_in_the_units_that_were(qtbot: QtBot, settings: QSettings) -> None:
    window = opened(qtbot, settings)
    field = window.panes.inputs.fields["mass_g"]
    type_into(field, "-5")
    assert field.message.text()
    window.choices.units_menu.choices["us"].trigger()
    assert not field.message.text()


def test_a_boundary_dragged_in_inches_comes_to_lie_on_a_tick(qtbot: QtBot, settings: QSettings) -> None:
    window = opened(qtbot, settings, "two-shores")
    window.choices.units_menu.choices["mixed"].trigger()
    canvas = window.canvas
    start = canvas.lay.item("boundary", 0).slip.center().toPoint()
    QTest.mousePress(canvas, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    for by_px in (9, 17):
        QTest.mouseMove(canvas, start + QPoint(by_px, 0))
    end = start + QPoint(17, 0)
    QTest.mouseRelease(canvas, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, end)
    position_m = window.document.plan.boundaries[0].position_m
    eighths = position_m / INCH_M * 8
    assert eighths == pytest.approx(round(eighths), abs=1e-6)
    assert shown(LAY_LENGTH, position_m).endswith(" in")
