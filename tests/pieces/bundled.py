"""The bundled patterns: found in the folder, so that a new one is tested by being there."""

from __future__ import annotations

from functools import cache

import numpy as np

from draft.base.arrays import Floats
from draft.base.resources import folder
from draft.base.textfile import read_source
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.flatten import sample
from draft.language import tree
from draft.language.reader import read

CLOSE = 400  # points on each segment: lengths by short chords, without the engine's quadrature


@cache
def file_of(name: str) -> tree.File:
    """The tree of a bundled file."""
    return read(read_source(folder("pieces") / f"{name}.piece", "pattern"))


PATTERNS = tuple(
    path.stem for path in sorted(folder("pieces").glob("*.piece")) if file_of(path.stem).patterns
)  # files of templates hold none


def points(edge: Edge, close: int = CLOSE) -> Floats:
    """Points `(B, N, 2)` along an edge."""
    return sample(edge.segments, close)


def chord_length(edge: Edge) -> Floats:
    """The length of an edge `(B,)` by many short chords."""
    steps = np.diff(points(edge), axis=1)
    return np.asarray(np.hypot(steps[..., 0], steps[..., 1]).sum(axis=1))


def place_on(edge: Edge, distance: Floats) -> Floats:
    """The point `(B, 2)` so many mm `(B,)` along an edge."""
    line = points(edge)
    steps = np.hypot(*np.moveaxis(np.diff(line, axis=1), -1, 0))
    gone = np.concatenate([np.zeros((len(line), 1)), np.cumsum(steps, axis=1)], axis=1)
    return np.array(
        [[np.interp(d, g, p[:, axis]) for axis in (0, 1)] for d, g, p in zip(distance, gone, line, strict=True)]
    )


def finished(garment: Garment, name: str) -> Floats:
    """A finished measurement in cm."""
    return next(f.values for f in garment.finished if f.name == name) / 10


def chosen(garment: Garment, name: str) -> Floats:
    """What the solver chose, as it is: mm, radians or a number."""
    return dict(garment.chosen)[name]


def taken_up(piece: Piece, edge: str) -> Floats:
    """What the darts and pleats of an edge take up, mm `(B,)`."""
    return np.asarray(sum(takeup.width for takeup in piece.takeups if takeup.edge == edge))
