"""If these fail, a spectrum out of a spreadsheet is read wrongly, or refused without saying where."""

from __future__ import annotations

from pathlib import Path

import pytest

from studio_gui.domain.errors import FileProblem, Param
from studio_gui.storage.spectra_csv import LARGEST_SPECTRUM_BYTES, read_spectrum, spectrum_from_csv

WAVELENGTHS = range(400, 701, 10)


def rows(template: str, heading: str = "") -> bytes:
    return (heading + "".join(template.format(nm=nm) + "\n" for nm in WAVELENGTHS)).encode()


def refusal(data: bytes) -> tuple[str, dict[str, Param]]:
    with pytest.raises(FileProblem) as caught:
        spectrum_from_csv(data)
    return caught.value.code, caught.value.params


@pytest.mark.parametrize(
    "data",
    [
        rows("{nm},0.45"),
        rows("{nm}, 0.45 "),
        rows("{nm},.45,0.47,sample 2", "wavelength,R\n"),
        rows("{nm};0,45", "Wellenlänge;Reflexion\n"),
        rows("{nm},0;0,45"),
        rows("{nm}\t0,45", "\ufeffnm\tR\n"),
        rows("{nm} 0.45", "# measured on a grey day\n\n"),
        rows('"{nm}","0.45"', "Instrument,made up\nSerial,12 a\n\nnm,R\n"),
        rows("{nm} nm;4.5e-1"),
        rows("{nm};45", "nm;R [%]\n"),
        rows("{nm};45"),
        rows("{nm};45 %"),
        rows("{nm};45,0 %", "humidity 60 %\nnm;R\n"),
        rows("{nm};0,45", "humidity 60 %\nnm;R\n"),
        rows("{nm},0.45", "Wavelength (nm),Slate 2 %\n"),
        rows("{nm},45", "Wavelength (nm),Slate 2 % (R, %)\n"),
        rows("{nm};0,45", "Wellenlänge;Reflexion\n").decode().encode("latin-1"),
        rows("{nm};0,45", "Wellenlänge;Reflexion\n").decode().encode("utf-16"),
        rows("{nm},0.45").replace(b"\n", b"\r\n"),
        rows("{nm},0.45,"),
    ],
)
def test_whichever_way_it_is_written_the_same_spectrum_is_read(data: bytes) -> None:
    assert spectrum_from_csv(data).reflectance == pytest.approx([0.45] * 31)


@pytest.mark.parametrize("heading", ["nm;R %", "nm;R [%]", "nm;%", "nm;Slate 2 %, R %", "nm;R in %"])
def test_a_dark_sample_in_percent_is_told_by_its_heading(heading: str) -> None:
    assert spectrum_from_csv(rows("{nm};1,5", f"{heading}\n")).reflectance[0] == pytest.approx(0.015)


@pytest.mark.parametrize("data", [b"", b"\n\n", b"nm;R\n", b"# nothing\n", b"one;two\nthree;four\n"])
def test_a_file_without_readings_is_told_so(data: bytes) -> None:
    assert refusal(data) == ("spectrum-no-rows", {})


@pytest.mark.parametrize(
    ("row", "text"),
    [
        (33, "410;"),
        (33, "410;n/a"),
        (33, "410"),
        (33, "black;0.1"),
        (33, "410;0.4.5"),
        (33, "4 10 x"),
    ],
)
def test_a_row_that_cannot_be_read_is_named_and_not_left_out(row: int, text: str) -> None:
    data = rows("{nm};0.45", "nm;R\n") + text.encode()
    assert refusal(data) == ("spectrum-row", {"row": row, "value": text})


def test_a_first_row_with_a_wavelength_alone_is_no_heading() -> None:
    assert refusal(b"400;\n410;0.5\n") == ("spectrum-row", {"row": 1, "value": "400;"})


def test_commas_that_may_be_either_are_not_guessed_at() -> None:
    assert refusal(rows("{nm},0,45")) == ("spectrum-commas", {"row": 1, "value": "400,0,45"})


def test_what_the_readings_lack_is_told_of_the_file() -> None:
    holed = b"\n".join(line for line in rows("{nm};0.4").splitlines() if not line.startswith((b"51", b"52")))
    code, params = refusal(holed)
    assert (code, params["low_nm"], params["high_nm"]) == ("spectrum-gap", 500.0, 530.0)


@pytest.mark.parametrize("data", [b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", b"\xff\xfe\0\xd8\0\0"])
def test_what_is_no_text_is_told_so(data: bytes) -> None:
    assert refusal(data) == ("spectrum-not-text", {})


def test_a_huge_file_is_not_read() -> None:
    data = b"#" * (LARGEST_SPECTRUM_BYTES + 1)
    assert refusal(data) == ("file-too-large", {"most_bytes": LARGEST_SPECTRUM_BYTES})


def test_a_file_is_read_and_a_bad_one_is_named(tmp_path: Path) -> None:
    good, bad = tmp_path / "slate.csv", tmp_path / "soot.csv"
    good.write_bytes(rows("{nm};45"))
    bad.write_bytes(b"400;\n")

    assert read_spectrum(good).was_percent
    with pytest.raises(FileProblem) as caught:
        read_spectrum(bad)
    assert caught.value.params == {"row": 1, "value": "400;", "path": str(bad)}
