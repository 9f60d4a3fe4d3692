"""How far the cloth must stretch, where and why: over the body while it is worn, and past it while it is put on.

Cloth stretches unlike across and along its length. In between, a line at an angle to the greatest stretch is taken to
stretch by both in the shares of the squares of its direction, as small strains turn; the slant that a knit gives
besides is left out, so that the figure is on the safe side.
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import plain
from draft.base.notes import Span
from draft.base.record import dataclass
from draft.garment.garment import Finished, Garment, Join
from draft.geometry.lean import mean_square_along
from draft.seams.sharing import both_sides

AT_REST = 0.5
"""The share of its stretch that cloth may be worn stretched by for hours; the other half is left for moving (common
practice)."""

MOVING = 0.16
"""By how much skin lengthens across the back as arms move forward: 13 to 16 % (W. Kirk and S. M. Ibrahim, "Fundamental
relationship of fabric extensibility to anthropometric requirements and garment performance", Textile Research Journal
36, 1966; from memory). Cloth must still stretch so far when it is worn stretched already."""

FURTHEST = 2.5
"""No cloth stretches further."""

StretchReason = Literal["worn", "passing", "sewn"]


@dataclass(frozen=True)
class NeededStretch:
    """One stretch that a garment needs: shares `(bodies,)`, less than nothing where there is room.

    `given` is what the cloth stretches that way, and `limit` how much of it may be used.
    """

    reason: StretchReason
    where: str
    body: str
    share: Floats
    across: Floats
    given: Floats
    limit: Floats
    missing: Floats
    """How much longer the garment would have to be, mm, so that the cloth as it is will do."""
    span: Span | None
    asked: Floats
    """What is gone over, passed or sewn to, and the garment's own length there; mm."""
    own: Floats

    @property
    def met(self) -> np.ndarray:
        """Where the cloth stretches far enough."""
        return np.asarray(self.share <= self.limit + 1e-9)

    @property
    def why(self) -> str:
        """`the neckband, to pass over the head girth`."""
        words = {"worn": "to go over the", "passing": "to pass over the", "sewn": "to be sewn to"}
        return f"the {self.where}, {words[self.reason]} {self.body}"


@dataclass(frozen=True)
class Least:
    """The least stretch that a garment needs one way, `(bodies,)`, and which of the needs asks for it, `(bodies,)`."""

    share: Floats
    asking: np.ndarray


def needed_stretches(garment: Garment) -> tuple[NeededStretch, ...]:
    """Every stretch that the garment needs: over the body, past it, and where a band is sewn to its opening."""
    found = []
    for finished in garment.finished:
        if finished.over:
            found.append(_needed(garment, finished, "worn", *finished.over))
        found += [_needed(garment, finished, "passing", *passed) for passed in finished.passing]
    if "stretch_across" in garment.cloth:  # else the pattern leaves it open what its bands are cut from
        found += [_sewn(garment, join) for join in garment.joins if join.stretched]
    return tuple(found)


def least(garment: Garment, found: tuple[NeededStretch, ...]) -> tuple[Least, Least]:
    """The least stretch that the cloth must have across, and along its length."""
    ways = []
    for is_across in (True, False):
        shares = [np.where((needed.across >= 0.5) == is_across, _stretch_for(needed), 0.0) for needed in found]
        stacked = np.stack([np.zeros(len(garment.sizes)), *shares])
        asking = np.argmax(stacked, axis=0)
        ways.append(Least(np.max(stacked, axis=0), asking - 1))
    return ways[0], ways[1]


def comfortable(stretch: Floats) -> Floats:
    """By which share `(...)` cloth of this stretch, a share `(...)` too, may be stretched while it is worn.

    Half of it, and no more than leaves the wearer what moving takes: cloth that stretches by 50 % is worn stretched by
    25 %, cloth that stretches by 20 % by 3 %, and one that stretches by 16 % not at all.
    """
    moving = (1 + np.asarray(stretch)) / (1 + MOVING) - 1
    return np.asarray(np.clip(np.minimum(AT_REST * np.asarray(stretch), moving), 0.0, None))


def _stretch_for(needed: NeededStretch) -> Floats:
    """The stretch that cloth must have for a need: while it is worn, much more than is used."""
    if needed.reason != "worn":
        return np.maximum(needed.share, 0.0)
    stretches = np.linspace(0.0, FURTHEST, 251)
    enough = np.interp(needed.share, comfortable(stretches) + stretches * 1e-9, stretches)
    return np.where(needed.share > 0, enough, 0.0)


def _needed(garment: Garment, finished: Finished, reason: StretchReason, body: str, girth: Floats) -> NeededStretch:
    widest = finished.values if finished.flat is None else finished.flat  # elastic gives until the cloth lies flat
    safe = np.maximum(widest, 1e-6)
    across = finished.across if finished.across is not None else np.ones(len(safe))
    given = _given(garment, across)
    limit = comfortable(given) if reason == "worn" else given
    missing = np.maximum(girth / (1 + limit) - widest, 0.0)
    return NeededStretch(
        reason, plain(finished.name), body, girth / safe - 1, across, given, limit, missing, finished.span, girth, safe
    )


def _sewn(garment: Garment, join: Join) -> NeededStretch:
    """A band sewn to a longer opening: both as they lie on the table."""
    first, second = both_sides(garment, join)
    along = [mean_square_along(s.edge.segments, s.piece.stretch) * s.length for s in first.edges]
    across = np.sum(along, axis=0) / np.maximum(first.length, 1e-6)
    opening = second.whole / first.copies
    given = _given(garment, across)
    share = opening / np.maximum(first.length, 1e-6) - 1
    missing = np.maximum(opening / (1 + given) - first.length, 0.0)
    band = plain(join.first[0].piece)
    return NeededStretch(
        "sewn", band, f"its opening, {plain(join.name)}", share, across, given, given, missing, join.span,
        opening, first.length,
    )  # fmt: skip


def _given(garment: Garment, across: Floats) -> Floats:
    cloth = garment.cloth
    return np.asarray(cloth.get("stretch_across", 0.0) * across + cloth.get("stretch_down", 0.0) * (1 - across))
