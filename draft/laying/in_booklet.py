"""What a booklet says of the cloth: how much to buy of some widths, and the cutting layouts on the first of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import chain

from draft.cloth.bolt import Cloth
from draft.cloth.effort import effort
from draft.cloth.of_one import of_each_cloth
from draft.garment.garment import Garment
from draft.laying.lay_sizes import diagrams, lay_sizes
from draft.paper.booklet import ClothAmounts, ClothPlan
from draft.paper.drawing.wording import Wording
from draft.paper.pictures.lay_drawing import LayPicture


def cloth_plan(
    garment: Garment, widths: Mapping[str, Sequence[float]], washing: Mapping[str, float], wording: Wording
) -> ClothPlan:
    """A quick search for every size on each cloth of the garment, of each of its widths in mm.

    `washing` holds the shrinkage of the first cloth that is still to come. Raises Problems for cloth that cannot be, or
    that a piece is too wide for.
    """
    plans = []
    for number, (name, part) in enumerate(of_each_cloth(garment).items()):
        plans.append(_of_one(name, part, widths[name], {} if number else washing, wording))
    return ClothPlan(*(tuple(chain.from_iterable(found)) for found in zip(*plans, strict=True)))


def _of_one(
    name: str, garment: Garment, widths: Sequence[float], washing: Mapping[str, float], wording: Wording
) -> tuple[list[ClothAmounts], list[LayPicture]]:
    across, down = (max(washing.get(f"shrinkage_{way}", 0.0), 0.0) for way in ("across", "down"))
    rows = lay_sizes(garment, [Cloth(width, across, down) for width in widths], effort("quick"))
    amounts = [
        ClothAmounts(row[0].cloth.width, row[0].cloth.one_way, tuple(need.bought for need in row), name) for row in rows
    ]
    return amounts, [diagram.picture for diagram in diagrams(garment, rows[:1], wording)]
