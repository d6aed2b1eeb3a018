"""If these fail, an old result replaces a newer one, an error is lost, or the program dies with its owner."""

from __future__ import annotations

import gc
import subprocess
import sys
import threading
import weakref
from functools import partial

import shiboken6
from PySide6.QtCore import QCoreApplication, QEvent, QObject
from pytestqt.qtbot import QtBot

from studio_gui.document.background import REST_MS, LatestRun, RestedRun


class Cloth:
    """What a work returns, and a weak reference can watch."""


def thread_name(word: str) -> tuple[str, str]:
    return word, threading.current_thread().name


def test_a_result_comes_back_on_the_asking_thread(qtbot: QtBot) -> None:
    run = LatestRun()
    heard_on: list[str] = []
    run.done.connect(lambda _: heard_on.append(threading.current_thread().name))
    with qtbot.waitSignal(run.done) as heard:
        run.ask(thread_name, "wool")
    word, worked_on = heard.args[0]
    assert word == "wool"
    assert worked_on != threading.current_thread().name
    assert heard_on == [threading.current_thread().name]
    assert not run.is_running
    run.stop()


def test_the_newest_request_wins_and_waiting_ones_are_not_begun(qtbot: QtBot) -> None:
    run = LatestRun()
    let_go = threading.Event()
    begun: list[int] = []

    def work(number: int) -> int:
        begun.append(number)
        let_go.wait(10.0)
        return number

    results: list[object] = []
    run.done.connect(results.append)
    run.ask(work, 1)
    qtbot.waitUntil(lambda: begun == [1])
    run.ask(work, 2)
    run.ask(work, 3)
    assert run.is_running
    let_go.set()
    qtbot.waitUntil(lambda: not run.is_running)
    assert results == [3]
    assert begun == [1, 3]
    run.stop()


def test_an_exception_is_reported_and_the_next_request_works(qtbot: QtBot) -> None:
    run = LatestRun()
    with qtbot.waitSignal(run.failed) as heard:
        run.ask(int, "not a number")
    assert isinstance(heard.args[0], ValueError)
    with qtbot.waitSignal(run.done) as done:
        run.ask(int, "7")
    assert done.args == [7]
    run.stop()


def test_an_exception_of_an_old_request_is_dropped(qtbot: QtBot) -> None:
    run = LatestRun()
    errors: list[Exception] = []
    run.failed.connect(errors.append)
    with qtbot.waitSignal(run.done) as done:
        run.ask(int, "not a number")
        run.ask(int, "8")
    assert done.args == [8]
    assert errors == []
    run.stop()


def test_stopping_brings_no_result_and_asking_again_works(qtbot: QtBot) -> None:
    run = LatestRun()
    results: list[object] = []
    run.done.connect(results.append)
    run.ask(int, "1")
    run.stop()
    assert not run.is_running
    with qtbot.waitSignal(run.done):
        run.ask(int, "2")
    assert results == [2]
    run.stop()


def test_an_owner_may_go_away_while_work_runs(qtbot: QtBot) -> None:
    owner = QObject()
    run = LatestRun(owner)
    let_go, ended = threading.Event(), threading.Event()

    def work() -> None:
        let_go.wait(10.0)
        ended.set()

    run.ask(work)
    owner.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert not shiboken6.isValid(run)
    let_go.set()
    assert ended.wait(10.0)
    qtbot.wait(50)


def test_a_program_that_ends_amid_work_ends_cleanly() -> None:
    program = """
import time
from PySide6.QtCore import QCoreApplication, QTimer
from studio_gui.document.background import REST_MS, LatestRun, RestedRun
application = QCoreApplication([])
run = LatestRun()
run.done.connect(lambda _: print("late"))
run.ask(time.sleep, 0.5)
QTimer.singleShot(50, application.quit)
application.exec()
print("ended")
"""
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout == "ended\n"
    assert done.stderr == ""


def test_the_collection_rests_while_work_runs_and_no_longer(qtbot: QtBot) -> None:
    run = LatestRun()
    let_go = threading.Event()
    seen: list[bool] = []

    def work() -> None:
        seen.append(gc.isenabled())
        let_go.wait(10.0)

    run.ask(work)
    qtbot.waitUntil(lambda: seen == [False])
    run.stop()  # nobody wants the result any more, but the work still runs
    qtbot.wait(60)
    assert not gc.isenabled()
    let_go.set()
    qtbot.waitUntil(gc.isenabled)


def test_work_is_asked_for_once_all_has_come_to_rest(qtbot: QtBot) -> None:
    owner = QObject()
    wanted: list[str] = []
    run = RestedRun(lambda: partial(thread_name, wanted[-1]) if wanted else None, owner)
    run.ask_at_rest()
    qtbot.wait(3 * REST_MS)
    assert not run.is_running, "nothing is wanted"
    heard: list[str] = []
    run.done.connect(lambda result: heard.append(result[0]))
    for word in ("small", "larger", "largest"):
        wanted.append(word)
        run.ask_at_rest()
    qtbot.waitUntil(lambda: heard != [])
    assert heard == ["largest"]
    run.stop()


def test_what_is_stopped_at_rest_is_not_begun(qtbot: QtBot) -> None:
    owner, begun = QObject(), threading.Event()
    run = RestedRun(lambda: begun.set, owner)
    run.ask_at_rest()
    run.stop()
    assert not run.is_running
    qtbot.wait(3 * REST_MS)
    assert not begun.is_set()


def test_settling_brings_no_result_and_waits_for_what_runs(qtbot: QtBot) -> None:
    run = LatestRun()
    run.settle()
    begun, let_go, ended = threading.Event(), threading.Event(), threading.Event()
    results: list[object] = []
    run.done.connect(results.append)

    def work() -> None:
        begun.set()
        let_go.wait(10.0)
        ended.set()

    run.ask(work)
    begun.wait(10.0)
    run.ask(work)  # waits its turn, and is not begun
    threading.Timer(0.05, let_go.set).start()
    run.settle()
    assert ended.is_set()
    qtbot.wait(60)
    assert not results
    run.stop()


def test_what_is_done_is_forgotten_even_where_no_event_is_taken_up(qtbot: QtBot) -> None:
    run = LatestRun()
    made: list[weakref.ref[Cloth]] = []
    begun = threading.Event()

    def weave() -> Cloth:
        begun.set()
        cloth = Cloth()
        made.append(weakref.ref(cloth))
        return cloth

    for _ in range(20):
        begun.clear()
        run.ask(weave)
        assert begun.wait(10.0)
        run.settle()
    gc.collect()
    assert len(made) == 20
    assert sum(cloth() is not None for cloth in made) <= 1
    qtbot.waitUntil(gc.isenabled)
    run.stop()
