"""Where cloth is kept free along its selvedges: finished edges pull and are woven tighter than the rest."""

from __future__ import annotations

from collections.abc import Sequence


def kept_free(sides: Sequence[tuple[float, str]], width: float, margin: float) -> list[float]:
    """How far across a table `width` mm wide each line lies up to which pieces may lie, mm.

    `sides` are the lines along the cloth and what each is; where two selvedges meet there is one on either side.
    """
    ways = {"meeting": (-1, 1)}
    found = []
    for x, side in sides if margin else ():
        inwards = (1 if x <= width / 2 else -1,) if side == "selvedge" else ways.get(side, ())
        found += [x + way * margin for way in inwards]
    return found
