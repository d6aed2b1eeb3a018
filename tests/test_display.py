"""If these fail, Qt ends the process without a word, or waits for ever, where no window can be opened."""

from __future__ import annotations

import os
import socket
from collections.abc import Iterator
from pathlib import Path

import pytest

from studio_gui import display
from studio_gui.display import NoDisplay, choose_display


@pytest.fixture(autouse=True)
def _bare_system(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A system of the X Window System and Wayland that has neither, nor wishes."""
    monkeypatch.setattr("sys.platform", "linux")
    monkeypatch.setattr(display, "PATIENCE_S", 0.2)
    monkeypatch.setenv("XDG_RUNTIME_DIR", str(tmp_path))
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        # set first, so that what `choose_display` may set is taken back
        monkeypatch.setenv(name, "")
        monkeypatch.delenv(name)


@pytest.fixture
def silent_x() -> Iterator[str]:
    """DISPLAY of a server that takes calls and never answers."""
    with socket.create_server(("127.0.0.1", 0)) as server:
        yield f"127.0.0.1:{server.getsockname()[1] - 6000}"


@pytest.fixture
def wayland(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    """WAYLAND_DISPLAY of a server that answers; Qt's plugin may lack libraries where tests run."""
    monkeypatch.setattr(display, "_load_plugin", lambda _: None)
    with socket.socket(socket.AF_UNIX) as server:
        server.bind(str(tmp_path / "w"))
        server.listen()
        yield "w"


def test_a_system_without_any_display_is_told() -> None:
    with pytest.raises(NoDisplay, match="WAYLAND_DISPLAY is not set; DISPLAY is not set"):
        choose_display()


def test_a_display_that_is_not_there_is_no_display(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DISPLAY", "127.0.0.1:59999")  # past the last port there can be
    monkeypatch.setenv("WAYLAND_DISPLAY", "gone")
    with pytest.raises(NoDisplay, match="WAYLAND_DISPLAY=gone"):
        choose_display()


def test_a_display_that_never_answers_is_given_up(monkeypatch: pytest.MonkeyPatch, silent_x: str) -> None:
    monkeypatch.setenv("DISPLAY", silent_x)
    with pytest.raises(NoDisplay):
        choose_display()


def test_a_plugin_that_lacks_a_library_names_it(monkeypatch: pytest.MonkeyPatch) -> None:
    def lacking(name: str) -> None:
        raise OSError(f"{name} lacks libxcb-cursor.so.0")

    monkeypatch.setattr(display, "_load_plugin", lacking)
    monkeypatch.setenv("DISPLAY", ":0")
    with pytest.raises(NoDisplay, match=r"libxcb-cursor\.so\.0"):
        choose_display()


def test_the_display_that_answers_is_chosen(
    monkeypatch: pytest.MonkeyPatch, silent_x: str, wayland: str
) -> None:
    monkeypatch.setenv("DISPLAY", silent_x)
    monkeypatch.setenv("WAYLAND_DISPLAY", wayland)
    choose_display()
    assert os.environ["QT_QPA_PLATFORM"] == "wayland"


def test_another_platform_that_is_asked_for_is_taken_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("QT_QPA_PLATFORM", "vnc:size=800x600")
    choose_display()
    assert os.environ["QT_QPA_PLATFORM"] == "vnc:size=800x600"


def test_a_display_that_is_asked_for_has_to_answer(monkeypatch: pytest.MonkeyPatch, wayland: str) -> None:
    monkeypatch.setenv("WAYLAND_DISPLAY", wayland)
    monkeypatch.setenv("QT_QPA_PLATFORM", "xcb")
    with pytest.raises(NoDisplay, match=r"^DISPLAY is not set$"):
        choose_display()


@pytest.mark.parametrize("system", ["darwin", "win32"])
def test_other_systems_always_have_a_display(monkeypatch: pytest.MonkeyPatch, system: str) -> None:
    monkeypatch.setattr("sys.platform", system)
    choose_display()
    assert "QT_QPA_PLATFORM" not in os.environ
