"""colour-science, the independent reference of these checks."""

from __future__ import annotations

import importlib
import warnings
from types import ModuleType

import pytest


@pytest.fixture(scope="module")
def colour_science() -> ModuleType:
    # On import it tells which of its optional parts (SciPy, Matplotlib) are absent; none is used here.
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", message='"(SciPy|Matplotlib)" related API features')
        return importlib.import_module("colour")
