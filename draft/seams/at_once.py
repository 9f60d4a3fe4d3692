"""The cutting lines of many pieces and bodies at once, wherever their corners are plain.

A pack draws every size of every piece. Most of their corners are plain, and then a few dozen operations on all of them
draw all; `draft.seams.allowance` takes the others one by one, and proves them all.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.garment.garment import Edge, Piece
from draft.geometry.area import segment_areas
from draft.geometry.closed_outlines import (
    ClosedOutlines,
    Cubics,
    Joints,
    as_closed_paths,
    is_plain,
    joints,
    outlines_with,
    parallels,
)
from draft.geometry.cubic import cross, dot, line, norm, unit
from draft.seams.hem_corners import carried_to_hems, hem_corners, with_hems

ON_FOLD = 1e-5
"""Points this near the fold's line (mm) are on it: far above the rounding that they carry, far below any cut."""


def plain_cutting_lines(pieces: Sequence[Piece], tolerance: float) -> list[list[Floats | None]]:
    """The cutting line `(N, 4, 2)` of each body of each piece, closed; None where a corner is not plain.

    They are within `tolerance` mm, and as yet not proved.
    """
    bodies = [len(piece.edges[0].segments) for piece in pieces]
    count = sum(bodies)
    found: list[Floats | None] = [None] * count
    outlines = outlines_of(pieces) if count else None
    if outlines is not None and len(outlines.outline):
        path, of, plain = _cutting_paths(outlines, count, tolerance)
        _settle_on_fold(path, of, outlines, count)
        starts = np.searchsorted(of, np.arange(count + 1))
        whole = plain & (np.diff(starts) > 0)
        found = [path[starts[k] : starts[k + 1]] if whole[k] else None for k in range(count)]
    return [found[a:b] for a, b in pairwise(np.cumsum([0, *bodies]).tolist())]


def outlines_of(pieces: Sequence[Piece]) -> ClosedOutlines:
    """The outlines of pieces, all bodies of one piece after another; the fold is straight, from end to end."""
    parts: list[Floats] = []
    of: list[Ints] = []
    outline: list[Ints] = []
    sizes: list[int] = []
    begun = 0
    for piece in pieces:
        segments = [_as_sewn(edge.segments, edge.on_fold) for edge in piece.edges]
        bodies, first = len(segments[0]), sum(sizes)
        sizes += [path.shape[1] for path in segments]
        parts.append(np.concatenate(segments, axis=1).reshape(-1, 4, 2))
        per = sum(sizes) - first
        of.append(np.tile(np.arange(first, first + per), bodies))
        outline.append(np.repeat(np.arange(begun, begun + bodies), per))
        begun += bodies
    at = np.concatenate(of)
    numbers = np.repeat(np.arange(len(sizes)), sizes)
    edges = [edge for piece in pieces for edge in piece.edges]
    widths = np.array([0.0 if edge.on_fold else edge.allowance for edge in edges])[numbers]
    flags = np.array([(e.on_fold, _mirrors(e), e.end_corner in ("cut", "stepped")) for e in edges])[numbers]
    flags[:-1, 2] &= numbers[1:] != numbers[:-1]
    return _outlines(np.concatenate(parts), np.concatenate(outline), widths[at], numbers[at], flags[at], begun)


def _outlines(path: Floats, outline: Ints, widths: Floats, numbers: Ints, flags: Bools, count: int) -> ClosedOutlines:
    """Outlines of these segments `(N, 4, 2)`, those without length left out."""
    there = norm(path - path[:, :1]).max(axis=1) > 0
    if not there.all():
        path, outline, widths, numbers, flags = path[there], outline[there], widths[there], numbers[there], flags[there]
    out = _ways(path, outline, count)
    return ClosedOutlines(path, out[outline] * widths, outline, numbers, flags[:, 0], flags[:, 1], flags[:, 2], out)


def _mirrors(edge: Edge) -> bool:
    return edge.turned_up and edge.allowance > 0


def _as_sewn(segments: Floats, on_fold: bool) -> Floats:
    return line(segments[:, 0, 0], segments[:, -1, 3])[:, None] if on_fold else segments


def _ways(seg: Floats, outline: Ints, count: int) -> Floats:
    """1 for each outline that runs counterclockwise, -1 for the others."""
    return np.where(np.bincount(outline, segment_areas(seg), minlength=count) >= 0, 1.0, -1.0)


def _cutting_paths(outlines: ClosedOutlines, count: int, tolerance: float) -> tuple[Floats, Ints, Bools]:
    """The closed paths of outlines, the outline of each segment, and which outlines are plain `(count,)`."""
    joint = joints(outlines)
    wrong = ~is_plain(outlines, joint)
    hem = hem_corners(outlines, joint)
    joint, reached = carried_to_hems(outlines, joint, hem)
    cubics = parallels(outlines, joint, tolerance)
    cubics, folded = with_hems(outlines, joint, cubics, hem)
    wrong[hem.joint] = ~(reached & folded)
    plain = ~outlines_with(outlines.outline, wrong, count) & ~_turned_back(outlines, joint, cubics, count)
    path, of = as_closed_paths(cubics, outlines.outline)
    return path, of, plain


def _turned_back(outlines: ClosedOutlines, joint: Joints, cubics: Cubics, count: int) -> Bools:
    """Which outlines have a straight parallel whose corners have passed each other."""
    straight = joint.straight[cubics.owner] & (cubics.rank == 1)
    owner, path = cubics.owner[straight], cubics.path[straight]
    back = dot(path[:, 3] - path[:, 0], joint.leave[owner]) < 0
    return outlines_with(outlines.outline[owner], back, count)


def _settle_on_fold(path: Floats, of: Ints, outlines: ClosedOutlines, count: int) -> None:
    """Put the points that lie on an outline's fold exactly on it."""
    folds = np.nonzero(outlines.on_fold)[0]
    if not len(folds):
        return
    fold_of = np.full(count, -1)
    fold_of[outlines.outline[folds[::-1]]] = folds[::-1]
    mine = np.nonzero(fold_of[of] >= 0)[0]
    fold = outlines.segments[fold_of[of[mine]]]
    path[mine] = settled(path[mine], fold[:, :1], unit(fold[:, 3:] - fold[:, :1]))


def settled(path: Floats, start: Floats, along: Floats) -> Floats:
    """A path `(N, 4, 2)` whose points on the line through `start` along a unit vector, but for rounding, lie on it.

    So a mirrored half closes. Both are `(2,)`, or `(N, 1, 2)` for a line of each segment's own.
    """
    away = path - start
    near = np.abs(cross(along, away)) <= ON_FOLD
    near[:, 1:3] &= (near[:, 0] & near[:, 3])[:, None]
    return np.where(near[..., None], start + dot(along, away)[..., None] * along, path)
