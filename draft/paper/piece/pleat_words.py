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
from draft.paper.piece.surface import Surface
from draft.paper.piece.takeups import crossing, pleat_sides
from draft.paper.piece.words_at_marks import first_free, spots_about


def pleat_words(
    outlines: Sequence[Outlines], inside: Any, taken: Sequence[Any], wording: Wording, surface: Surface
) -> list[Label]:
    """The words of each pleat that is said to be laid to a side, once for all sizes, where they fit beside its lines.

    A row of pleats has each of them once, at the first of its pleats that has room.
    """
    one, found = outlines[len(outlines) // 2], list[Label]()
    rows = [] if len(outlines) > 1 and any(name in crossing(outlines) for name in _names(one)) else _rows(one)
    clutter = Clutter(taken if rows else [])
    texts = (wording.say("piece.fold_line"), wording.say("piece.placement_line"))
    for row in rows:
        for which, text in enumerate(texts):
            lines = [pleat_sides(one, takeup)[which] for takeup in row]
            fitting = [line for line in lines if _extent_of(text, surface) <= np.hypot(*(line[1] - line[0]))]
            spots = [spots_about(line, [text], surface) for line in fitting]
            found += first_free([text], spots, inside, clutter, surface)
    return found


def _names(one: Outlines) -> list[str]:
    return [takeup.name for takeup in one.piece.takeups if takeup.to is None]


def _extent_of(text: str, surface: Surface) -> float:
    return spots_about(np.zeros((1, 2)), [text], surface)[0].width


def _rows(one: Outlines) -> list[list[Takeup]]:
    """The pleats that say where they are laid; those of a row, which have numbers behind its name, together."""
    rows: dict[str, list[Takeup]] = {}
    for takeup in one.piece.takeups:
        if takeup.to is None and takeup.pressed is not None and one.has(takeup):
            rows.setdefault(takeup.name.split(" ")[0], []).append(takeup)
    return list(rows.values())
