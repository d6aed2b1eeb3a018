"""If these fail, a log tells somebody's recipes, grows without end, or stops the program."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.ranges import checked
from studio_gui.storage.log import (
    FILE_NAME,
    LARGEST_LOG_BYTES,
    OLDER_LOGS,
    note,
    note_error,
    report_of,
    start_log,
    stop_log,
)

RECIPE = "Slate blue, 12 + 38"


@pytest.fixture(autouse=True)
def _no_log() -> Iterator[None]:
    yield
    stop_log()


def test_events_are_written_with_their_numbers_and_nothing_before_the_start(tmp_path: Path) -> None:
    note("too-early")
    start_log(tmp_path / "log")
    note("plan-saved", sections=12)
    assert (tmp_path / "log" / FILE_NAME).read_text(encoding="utf-8").endswith(" plan-saved sections=12\n")
    stop_log()
    note("too-late")
    assert "too-" not in (tmp_path / "log" / FILE_NAME).read_text(encoding="utf-8")


def failing(secret: str) -> None:
    raise KeyError(secret)


def test_an_error_is_told_by_kind_and_place_and_never_by_what_it_was_about(tmp_path: Path) -> None:
    start_log(tmp_path)
    with pytest.raises(KeyError) as caught:
        failing(RECIPE)
    report = note_error(caught.value)
    written = (tmp_path / FILE_NAME).read_text(encoding="utf-8")
    assert report in written
    assert report.startswith("KeyError\n")
    assert "storage/test_log.py:" in report
    assert RECIPE not in written
    assert str(Path.home()) not in report


def test_a_refusal_is_told_by_its_code_and_the_program_s_own_files_from_the_package_on() -> None:
    assert report_of(EditRefused("boundary-locked", section=RECIPE)) == "EditRefused boundary-locked"
    with pytest.raises(InvalidPlan) as caught:
        checked("wicking_mm", RECIPE)
    report = report_of(caught.value)
    assert "\n  studio_gui/domain/ranges.py:" in report
    assert RECIPE not in report


def test_the_log_turns_over(tmp_path: Path) -> None:
    start_log(tmp_path)
    for number in range(12_000):
        note("a-rather-long-event-to-fill-the-log-with-" + "x" * 40, number=number)
    files = list(tmp_path.iterdir())
    assert len(files) == OLDER_LOGS + 1
    assert all(file.stat().st_size <= LARGEST_LOG_BYTES for file in files)


def test_a_log_that_cannot_be_written_stops_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    start_log(tmp_path / "file")
    note("nowhere")
    (tmp_path / "log" / FILE_NAME).mkdir(parents=True)
    start_log(tmp_path / "log")
    note("nowhere")
