"""The row that lets a yarn be seen as it is spun by hand: a tick, and how uneven the spinning is.

The rule of this module: the tick is a way of looking and changes no plan; how uneven somebody spins is a
figure of the plan. Nothing is simulated while the tick is off. What takes longer than a frame may is
simulated while nobody waits; until then the spins before are shown, if they are of a yarn made alike.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from studio_gui.document.background import LatestRun
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.plies import strands_twisted
from studio_gui.domain.spinning.simulation import Spins, simulate
from studio_gui.domain.worksheet import Worksheet
from studio_gui.views.graduated_slider import GraduatedSlider
from studio_gui.views.labels import TonedLabel, call
from studio_gui.views.live import LiveWidget
from studio_gui.views.tick_box import TickBox
from studio_gui.wording.quantities import SHARE, shown_briefly

#: The slider's end; the plan may hold more, %.
MOST_PCT = 30.0
SLIDER_PX, TARGET_PX = 160, 24
#: Cuts of all strands together whose spins are had at once: they take up to 11 ms.
CUTS_AT_ONCE = 320


class UnevenSpinning(LiveWidget):
    """A tick and a slider.

    Signals
    -------
    changed
        Uneven spinning is to be shown, or no longer, or there are newer spins.
    """

    changed = Signal()

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._spins: tuple[Worksheet, Spins] | None = None
        self._run = LatestRun(self)
        self._run.done.connect(self._adopt)
        self.tick = TickBox()
        self.slider = GraduatedSlider()
        self.slider.setFixedSize(SLIDER_PX, TARGET_PX)
        self.value = TonedLabel("secondary")
        row = QHBoxLayout(self)
        row.setContentsMargins(12, 0, 12, 0)
        row.setSpacing(8)
        row.addWidget(self.tick)
        row.addWidget(self.slider)
        row.addWidget(self.value)
        row.addStretch(1)
        self.tick.toggled.connect(self._switch)
        self.slider.moved.connect(self._preview)
        self.slider.settled.connect(self._settle)
        self.slider.dropped.connect(document.cancel_preview)
        self._keep_up(document, self._show)
        self._retranslate()

    @property
    def is_on(self) -> bool:
        """Whether uneven spinning is shown."""
        return self.tick.isChecked()

    @property
    def spins(self) -> Spins | None:
        """The spins of the plan on the screen; None while they are not shown, or the first are still made."""
        if not self.is_on:
            return None
        sheet = self._document.sheet
        if self._spins is None or self._spins[0] is not sheet:
            if sum(len(strand.cuts_m) for strand in sheet.yarn.strands) <= CUTS_AT_ONCE:
                self._run.stop()
                self._spins = _spins_of(sheet)
            elif not self._run.is_running:  # one after the other, so that a long drag sees some
                self._run.ask(_spins_of, sheet)
        if self._spins is None or _made(self._spins[0].plan) != _made(sheet.plan):
            return None
        return self._spins[1]

    def _adopt(self, spins: tuple[Worksheet, Spins]) -> None:
        self._spins = spins
        self.changed.emit()

    def _switch(self) -> None:
        if not self.is_on:
            self._run.stop()
        self._show()
        self.changed.emit()

    def _preview(self, pct: float) -> None:
        self._document.preview(set_yarn(self._document.plan, spread=pct / 100.0))

    def _settle(self) -> None:
        spread = self._document.sheet.plan.yarn.spread
        self._document.cancel_preview()
        if spread != self._document.plan.yarn.spread:
            self._document.edit(self.tr("Unevenness of the spinning"), partial(set_yarn, spread=spread))

    def _show(self) -> None:
        spread = self._document.sheet.plan.yarn.spread
        self.slider.setEnabled(self.is_on)
        self.slider.show_amount(min(spread * 100.0, MOST_PCT), MOST_PCT, 1.0)
        self.value.show_text(self.tr("± {0}").format(shown_briefly(SHARE, spread)))

    def _retranslate(self) -> None:
        self.tick.setText(self.tr("As s&pun by hand"))
        self.tick.setToolTip(
            self.tr(
                "Spins the plan 300 times with a grist that wanders, and shows the yarn in the middle of them"
            )
        )
        call(self.slider, self.tr("Grist wanders up and down by"))
        self._show()


def _spins_of(sheet: Worksheet) -> tuple[Worksheet, Spins]:
    return sheet, simulate(sheet.yarn, sheet.plan.yarn.spread)


def _made(plan: Plan) -> tuple[str, int, int, int]:
    """Return what a yarn must have in common with a plan to be drawn in its colours."""
    return plan.yarn.structure, strands_twisted(plan), len(plan.sections), len(plan.liquors)
