"""If these fail, a save takes the place of something that nobody has a copy of."""

from __future__ import annotations

from pathlib import Path

import pytest

from studio_gui.domain.errors import FileProblem
from studio_gui.storage.files import PLAN_SUFFIX
from studio_gui.storage.kept_beside import keep_original, keep_other_version
from studio_gui.storage.strict_json import LARGEST_FILE_BYTES

OLD, NEW = b'{"old": 1}\n', b'{"new": 1}\n'


@pytest.fixture
def target(tmp_path: Path) -> Path:
    path = tmp_path / f"Two Shores{PLAN_SUFFIX}"
    path.write_bytes(OLD)
    return path


def left_in(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_an_original_is_kept_once_beside_the_plan_and_never_over_another_file(target: Path) -> None:
    first = keep_original(target, 1)
    again = keep_original(target, 1)
    target.write_bytes(NEW)
    second = keep_original(target, 1)
    assert first == again
    assert left_in(target.parent) == {target.name: NEW, first.name: OLD, second.name: NEW}
    assert first.name == f"Two Shores (format 1){PLAN_SUFFIX}"


def test_an_original_with_the_longest_name_is_kept_and_a_folder_of_that_name_stays(tmp_path: Path) -> None:
    path = tmp_path / ("é" * 121 + PLAN_SUFFIX)
    path.write_bytes(OLD)
    kept = keep_original(path, 1)
    assert kept.read_bytes() == OLD
    kept.unlink()
    kept.mkdir()
    assert keep_original(path, 1).read_bytes() == OLD
    assert kept.is_dir()


def test_another_version_is_kept_under_a_name_of_its_own(target: Path) -> None:
    keep_original(target, 1)
    kept = keep_other_version(target)
    assert kept.name == f"Two Shores (other version){PLAN_SUFFIX}"
    assert kept.read_bytes() == OLD


def test_what_is_far_larger_than_a_plan_is_not_kept_in_part(target: Path) -> None:
    with target.open("wb") as file:
        file.truncate(LARGEST_FILE_BYTES + 1)
    with pytest.raises(FileProblem, match="too-large-to-keep"):
        keep_other_version(target)
    assert [path.name for path in target.parent.iterdir()] == [target.name]
