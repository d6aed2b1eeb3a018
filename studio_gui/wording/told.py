"""Sentences filled with the parameters of a check, a mend or a refusal.

The rule of this module: a sentence names its parameters as the code that made them does, `{free_ml}`, and the
unit in the name says how the number is shown. A sentence is always one line, and a parameter or translation
that is amiss never stops it from being said.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeAlias

from studio_gui.domain.errors import Param
from studio_gui.domain.plan import Plan
from studio_gui.wording.fields import FIELD_KINDS, field_name
from studio_gui.wording.naming import liquor_name, one_line, section_name, section_names, stock_name
from studio_gui.wording.numbers import UNKNOWN
from studio_gui.wording.quantities import (
    ACID,
    COUNT,
    DEPTH,
    FINE_MASS,
    LAY_LENGTH,
    MASS,
    PERCENT,
    PLAIN,
    ROWS,
    SHARE,
    STRENGTH,
    VOLUME,
    WAVELENGTH,
    WETNESS,
    WIDTH,
    YARN_LENGTH,
    Kind,
    shown,
    shown_briefly,
)
from studio_gui.wording.translation import Tongue

#: The kind of a parameter by the end of its name; the first that fits.
_KINDS_BY_ENDING: tuple[tuple[str, Kind], ...] = (
    ("_ml_per_g", WETNESS),
    ("strength_g_per_l", STRENGTH),
    ("_g_per_l", ACID),
    ("_pct_owf", DEPTH),
    ("_pct", PERCENT),
    ("_share", SHARE),
    ("_ml", VOLUME),
    ("_mm", WIDTH),
    ("_nm", WAVELENGTH),
    ("singles_m", YARN_LENGTH),
    ("plied_m", YARN_LENGTH),
    ("_rows", ROWS),
    ("_m", LAY_LENGTH),
    ("dry_g", FINE_MASS),
    ("squeezed_g", FINE_MASS),
    ("soaked_g", FINE_MASS),
    ("_g", MASS),
)
#: Parameters whose kind is that of the field they speak of.
_OF_THE_FIELD = ("value", "low", "high")
#: What a figure of a plan is said up to; a larger one says as much by "more than".
_MOST_TO_SAY = 100.0
_BOUNDED_KINDS = (WETNESS, DEPTH, PERCENT)
_BOUNDED_RATIOS = ("ratio", "applied_ratio", "factor", "stock_factor")
#: How what an id points to is named.
_NAMES = {"stock": stock_name, "liquor": liquor_name}


@dataclass(frozen=True)
class Told:
    """What is to be told: parameters, the plan they speak of, and the tongue.

    Besides the parameters, sentences may use `{section}`, `{sections}`, `{stock}`, `{liquor}` and `{field}`,
    which are named from the ids among them, and `words`, which are said already.
    """

    params: Mapping[str, Param]
    tongue: Tongue
    plan: Plan | None = None
    section_ids: Sequence[str] = ()
    words: Mapping[str, str] = field(default_factory=dict)

    def plus(self, **words: str) -> Told:
        """Return the same with more words to use in the sentence."""
        return replace(self, words={**self.words, **words})

    def number(self, name: str) -> float:
        """Return a parameter as a number, nan where there is none."""
        value = self.params.get(name)
        return float(value) if isinstance(value, (int, float)) else float("nan")

    def text(self, name: str) -> str:
        """Return a parameter as text, "" where there is none."""
        value = self.params.get(name)
        return value if isinstance(value, str) else ""

    def translate(self, context: str, text: str) -> str:
        """Return the sentence in the tongue, filled; the source sentence where a translation is broken."""
        try:
            return self.tongue.translate(context, text).format_map(self)
        except (LookupError, ValueError, AttributeError):
            return text.format_map(self)

    def __getitem__(self, name: str) -> str:
        if name in self.words:
            return self.words[name]
        return self._named(name) or self._shown(name, self.params.get(name))

    def _named(self, name: str) -> str:
        """Return the name of a section, stock, liquor or field that the parameters point to, else ""."""
        if name == "field":
            return field_name(self.text("field"), self.tongue)
        if name == "section":
            return self._section()
        if self.plan is None:
            return ""
        if name == "sections" and self.section_ids:
            return section_names(self.plan, self.section_ids, self.tongue)
        pointed_at = self.text(f"{name}_id")
        return _NAMES[name](self.plan, pointed_at) if name in _NAMES and pointed_at else ""

    def _section(self) -> str:
        section_id = self.text("section_id") or next(iter(self.section_ids), "")
        if self.plan is not None and section_id:
            return section_name(self.plan, section_id, self.tongue)
        nameless = self.tongue.translate("Names", "A section without a name")
        return one_line(self.text("section")) or nameless

    def _shown(self, name: str, value: Param) -> str:
        if isinstance(value, str):
            return one_line(value) or UNKNOWN
        if value is None:
            return UNKNOWN
        kind = self._kind(name)
        # depths are compared with one another, and so are the acids; the rest is read alone
        say = shown if kind is DEPTH else shown_briefly
        bounded = kind in _BOUNDED_KINDS or name in _BOUNDED_RATIOS
        if bounded and name not in _OF_THE_FIELD and value > _MOST_TO_SAY:
            most = shown_briefly(kind, _MOST_TO_SAY, self.tongue)
            return self.tongue.translate("Numbers", "more than {0}").format(most)
        return say(kind, float(value), self.tongue)

    def _kind(self, name: str) -> Kind:
        if name in _OF_THE_FIELD:
            return FIELD_KINDS.get(self.text("field"), PLAIN)
        for ending, kind in _KINDS_BY_ENDING:
            if name.endswith(ending):
                return kind
        return COUNT if isinstance(self.params.get(name), int) else PLAIN


#: A sentence yet to be filled.
Telling: TypeAlias = Callable[[Told], str]
