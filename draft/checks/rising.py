"""Every finished measurement grows with the size."""

from __future__ import annotations

import numpy as np

from draft.base.notes import Note, caution
from draft.base.plainly import Typed, sentence
from draft.garment.garment import Garment

ENOUGH = -0.01  # mm: equal sizes are no fault of the drawing


def check(garment: Garment) -> list[Note]:
    """A note for each measurement that is smaller in a size than in the one before."""
    notes = []
    for finished in garment.finished:
        falls = np.flatnonzero(np.diff(finished.values) < ENOUGH)
        if len(falls):
            pairs = ", ".join(f"{garment.sizes[k]} to {garment.sizes[k + 1]}" for k in falls)
            plainly = sentence("level_grows_smaller", level=finished.name, pairs=Typed(pairs.replace(" to ", " – ")))
            notes.append(caution(f"the finished `{finished.name}` grows smaller from {pairs}", plainly=plainly))
    return notes
