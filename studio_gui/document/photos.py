"""Photos that colours are taken from.

The rule of this module: how large a picture is, is asked before it is decoded, and it is decoded no larger
than is needed to point at a patch. Colours come out in sRGB whatever the camera's own colour space is.

Codes: those of files, and ``photo-empty``, ``photo-unreadable``, ``photo-damaged``, ``photo-too-large``.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtGui import QColorSpace, QImage, QImageReader

from studio_gui.domain.colour.patches import Patch, Pixels, patch_of
from studio_gui.domain.errors import FileProblem
from studio_gui.storage.files import fingerprint

LARGEST_PHOTO_BYTES = 100 * 1024 * 1024
MOST_PIXELS = 120_000_000
LONGEST_SIDE = 2_400


def open_photo(path: Path) -> QImage:
    """Return the photo in a file, upright, in sRGB, its longer side at most `LONGEST_SIDE` pixels.

    Raises
    ------
    FileProblem
        What is wrong with the file; ``photo-empty``; ``photo-too-large`` with megapixels or megabytes;
        ``photo-unreadable`` where it is no picture of a kind that can be read, whatever its name says;
        ``photo-damaged`` where it begins as one.
    """
    try:
        size_bytes = path.stat().st_size
    except OSError:
        fingerprint(path)  # says what is wrong with it
        raise
    if size_bytes == 0:
        raise FileProblem("photo-empty", path=str(path))
    if size_bytes > LARGEST_PHOTO_BYTES:
        raise FileProblem("photo-too-large", path=str(path), megabytes=size_bytes // (1024 * 1024))
    reader = QImageReader(str(path))
    reader.setAutoTransform(True)
    reader.setDecideFormatFromContent(True)
    if not reader.canRead():
        raise FileProblem("photo-unreadable", path=str(path))
    size = reader.size()
    if not size.isValid() or size.isEmpty():
        raise FileProblem("photo-damaged", path=str(path))
    if size.width() * size.height() > MOST_PIXELS:
        raise FileProblem(
            "photo-too-large", path=str(path), megapixels=size.width() * size.height() // 1_000_000
        )
    if max(size.width(), size.height()) > LONGEST_SIDE:
        reader.setScaledSize(
            size.scaled(QSize(LONGEST_SIDE, LONGEST_SIDE), Qt.AspectRatioMode.KeepAspectRatio)
        )
    image = reader.read()
    if image.isNull():
        raise FileProblem("photo-damaged", path=str(path))
    return _in_srgb(image)


def patch_at(photo: QImage, centre: QPoint, side: int) -> Patch:
    """Return the average of the square of `side` pixels around a place, as far as it lies in the photo."""
    around = QRect(centre.x() - side // 2, centre.y() - side // 2, side, side) & photo.rect()
    return patch_of(_pixels(photo.copy(around)) if not around.isEmpty() else np.zeros((0, 3), np.uint8))


def _in_srgb(image: QImage) -> QImage:
    space = image.colorSpace()
    if space.isValid() and space != QColorSpace(QColorSpace.NamedColorSpace.SRgb):
        image.convertToColorSpace(QColorSpace(QColorSpace.NamedColorSpace.SRgb))
    return image.convertToFormat(QImage.Format.Format_RGB888)


def _pixels(image: QImage) -> Pixels:
    """Return (rows, columns, 3) of an RGB888 image, without what pads its rows."""
    rows = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.bytesPerLine())
    return rows[:, : image.width() * 3].reshape(image.height(), image.width(), 3).copy()
