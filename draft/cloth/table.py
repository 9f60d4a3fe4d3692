"""How much cloth, as a table that opens in a spreadsheet: five rows for each cloth, a column for each size."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from draft.base.csvtext import csv_text
from draft.base.units import MM_PER_INCH
from draft.cloth.amount import EIGHTH_YARD, FIVE_CENTIMETRES, rounded_up
from draft.cloth.bolt import ENDS, Cloth
from draft.cloth.needs import ClothNeed

YARD = 36 * MM_PER_INCH
COMMON_WIDTHS = (54 * MM_PER_INCH, 58 * MM_PER_INCH, 60 * MM_PER_INCH, 1370.0, 1470.0, 1520.0)
"""The widths in which cloth for clothes is sold, in inches and in centimetres (common practice)."""


def common_cloths(widths: Sequence[float] = COMMON_WIDTHS, shrink_across: float = 0.0, shrink_down: float = 0.0,
                  one_way: bool | None = None, ends: float = ENDS,
                  selvedge: float = 0.0, repeat: tuple[float, float] = (0.0, 0.0)) -> tuple[Cloth, ...]:  # fmt: skip
    """Cloth of each width, for both kinds of design unless `one_way` asks for one of them.

    With a `repeat` across and along all pieces point one way: seldom are stripes alike from both ends.
    """
    ways = (True,) if any(repeat) else (False, True) if one_way is None else (one_way,)
    plain = [Cloth(width, shrink_across, shrink_down, way, ends, selvedge) for width in widths for way in ways]
    return tuple(replace(cloth, repeat_across=repeat[0], repeat_along=repeat[1]) for cloth in plain)


def cloth_csv(rows: Sequence[Sequence[ClothNeed]]) -> bytes:
    """The table as CSV. Lengths to buy are rounded up; yards are decimal: a spreadsheet takes `7/8` for a date."""
    return csv_text(_rows(rows))


def _rows(rows: Sequence[Sequence[ClothNeed]]) -> Iterable[Sequence[object]]:
    yield ("width in", "width cm", "design", "figure", "unit", *(need.size for need in rows[0]))
    for row in rows:
        cloth = row[0].cloth
        lead = (f"{cloth.width / MM_PER_INCH:.1f}", f"{cloth.width / 10:.1f}", "one way" if cloth.one_way else "any")
        yards = [rounded_up(need.bought, EIGHTH_YARD) / YARD for need in row]
        metres = [rounded_up(need.bought, FIVE_CENTIMETRES) / 1000 for need in row]
        yield (*lead, "buy", "yd", *(f"{each:.3f}" for each in yards))
        yield (*lead, "buy", "m", *(f"{each:.2f}" for each in metres))
        yield (*lead, "lay", "cm", *(f"{need.length / 10:.1f}" for need in row))
        yield (*lead, "laid", "", *(need.lay.folding for need in row))
        yield (*lead, "used", "%", *(f"{need.lay.used * 100:.1f}" for need in row))
