"""If these fail, a part of the program reaches for something that belongs to another layer.

The directions between layers are contracts of the import linter. Here is what its contracts cannot say: they
take no part of a package from outside (`PySide6.QtWidgets`) and only forbid, never allow; and the rules a
reader looks for first.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parent.parent / "studio_gui"
BELOW_VIEWS = ("export", "document", "drawing", "wording", "storage", "domain")


def imported_by(source: str) -> set[str]:
    """Full names of all that `source` imports: modules, and what is taken from them."""
    return {name for node in ast.walk(ast.parse(source)) for name in _names(node)}


def _names(node: ast.AST) -> Iterator[str]:
    match node:
        case ast.Import(names=aliases):
            yield from (alias.name for alias in aliases)
        case ast.ImportFrom(module=module, names=aliases, level=level):
            assert level == 0, "relative imports hide the layer they reach into"
            yield from (f"{module}.{alias.name}" for alias in aliases)


def within(name: str, module: str) -> bool:
    """Whether `name` is `module` or something of it."""
    return f"{name}.".startswith(f"{module}.")


def users_of(module: str, *folders: str) -> set[str]:
    """Files of those folders of the package (of all of it, if none is named) that import `module`."""
    return {
        path.relative_to(PACKAGE).as_posix()
        for folder in folders or (".",)
        for path in (PACKAGE / folder).rglob("*.py")
        if any(within(name, module) for name in imported_by(path.read_text(encoding="utf-8")))
    }


@pytest.mark.parametrize(
    "source",
    [
        "import PySide6.QtWidgets",
        "import PySide6.QtWidgets as widgets",
        "from PySide6 import QtGui, QtWidgets",
        "from PySide6.QtWidgets import QLabel",
        "def late():\n    from PySide6.QtWidgets import QLabel",
    ],
)
def test_every_way_to_import_is_seen(source: str) -> None:
    assert any(within(name, "PySide6.QtWidgets") for name in imported_by(source))


def test_a_module_of_a_similar_name_is_another_module() -> None:
    assert not within("pintail", "pint")


@pytest.mark.parametrize("folder", BELOW_VIEWS)
def test_every_layer_is_there_to_be_checked(folder: str) -> None:
    assert (PACKAGE / folder / "__init__.py").is_file()


def test_widgets_are_known_to_the_views_only() -> None:
    assert users_of("PySide6.QtWidgets", *BELOW_VIEWS) == set()


def test_wording_draws_nothing() -> None:
    assert users_of("PySide6.QtGui", "wording") == set()


def test_domain_and_storage_know_no_qt() -> None:
    assert users_of("PySide6", "domain", "storage") == set()


def test_units_are_converted_in_wording_only() -> None:
    assert {path for path in users_of("pint") if not path.startswith("wording/")} == set()


def test_the_domain_needs_numpy_and_the_standard_library_only() -> None:
    outside = {
        name.split(".")[0]
        for path in (PACKAGE / "domain").rglob("*.py")
        for name in imported_by(path.read_text(encoding="utf-8"))
    } - sys.stdlib_module_names
    assert outside <= {"numpy", "studio_gui"}


def test_the_domain_opens_no_files() -> None:
    for module in ("io", "os", "pathlib", "shutil", "sqlite3", "tempfile"):
        assert users_of(module, "domain") == set()
