"""What tests stand on: no display, the bundled font, nobody's settings, orderly deletion of Qt objects."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterator

import pytest
from hypothesis import settings
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtGui import QFont, QFontDatabase
from PySide6.QtWidgets import QApplication

from studio_gui.paths import font_path
from studio_gui.wording.translation import install_units

# Scripts that measure, not tests.
collect_ignore = ["benchmarks"]

# Qt reads these when the application is made, which no import does. The locale makes numbers and language the
# same on every machine, and is UTF-8, without which Qt warns.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ["LC_ALL"] = "C.UTF-8"
os.environ.pop("LANGUAGE", None)

# No deadline: a slow machine is no wrong result. In CI the same examples each time, so that failures repeat.
settings.register_profile("roving-lay", deadline=None, derandomize="CI" in os.environ, max_examples=40)
# For runs that measure coverage, which are slower: what a branch needs has an example of its own.
settings.register_profile("few-examples", deadline=None, derandomize=True, max_examples=10)
# For a night's search: pytest --hypothesis-profile=many-examples
settings.register_profile("many-examples", deadline=None, max_examples=2000)
settings.load_profile("roving-lay")


@pytest.fixture(scope="session", autouse=True)
def _own_settings(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Tests read and write no settings, recent files or recovery copies of the person who runs them."""
    with pytest.MonkeyPatch.context() as patch:
        for kind in ("CONFIG", "DATA", "STATE", "CACHE"):
            patch.setenv(f"XDG_{kind}_HOME", str(tmp_path_factory.mktemp(kind.lower())))
        yield


@pytest.fixture(autouse=True)
def _metric() -> Iterator[None]:
    """Units belong to the whole program: no test hands other ones on to the next."""
    yield
    install_units("metric")


@pytest.fixture(scope="session")
def qapp(qapp: QApplication) -> QApplication:
    """The application, with the bundled font: where the system has none, text would be drawn as nothing."""
    families = {family for bold in (False, True) for family in _families_of(bold=bold)}
    assert families == {"Noto Sans"}
    qapp.setFont(QFont("Noto Sans", 10))
    return qapp


def _families_of(*, bold: bool) -> list[str]:
    path = font_path(bold=bold)
    number = QFontDatabase.addApplicationFont(str(path))
    assert number != -1, f"Qt does not load {path}"
    return QFontDatabase.applicationFontFamilies(number)


@pytest.fixture(autouse=True)
def _orderly_deletion(request: pytest.FixtureRequest) -> Iterator[None]:
    """Collect, and delete what is marked, between GUI tests only: collection amid Qt's events can crash."""
    if "qapp" not in request.fixturenames:
        yield
        return
    gc.disable()
    try:
        yield
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    finally:
        gc.enable()
        gc.collect()
