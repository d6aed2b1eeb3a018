"""If these fail, a photo stops the program, or its colours come out of another place of it."""

from __future__ import annotations

import zlib
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtGui import QColor, QColorSpace, QImage

from studio_gui.document.photos import LARGEST_PHOTO_BYTES, LONGEST_SIDE, open_photo, patch_at
from studio_gui.domain.errors import FileProblem, InvalidPlan, Param


def photo(path: Path, width: int = 61, height: int = 40) -> Path:
    """A photo whose left half is blue and whose right half is red."""
    image = QImage(width, height, QImage.Format.Format_RGB888)
    image.fill(QColor("#b4432f"))
    for x in range(width // 2):
        for y in range(height):
            image.setPixelColor(x, y, QColor("#3a6ea5"))
    assert image.save(str(path))
    return path


def refusal(path: Path) -> tuple[str, dict[str, Param]]:
    with pytest.raises(FileProblem) as caught:
        open_photo(path)
    return caught.value.code, caught.value.params


def test_a_patch_is_taken_where_it_is_pointed_at(tmp_path: Path) -> None:
    image = open_photo(photo(tmp_path / "lot.png"))
    assert (image.width(), image.height()) == (61, 40)
    assert patch_at(image, QPoint(10, 20), 9).srgb == "#3a6ea5"
    assert patch_at(image, QPoint(50, 20), 9).srgb == "#b4432f"
    assert patch_at(image, QPoint(0, 39), 9).srgb == "#3a6ea5"


def test_beside_the_photo_there_is_no_patch(tmp_path: Path) -> None:
    image = open_photo(photo(tmp_path / "lot.png"))
    with pytest.raises(InvalidPlan, match="patch-empty"):
        patch_at(image, QPoint(500, 20), 9)


def test_a_large_photo_is_opened_smaller(tmp_path: Path) -> None:
    large = QImage(4_000, 1_000, QImage.Format.Format_RGB888)
    large.fill(QColor("#3a6ea5"))
    large.save(str(tmp_path / "large.png"))
    image = open_photo(tmp_path / "large.png")
    assert (image.width(), image.height()) == (LONGEST_SIDE, LONGEST_SIDE // 4)


def test_a_photo_in_another_colour_space_comes_in_srgb(tmp_path: Path) -> None:
    image = QImage(8, 8, QImage.Format.Format_RGB32)
    image.fill(QColor(200, 60, 60))
    image.setColorSpace(QColorSpace(QColorSpace.NamedColorSpace.DisplayP3))
    image.save(str(tmp_path / "wide.png"))
    # the primaries of P3 are more vivid, so the same numbers are a more vivid red in sRGB
    red = QColor(patch_at(open_photo(tmp_path / "wide.png"), QPoint(4, 4), 3).srgb)
    assert red.red() > 205
    assert red.green() < 60


@pytest.mark.parametrize("name", ["lot.jpg", "lot.png"])
@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"", "photo-empty"),
        (b"no picture", "photo-unreadable"),
        (b"%PDF-1.7 neither", "photo-unreadable"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "photo-damaged"),
    ],
)
def test_what_is_no_picture_is_told_so(tmp_path: Path, name: str, content: bytes, code: str) -> None:
    path = tmp_path / name
    path.write_bytes(content)
    assert refusal(path) == (code, {"path": str(path)})


def test_a_picture_under_another_ending_is_opened(tmp_path: Path) -> None:
    wrong = photo(tmp_path / "lot.png").rename(tmp_path / "lot.jpg")
    assert open_photo(wrong).width() == 61


def test_a_picture_cut_short_is_told_so(tmp_path: Path) -> None:
    whole = photo(tmp_path / "lot.png").read_bytes()
    cut = tmp_path / "cut.png"
    cut.write_bytes(whole[: len(whole) // 2])
    assert refusal(cut)[0] == "photo-damaged"


def test_a_huge_picture_is_refused_before_it_is_decoded(tmp_path: Path) -> None:
    path = tmp_path / "bomb.png"
    header = b"IHDR" + (60_000).to_bytes(4, "big") * 2 + b"\x08\x02\0\0\0"
    check = zlib.crc32(header).to_bytes(4, "big")
    path.write_bytes(b"\x89PNG\r\n\x1a\n\0\0\0\r" + header + check + b"\0\0\0\0IDAT")
    assert refusal(path) == ("photo-too-large", {"path": str(path), "megapixels": 3_600})


def test_a_huge_file_is_refused_before_it_is_read(tmp_path: Path) -> None:
    path = tmp_path / "huge.png"
    with path.open("wb") as file:
        file.truncate(LARGEST_PHOTO_BYTES + 1)
    assert refusal(path) == ("photo-too-large", {"path": str(path), "megabytes": 100})


def test_a_photo_that_is_gone_is_told_so(tmp_path: Path) -> None:
    assert refusal(tmp_path / "gone.png")[0] == "file-not-found"
