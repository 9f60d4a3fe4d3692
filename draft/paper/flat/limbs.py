"""Pieces that hang on a panel: a sleeve, of which a view shows the half that is set into its panel, or a side panel.

Of a sleeve that reaches to the neck each view shows the half up to the cut over its shoulder.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Garment, Join, Piece, SidePart
from draft.geometry.area import outline_area
from draft.geometry.cubic import lines_through, norm, reverse
from draft.geometry.part import part_along
from draft.geometry.ruler import Ruler, chord_length
from draft.paper.flat.hanging_sleeves import hung_down
from draft.paper.flat.legs import Hung
from draft.paper.flat.similar import Similar, onto
from draft.seams.sides import side
from draft.seams.walk import handedness
from draft.seams.wedges import closes_a_wedge


@dataclass(frozen=True)
class Meeting:
    """A part of one piece's edge, by shares of its length from its start, and the edges of another that it meets.

    Both run from `first` to `last`; each of the others is run from its last point if `reverse`.
    """

    piece: str
    edge: str
    first: float
    last: float
    others: tuple[SidePart, ...]


def meetings(garment: Garment, join: Join, piece: str, body: int) -> list[Meeting]:
    """Where one edge of a piece meets edges of others along a join."""
    found = []
    for own, others in ((join.first, join.second), (join.second, join.first)):
        if len(own) == 1 and own[0].piece == piece:
            across = side(garment, others)
            ends = np.concatenate([[0.0], np.cumsum([s.length[body] for s in across.edges])])
            shares = ends / max(float(ends[-1]), 1e-9)
            if own[0].reverse:
                shares = 1.0 - shares
            for name, run in groupby(range(len(others)), key=lambda k: others[k].piece):
                places = list(run)
                met = tuple(others[k] for k in places)
                if name != piece:
                    found.append(
                        Meeting(piece, own[0].edge, float(shares[places[0]]), float(shares[places[-1] + 1]), met)
                    )
    return found


@dataclass(frozen=True)
class Limb:
    """A piece laid against a panel: its outline, and its visible lines in order, each with the name of its edge.

    The line on which a tube folds has no name. `side` is 1 where outside lies to the left of the lines, else -1. `move`
    lays what is below the shoulder, up to the hem.
    """

    piece: Piece
    outline: Floats
    lines: tuple[tuple[str, Floats], ...]
    side: float
    move: Similar


def limb(garment: Garment, meeting: Meeting, panel: Piece, laid: Similar | Hung, body: int) -> Limb | None:
    """The piece of a meeting, laid so that its part lies on the panel's edge; None if it cannot be."""
    piece = garment.piece(meeting.piece)
    along = np.concatenate([_run(panel, part, body) for part in meeting.others])
    to_first, to_last = laid.points(along[0, 0]), laid.points(along[-1, 3])
    lines = _lines(garment, piece, meeting, body)
    if lines is None:
        return None
    start, end = (_point(piece, meeting.edge, share, body) for share in (meeting.first, meeting.last))
    forward = 1.0 if meeting.last > meeting.first else -1.0
    own = float(handedness(piece)[body]) * forward
    base = float(handedness(panel)[body]) * (-1.0 if laid.over else 1.0) * (-1.0 if meeting.others[0].reverse else 1.0)
    move = onto(start, end, to_first, to_last, over=own == base)
    moved = [(name, move.points(line)) for name, line in lines]
    return _closed(piece, meeting, moved, laid.along(along), move)


def _run(panel: Piece, part: SidePart, body: int) -> Floats:
    """An edge of a panel as the seam runs along it."""
    segments = panel.edge(part.edge).segments[body]
    return reverse(segments) if part.reverse else segments


def _closed(piece: Piece, meeting: Meeting, moved: Sequence[tuple[str, Floats]], seam: Floats, move: Similar) -> Limb:
    """The limb with the panel's own line where it is sewn to it: the two curves differ, their ends do not."""
    at = next(k for k, (name, _) in enumerate(moved) if name == meeting.edge)
    begin = moved[at][1][0, 0]
    along = seam if norm(seam[0, 0] - begin) < norm(seam[-1, 3] - begin) else reverse(seam)
    rest, turned = hung_down([*moved[at + 1 :], *moved[:at]])
    outer = _ring([along, *(line for _, line in rest)])
    return Limb(piece, outer, tuple(rest), -1.0 if outline_area(outer) > 0 else 1.0, move.then(turned))


def _ring(paths: Sequence[Floats]) -> Floats:
    """Paths after one another as one that closes: where a sleeve hangs, what lies behind the body is left out."""
    found = []
    for path, following in zip(paths, [*paths[1:], paths[0]], strict=True):
        found += [path, lines_through([path[-1, 3], following[0, 0]])]
    return np.concatenate(found)


def _point(piece: Piece, edge: str, share: float, body: int) -> Floats:
    ruler = Ruler(piece.edge(edge).segments[body])
    return ruler.place(share * ruler.length)[0]


def _lines(garment: Garment, piece: Piece, meeting: Meeting, body: int) -> list[tuple[str, Floats]] | None:
    """The lines of the whole piece; of a tube only those of the half that the meeting belongs to."""
    seam, whole = _tube(garment, piece), {round(meeting.first, 6), round(meeting.last, 6)} >= {0.0, 1.0}
    cut_in = _cut_in(garment, piece)
    if seam and whole and cut_in:
        return _up_to_the_cut(piece, meeting.edge, seam, cut_in, body)
    if seam is None or whole:
        return [(edge.name, edge.segments[body]) for edge in piece.edges]
    ends = {round(meeting.first, 6), round(meeting.last, 6)}
    outer = next((end for end in (0.0, 1.0) if end in ends), None)
    if outer is None:
        return None
    step = 1 if outer == 1.0 else -1
    share = meeting.first if round(meeting.last, 6) == outer else meeting.last
    lines = [(meeting.edge, _between(piece, meeting.edge, share, outer, body))]
    before, beyond = _round(piece, meeting.edge, step, seam)
    lines += [(name, _way(piece, name, step, body)) for name in before]
    lines += _half([(name, _way(piece, name, step, body)) for name in beyond])
    return [*lines, ("", lines_through([lines[-1][1][-1, 3], lines[0][1][0, 0]]))]


def _tube(garment: Garment, piece: Piece) -> set[str] | None:
    """The two edges that make a tube of a piece when they are sewn to one another, alone or with others in one go."""
    for join in garment.joins:
        if not (join.is_lying or join.of_layers or closes_a_wedge(garment, join)):
            for one, other in zip(join.first, join.second, strict=False):
                if one.piece == other.piece == piece.name and one.edge != other.edge:
                    return {one.edge, other.edge}
    return None


def _cut_in(garment: Garment, piece: Piece) -> set[str] | None:
    """The two edges of a cut into a piece, as of the dart over the shoulder of a sleeve that reaches to the neck."""
    closed = [one for one in garment.joins if one.pieces == {piece.name} and closes_a_wedge(garment, one)]
    return {part.edge for part in (*closed[0].first, *closed[0].second)} if closed else None


def _up_to_the_cut(piece: Piece, edge: str, seam: set[str], cut: set[str], body: int) -> list[tuple[str, Floats]]:
    """The lines of the half between an edge and a cut into the piece: it folds from the end of the cut to its hem."""
    names = [other.name for other in piece.edges]
    at = names.index(edge)
    order = [names[(at + k) % len(names)] for k in range(1, len(names))]
    step = (
        1 if order.index(next(n for n in order if n in cut)) < order.index(next(n for n in order if n in seam)) else -1
    )
    order = order if step > 0 else order[::-1]
    top = order[: next(k for k, name in enumerate(order) if name in cut) + 1]
    below, beyond = _round(piece, edge, -step, seam)
    low = [(name, _way(piece, name, -step, body)) for name in below]
    low += _half([(name, _way(piece, name, -step, body)) for name in beyond])
    lines = [(name, _way(piece, name, step, body)) for name in (edge, *top)]
    fold = lines_through([lines[-1][1][-1, 3], low[-1][1][-1, 3]])
    return [*lines, ("", fold), *((name, reverse(line)) for name, line in low[::-1])]


def _round(piece: Piece, edge: str, step: int, seam: set[str]) -> tuple[list[str], list[str]]:
    """The edges that follow one another from an edge up to the first of the seam's, and those up to the second."""
    names = [other.name for other in piece.edges]
    order = [names[(names.index(edge) + step * k) % len(names)] for k in range(1, len(names))]
    first, second = sorted(order.index(name) for name in seam)
    return order[: first + 1], order[first + 1 : second]


def _way(piece: Piece, name: str, step: int, body: int) -> Floats:
    segments = piece.edge(name).segments[body]
    return segments if step > 0 else reverse(segments)


def _between(piece: Piece, edge: str, first: float, last: float, body: int) -> Floats:
    segments = piece.edge(edge).segments[body][None]
    length = chord_length(segments[0])
    found = part_along(segments, np.array([first * length]), np.array([last * length]))[0]
    kept = np.ptp(found, axis=1).max(axis=1) > 1e-6
    return np.asarray(found[kept]) if kept.any() else found[:1]


def _half(lines: list[tuple[str, Floats]]) -> list[tuple[str, Floats]]:
    """The first half, by length, of lines that follow one another."""
    left = sum(chord_length(line) for _, line in lines) / 2
    found: list[tuple[str, Floats]] = []
    for name, line in lines:
        length = chord_length(line)
        if length >= left:
            cut = part_along(line[None], np.zeros(1), np.array([left]))[0]
            kept = np.ptp(cut, axis=1).max(axis=1) > 1e-6
            return [*found, (name, cut[kept])] if kept.any() else found
        found.append((name, line))
        left -= length
    return found
