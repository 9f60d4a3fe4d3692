"""One level of a form: half of a ring from the middle of the front to that of the back, and the tape round it.

A section is a superellipse, |x/a|^n + |y/b|^n = 1, whose exponent is found from its girth: 2 is an ellipse, more is
squarer. The tape is drawn tight: the girth of the hull, which is its mean width times pi (Cauchy), taken in so many
directions that what is left out stays under a hundredth of a millimetre.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats

HALF = 57
"""Points of half a ring."""

_ROUND = np.linspace(0.0, np.pi, HALF)
_SIN, _COS = np.sin(_ROUND).clip(0.0), np.cos(_ROUND)
_WAYS = np.linspace(-np.pi / 2, np.pi / 2, 97)
_DIRECTIONS = np.stack([np.cos(_WAYS), np.sin(_WAYS)])
_WEIGHTS = np.full(len(_WAYS), _WAYS[1] - _WAYS[0]) * np.where(np.arange(len(_WAYS)) % (len(_WAYS) - 1), 1.0, 0.5)

ROUNDEST, SQUAREST = 2.0, 2.8
"""Exponents between which a level looks like a body's (looked at; 3.6, which some hips would ask for, is a box)."""


def ring(breadth: Floats, depth: Floats, exponent: Floats) -> Floats:
    """Half a ring `(..., points, 2)` about its middle: x to the side, y to the back; breadth and depth are halves."""
    power = 2.0 / np.asarray(exponent)[..., None]
    x = np.asarray(breadth)[..., None] * _SIN**power
    y = -np.asarray(depth)[..., None] * np.sign(_COS) * np.abs(_COS) ** power
    return np.stack([x, y], axis=-1)


def taped(half: Floats) -> Floats:
    """The girth of a tape drawn tight round half rings `(..., points, 2)` and their mirror images."""
    return np.asarray(2.0 * (supports(half) @ _WEIGHTS))


def taped_with(half: Floats, middle: Floats, radius: Floats) -> Floats:
    """The same round half rings and a circle on either side, such as the arms: middle `(..., 2)`, radius `(...)`."""
    circle = middle @ _DIRECTIONS + np.asarray(radius)[..., None]
    return np.asarray(2.0 * (np.maximum(supports(half), circle) @ _WEIGHTS))


def supports(half: Floats) -> Floats:
    """How far half rings `(..., points, 2)` reach in each direction, front to back: `(..., directions)`."""
    return np.asarray((half @ _DIRECTIONS).max(axis=-2))


def around(half: Floats) -> Floats:
    """The way round a ring itself, `(...)`: its girth where it bends inward nowhere."""
    return np.asarray(2.0 * np.sqrt((np.diff(half, axis=-2) ** 2).sum(-1)).sum(-1))


def with_girth(girth: Floats, breadth: Floats, depth: Floats) -> tuple[Floats, Floats, Floats]:
    """Breadth, depth (both halves) and exponent `(bodies,)` at which the tape reads the girth.

    The exponent gives first, between what looks like a body's; what it cannot do, breadth and depth do in proportion.
    """
    tried = np.array([ROUNDEST, (ROUNDEST + SQUAREST) / 2, SQUAREST])[:, None]
    low, middle, high = around(ring(breadth, depth, np.broadcast_to(tried, (3, len(breadth)))))
    share = (girth - low) / (high - low)
    bent = (middle - low) / (high - low) - 0.5  # of the curve from low to high, above its chord at the middle
    share = np.clip(share - 4 * bent * share * (1 - share), 0.0, 1.0)
    exponent = ROUNDEST + (SQUAREST - ROUNDEST) * share
    scale = girth / around(ring(breadth, depth, exponent))
    return breadth * scale, depth * scale, exponent


def of_aspect(girth: Floats, aspect: Floats, exponent: float) -> tuple[Floats, Floats]:
    """Breadth and depth (halves, `(bodies,)`) of a ring whose depth is `aspect` times its breadth."""
    breadth = girth / around(ring(np.ones_like(aspect), aspect, np.full_like(aspect, exponent)))
    return breadth, breadth * aspect
