"""All panes of the window, made together.

The rule of this module: it is loaded after the window's first paint, because the canvas can be looked at
before the first field can be typed into.
"""

from __future__ import annotations

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget
from shiboken6 import isValid

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.bench_pane import BenchPane
from studio_gui.views.checks_pane import ChecksPane
from studio_gui.views.curve_pane import CurvePane
from studio_gui.views.fields import EntryField
from studio_gui.views.inputs_pane import InputsPane
from studio_gui.views.labels import MessageLabel
from studio_gui.views.section_pane import SectionPane
from studio_gui.views.section_table import SectionTable
from studio_gui.views.steps_view import StepsView
from studio_gui.views.stocks_pane import StocksPane
from studio_gui.views.strip_pane import StripPane
from studio_gui.views.swatch_view import SwatchView
from studio_gui.views.yarn_pane import YarnPane


class Panes(QObject):
    """The panes that show one open plan beside the canvas; it hears of the plan as long as `window` lives."""

    def __init__(self, document: OpenPlan, window: QObject) -> None:
        super().__init__(window)
        self.inputs = InputsPane(document)
        self.stocks = StocksPane(document)
        self.section = SectionPane(document)
        self.table = SectionTable(document)
        self.yarn = YarnPane(document)
        self.bench = BenchPane(document)
        self.strip_pane = StripPane(document)
        self.strip = self.strip_pane.strip
        self.swatch = SwatchView(document)
        self.curve_pane = CurvePane(document)
        self.checks = ChecksPane(document)
        self.steps = StepsView(document)
        document.undo_stack.indexChanged.connect(self.forget_refusals)
        document.selected.connect(self.forget_refusals)

    def forget_refusals(self) -> None:
        """Take away why something was not taken, once the plan or the selection has moved on."""
        panes: tuple[QWidget, ...] = (
            self.inputs,
            self.stocks,
            self.section,
            self.yarn,
            self.bench,
            self.swatch,
            self.table,
            self.checks,
        )
        for pane in filter(isValid, panes):  # a window that goes takes its panes first
            for field in pane.findChildren(EntryField):
                field.clear_message()
            for label in pane.findChildren(MessageLabel):
                if not label.lasts:
                    label.say("")
