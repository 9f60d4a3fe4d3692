"""Points and edges of another draft where they come to lie once its paper is laid on this one.

A collar is drawn on the neckline of front and back, a facing on its front: of the paper that is laid there only one
line is wanted, and the points on it. Two points say how paper lies: one meets another, and a second faces a third.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np

from draft.base.arrays import Floats
from draft.base.units import Kind, in_words
from draft.geometry.cubic import norm
from draft.geometry.motion import laying, moved
from draft.words.word import Given, Miss, Word, one

AT_END = 1e-3  # mm: a point that lies no farther from the end of an edge is that end

_ALIKE = "two of the points that it is laid by lie on one another"
_NO_END = "the point is no end of the edge"


def _laid(mirrored: bool) -> Callable[..., Given]:
    def run(what: Floats, first: Floats, onto: Floats, towards: Floats, facing: Floats) -> Given:
        fits = (norm(towards - first) > 0) & (norm(facing - onto) > 0)
        return moved(what, laying(first, towards, onto, facing, mirrored)), fits

    return run


def _along(mirrored: bool) -> Callable[..., Given]:
    def run(edge: Floats, other: Floats, first: Floats, onto: Floats) -> Given:
        off, away = _other_end(edge, first)
        beside, far = _other_end(other, onto)
        found, fits = _laid(mirrored)(edge, first, onto, away, far)
        return found, fits & (off <= AT_END) & (beside <= AT_END)

    return run


def _other_end(edge: Floats, end: Floats) -> tuple[Floats, Floats]:
    """How far a point `(B, 2)` is from the nearer end of an edge, and the other end."""
    ends = np.stack([edge[:, 0, 0], edge[:, -1, 3]], axis=1)
    off = norm(ends - end[:, None])
    nearer = np.argmin(off, axis=1)
    body = np.arange(len(off))
    return off[body, nearer], ends[body, 1 - nearer]


def _misses(edge: Floats, other: Floats, first: Floats, onto: Floats) -> Iterator[Miss]:
    left = np.ones(len(edge), dtype=bool)
    for what, line, point in (("that is laid", edge, first), ("that it is laid on", other, onto)):
        off, _ = _other_end(line, point)
        told = f"it lies {in_words(float(off.max()), Kind.LENGTH)} from the nearer end"
        yield f"the point is no end of the edge {what}", left & (off > AT_END), told
        left &= off <= AT_END
    yield _ALIKE, left, ""


_P, _E = one(Kind.POINT), one(Kind.EDGE)

WORDS = (
    Word("laid_point", "laid P: A on B, C towards D",
         "A point of paper that is laid so that one of its points meets another, and a second faces a third.",
         (_P, _P, _P, _P, _P), Kind.POINT, _laid(False), fails=_ALIKE,
         example="tip  laid back.low_side: back.high on nape, back.low_centre towards hem_centre"),
    Word("laid_over_point", "laid P mirrored: A on B, C towards D", "The same of paper that is turned over.",
         (_P, _P, _P, _P, _P), Kind.POINT, _laid(True), fails=_ALIKE,
         example="tip  laid back.low_side mirrored: back.high on nape, back.low_centre towards hem_centre"),
    Word("laid_edge", "following laid EDGE: A on B, C towards D",
         "A leg on an edge of paper that is laid so that one of its points meets another, and a second faces a third.",
         (_E, _P, _P, _P, _P), Kind.EDGE, _laid(False), fails=_ALIKE,
         example="seen  neck to shoulder  following laid overarm: neck on neck, shoulder towards shoulder"),
    Word("laid_over_edge", "following laid EDGE mirrored: A on B, C towards D",
         "The same of paper that is turned over.", (_E, _P, _P, _P, _P), Kind.EDGE, _laid(True), fails=_ALIKE,
         example="seen  neck to shoulder  following laid overarm mirrored: neck on neck, shoulder towards shoulder"),
    Word("laid_along", "following laid EDGE on EDGE: A on B",
         "A leg on an edge that is laid on another, from an end that meets one of the other's; its far end faces the "
         "other's far end.", (_E, _E, _P, _P), Kind.EDGE, _along(False), fails=_NO_END, misses=_misses,
         example="seen  neck to shoulder  following laid overarm on overarm: neck on neck"),
    Word("laid_over_along", "following laid EDGE mirrored on EDGE: A on B", "The same of paper that is turned over.",
         (_E, _E, _P, _P), Kind.EDGE, _along(True), fails=_NO_END, misses=_misses,
         example="seen  neck to shoulder  following laid overarm mirrored on overarm: neck on neck"),
)  # fmt: skip
