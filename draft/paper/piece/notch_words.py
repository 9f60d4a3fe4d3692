"""What a notch means, beside it: the designer's words, what opens there, or the part of the way along a band.

In a nest it stands with the size's name, or alone where all sizes share the notch.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Notch
from draft.geometry.cubic import unit
from draft.paper.drawing import font
from draft.paper.drawing.drawing import PT, Item
from draft.paper.drawing.room import Spot
from draft.paper.drawing.wording import Wording
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.piece_lines import FLIP
from draft.paper.piece.surface import Surface
from draft.paper.piece.title_block import SMALLEST
from draft.paper.piece.together import SAME_MARK, Together
from draft.paper.piece.words_at_marks import first_free

_REACHES = (0.8, 1.6, 3.0, 5.0, 8.0, 12.0, 18.0)
"""From the inner end of a notch to its words, in mm."""
_ASIDE = (0.0, 0.7, -0.7, 1.6, -1.6)
"""How far they lean aside of the way inward, as a share of it."""


def said_of(notch: Notch, wording: Wording) -> str:
    """What is printed beside a notch; nothing at one that only meets its like."""
    if notch.words:
        return wording.named(notch.words)
    if notch.ends is not None:
        return wording.say(f"piece.notch_{notch.ends.replace(' ', '_') or 'opening'}")
    return notch.said


def notch_words(together: Together, taken: Sequence[Any], surface: Surface, wording: Wording) -> list[Item]:
    """The words of the notches that bear some, of a piece in one size; in a nest of those that all sizes share."""
    one, found, clutter = together.outlines[0], list[Item](), Clutter(taken)
    for number, strokes in together.notches[0]:
        said = said_of(one.piece.notches[number], wording)
        if said and _is_shared(number, strokes, together):
            outer, inner = (strokes[:, 0, at].mean(axis=0) * FLIP for at in (0, 3))
            if not one.piece.edge(one.piece.notches[number].edge).allowance:
                outer, inner = inner, outer
            rows = _spots(inner, unit(inner - outer), said, surface)
            found += first_free([said], rows, one.cutting_shape, clutter, surface)
    return found


def _is_shared(number: int, strokes: Floats, together: Together) -> bool:
    """Whether a notch lies at one place in all sizes, so that no size's name stands there."""
    starts = strokes[:, 0, 0]
    others = [dict(notches).get(number) for notches in together.notches[1:]]
    return all(one is not None and bool(np.abs(one[:, 0, 0] - starts).max() < SAME_MARK) for one in others)


def _spots(point: Floats, inward: Floats, said: str, surface: Surface) -> Iterator[list[Spot]]:
    """Upright places for words inward of a point, the nearest first."""
    size = SMALLEST * PT * surface.enlarged
    wide, high = font.text_width(said, size), size * (font.CAP_HEIGHT + font.DESCENT)
    across, turn = np.array([-inward[1], inward[0]]), np.radians(surface.upright)
    ways = unit(inward + np.array(_ASIDE)[:, None] * across)
    right, down = np.array([np.cos(turn), np.sin(turn)]), np.array([-np.sin(turn), np.cos(turn)])
    half = np.abs(ways @ right) * wide / 2 + np.abs(ways @ down) * high / 2
    for reach in _REACHES:
        middles = point + (half + reach * surface.enlarged)[:, None] * ways
        yield [Spot(float(x), float(y), wide, high, surface.upright) for x, y in middles]
