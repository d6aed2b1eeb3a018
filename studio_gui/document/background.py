"""Work off the thread of the window, whose result comes back on it.

The rule of this module: the newest request wins, and the working thread never touches a Qt object. The owner
looks by itself, from its own timer, whether the work is done; so an owner that goes away meanwhile is simply
not there to look.

While work runs, Python's automatic collection rests. It runs on whatever thread happens to allocate, and Qt's
objects may only be destroyed on the thread of the window.
"""

from __future__ import annotations

import gc
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor, wait
from functools import lru_cache, partial
from typing import Any, ParamSpec, TypeVar

from PySide6.QtCore import QCoreApplication, QObject, QTimer, Signal

_LOOK_EVERY_MS = 15
#: A window that is pulled larger changes its size more often than this.
REST_MS = 40

P = ParamSpec("P")
T = TypeVar("T")


class _Rest(QObject):
    """Lets the automatic collection rest until all work is done, whether or not anybody wants its result."""

    def __init__(self) -> None:
        super().__init__(QCoreApplication.instance())
        self._running: list[Future[Any]] = []
        self._timer = QTimer(self)
        self._timer.setInterval(_LOOK_EVERY_MS)
        self._timer.timeout.connect(self._look)

    def during(self, begin: Callable[[], Future[T]]) -> Future[T]:
        """Begin some work with the collection at rest."""
        gc.disable()
        future = begin()
        self._running = [*self._still_running(), future]
        self._timer.start()
        return future

    def _still_running(self) -> list[Future[Any]]:
        return [future for future in self._running if not future.done()]

    def _look(self) -> None:
        self._running = self._still_running()
        if not self._running:
            self._timer.stop()
            gc.enable()


@lru_cache(maxsize=1)
def _rest() -> _Rest:
    return _Rest()


class LatestRun(QObject):
    """Runs one function at a time on a thread of its own.

    Signals
    -------
    done
        What the newest request returned.
    failed
        The exception that the newest request raised.
    """

    done = Signal(object)
    failed = Signal(Exception)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._future: Future[Any] | None = None
        self._thread: ThreadPoolExecutor | None = None
        self._timer = QTimer(self)
        self._timer.setInterval(_LOOK_EVERY_MS)
        self._timer.timeout.connect(self._look)
        application = QCoreApplication.instance()
        if application is not None:
            application.aboutToQuit.connect(self.stop)

    @property
    def is_running(self) -> bool:
        """Whether a result is still to come."""
        return self._future is not None

    def ask(self, function: Callable[P, T], *arguments: P.args, **named: P.kwargs) -> None:
        """Run a pure function; results of earlier requests are dropped, and not begun if still waiting."""
        self._drop()
        if self._thread is None:
            self._thread = ThreadPoolExecutor(max_workers=1, thread_name_prefix="latest-run")
        self._future = _rest().during(partial(self._thread.submit, function, *arguments, **named))
        self._timer.start()

    def stop(self) -> None:
        """Want no result any more, and let the thread end."""
        self._drop()
        if self._thread is not None:
            self._thread.shutdown(wait=False, cancel_futures=True)
            self._thread = None

    def settle(self) -> None:
        """Want no result any more, and return once nothing runs."""
        running = self._future
        self._drop()
        if running is not None:
            wait([running])

    def _drop(self) -> None:
        self._timer.stop()
        if self._future is not None:
            self._future.cancel()
            self._future = None

    def _look(self) -> None:
        future = self._future
        if future is None or not future.done():
            return
        self._drop()
        error = future.exception()
        if error is None:
            self.done.emit(future.result())
        else:
            self.failed.emit(error)


class RestedRun(LatestRun):
    """A `LatestRun` that begins once sizes and views have come to rest.

    Parameters
    ----------
    wanted
        Returns the work, a pure function without arguments, as it is wanted when all has come to rest; None
        for none.
    """

    def __init__(self, wanted: Callable[[], Callable[[], object] | None], parent: QObject) -> None:
        super().__init__(parent)
        self._wanted = wanted
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(REST_MS)
        self._rest.timeout.connect(self._begin)

    @property
    def is_running(self) -> bool:
        """Whether a result is still to come, or the rest that is waited for."""
        return self._rest.isActive() or super().is_running

    def ask_at_rest(self) -> None:
        """Ask for the work that is wanted once nobody has called this for `REST_MS`."""
        self._rest.start()

    def stop(self) -> None:
        """Want no result any more, nor the rest that is waited for, and let the thread end."""
        self._rest.stop()
        super().stop()

    def _begin(self) -> None:
        work = self._wanted()
        if work is not None:
            self.ask(work)
