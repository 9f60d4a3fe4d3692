"""Outlines to put allowances around: what a pattern of knit tops has, and the corners that a cutter meets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

import numpy as np
from hypothesis import strategies as st

from draft.base.notes import Source, Span
from draft.garment.garment import Edge, Piece
from draft.geometry.cubic import line, norm, reverse, unit
from draft.geometry.spline import hobby

HERE = Span(Source("outline.piece", "outline"), 0, 7)
ALLOWANCE, HEM = 12.7, 25.4  # 1/2 in and 1 in


def edge(
    name: str,
    segments: np.ndarray,
    allowance: float = ALLOWANCE,
    fold: bool = False,
    corner: Literal["meet", "mirror"] = "meet",
) -> Edge:
    path = np.asarray(segments, dtype=float)[None]
    return Edge(HERE, name, path, allowance=allowance, on_fold=fold, turned_up=corner == "mirror")


def piece(*edges: Edge) -> Piece:
    up = np.array([[0.0, 1.0]])
    return Piece(HERE, "outline", edges, 1, up, up[:, ::-1])


def polygon(corners: Sequence[Sequence[float]], widths: float | Sequence[float] = ALLOWANCE, **named: str) -> Piece:
    """A piece with straight edges `e0`, `e1`, ... and their allowances; `e2="mirror"` or `e0="fold"` sets one apart."""
    points = np.array(corners, dtype=float)
    each = np.broadcast_to(widths, len(points))
    sides = []
    for k, segment in enumerate(line(points, np.roll(points, -1, axis=0))):
        kind = named.get(f"e{k}")
        corner: Literal["meet", "mirror"] = "mirror" if kind == "mirror" else "meet"
        sides.append(edge(f"e{k}", segment[None], float(each[k]), kind == "fold", corner))
    return piece(*sides)


def curve(points: Sequence[Sequence[float]], start: Sequence[float] | None, end: Sequence[float] | None) -> np.ndarray:
    """A fair curve `(S, 4, 2)` through points, with directions at its ends where given."""
    knots = np.array([points], dtype=float)
    given = [None if d is None else unit(np.array([d], dtype=float)) for d in (start, end)]
    return hobby(knots, [given[0], *[None] * (len(points) - 2), given[1]])[0]


def backwards(shape: Piece) -> Piece:
    """The same piece with its outline run the other way round."""
    turned = [replace(edge, segments=reverse(edge.segments)) for edge in shape.edges[::-1]]
    return piece(*turned)


def half_top(
    bust: float = 920,
    ease: float = 60,
    slope: float = 20,
    sleeve: float = 28,
    length: float = 220,
    cuff: float = 150,
    neck_drop: float = 90,
    waist: float = 0.82,
    tightness: float = 40,
    hem: Literal["meet", "mirror"] = "mirror",
) -> Piece:
    """Half a knit top on the fold, its sleeve cut in one with the body: counterclockwise, the nape at the origin.

    `sleeve` and `slope` in degrees below across, `tightness` how far (mm) the underarm's curve reaches up both ways.
    """
    quarter, neck = (bust + ease) / 4, 75.0
    side_neck = np.array([neck, 20.0])
    over = headed(-slope)
    out = headed(-sleeve)
    shoulder = side_neck + 130 * over
    wrist = shoulder + length * out
    under = wrist + cuff * np.array([out[1], -out[0]])
    corner = under + (under[0] - quarter) / out[0] * -out
    inside = corner - tightness * -out
    below = corner - np.array([0.0, tightness])
    waist_point, hip = np.array([quarter * waist, -420.0]), np.array([quarter * 1.02, -600.0])
    front = np.array([0.0, 20.0 - neck_drop])
    side = curve([below, waist_point, hip], (0, -1), (0, -1))
    overarm = curve([wrist, shoulder + 30 * out, side_neck], -out, -over)
    return piece(
        edge("fold", line(front, [0, -600])[None], 0.0, fold=True),
        edge("hem", line([0, -600], hip)[None], HEM, corner=hem),
        edge("side", reverse(side)),
        edge("underarm", np.concatenate([curve([below, inside], (0, 1), out), line(inside, under)[None]])),
        edge("cuff", line(under, wrist)[None], HEM, corner=hem),
        edge("overarm", overarm),
        edge("neck", curve([side_neck, front], (-0.2, -1), (-1, 0))),
    )


def is_a_garment(top: Piece) -> bool:
    """Whether the underarm's curve ends, and its corner lies at least 3 cm, inside the cuff."""
    straight, under = top.edge("underarm").segments[0, -1], top.edge("underarm").segments[0, -1, 3]
    out = unit(top.edge("overarm").segments[0, 0, 0] - top.edge("overarm").segments[0, 0, 1]) * -1
    side = top.edge("side").segments[0, -1, 3]
    corner = under + (side[0] - under[0]) / out[0] * out
    room = norm(under - corner)
    return bool(room >= 30 and norm(straight[0] - corner) < room - 1 and side[0] < under[0])


TOPS = st.fixed_dictionaries({
    "bust": st.floats(760, 1400),
    "slope": st.floats(12, 28),
    "sleeve": st.floats(15, 40),
    "length": st.floats(90, 380),
    "cuff": st.floats(110, 240),
    "neck_drop": st.floats(30, 180),
    "waist": st.floats(0.75, 1.0),
    "tightness": st.floats(10, 90),
})  # fmt: skip
"""Measures of half tops, from a child's to a giant's; some of them are no garment."""


def headed(degrees: float) -> np.ndarray:
    return np.array([np.cos(np.radians(degrees)), np.sin(np.radians(degrees))])
