"""The bust: two mounds before the ribs, as far forward as the tape over them asks for.

The ribs have the under-bust girth, and are a little fuller behind the bust. How deep they are and how far the mounds
stand out follows from two things: the tape at the bust reads what was measured, and the depth over all is that of
surveyed bodies. The breadth is what is left: some 4 cm more than the survey's, and 10 cm more in men, whose tape lay
over what the calipers pass by.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.form.measured import Measured
from draft.form.section import of_aspect, ring, taped

RIBS = 2.7
"""The exponent of the ribs; of a chest without mounds it is a little rounder (both looked at)."""
CHEST = 2.5
FULLER = 0.4
"""How far the ribs at the bust have come from the under-bust girth to the bust's: back and sides are fuller there. So
ribs are three quarters as deep as broad, as surveyed waists and chests are; without it they would be flat."""
_FLATTEST, _ROUNDEST = 0.5, 1.1
_INWARD, _OUTWARD = 1.25, 0.95  # how far a mound reaches to the middle and to the side, of its point from the middle
_PEAK = 1.5
_FRONT = 0.35  # of the ribs' half depth: how far behind the front a mound runs out
_ABOVE, _LEAST_ABOVE, _MORE_ABOVE = 1.9, 50.0, 15.0  # a mound's upper slope is longer than its lower one
_GIRTH_OF_HEIGHT = 1.75  # mm that the tape grows for each that the mounds come forward, to begin with


@dataclass(frozen=True)
class Bust:
    """The ribs behind it, half as broad and deep, and how far its mounds stand out, mm `(bodies,)` each."""

    breadth: Floats
    depth: Floats
    exponent: float
    forward: Floats
    point: Floats
    """From the middle to the bust point."""


def bust_of(m: Measured) -> Bust:
    """The bust of bodies; of those without mounds it is the chest, as deep as the survey's."""
    deep, point = m.told("chest_depth"), m["bust_point_distance"] / 2
    girth = m["bust_girth"]
    ribs = np.minimum(m["under_bust_girth"], girth)
    ribs = ribs + FULLER * (girth - ribs) if m.of.mounded else girth
    exponent = RIBS if m.of.mounded else CHEST
    before, aspect = np.full(len(m), 0.72), np.full(len(m), 0.80)
    forward = np.zeros(len(m))
    missed, forward = _too_deep(before, ribs, girth, point, deep, exponent, forward)
    for _ in range(4):
        now, forward = _too_deep(aspect, ribs, girth, point, deep, exponent, forward)
        slope = (now - missed) / np.where(aspect == before, 1.0, aspect - before)
        ahead = np.clip(aspect - now / np.where(np.abs(slope) > 1.0, slope, 200.0), _FLATTEST, _ROUNDEST)
        before, missed, aspect = aspect, now, ahead
    breadth, depth = of_aspect(ribs, aspect, exponent)
    forward = _forward(breadth, depth, exponent, girth, point, forward)
    return Bust(breadth, depth, exponent, forward, point)


def _too_deep(
    aspect: Floats, ribs: Floats, girth: Floats, point: Floats, deep: Floats, exponent: float, guess: Floats
) -> tuple[Floats, Floats]:
    """How much deeper than the survey's a bust over ribs of such an aspect is, and how far its mounds stand out."""
    breadth, depth = of_aspect(ribs, aspect, exponent)
    forward = _forward(breadth, depth, exponent, girth, point, guess)
    half = ring(breadth, depth, np.full_like(depth, exponent))
    front = half[..., 1] - forward[:, None] * mound(half, point, np.zeros_like(point), depth)
    return np.ptp(front, axis=-1) - deep, forward


def _forward(breadth: Floats, depth: Floats, exponent: float, girth: Floats, point: Floats, guess: Floats) -> Floats:
    """How far mounds stand out so that the tape reads `girth`: by secants, which the tape's growth makes few."""
    half = ring(breadth, depth, np.full_like(depth, exponent))
    shape = mound(half, point, np.zeros_like(point), depth)

    def short(forward: Floats) -> Floats:
        moved = np.stack([half[..., 0], half[..., 1] - forward[:, None] * shape], axis=-1)
        return girth - taped(moved)

    before, missed = guess, short(guess)
    at = np.maximum(before + missed / _GIRTH_OF_HEIGHT, 0.0)
    for _ in range(6):
        now = short(at)
        if np.abs(now).max() < 1e-4:
            break
        slope = (missed - now) / np.where(at == before, 1.0, at - before)
        before, missed, at = at, now, np.maximum(at + now / np.where(slope > 0.3, slope, _GIRTH_OF_HEIGHT), 0.0)
    return at


def mound(half: Floats, point: Floats, above: Floats, depth: Floats) -> Floats:
    """How far points of half rings `(bodies, ..., points, 2)` come forward, as a share of what the bust point does.

    `above` `(bodies, ...)` is how high over the bust the ring lies, as a share of how far the mound reaches there.
    """
    wide = (slice(None), *(None,) * (half.ndim - 2))
    aside = half[..., 0] - point[wide]
    aside = aside / (np.where(aside > 0, _OUTWARD, _INWARD) * point[wide])
    inside = np.maximum(1.0 - aside**2 - above[..., None] ** 2, 0.0)
    front = np.clip(-half[..., 1] / (_FRONT * depth[..., None]), 0.0, 1.0)
    return np.asarray(inside**_PEAK * front)


def reach(rows: Floats, bust: Floats, under: Floats) -> Floats:
    """How high rows `(bodies, rows)` lie over the bust, as a share of how far the mounds reach up or down."""
    down = (bust - under)[:, None]
    up = _ABOVE * np.maximum(down, _LEAST_ABOVE) + _MORE_ABOVE
    off = rows - bust[:, None]
    return np.asarray(np.where(off > 0, off / up, off / down))
