"""Two colours beside each other: of sections, swatches, the undyed fibre, or typed.

The rule of this module: it stays beside the plan and follows it; it changes nothing.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QFormLayout,
    QGridLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.colour.compare import compare_labs
from studio_gui.domain.comparing import PlanColour, plan_colours
from studio_gui.drawing.look import look_for
from studio_gui.views.choices import ChoiceField, ColourField
from studio_gui.views.labels import TonedLabel, call, explain
from studio_gui.views.limits_link import LimitsLink
from studio_gui.views.live import LiveDialog, LiveWidget
from studio_gui.wording.colours import TypedColour, shown_lab_numbers
from studio_gui.wording.comparing import colour_name, difference_line, directions_line

TYPED = "typed"


class PairView(QWidget):
    """Two colours that meet, without a line between them."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._colours = (QColor(), QColor())
        self.setMinimumHeight(96)

    def show_colours(self, first: str, second: str) -> None:
        """Show two colours, ``#rrggbb``."""
        self._colours = (QColor(first), QColor(second))
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(360, 120)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            box = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
            half = round(box.width() / 2.0)
            painter.fillRect(QRectF(box.left(), box.top(), half, box.height()), self._colours[0])
            painter.fillRect(box.adjusted(half, 0.0, 0.0, 0.0), self._colours[1])
            painter.setPen(QPen(look_for(self.palette()).film_edge, 1.0))
            painter.drawRect(box)
        finally:
            painter.end()


class ComparePanel(LiveWidget):
    """The choice of two colours, and what there is to say of them."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._colours: dict[object, PlanColour] = {}
        self._keys: list[object] = [None, None]
        self._typed = [TypedColour("#808080"), TypedColour("#808080")]
        self.sides = (ChoiceField(), ChoiceField())
        self.fields = (ColourField("srgb"), ColourField("srgb"))
        self.told = (TonedLabel("secondary"), TonedLabel("secondary"))
        self.pair = PairView()
        self.difference, self.grade, self.directions = (TonedLabel("text") for _ in range(3))
        self.indicative = LimitsLink()
        self._labels = [QLabel() for _ in range(2)]
        for side, (choice, field) in enumerate(zip(self.sides, self.fields, strict=True)):
            choice.chosen.connect(partial(self._choose, side))
            field.meant.connect(partial(self._type, side))
        self._lay_out()
        self._keep_up(document, self.refresh, turn=1)
        self._retranslate()

    def compare_sections(self, first_id: str, second_id: str) -> None:
        """Choose the colours of two sections."""
        self._keys = [("section", first_id, 0), ("section", second_id, 0)]
        for field in self.fields:
            field.edit.drop()
        self.refresh()

    def refresh(self) -> None:
        """Show the colours as the plan has them now."""
        plan = self._document.sheet.plan
        self._colours = {colour.key: colour for colour in plan_colours(self._document.sheet)}
        choices: list[tuple[str, object]] = [
            (colour_name(colour, plan), key) for key, colour in self._colours.items()
        ]
        choices.append((self.tr("typed or picked"), TYPED))
        ids = [section.id for section in plan.sections]
        usual = (("section", ids[0], 0), ("section", ids[1 % len(ids)], 0))
        for side, choice in enumerate(self.sides):
            if self._keys[side] not in (*self._colours, TYPED):
                self._keys[side] = usual[side]
            choice.set_choices(choices, self._keys[side])
        self._show()

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(4)
        for side in range(2):
            self.told[side].setWordWrap(True)
            rows = (self.sides[side], self.fields[side], self.fields[side].edit.message, self.told[side])
            for row, part in enumerate(rows):
                grid.addWidget(part, row, side)
            grid.setColumnStretch(side, 1)
        figures = QFormLayout()
        figures.setHorizontalSpacing(12)
        for label, line in zip(self._labels, (self.difference, self.grade), strict=True):
            figures.addRow(label, line)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addLayout(grid)
        column.addWidget(self.pair, 1)
        column.addLayout(figures)
        column.addWidget(self.directions)
        self.directions.setWordWrap(True)
        column.addWidget(self.indicative)

    def _side(self, side: int) -> TypedColour:
        """Return the colour of a side; that of a plan is compared as a screen shows it."""
        colour = self._colours.get(self._keys[side])
        return self._typed[side] if colour is None else TypedColour(colour.srgb, colour.outside)

    def _show(self) -> None:
        pair = [self._side(side) for side in range(2)]
        for colour, field, told in zip(pair, self.fields, self.told, strict=True):
            field.set_value(colour.srgb)
            words = shown_lab_numbers(colour.lab)
            if colour.is_nearest and colour.typed_lab is None:
                words += " · " + self.tr("outside what screens show; the nearest is shown and compared")
            elif colour.is_nearest:
                words += " · " + self.tr("outside what screens show; the nearest is shown")
            told.show_text(words)
            told.set_tone("under" if colour.is_nearest else "secondary")
        first, second = pair
        comparison = compare_labs(first.lab, second.lab)
        self.pair.show_colours(first.srgb, second.srgb)
        self.difference.show_text(difference_line(comparison))
        self.grade.show_text(comparison.grade)
        self.directions.show_text(directions_line(comparison))

    def _choose(self, side: int, key: object) -> None:
        self.fields[side].edit.drop()
        if key == TYPED:
            self._typed[side] = self._side(side)
        self._keys[side] = key
        self._show()

    def _type(self, side: int, colour: TypedColour) -> None:
        self._typed[side], self._keys[side] = colour, TYPED
        self.refresh()

    def _retranslate(self) -> None:
        names = (self.tr("First colour"), self.tr("Second colour"))
        for name, choice, field in zip(names, self.sides, self.fields, strict=True):
            call(choice, name)
            field.set_name(name)
            explain(field.edit, self.tr("Any colour, as #rrggbb or as CIE Lab (D65, 2°)"))
        self._labels[0].setText(self.tr("CIEDE2000"))
        self._labels[1].setText(self.tr("Grey-scale grade"))
        explain(
            self.grade,
            self.tr(
                "Grey scale for change in colour, ISO 105-A02: 5 is no change, 1 the largest of nine steps"
            ),
        )
        self.refresh()


class CompareWindow(LiveDialog):
    """A window around the panel."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.panel = ComparePanel(document)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.reject)
        for button in buttons.buttons():
            button.setProperty("autoDefault", False)  # Enter ends a field, not the window
        column = QVBoxLayout(self)
        column.addWidget(self.panel, 1)
        column.addWidget(buttons)
        self.resize(480, 430)
        self._retranslate()

    def open_for_selection(self) -> None:
        """Come to the front; two selected sections, or the selected one and its neighbour, are compared."""
        plan, chosen = self._document.plan, self._document.selected_ids
        if not self.isVisible() and plan.sections:
            ids = [section.id for section in plan.sections]
            first = chosen[0] if chosen else ids[0]
            after = ids[(ids.index(first) + 1) % len(ids)]
            self.panel.compare_sections(first, chosen[1] if len(chosen) > 1 else after)
        self.show()
        self.raise_()
        self.activateWindow()

    def _retranslate(self) -> None:
        self.setWindowTitle(self.tr("Compare two colours"))
