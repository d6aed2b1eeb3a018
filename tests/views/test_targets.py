"""If these fail, somebody with an unsteady hand, or wet gloves, misses what he aims at.

WCAG 2.2, 2.5.8: targets are at least 24 px each way, unless another control does the same.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractSlider,
    QApplication,
    QComboBox,
    QDockWidget,
    QLineEdit,
    QScrollBar,
    QWidget,
)
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.drawing.lay_layout import TARGET
from studio_gui.views.graduated_slider import GraduatedSlider
from studio_gui.views.lay_canvas import LayCanvas
from studio_gui.views.main_window import MainWindow
from tests.drawing.plans import plain_plan
from tests.views.whole_window import whole_window

AIMED_AT = (QAbstractButton, QLineEdit, QComboBox, QAbstractSlider)


def has_an_equal(widget: QWidget) -> str:
    """Return what does the same as a small target; "" where nothing does."""
    if isinstance(widget.parentWidget(), QDockWidget):
        return "the View menu shows and hides the pane"  # the style's own buttons of a pane's title
    if isinstance(widget, QScrollBar):
        return "wheel and keys scroll"
    if isinstance(widget.parentWidget(), QComboBox):
        return "the box around the field"
    if isinstance(widget, GraduatedSlider):
        return "the field above it takes the same amount"
    return ""


@pytest.mark.parametrize("sample", ["storm-kettle", "long-dusk"])
def test_everything_that_is_aimed_at_is_large_enough(qtbot: QtBot, tmp_path: Path, sample: str) -> None:
    window = whole_window(qtbot, tmp_path, sample)
    aimed_at = [one for kind in AIMED_AT for one in window.findChildren(kind) if one.isVisible()]
    assert len(aimed_at) > 40
    small = [
        f"{type(one).__name__} {one.accessibleName() or one.objectName()} {one.width()} x {one.height()}"
        for one in aimed_at
        if min(one.width(), one.height()) < TARGET and not has_an_equal(one)
    ]
    assert small == []


def test_rows_of_tables_are_high_enough(qtbot: QtBot, tmp_path: Path) -> None:
    window: MainWindow = whole_window(qtbot, tmp_path)
    view = window.panes.table.view
    assert view.rowHeight(0) >= TARGET


def test_a_peg_is_hit_within_24_px(qapp: QApplication) -> None:  # noqa: ARG001  (a canvas is a widget)
    canvas = LayCanvas(OpenPlan(plain_plan(4)))
    canvas.resize(1100, 620)
    layout = canvas.lay
    for item in layout.items:
        if item.kind == "section":
            continue
        assert min(item.rect.width(), item.rect.height()) >= TARGET
        for dx in (-TARGET / 2.0 + 0.5, TARGET / 2.0 - 0.5):
            point = item.slip.center()
            point.setX(point.x() + dx)
            found = layout.item_at(point)
            assert found is not None
            assert (found.kind, found.index) == (item.kind, item.index)
    canvas.deleteLater()
