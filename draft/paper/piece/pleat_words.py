"""Words along the two lines of a pleat: which is folded, and on which that is laid."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.garment.garment import Takeup
from draft.paper.drawing.drawing import Label
from draft.paper.drawing.wording import Wording
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.piece_lines import Outlines
from draft.paper.piece.piece_marks import first_free, spots_about
from draft.paper.piece.surface import Surface
from draft.paper.piece.takeups import pleat_sides


def pleat_words(
    outlines: Sequence[Outlines], inside: Any, taken: Sequence[Any], wording: Wording, surface: Surface
) -> list[Label]:
    """The words of each pleat that is said to be laid to a side, once for all sizes, where they fit beside its lines.

    A row of pleats has them at its first.
    """
    one, found = outlines[len(outlines) // 2], list[Label]()
    told = _told(one)
    clutter = Clutter(taken if told else [])
    texts = (wording.say("piece.fold_line"), wording.say("piece.placement_line"))
    for takeup in told:
        for text, line in zip(texts, pleat_sides(one, takeup), strict=True):
            spots = [
                spot for spot in spots_about(line, [text], surface) if spot.width <= np.hypot(*(line[1] - line[0]))
            ]
            found += first_free([text], [spots], inside, clutter, surface)
    return found


def _told(one: Outlines) -> list[Takeup]:
    """The pleats that say where they are laid; of a row, which has numbers behind its name, the first."""
    laid = [t for t in one.piece.takeups if t.to is None and t.pressed is not None]
    return list({t.name.split(" ")[0]: t for t in reversed(laid) if one.has(t)}.values())
