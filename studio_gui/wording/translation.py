"""Which language and which units things are said in.

The rule of this module: whatever puts words or numbers together is handed a `Tongue`. `TRANSLATED` speaks the
installed language, with the numbers of the user's locale and in the units installed here, as Qt holds the
first two for the whole program; `ENGLISH` speaks metric source text whatever is installed, for files that
other programs read.

lupdate finds texts in calls whose name ends in ``translate``, with two literals first:
``translate("Context", "text")``, ``tongue.translate("Context", "text")``. It reads no keyword arguments, and
no plural forms there: sentences are built so that they need none.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from PySide6.QtCore import QCoreApplication, QLocale

#: ``mixed``: fibre in ounces and yards, liquids in millilitres, as many benches in the United States work.
Units = Literal["metric", "us", "mixed"]
UNITS: tuple[Units, ...] = ("metric", "us", "mixed")


def translate(context: str, text: str) -> str:
    """Return `text` in the installed language; `text` itself where there is no translation."""
    return QCoreApplication.translate(context, text)


_installed: dict[str, Units] = {"units": "metric"}


def install_units(units: Units) -> None:
    """Show and read all quantities in `units` from now on; whoever shows any has to show them anew."""
    _installed["units"] = units


def _ungrouped(locale: QLocale) -> QLocale:
    plain = QLocale(locale)
    plain.setNumberOptions(QLocale.NumberOption.OmitGroupSeparator)
    return plain


_C = _ungrouped(QLocale.c())
#: The locale last used, and how numbers are written there: every number on the screen asks.
_numbers = {"of": QLocale.c(), "as": _C}


@dataclass(frozen=True, slots=True)
class Tongue:
    """A language with its way to write numbers, and the units that numbers are shown and typed in.

    `own_units` are used whatever units are installed.
    """

    own_units: Units | None = None
    is_english: bool = False

    @property
    def units(self) -> Units:
        """The units that numbers are shown in, and that bare numbers are typed in."""
        return self.own_units or _installed["units"]

    def translate(self, context: str, text: str) -> str:
        """Return `text` in this language."""
        return text if self.is_english else translate(context, text)

    @property
    def locale(self) -> QLocale:
        """How numbers are written, without group separators."""
        if self.is_english:
            return _C
        locale = QLocale()
        if locale != _numbers["of"]:
            _numbers["of"], _numbers["as"] = locale, _ungrouped(locale)
        return _numbers["as"]


TRANSLATED = Tongue()
ENGLISH = Tongue("metric", is_english=True)
