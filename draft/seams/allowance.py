"""The line that is cut: outside the sewing line by each edge's allowance, with corners as a cutter makes them.

A piece on the fold is drawn as its half, whose cutting line runs along the fold itself; `opened_out` gives the whole.
Pieces and bodies are drawn together as far as their corners are plain, see `draft.seams.at_once`, and else one by one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from threading import Lock
from typing import TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Piece
from draft.geometry.area import outline_area
from draft.geometry.corner import (
    REACH,
    ParallelCorner,
    blunted,
    bridged,
    corner,
    is_hollow,
    merge_straights,
    stepped,
    with_corners,
)
from draft.geometry.cubic import cross, line, norm, reverse, unit
from draft.geometry.parallel import TOLERANCE, Parallel, parallel, smooth_runs
from draft.geometry.surround import outer_line
from draft.geometry.tangle import part_from
from draft.seams.around import around
from draft.seams.at_once import ON_FOLD, plain_cutting_lines, settled
from draft.seams.hem_corner import folded_over, mirrored_into_hem, mirrored_out_of_hem
from draft.seams.proof import are_proved, is_proved

CHUNK = 32
"""Bodies whose cutting lines are drawn at once where one is asked for: a chart's sizes, but not a study's thousands."""
MOST = 512
"""Chunks whose lines are kept."""


@dataclass(frozen=True)
class _Run:
    """A smooth run of one edge and its parallel."""

    edge: Edge
    parallel: Parallel


def sewing_line(piece: Piece, body: int) -> Floats:
    """The sewing line of one body's piece as drafted, closed: `(N, 4, 2)`, its edges in order."""
    return np.concatenate([edge.segments[body] for edge in piece.edges])


def cutting_line(piece: Piece, body: int, tolerance: float = TOLERANCE) -> Floats:
    """The cutting line of one body's piece, closed, `(N, 4, 2)`, in the direction in which the edges run.

    Each edge keeps its own allowance, true to `tolerance` mm. Where neighbours differ, or a corner is sharp, see
    `draft.geometry.corner`; where an edge's corners are mirrored, see `draft.seams.hem_corner`. The line is proved to
    keep its distance; where it does not, beside a hook tighter than its allowance, that of `draft.seams.around` stands
    in. A piece without allowance, or without area, gives its sewing line, and so does a body for whom it was not
    drafted.
    """
    number, place = divmod(range(_bodies(piece))[body], CHUNK)
    return _DRAWN.draw([(piece, number, tolerance)])[0][place]


def cutting_lines(pieces: Sequence[Piece], tolerance: float = TOLERANCE) -> list[list[Floats]]:
    """The cutting line `(N, 4, 2)` of every body of every piece, as `cutting_line` has it, all drawn at once."""
    lines = plain_cutting_lines(pieces, tolerance)
    wanted = [(piece, body) for piece in pieces for body in range(_bodies(piece))]
    plain = [line for lines_of in lines for line in lines_of]
    sure = [k for k, one in enumerate(wanted) if plain[k] is not None and _has_allowance(*one)]
    found: dict[int, Floats] = {k: line for k in sure if (line := plain[k]) is not None}
    proved = are_proved([wanted[k] for k in sure], [sewing_line(*wanted[k]) for k in sure], list(found.values()))
    kept = {k for k, good in zip(sure, proved, strict=True) if good}
    every = iter([found[k] if k in kept else _one_by_one(*wanted[k], tolerance) for k in range(len(wanted))])
    return [[next(every) for _ in range(_bodies(piece))] for piece in pieces]


def cut_together(pieces: Sequence[Piece]) -> None:
    """Draw the cutting lines of these pieces at once, where they are not drawn yet: quicker than piece by piece."""
    _DRAWN.draw([(piece, 0, TOLERANCE) for piece in pieces])


_Key: TypeAlias = tuple[Piece, int, float]
"""A piece, the number of a chunk of its bodies, and a tolerance."""


class _Drawn:
    """Cutting lines by chunks of a piece's bodies: several outputs show the same pieces, on paper and on cloth."""

    def __init__(self) -> None:
        self._kept: dict[_Key, list[Floats]] = {}
        self._lock = Lock()

    def draw(self, keys: Sequence[_Key]) -> list[list[Floats]]:
        """These, all to one tolerance: what is not at hand is drawn at once, and the oldest go."""
        with self._lock:
            known = {key: self._kept[key] for key in keys if key in self._kept}
        new = [key for key in dict.fromkeys(keys) if key not in known]
        if new:
            lines = cutting_lines([_of_chunk(piece, number) for piece, number, _ in new], new[0][2])
            known |= dict(zip(new, lines, strict=True))
        with self._lock:
            for key in keys:
                self._kept.pop(key, None)
                self._kept[key] = known[key]
            while len(self._kept) > max(MOST, len(keys)):
                self._kept.pop(next(iter(self._kept)))
        return [known[key] for key in keys]


def _of_chunk(piece: Piece, number: int) -> Piece:
    """A piece for some neighbouring bodies of it: all sizes are mostly wanted where one is."""
    bodies = slice(CHUNK * number, CHUNK * (number + 1))
    edges = tuple(replace(edge, segments=edge.segments[bodies]) for edge in piece.edges)
    return replace(piece, edges=edges)


_DRAWN = _Drawn()


def _bodies(piece: Piece) -> int:
    return len(piece.edges[0].segments) if piece.edges else 0


def _has_allowance(piece: Piece, body: int) -> bool:
    """Whether there is anything to draw around one body's piece."""
    drafted = np.isfinite(sewing_line(piece, body)).all()
    return bool(drafted) and any(edge.allowance > 0 for edge in piece.edges if not edge.on_fold)


def _one_by_one(piece: Piece, body: int, tolerance: float) -> Floats:
    """The cutting line of one body's piece whatever its corners."""
    outline = sewing_line(piece, body)
    if not np.isfinite(outline).all():
        return outline
    out = 1 if outline_area(outline) >= 0 else -1
    runs = [run for edge in piece.edges for run in _runs(edge, body, out, tolerance)]
    widest = max((abs(run.parallel.distance) for run in runs), default=0.0)
    if widest == 0:
        return outline
    reach = REACH * widest
    corners = [_corner(a, b, out, reach) for a, b in zip(runs, runs[1:] + runs[:1], strict=True)]
    path = outer_line(with_corners([run.parallel for run in runs], corners, reach), out)
    found = _settle_on_fold(merge_straights(path), piece, body)
    if is_proved(piece, body, outline, found):
        return found
    return _settle_on_fold(_run_as(around(piece, body, outline), out), piece, body)


def _run_as(path: Floats, out: int) -> Floats:
    """A closed path in the direction in which the outline runs."""
    return path if out * outline_area(path) >= 0 else reverse(path)


def opened_out(path: Floats, piece: Piece, body: int) -> Floats:
    """A closed line of half a piece, such as its cutting line, opened out about the fold: `(N, 4, 2)`, closed.

    The line of a piece that is not on the fold is returned as it is.
    """
    fold = _fold(piece, body)
    if fold is None:
        return path
    off = np.abs(cross(fold[1], path - fold[0])).max(axis=-1) > ON_FOLD
    after_fold = np.nonzero(off & ~np.roll(off, 1))[0]
    first = int(after_fold[0]) if len(after_fold) else 0
    half = np.roll(path, -first, axis=0)[np.roll(off, -first)]
    return bridged([half, reverse(folded_over(half, *fold))]) if len(half) else path


def _runs(edge: Edge, body: int, out: int, tolerance: float) -> list[_Run]:
    segments = edge.segments[body]
    if edge.on_fold:
        straight = line(segments[0, 0], segments[-1, 3])[None]
        return [_Run(edge, parallel(run, 0.0)) for run in smooth_runs(straight)]
    runs = smooth_runs(segments)
    if len(runs) == 1 and norm(segments[0, 0] - segments[-1, 3]) <= ON_FOLD:
        runs = [part_from(runs[0], 0.0, len(runs[0]) / 2), part_from(runs[0], len(runs[0]) / 2, len(runs[0]))]
    return [_Run(edge, parallel(run, out * edge.allowance, tolerance)) for run in runs]


def _corner(a: _Run, b: _Run, out: int, reach: float) -> ParallelCorner:
    found = None
    if not (a.edge.on_fold or b.edge.on_fold):
        if a.edge is not b.edge and a.edge.end_corner in ("cut", "stepped"):
            found = _asked_for(a, b, out, reach)
        elif _mirrors(b) and not _mirrors(a):
            found = mirrored_into_hem(a.parallel, b.parallel, reach)
        elif _mirrors(a) and not _mirrors(b):
            found = mirrored_out_of_hem(a.parallel, b.parallel, reach)
    return found or corner(a.parallel, b.parallel, out, reach, a.edge.on_fold or b.edge.on_fold)


def _asked_for(a: _Run, b: _Run, out: int, reach: float) -> ParallelCorner | None:
    """The corner that the file asks for, where the outline has such a corner there."""
    if a.edge.end_corner == "stepped":
        return stepped(a.parallel, b.parallel, reach)
    return None if is_hollow(a.parallel, b.parallel, out) else blunted(a.parallel, b.parallel, reach)


def _mirrors(run: _Run) -> bool:
    return run.edge.turned_up and run.edge.allowance > 0


def _fold(piece: Piece, body: int) -> tuple[Floats, Floats] | None:
    """A point of the fold's line and its direction, for a piece on a fold that has any length."""
    for edge in piece.edges:
        start, end = edge.segments[body, 0, 0], edge.segments[body, -1, 3]
        if edge.on_fold and norm(end - start) > ON_FOLD:
            return start, unit(end - start)
    return None


def _settle_on_fold(path: Floats, piece: Piece, body: int) -> Floats:
    """A path whose points that lie on the fold but for rounding lie on it exactly, so that its mirrored half closes."""
    fold = _fold(piece, body)
    return path if fold is None else settled(path, *fold)
