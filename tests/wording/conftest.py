"""What the wording tests share: locales to write numbers in."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QLocale


@pytest.fixture(params=["C", "en_US", "de_DE", "de_CH", "sv_SE", "ar_EG", "fa_IR", "hi_IN", "mr_IN"])
def any_locale(request: pytest.FixtureRequest) -> Iterator[str]:
    """Numbers are written as one of many locales does: other commas, other digits, other minus signs."""
    before = QLocale()
    QLocale.setDefault(QLocale(str(request.param)))
    yield str(request.param)
    QLocale.setDefault(before)
