"""Three weighings of a tuft, which give its soak and what it holds.

The rule of this module: the scale's figures go in as they were read, in any unit of weight; what they give is
computed by `studio_gui.domain.liquid`.
"""

from __future__ import annotations

from PySide6.QtWidgets import QFormLayout, QLabel, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.liquid import holding_from_weighings, void_volume_ml_per_g
from studio_gui.views.fields import with_message
from studio_gui.views.labels import MessageLabel, TonedLabel, call
from studio_gui.views.live import LiveWidget
from studio_gui.views.measured_field import MeasuredField
from studio_gui.views.proposals import Proposals
from studio_gui.wording.measured import void_hint
from studio_gui.wording.sentences import refusal

_FIELDS = {"dry": "tuft_g", "squeezed": "tuft_g", "soaked": "tuft_g", "room": "tuft_ml"}


class WeighingsPanel(LiveWidget):
    """Fields for the weighings, and what they give."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.how = TonedLabel("secondary")
        self.how.setWordWrap(True)
        self.fields = {name: MeasuredField(field) for name, field in _FIELDS.items()}
        self._labels = {name: QLabel() for name in _FIELDS}
        self.hint = MessageLabel("secondary")
        self.message = MessageLabel()
        self.proposals = Proposals(document, ("soak_ml_per_g", "limit_ml_per_g"))
        form = QFormLayout()
        for name, field in self.fields.items():
            field.changed.connect(self._reckon)
            self._labels[name].setBuddy(field)
            form.addRow(self._labels[name], with_message(field))
        column = QVBoxLayout(self)
        column.addWidget(self.how)
        column.addLayout(form)
        column.addWidget(self.message)
        column.addWidget(self.hint)
        column.addWidget(self.proposals)
        column.addStretch(1)
        self._retranslate()

    def _retranslate(self) -> None:
        self.how.show_text(
            self.tr(
                "Weigh a tuft of the fibre three times: dry; soaked and squeezed as before painting; soaked"
                " through and wrapped, as full as it holds without dripping. Take the weight of the wrapping"
                " off."
            )
        )
        words = {
            "dry": self.tr("&Dry"),
            "squeezed": self.tr("&Squeezed"),
            "soaked": self.tr("Soaked and &wrapped"),
            "room": self.tr("&Room it takes up, if known"),
        }
        for name, label in self._labels.items():
            label.setText(words[name])
            call(self.fields[name], words[name].replace("&", ""))
        self._reckon()

    def _reckon(self) -> None:
        """Show what the weighings give, once there are three; what cannot be is said."""
        dry, squeezed, soaked = (self.fields[name].value for name in ("dry", "squeezed", "soaked"))
        self.message.say("")
        self.hint.say("")
        if dry is None or squeezed is None or soaked is None:
            self.proposals.propose({}, ())
            return
        try:
            measured = holding_from_weighings(dry, squeezed, soaked)
            room = self.fields["room"].value
            if room is not None:
                self.hint.say(void_hint(void_volume_ml_per_g(dry / room), measured.limit_ml_per_g))
        except RovingLayError as problem:
            self.message.say(refusal(problem))
            self.proposals.propose({}, ())
            return
        figures = {"soak_ml_per_g": measured.soak_ml_per_g, "limit_ml_per_g": measured.limit_ml_per_g}
        self.proposals.propose(figures, tuple(figures))
