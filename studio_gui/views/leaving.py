"""The end of the program by somebody else's will: a signal, or the end of the person's session.

The rule of this module: nobody is asked and nothing is lost. What is being typed is entered, or kept as it
stands where it cannot be; what is not saved is kept before anything else happens and offered at the next
start. The plan's file is not touched. Nothing runs while no signal comes.
"""

from __future__ import annotations

import contextlib
import signal
import socket

from PySide6.QtCore import QCoreApplication, QObject, QSocketNotifier, Qt, Signal
from PySide6.QtGui import QGuiApplication

from studio_gui.document.autosave import Autosave
from studio_gui.domain.errors import FileProblem
from studio_gui.storage.log import note

SIGNALS = (signal.SIGTERM, signal.SIGINT, signal.SIGHUP)
#: What a shell reports of a program that a signal has ended.
STATUS_BASE = 128


class Leaving(QObject):
    """Hears that the program has to end, and ends it.

    A signal that comes while nothing can be kept ends nothing, and the next one ends the program whatever
    becomes of it.

    Signals
    -------
    left
        What is not saved is kept, and the program has to end; carries its exit status.
    stayed
        The program should have ended and goes on, since what is not saved could not be kept.
    """

    left = Signal(int)
    stayed = Signal()

    def __init__(self, autosave: Autosave, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._autosave = autosave
        self._was_asked = False

    def listen(self) -> None:
        """Hear of signals, but those that whoever started the program wants ignored, and of the session."""
        self._reading, self._writing = socket.socketpair()  # held: closed, they would tell nothing
        for end in (self._reading, self._writing):
            end.setblocking(False)
        signal.set_wakeup_fd(self._writing.fileno(), warn_on_full_buffer=False)
        self._notifier = QSocketNotifier(self._reading.fileno(), QSocketNotifier.Type.Read, self)
        self._notifier.activated.connect(self._take)
        for number in SIGNALS:
            if signal.getsignal(number) is not signal.SIG_IGN:
                signal.signal(number, lambda _number, _frame: None)  # it comes by the socket
        application = QCoreApplication.instance()
        if isinstance(application, QGuiApplication):
            application.commitDataRequest.connect(self.keep, Qt.ConnectionType.DirectConnection)

    def keep(self) -> bool:
        """Enter what is typed and keep what is not saved; return False, telling why, where that fails."""
        from studio_gui.views.fields import finish_typing  # noqa: PLC0415  (the first paint needs no fields)

        typed = self._autosave.typed
        if not finish_typing():
            self._autosave.hear_typing(typed)  # nothing that can be entered, but somebody's work
        try:
            self._autosave.keep_now()
        except FileProblem:
            return False
        return True

    def leave(self, number: int) -> None:
        """Do what a signal with this number asks for."""
        note("told-to-end", signal=number)
        if not self.keep() and not self._was_asked:
            self._was_asked = True
            self.stayed.emit()
            return
        self._autosave.vanish()
        self.left.emit(STATUS_BASE + number)

    def _take(self) -> None:
        with contextlib.suppress(BlockingIOError):
            for number in self._reading.recv(64):
                if number in SIGNALS:
                    self.leave(number)
                    return
