"""If these fail, somebody's saved ladders are lost, or written over by another window."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from studio_gui.document.ladder_shelf import FILE_NAME, LadderShelf, settings_folder
from studio_gui.domain.errors import FileProblem, InvalidPlan
from studio_gui.storage.ladder_templates import LadderTemplate
from studio_gui.wording.ladders import parse_ladder
from studio_gui.wording.sentences import refusal

TIDE = LadderTemplate("Tide", "12+36; 24+24")
EBB = LadderTemplate("Ebb", "24+24; 12+36", "by amount", "follows fibre")


@pytest.fixture
def path(tmp_path: Path, qapp: QApplication) -> Path:  # noqa: ARG001  (words need an application)
    return tmp_path / "deep" / FILE_NAME


def names(shelf: LadderShelf) -> list[str]:
    return [ladder.name for ladder in shelf.saved]


def test_a_ladder_is_there_in_the_next_session(path: Path) -> None:
    shelf = LadderShelf(path)
    heard: list[list[str]] = []
    shelf.changed.connect(lambda: heard.append(names(shelf)))
    shelf.save(TIDE)
    shelf.save(EBB)
    assert heard == [["Tide"], ["Tide", "Ebb"]]
    assert LadderShelf(path).saved == (TIDE, EBB)


def test_ladders_are_renamed_and_removed(path: Path) -> None:
    shelf = LadderShelf(path)
    shelf.save(TIDE)
    shelf.rename("Tide", "Flood")
    assert names(LadderShelf(path)) == ["Flood"]
    shelf.remove("Flood")
    assert names(LadderShelf(path)) == []


def test_what_another_window_saved_stays(path: Path) -> None:
    one, other = LadderShelf(path), LadderShelf(path)
    one.save(TIDE)
    other.save(EBB)
    assert names(LadderShelf(path)) == ["Tide", "Ebb"]
    with pytest.raises(InvalidPlan) as problem:
        one.save(EBB)
    assert problem.value.code == "name-taken"
    assert names(one) == ["Tide", "Ebb"], "and is seen now"


def test_a_damaged_file_is_told_of_and_set_aside_before_the_next_is_written(path: Path) -> None:
    path.parent.mkdir()
    path.write_text('{"document": "roving-lay-ladders", "ver', encoding="utf-8")
    shelf = LadderShelf(path)
    assert shelf.problem is not None
    assert refusal(shelf.problem).startswith("ladders.json, line 1")
    assert [file.name for file in path.parent.iterdir()] == [FILE_NAME], "reading alone moves nothing"
    shelf.save(TIDE)
    assert names(shelf) == ["Tide"]
    assert LadderShelf(path).problem is None
    kept = path.parent / "ladders (set aside 1).json"
    assert kept.read_text(encoding="utf-8").endswith('"ver')
    path.write_text("again", encoding="utf-8")
    shelf.save(EBB)
    assert (path.parent / "ladders (set aside 2).json").read_text(encoding="utf-8") == "again"


def test_a_file_that_is_none_is_left_alone(path: Path) -> None:
    path.mkdir(parents=True)
    shelf = LadderShelf(path)
    with pytest.raises(FileProblem) as problem:
        shelf.save(TIDE)
    assert problem.value.code == "is-a-folder"
    assert path.is_dir()
    assert names(shelf) == []


def test_a_ladder_that_cannot_be_written_is_not_on_the_list(path: Path) -> None:
    path.parent.write_text("a file where the folder should be", encoding="utf-8")
    shelf = LadderShelf(path)
    with pytest.raises(FileProblem):
        shelf.save(TIDE)
    assert names(shelf) == []


def test_the_programs_own_ladders_can_be_read_and_take_48_ml_a_step(path: Path) -> None:
    own = LadderShelf(path).own()
    assert len(own) == 3
    for ladder in own:
        assert {(len(step), sum(step)) for step in parse_ladder(ladder.line)} == {(2, 48.0)}


def test_by_default_they_are_kept_among_the_settings(qapp: QApplication) -> None:  # noqa: ARG001
    LadderShelf().save(TIDE)
    try:
        assert names(LadderShelf(settings_folder() / FILE_NAME)) == ["Tide"]
    finally:
        (settings_folder() / FILE_NAME).unlink()
