"""An open plan for tests of panes: four sections of 25 g; the first and the last share liquor A."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication

from studio_gui.document.open_plan import OpenPlan
from tests.drawing.plans import plain_plan


@pytest.fixture
def document(qapp: QApplication) -> OpenPlan:  # noqa: ARG001  (its signals need an application)
    return OpenPlan(plain_plan(4))
