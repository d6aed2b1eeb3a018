"""The depth of a dyed sample as painters know it: "12 + 38 on 18 g".

The rule of this module: the first amount is the dye's stock and the rest let it down; how much the rest is
does not matter, for depth is dye on the weight of the fibre.
"""

from __future__ import annotations

import re

from studio_gui.domain.dye import depth_pct_owf
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import checked
from studio_gui.storage.strict_json import quoted
from studio_gui.wording.amounts import LONGEST_AMOUNTS, parse_amounts
from studio_gui.wording.numbers import check_length
from studio_gui.wording.quantities import DEPTH, MASS, parse, parse_quantity
from studio_gui.wording.translation import TRANSLATED, Tongue


def parse_depth(text: str, strength_pct: float, tongue: Tongue = TRANSLATED) -> float:
    """Return the depth of shade (% owf) typed in `text`: "1.5", "1.5 %", or "12 + 38 on 18 g".

    `strength_pct` is that of the stock, % w/v. Bare amounts are millilitres; a bare weight has the unit that
    weights are shown in.

    Raises
    ------
    InvalidPlan
        ``not-a-sample`` for more than one "on" or one side left empty; as `parse`, `parse_amounts` and
        `checked`.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> parse_depth("12 + 38 on 18 g", 1.5, ENGLISH), parse_depth("1,5", 1.5, ENGLISH)
    (1.0, 1.5)
    """
    check_length(text, LONGEST_AMOUNTS)
    sides = _between(tongue).split(text)
    if len(sides) == 1:
        if "+" in text.strip()[1:]:
            raise _not_a_sample(text)
        return parse(DEPTH, text, "swatch_depth_pct_owf", tongue)
    if len(sides) > 2 or not all(side.strip() for side in sides):
        raise _not_a_sample(text)
    stock_ml = parse_amounts(sides[0], tongue)[0]
    fibre_g = checked("sample_g", parse_quantity(MASS, sides[1], tongue))
    return checked("swatch_depth_pct_owf", float(depth_pct_owf(stock_ml, strength_pct, fibre_g)))


def _not_a_sample(text: str) -> InvalidPlan:
    return InvalidPlan("not-a-sample", value=quoted(text.strip()))


def _between(tongue: Tongue) -> re.Pattern[str]:
    own = re.escape(tongue.translate("Amounts", "on"))
    return re.compile(rf"@|\bon\b|(?<!\w){own}(?!\w)", re.IGNORECASE)
