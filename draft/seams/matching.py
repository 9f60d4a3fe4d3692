"""Where pieces meet on striped and checked cloth: for each a point that lies on the same line as its neighbours' do.

Every matched notch ties two pieces to one another. Of what hangs together by such ties the first piece is where it
begins, and from there each tie gives its other piece a point.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Garment, Join, JoinNotch, Piece
from draft.geometry.ruler import Ruler
from draft.seams.lying import lying
from draft.seams.notches import share_along
from draft.seams.sharing import both_sides
from draft.seams.sides import Side, drawn_distance


@dataclass(frozen=True)
class Matched:
    """What of a piece in one body meets others, mm, grain upright.

    The point `at` `(2,)` lies on a line of the cloth as that of each piece that it is tied to. `meets` `(n, 2)` are its
    matched notches, which lie as far from a line as those that they meet.
    """

    at: Floats
    meets: Floats

    def moved(self, by: Floats) -> Matched:
        """The same of a piece that is moved by so many mm `(2,)`."""
        return Matched(self.at + by, self.meets + by)


@dataclass(frozen=True)
class _Tie:
    """Two pieces, and where on each they meet, grain upright."""

    join: str
    pieces: tuple[str, str]
    at: tuple[Floats, Floats]


def matched_points(garment: Garment, body: int) -> dict[str, Matched]:
    """What of each piece meets others, by the piece's name, in one body."""
    ties = list(_ties(garment, body))
    meets: dict[str, list[Floats]] = {}
    for tie in ties:
        for name, at in zip(tie.pieces, tie.at, strict=True):
            meets.setdefault(name, []).append(at)
    return {name: Matched(at, np.array(meets[name])) for name, at in _on_lines(ties).items()}


def matched_joins(garment: Garment) -> list[str]:
    """The seams at which stripes and checks meet, by their names."""
    return [join.name for join in garment.joins if any(notch.matched for notch in join.notches)]


def off_lines(garment: Garment, body: int) -> dict[str, float]:
    """By how many mm along the grain the notches of a join miss one another where other matched notches rule.

    By the names of the joins; nothing for those that meet.
    """
    ties, found = list(_ties(garment, body)), dict[str, float]()
    points = _on_lines(ties)
    for tie in ties:
        one, other = (points[name][1] - at[1] for name, at in zip(tie.pieces, tie.at, strict=True))
        found[tie.join] = max(found.get(tie.join, 0.0), abs(float(one - other)))
    return found


def _on_lines(ties: Sequence[_Tie]) -> dict[str, Floats]:
    """The point `(2,)` of each piece that lies on a line, by the piece's name."""
    found: dict[str, Floats] = {}
    for tie in ties:
        if tie.pieces[0] not in found and tie.pieces[1] not in found:
            found[tie.pieces[0]] = tie.at[0]
            _spread(ties, found)
    return found


def _spread(ties: Sequence[_Tie], found: dict[str, Floats]) -> None:
    """Give each piece that is tied to one with a point its own, until nothing is left."""
    tied = True
    while tied:
        tied = False
        for tie in ties:
            for (here, there), (at, other) in ((tie.pieces, tie.at), (tie.pieces[::-1], tie.at[::-1])):
                if here in found and there not in found:
                    found[there] = np.array([other[0], other[1] + found[here][1] - at[1]])
                    tied = True


def _ties(garment: Garment, body: int) -> Iterator[_Tie]:
    there = {piece.name for piece in garment.pieces}  # some of a garment's pieces are laid alone too
    for join in garment.joins:
        if not {part.piece for part in (*join.first, *join.second)} <= there:
            continue
        for notch in (notch for notch in join.notches if notch.matched):
            met = _met(garment, join, notch, body)
            if met and met[0][0].name != met[1][0].name:
                (first, at), (second, other) = met
                yield _Tie(join.name, (first.name, second.name), (at, other))


def _met(
    garment: Garment, join: Join, notch: JoinNotch, body: int
) -> tuple[tuple[Piece, Floats], tuple[Piece, Floats]] | None:
    """The pieces that meet at a notch, and where on each, grain upright."""
    sides, lie = both_sides(garment, join), lying(garment, join)
    share = share_along(sides[0], notch, lie)
    other = next(iter(lie.meeting(share)[1]), share)
    found = [_place(side, float(at[body]), body) for side, at in zip(sides, (share, other), strict=True)]
    return (found[0], found[1]) if found[0] and found[1] else None


def _place(side: Side, share: float, body: int) -> tuple[Piece, Floats] | None:
    """The piece on which a share of a side lies, and the point."""
    left = float(side.length[body]) * share
    for each in side.edges:
        long = float(each.length[body])
        if left <= long + 1e-6:
            from_start = np.full_like(each.length, long - left if each.part.reverse else left)
            at = float(drawn_distance(each.piece, each.edge, from_start)[body])
            return each.piece, upright(each.piece, body) @ Ruler(each.edge.segments[body]).place(at)[0]
        left -= long
    return None


def upright(piece: Piece, body: int) -> Floats:
    """The turn `(2, 2)` that sets a piece's grain upright."""
    along = piece.grain[body]
    return np.array([[along[1], -along[0]], [along[0], along[1]]])
