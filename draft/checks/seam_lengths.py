"""Joined edges are of one length, or of the declared ratio where one is stretched to the other."""

from __future__ import annotations

import numpy as np

from draft.naming import listed
from draft.notes import Note, error
from draft.piece import Garment
from draft.seams.walk import Walked, walk

TOLERANCE = 0.5  # mm: half of what a careful cutter can follow


def check(garment: Garment) -> list[Note]:
    """A note for each join whose sides do not fit."""
    return [_note(garment, walked) for walked in walk(garment) if not fits(walked)]


def fits(walked: Walked) -> bool:
    """Whether a join fits for every body."""
    return bool(np.all(np.abs(walked.difference) <= TOLERANCE))


def _note(garment: Garment, walked: Walked) -> Note:
    off = np.abs(walked.difference)
    worst = int(np.argmax(off))
    join = walked.join
    longer = join.first if walked.difference[worst] > 0 else join.second
    side = " and ".join(f"`{part.piece}.{part.edge}`" for part in longer)
    fact = f"the two sides of `{join.name}` do not fit, for {listed(garment.sizes, off > TOLERANCE)}"
    figures = (
        f"at worst {side} is {off[worst]:.1f} mm too long ({garment.sizes[worst]}): "
        f"{walked.first[worst]:.1f} mm is sewn to {walked.second[worst]:.1f} mm"
    )
    return error(fact, join.span, figures)
