"""Random pieces for property tests: rectangles, Ls, Ts, and stars of three to seven corners."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import strategies as st

from draft.base.arrays import Floats
from draft.cloth.cut_pieces import CutPiece, made
from tests.cloth.made_up import ell, rectangle

_side = st.integers(60, 500).map(float)


@st.composite
def rings(draw: st.DrawFn) -> Floats:
    width, height, sort = draw(_side), draw(_side), draw(st.sampled_from(["rectangle", "ell", "tee", "star"]))
    across, along = draw(st.integers(2, 8)) / 10, draw(st.integers(2, 8)) / 10
    if sort == "rectangle":
        return rectangle(width, height)
    if sort == "ell":
        return ell(width, height, across * width, along * height)
    if sort == "tee":
        a, b = across / 2 * width, along * height
        stem = [(a, 0), (width - a, 0), (width - a, b)]
        return np.array([*stem, (width, b), (width, height), (0, height), (0, b), (a, b)])
    corners = draw(st.lists(st.integers(40, 100), min_size=3, max_size=7))
    turn = 2 * np.pi * np.arange(len(corners)) / len(corners)
    star = np.array(corners)[:, None] / 200 * np.array([width, height]) * np.stack([np.cos(turn), np.sin(turn)], -1)
    return np.asarray(star)


@st.composite
def cut_pieces(draw: st.DrawFn, most: int = 4) -> tuple[CutPiece, ...]:
    """Two to `most` pieces, some of them cut twice, as pairs or right side up."""
    outlines = draw(st.lists(rings(), min_size=2, max_size=most))
    found = []
    for number, ring in enumerate(outlines, start=1):
        cut_as = draw(st.sampled_from(["", "as a pair", "right side up"]))
        count = 2 if cut_as == "as a pair" else draw(st.integers(1, 2))
        found.append(made(number, f"piece {number}", "M", count, ring, cut_as))
    assert all(shapely.Polygon(cut_piece.ring).is_valid for cut_piece in found)
    return tuple(found)
