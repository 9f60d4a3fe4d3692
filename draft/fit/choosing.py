"""Which size of a chart for whom: by each girth, and over all; for one person or for a study of many.

By one girth the best size is the one whose own body is nearest, or the next that keeps enough of its ease there: half
of what it was drafted with, or all but 2 cm where that is less. The size to cut is the one that fits the frame: the
bust, or the hip of what has no bust. The frame does not grade out easily; from there the lines go over to a larger
size where the ease does not suffice, or to a smaller one where there is far too much (common practice). Without such
grading the smallest size will do that keeps enough at every level.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from draft.base.arrays import Floats, Ints
from draft.base.record import dataclass
from draft.fit.levels import levels, over
from draft.garment.garment import Finished, Garment

Wear = Literal["closer", "as drafted", "looser"]

SHIFTS: dict[Wear, float] = {"closer": -0.04, "as drafted": 0.0, "looser": 0.04}
"""What a wearer's wish adds to the ease, as a share of the body: 4 cm at a bust of 1 m, a step of the letter sizes."""

LEAST_LOSS = 20.0
"""mm of ease that may be lost at any level: cloth and tape are no truer."""

KNIT = 0.2
"""Cloth that stretches so far gives at every move, and is worn with less ease than was drafted, or none: close and not
wrong (common practice)."""

CLOSE_LOSS = 40.0
"""mm that a knit may lose of its ease, as long as some is left: half a step of the letter sizes."""

KEPT = 0.5
"""The share of the drafted ease that must be left."""

FRAME = ("bust", "hip")
"""What a size is chosen by, of what a garment is worn over."""

ROOMY = 2
"""Sizes by which a level may be looser than drafted before the chart no longer serves."""


@dataclass(frozen=True)
class SizeFit:
    """How S sizes fit B bodies at L levels: ease in mm, and whether it is enough, `(B, S, L)`.

    Sizes are told by their place in the chart. `nearest` `(B, L)` is the best size by each level; `beyond` `(B, L)`
    is -1 or 1 where the body lies a half step or more below the smallest or above the largest. `fitting` `(B, L)`
    is the first from there on that is large enough at the level, `overall` `(B,)` the smallest that is large enough
    everywhere; -1 where none is. `frame` is the level that the size to cut is chosen by.
    """

    names: tuple[str, ...]
    ease: Floats
    enough: NDArray[np.bool_]
    nearest: Ints
    beyond: Ints
    overall: Ints
    fitting: Ints
    frame: int

    @property
    def cut(self) -> Ints:
        """The size to cut by the frame `(B,)`, -1 where none is large enough there."""
        return np.asarray(self.fitting[:, self.frame])

    def grading(self, body: int) -> dict[int, int]:
        """The levels of a body at which the size to cut is left, and which to go over to; -1 where none will do."""
        cut, fitting = int(self.cut[body]), self.fitting[body]
        close = ~self.enough[body, cut]
        roomy = (fitting >= 0) & (cut - fitting >= ROOMY) & (self.beyond[body] == 0)
        return {int(level): int(fitting[level]) for level in np.flatnonzero(close | roomy)}

    def only(self, levels: Sequence[int]) -> SizeFit:
        """The fit by some of the levels alone: one at least."""
        at = list(levels)
        enough, fitting = self.enough[..., at], self.fitting[:, at]
        frame = at.index(self.frame) if self.frame in at else 0
        return SizeFit(
            tuple(self.names[level] for level in at), self.ease[..., at], enough, self.nearest[:, at],
            self.beyond[:, at], _smallest(enough), fitting, frame,
        )  # fmt: skip

    @property
    def served(self) -> NDArray[np.bool_]:
        """The bodies `(B,)` for which a size is large enough and at no level far too large."""
        count = self.ease.shape[1]
        roomy = np.max(self.overall[:, None] - self.nearest, axis=1) > ROOMY
        return np.asarray((self.overall >= 0) & ~roomy & ~np.all(self.beyond < 0, axis=1) & (count > 0))


def choose(sizes: Garment, people: Garment, wear: Wear = "as drafted") -> SizeFit | None:
    """How the sizes fit the people, both drafted from one plan; None where no level says what it is worn over."""
    drafted, bodies = list(levels(sizes)), list(levels(people))
    if not drafted:
        return None
    finished = np.stack([each.values for each in drafted], axis=-1)
    own = np.stack([over(each) for each in drafted], axis=-1)
    body = np.stack([over(each) for each in bodies], axis=-1)
    wish = 1 + SHIFTS[wear]
    ease = finished[None] - body[:, None]
    drafted_ease = (finished - own)[None]
    loss = np.maximum(LEAST_LOSS, np.abs(drafted_ease) * (1 - KEPT))
    if sizes.cloth.get("stretch_across", 0.0) >= KNIT:
        loss = np.maximum(loss, np.clip(drafted_ease, 0.0, CLOSE_LOSS))
    enough = ease >= drafted_ease + SHIFTS[wear] * body[:, None] - loss - 1e-6
    nearest = np.argmin(np.abs(own[None] - body[:, None] * wish), axis=1)
    return SizeFit(
        tuple(each.title for each in drafted),
        ease,
        enough,
        nearest,
        _beyond(own, body * wish),
        _smallest(enough),
        _from(enough, nearest),
        _frame(drafted),
    )


def _frame(found: list[Finished]) -> int:
    """The level that a size is chosen by: the bust, else the hip, else the first."""
    worn_over = [each.over[0] if each.over else "" for each in found]
    named = (k for part in FRAME for k, name in enumerate(worn_over) if part in name)
    return next(named, 0)


def _from(enough: NDArray[np.bool_], nearest: Ints) -> Ints:
    """Of sizes that are `enough` `(B, S, L)` the first from the nearest one `(B, L)` on, -1 where there is none."""
    large = enough & (np.arange(enough.shape[1])[:, None] >= nearest[:, None])
    return np.asarray(np.where(large.any(axis=1), np.argmax(large, axis=1), -1))


def _smallest(enough: NDArray[np.bool_]) -> Ints:
    all_levels = enough.all(axis=-1)
    return np.asarray(np.where(all_levels.any(axis=-1), np.argmax(all_levels, axis=-1), -1))


def _beyond(own: Floats, body: Floats) -> Ints:
    if len(own) < 2:
        return np.zeros(body.shape, dtype=np.intp)
    below = body < own[0] - (own[1] - own[0]) / 2
    above = body > own[-1] + (own[-1] - own[-2]) / 2
    return np.asarray(above.astype(np.intp) - below.astype(np.intp))
