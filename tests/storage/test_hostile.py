"""If these fail, a file made to do harm takes the memory that the person's other programs need."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from studio_gui.domain.errors import FileProblem
from studio_gui.storage.plan_json import plan_from_json
from studio_gui.storage.shapes import LONGEST_LIST
from studio_gui.storage.strict_json import MOST_SIGNS, check_bounds, parse
from tests.storage.hostile import FILES

LIMITED = """
import resource
from studio_gui.domain.errors import FileProblem
from studio_gui.storage.plan_json import plan_from_json
from tests.storage.hostile import FILES

pages = int(open("/proc/self/statm").read().split()[0])
room = pages * resource.getpagesize() + 200_000_000
resource.setrlimit(resource.RLIMIT_AS, (room, room))
for name, made in FILES.items():
    try:
        plan_from_json(made())
    except FileProblem as problem:
        print(name, problem.code, sep=": ")
"""


def test_no_file_takes_more_than_200_mb_to_be_refused() -> None:
    run = subprocess.run(
        [sys.executable, "-c", LIMITED],
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    assert run.returncode == 0, run.stderr
    assert [line.split(":")[0] for line in run.stdout.splitlines()] == list(FILES)


@pytest.mark.parametrize("unit", [b"1,", b"[],", b'"",', b'{"a":0},'])
def test_what_is_too_much_for_any_plan_is_told_where_it_becomes_so(unit: bytes) -> None:
    data = b"[\n" + unit * MOST_SIGNS + b"0]"
    for read in (parse, check_bounds):
        with pytest.raises(FileProblem) as caught:
            read(data)
        assert caught.value.code == "too-many-values"
        assert caught.value.params["line"] == 2


def test_as_many_signs_as_are_taken_are_read() -> None:
    data = b"[" + b"1," * (MOST_SIGNS - 2) + b"0]"
    assert len(data) > MOST_SIGNS
    check_bounds(data)
    assert parse(data) == [1] * (MOST_SIGNS - 2) + [0]


def test_a_list_too_long_for_any_plan_is_refused_before_anything_is_made_of_it() -> None:
    with pytest.raises(FileProblem) as caught:
        plan_from_json(FILES["sections"]())
    assert (caught.value.code, caught.value.params["place"]) == ("list-too-long", "sections")
    assert caught.value.params["most"] == LONGEST_LIST
