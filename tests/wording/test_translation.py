"""If these fail, a sentence cannot be translated, or exports for other programs change with the language."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from xml.etree import ElementTree

import pytest
from PySide6.QtCore import QCoreApplication, QLocale, QTranslator
from PySide6.QtWidgets import QApplication

from studio_gui.domain.errors import EditRefused
from studio_gui.wording.sentences import refusal
from studio_gui.wording.translation import ENGLISH, TRANSLATED, translate

WORDING = Path(__file__).resolve().parents[2] / "studio_gui" / "wording"
#: These hand on texts they are given; everywhere else a text stands where it is said.
PASS_ON = {"translation.py", "told.py", "numbers.py"}


class _Translator(QTranslator):
    """Translates one text, whatever it is."""

    def __init__(self, into: str) -> None:
        super().__init__()
        self.into = into

    def translate(self, *_: object) -> str:
        return self.into


@pytest.fixture
def installed(qapp: QApplication, request: pytest.FixtureRequest) -> Iterator[None]:
    translator = _Translator(str(request.param))
    assert qapp.installTranslator(translator)
    yield
    assert QCoreApplication.removeTranslator(translator)


@pytest.mark.parametrize("installed", ["Wolle"], indirect=True)
@pytest.mark.usefixtures("installed")
def test_the_installed_language_is_spoken_and_english_stays() -> None:
    assert TRANSLATED.translate("Fields", "Title") == "Wolle"
    assert ENGLISH.translate("Fields", "Title") == "Title"


def test_without_a_translation_the_source_text_is_said() -> None:
    assert translate("Fields", "Title") == "Title"


@pytest.mark.parametrize("installed", ["{nonsense.__class__", "{0} {1}", "{section.a.b}"], indirect=True)
@pytest.mark.usefixtures("installed")
def test_a_broken_translation_is_answered_in_english() -> None:
    error = EditRefused("section-locked", section="Kelp", section_id="s3")
    assert refusal(error) == "Kelp is locked. Unlock it first."


@pytest.mark.usefixtures("any_locale")
def test_english_numbers_have_a_point_in_every_locale() -> None:
    assert ENGLISH.locale.toString(1234.5, "f", 1) == "1234.5"


def test_numbers_follow_the_locale_of_the_user() -> None:
    before = QLocale()
    QLocale.setDefault(QLocale("de_DE"))
    try:
        assert TRANSLATED.locale.toString(1234.5, "f", 1) == "1234,5"
    finally:
        QLocale.setDefault(before)


def literals_to_translate() -> set[tuple[str, str]]:
    """Context and text of every call of a `translate` in wording."""
    found = set()
    for path in sorted(WORDING.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            match node:
                case ast.Call(func=ast.Attribute(attr="translate") | ast.Name(id="translate"), args=args):
                    texts = [argument.value for argument in args if isinstance(argument, ast.Constant)]
                    if len(texts) == 2:
                        found.add((str(texts[0]), str(texts[1])))
                    else:
                        assert path.name in PASS_ON, f"{path.name}, line {node.lineno}"
    return found


def test_lupdate_finds_every_sentence(tmp_path: Path) -> None:
    ts = tmp_path / "wording.ts"
    lupdate = Path(sys.executable).parent / "pyside6-lupdate"
    sources = [str(path) for path in sorted(WORDING.rglob("*.py"))]
    subprocess.run([lupdate, *sources, "-ts", ts], check=True, capture_output=True)
    listed = {
        (context.findtext("name"), message.findtext("source"))
        for context in ElementTree.parse(ts).getroot().iter("context")  # noqa: S314  (made by the line above)
        for message in context.iter("message")
    }
    wanted = literals_to_translate()
    assert len(wanted) > 150
    assert wanted == listed
