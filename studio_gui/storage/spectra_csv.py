"""Spectra as instruments and spreadsheets write them: a wavelength and a reflectance in every row.

The rule of this module: it finds out how the text is written (separator, decimal sign, heading, unit) and
refuses a row that it cannot read by its number, instead of leaving it out. Further columns are not read.

Codes, besides those of `studio_gui.domain.colour.measured`: ``file-too-large``, ``spectrum-no-rows``,
``spectrum-not-text``, ``spectrum-row``, ``spectrum-commas``.
"""

from __future__ import annotations

import math
import re
from pathlib import Path

from studio_gui.domain.colour.measured import Spectrum, spectrum_of
from studio_gui.domain.errors import FileProblem, InvalidPlan
from studio_gui.storage.files import read_bytes
from studio_gui.storage.strict_json import quoted

LARGEST_SPECTRUM_BYTES = 1_000_000
_SEPARATORS = (";", "\t")
_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?")
#: A percent sign that is not that of a number before it.
_PERCENT_AS_UNIT = re.compile(r"(^|[^\d\s])\s*%")
_COLUMNS = 2


def read_spectrum(path: Path) -> Spectrum:
    """Return the spectrum in the file at `path`; `FileProblem` with ``path`` says what is wrong with it."""
    try:
        return spectrum_from_csv(read_bytes(path))
    except FileProblem as problem:
        raise FileProblem(problem.code, **problem.params | {"path": str(path)}) from problem


def spectrum_from_csv(data: bytes) -> Spectrum:
    r"""Return the spectrum in a text of rows "wavelength, reflectance", fractions or percent.

    Semicolons, tabs, commas or spaces stand between; decimal commas are read where no comma separates. Rows
    before the first of numbers are headings; a percent sign in the last of them, or in a row, says the unit,
    but not one behind a number in a heading: "Slate 2 %" tells the depth of the sample.

    Raises
    ------
    FileProblem
        ``spectrum-row`` and ``spectrum-commas`` with row and value; ``spectrum-no-rows``;
        ``spectrum-not-text``; ``file-too-large``; and what `spectrum_of` raises.

    >>> rows = "nm;R %\n" + "\n".join(f"{nm};40,5" for nm in range(400, 710, 10))
    >>> spectrum_from_csv(rows.encode()).reflectance[0]
    0.405
    """
    if len(data) > LARGEST_SPECTRUM_BYTES:
        raise FileProblem("file-too-large", most_bytes=LARGEST_SPECTRUM_BYTES)
    text = _text(data)
    readings, says_percent = _readings(text)
    if not readings:
        raise FileProblem("spectrum-no-rows")
    try:
        return spectrum_of(readings, says_percent=says_percent or None)
    except InvalidPlan as problem:
        raise FileProblem(problem.code, **problem.params) from problem


def _text(data: bytes) -> str:
    """Return the text of a file, whichever way a spreadsheet wrote it."""
    if b"\0" in data and not data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise FileProblem("spectrum-not-text")
    for encoding in ("utf_16",) if b"\0" in data else ("utf_8_sig", "latin_1"):
        try:
            return data.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise FileProblem("spectrum-not-text")


def _readings(text: str) -> tuple[list[tuple[float, float]], bool]:
    """Return the pairs of numbers, and whether the last heading or a row says that they are percent."""
    readings: list[tuple[float, float]] = []
    says_percent = False
    for row, line in enumerate(text.splitlines(), start=1):
        cells = _cells(line)
        if not any(cells) or line.lstrip().startswith("#"):
            continue
        numbers = [_number(cell) for cell in cells]
        if len(numbers) < _COLUMNS or any(math.isnan(number) for number in numbers[:_COLUMNS]):
            if readings or not math.isnan(numbers[0]):
                raise FileProblem("spectrum-row", row=row, value=quoted(line.strip()))
            says_percent = _PERCENT_AS_UNIT.search(line) is not None
            continue
        if _may_be_decimal_commas(line, numbers):
            raise FileProblem("spectrum-commas", row=row, value=quoted(line.strip()))
        readings.append((numbers[0], numbers[1]))
        says_percent = says_percent or cells[1].endswith("%")
    return readings, says_percent


def _may_be_decimal_commas(line: str, numbers: list[float]) -> bool:
    """Tell whether commas may be both between and within the numbers: "400,0,52"."""
    many = len(numbers) > _COLUMNS and not any(math.isnan(number) for number in numbers)
    return many and "," in line and not any(sign in line for sign in (".", *_SEPARATORS))


def _cells(line: str) -> list[str]:
    """Return the cells of a row.

    >>> _cells("400; 0,52"), _cells("400,0.52,"), _cells("400,0 0,52")
    (['400', '0,52'], ['400', '0.52', ''], ['400,0', '0,52'])
    """
    plain = line.strip(" ").replace('"', "")
    for separator in _SEPARATORS:
        if separator in plain:
            return [cell.strip() for cell in plain.split(separator)]
    words = plain.split()
    if len(words) > 1 and all(_NUMBER.fullmatch(word) for word in words):
        return words
    return [cell.strip() for cell in plain.split(",")]


def _number(cell: str) -> float:
    """Return the number in a cell, nan where there is none."""
    plain = cell.removesuffix("%").removesuffix("nm").strip()
    return float(plain.replace(",", ".")) if _NUMBER.fullmatch(plain) else math.nan
