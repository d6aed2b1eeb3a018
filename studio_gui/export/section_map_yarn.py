"""The yarn in the section map: what the dyed set is spun and plied into, and the stripes that are wanted.

*Singles* and *laid* metres are before take-up, *plied* ones after it: ``plied_m`` is
``laid_m * (1 - take_up)``; a single is not plied, and its ``take_up`` is 0.

- ``leftover_m`` and ``leftover_g``: singles of each strand that are not in the yarn; ``leftover_share`` the
  most of them, as a share of the longest strand.
- ``solid_m`` and ``barber_pole_m``: plied metres in which all strands show one colour, and the rest; together
  ``plied_m``. ``solid_share`` is their share of it, 0 to 1.
- ``smear_m`` and ``smear_worst_m``, of a chain only: laid metres that its changes of colour mix, on average
  and at worst.
- ``runs``: for each strand, in spinning order and with leftovers, ``[liquor id, metres of singles]``.
- ``plied_runs``: the yarn from its start, with the liquor of every strand (one, of a chain), in plied metres.
- ``pairs``: how much of the yarn has these liquors side by side, the first strand's first; ``singles_m`` are
  those of each strand. A chain has single liquors, and pairs where a change mixes two.
- ``knitting``: yarn and stitches of a row, and how many whole rows there are; ``section_rows`` what each
  section comes to at one place, in rows.
- ``stripes``: those that are wanted, with the plied metres of each; there where the plan has some.
"""

from __future__ import annotations

from collections.abc import Sequence

from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.stripes import StripePlan, rows_of_sections
from studio_gui.domain.spinning.swatch import KnittedRows
from studio_gui.domain.worksheet import Worksheet
from studio_gui.storage.strict_json import Json


def yarn_part(sheet: Worksheet) -> Json:
    """Return the ``yarn`` of a section map."""
    plan, yarn = sheet.plan, sheet.yarn
    smear_m = float(yarn.smear_m.sum()) if yarn.is_chain else None
    return known(
        {
            "structure": plan.yarn.structure,
            "singles_m_per_g": float(plan.yarn.singles_m_per_g),
            "take_up": float(yarn.take_up),
            "staple_m": float(plan.yarn.staple_m),
            "laid_m": yarn.laid_m,
            "plied_m": yarn.plied_m,
            "leftover_m": list(yarn.leftover_m),
            "leftover_g": list(yarn.leftover_g),
            "leftover_share": yarn.leftover_share,
            "solid_share": yarn.solid_share,
            "solid_m": yarn.solid_m,
            "barber_pole_m": yarn.barber_pole_m,
            "smear_m": smear_m,
            "smear_worst_m": None if smear_m is None else yarn.smear_worst_m,
            "runs": [
                [[plan.liquors[run.liquor].id, run.length_m] for run in yarn.strand_runs(strand)]
                for strand in range(len(yarn.strands))
            ],
            "plied_runs": [
                {
                    "liquor_ids": _liquor_ids(plan, run.liquors),
                    "metres": run.end_m - run.start_m,
                    "solid": run.solid,
                }
                for run in yarn.runs
            ],
            "pairs": [
                {
                    "liquor_ids": _liquor_ids(plan, pair.liquors),
                    "singles_m": pair.laid_m,
                    "plied_m": pair.plied_m,
                    "solid": pair.solid,
                }
                for pair in yarn.pairs
            ],
            "knitting": _knitting(KnittedRows(yarn)),
            "section_rows": {
                plan.sections[one.section_index].id: float(one.rows) for one in rows_of_sections(plan)
            },
            "stripes": _stripes(sheet.stripes),
        }
    )


def _knitting(rows: KnittedRows) -> Json:
    knitting = rows.plan.yarn.knitting
    return {
        "width_m": float(knitting.width_m),
        "row_m": float(rows.row_m),
        "stitches": rows.stitches,
        "rows": rows.rows,
        "in_the_round": knitting.in_the_round,
    }


def _stripes(laid: StripePlan) -> Json:
    wanted = zip(laid.plan.yarn.stripes, laid.yarn_m, strict=True)
    return [
        {
            "liquor_id": stripe.liquor_id,
            "amount": float(stripe.amount),
            "measure": stripe.measure,
            "plied_m": float(metres),
        }
        for stripe, metres in wanted
    ] or None


def _liquor_ids(plan: Plan, liquors: Sequence[int]) -> list[Json]:
    return [plan.liquors[liquor].id for liquor in liquors]


def known(members: dict[str, Json]) -> dict[str, Json]:
    """Return the members whose value is known."""
    return {key: value for key, value in members.items() if value is not None}
