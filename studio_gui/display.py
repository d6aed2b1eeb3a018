"""Whether a window can be opened.

The rule of this module: where no display answers, Qt ends the process instead of telling. So the displays are
tried first, as Qt will try them: the libraries of its plugin, then a connection. Only systems of the X Window
System and Wayland can lack a display; a platform the user asks for, other than those two, is taken as it is.
"""

from __future__ import annotations

import ctypes
import os
import sys
import threading
from collections.abc import Callable
from pathlib import Path

#: Longest wait for an X display to answer, s; one at the far end of a slow line takes less.
PATIENCE_S = 5.0


class NoDisplay(Exception):
    """No display can show a window; its text says, in the system's own words, what each of them lacks."""


def choose_display() -> None:
    """Make Qt use a display that answers, by QT_QPA_PLATFORM; it would try only the one it prefers.

    Raises
    ------
    NoDisplay
        When none answers.
    """
    if sys.platform in ("darwin", "win32"):
        return
    asked = os.environ.get("QT_QPA_PLATFORM", "")
    names = [part.partition(":")[0] for part in asked.split(";")] if asked else list(_TRIALS)
    if any(name not in _TRIALS for name in names):
        return
    reasons = {name: _TRIALS[name]() for name in names}
    usable = [name for name, reason in reasons.items() if not reason]
    if not usable:
        raise NoDisplay("; ".join(reasons.values()))
    if not asked and len(usable) == 1:
        os.environ["QT_QPA_PLATFORM"] = usable[0]


def _why_not_x() -> str:
    """Return what keeps Qt from the X display, "" when nothing does."""
    display = os.environ.get("DISPLAY", "")
    if not display:
        return "DISPLAY is not set"
    try:
        _load_plugin("libqxcb.so")
        xcb = ctypes.CDLL("libxcb.so.1")
    except OSError as error:
        return str(error)
    answered = threading.Event()
    # A thread, because a display that takes the call and never answers would hold it for ever.
    call = threading.Thread(target=_call_x, args=(xcb, answered), daemon=True)
    call.start()
    call.join(PATIENCE_S)
    return "" if answered.is_set() else f"DISPLAY={display} does not answer"


def _call_x(xcb: ctypes.CDLL, answered: threading.Event) -> None:
    xcb.xcb_connect.restype = ctypes.c_void_p
    xcb.xcb_connection_has_error.argtypes = [ctypes.c_void_p]
    xcb.xcb_disconnect.argtypes = [ctypes.c_void_p]
    connection = xcb.xcb_connect(None, None)
    if not xcb.xcb_connection_has_error(connection):
        answered.set()
    xcb.xcb_disconnect(connection)


def _why_not_wayland() -> str:
    """Return what keeps Qt from the Wayland display, "" when nothing does."""
    display = os.environ.get("WAYLAND_DISPLAY", "")
    if not display:
        return "WAYLAND_DISPLAY is not set"
    import socket  # noqa: PLC0415  (a start without Wayland does without it)

    try:
        _load_plugin("libqwayland.so")
        with socket.socket(socket.AF_UNIX) as line:
            line.connect(str(Path(os.environ.get("XDG_RUNTIME_DIR", ""), display)))
    except OSError as error:
        return f"WAYLAND_DISPLAY={display}: {error}"
    return ""


def _load_plugin(name: str) -> None:
    """Load a platform plugin of Qt, which Qt will do all the same; `OSError` names the library it lacks."""
    import PySide6.QtGui  # noqa: F401, PLC0415  (only where a window is wanted; brings the libraries of Qt)
    from PySide6.QtCore import QLibraryInfo  # noqa: PLC0415

    plugins = QLibraryInfo.path(QLibraryInfo.LibraryPath.PluginsPath)
    ctypes.CDLL(str(Path(plugins, "platforms", name)))


_TRIALS: dict[str, Callable[[], str]] = {"wayland": _why_not_wayland, "xcb": _why_not_x}
