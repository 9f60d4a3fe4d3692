"""The trunk's pieces laid flat where they hang: the middle of each on x = 0, its grain upright, seams on one another.

Front and back lie in one plane, a hand's breadth of nothing between them; what has no middle is laid beside what it is
sewn to, as near as it goes. The right half of a whole garment lies at x < 0.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.toile.sewn import Sewn
from draft.toile.why_not import CannotDress

TRUNK = ("front", "back")
_ACROSS = 0.75  # cosine: a seam of front and back that runs this flat lies on the shoulder
_SHOULDER = 30.0  # mm of it, at least
_NECK = 60.0  # mm from the neck in which the shoulder's slope is read
NECK_BASE = 20.0
"""mm by which blocks have their neck base over the nape (common practice)."""
_RAGLAN = -15.0
"""mm from the nape to the middle of a back neck whose shoulder is no seam of front and back (common practice)."""


@dataclass(frozen=True, eq=False)
class LaidFlat:
    """Where the trunk's vertices lie, `(n, 2)` across and up, mm from the pattern's nape or waist; others NaN."""

    places: Floats
    top: int
    """The vertex in the middle of the back where it hangs: of the back neck, or of the back waist."""
    from_shoulder: bool
    """Whether it hangs from the shoulders; else from the waist."""
    under_arm: Floats
    """Places `(k, 2)` along the seams of front and back that run down from under the arms."""
    slope: float
    """How far below level the shoulder and the sleeve cut in one with it run, radians; 0 where none does."""


def laid_flat(sewn: Sewn, side_neck: float) -> LaidFlat:
    """The trunk of a sewn garment, for a form whose side neck points lie so far from the middle, mm."""
    _stop_if_loose(sewn)
    places = np.full((len(sewn.rest), 2), np.nan)
    root = _root(sewn)
    top = _lay_root(sewn, places, root)
    waiting = {k for k, role in enumerate(sewn.roles) if role in TRUNK} - {root}
    while waiting:
        number = max(waiting, key=lambda k: len(_met(sewn, places, k)))
        if not len(_met(sewn, places, number)):
            raise CannotDress("why_unsewn", name_piece=sewn.pieces[number])
        _lay_beside(sewn, places, number)
        waiting.remove(number)
    seam = _shoulder_seam(sewn, places)
    from_shoulder = bool(len(seam)) or "sleeve" in sewn.roles
    if from_shoulder:
        places[:, 1] -= _nape(places, top, seam, side_neck)
    else:
        places[:, 1] -= places[top, 1]
    shoulders = np.concatenate([seam, _shoulder_seam(sewn, places * [-1, 1])])
    sides = places[np.setdiff1d(_front_and_back(sewn), shoulders)]
    return LaidFlat(places, top, from_shoulder, np.abs(sides) * [1, 0] + sides * [0, 1], _outer_slope(places, seam))


def _stop_if_loose(sewn: Sewn) -> None:
    """Raises `CannotDress` for a sleeve that is sewn to nothing that is laid before it."""
    laid = np.isin(np.array(sewn.roles), TRUNK)
    pairs = sewn.piece_of_vertex[np.concatenate([sewn.pairs, sewn.pairs[:, ::-1]])]
    for number in [k for k, role in enumerate(sewn.roles) if role == "sleeve"]:
        if not laid[pairs[pairs[:, 0] == number, 1]].any():
            raise CannotDress("why_unsewn", name_piece=sewn.pieces[number])
        laid[number] = True


def _root(sewn: Sewn) -> int:
    """The back piece that reaches highest in the middle, where it is sewn to nothing else of the trunk."""
    met = _sewn_to_trunk(sewn)
    best: tuple[float, int] | None = None
    for number, role in enumerate(sewn.roles):
        free = (sewn.piece_of_vertex == number) & sewn.on_middle & ~met
        if role == "back" and free.any():
            up = _upright(sewn, number)
            height = float((sewn.rest[free] @ up).max() - (sewn.rest[(sewn.piece_of_vertex == number)] @ up).min())
            best = max(best or (height, number), (height, number))
    if best is None:
        raise CannotDress("why_no_middle")
    return best[1]


def _sewn_to_trunk(sewn: Sewn) -> Bools:
    """Whether each vertex is sewn to one of another piece of the trunk, but for its own other half."""
    trunk = np.isin(np.array(sewn.roles), TRUNK)
    found = np.zeros(len(sewn.rest), dtype=bool)
    for one, other in (sewn.pairs.T, sewn.pairs.T[::-1]):
        pieces = sewn.piece_of_vertex[one], sewn.piece_of_vertex[other]
        halves = sewn.on_middle[one] & sewn.on_middle[other]
        found[one[trunk[pieces[1]] & (pieces[0] != pieces[1]) & ~halves]] = True
    return found


def _upright(sewn: Sewn, number: int) -> Floats:
    return np.asarray(sewn.grain[np.flatnonzero(sewn.piece_of_triangle == number)[0]])


def _lay_root(sewn: Sewn, places: Floats, number: int) -> int:
    own = np.flatnonzero(sewn.piece_of_vertex == number)
    places[own] = _from_middle(sewn, number, own)
    middle = own[sewn.on_middle[own] & ~_sewn_to_trunk(sewn)[own]]
    return int(middle[np.argmax(places[middle, 1])])


def _from_middle(sewn: Sewn, number: int, own: Ints) -> Floats:
    """A piece's vertices with its middle on x = 0 and its grain upright; x >= 0, of a right half x <= 0."""
    up = _upright(sewn, number)
    across = sewn.rest[own] @ np.array([up[1], -up[0]])
    across -= float(across[sewn.on_middle[own]].mean())
    if across.mean() < 0:
        across = -across
    left = -1.0 if sewn.sides and sewn.sides[number] < 0 else 1.0
    return np.stack([left * np.maximum(across, 0.0), sewn.rest[own] @ up], axis=1)


def _met(sewn: Sewn, places: Floats, number: int) -> Ints:
    """Pairs `(p, 2)` of a piece's vertices with ones that are laid already."""
    found = []
    for one, other in (sewn.pairs.T, sewn.pairs.T[::-1]):
        there = (sewn.piece_of_vertex[one] == number) & np.isfinite(places[other, 0])
        found.append(np.stack([one[there], other[there]], axis=1))
    return np.concatenate(found)


def _lay_beside(sewn: Sewn, places: Floats, number: int) -> None:
    """A piece with a middle is raised or lowered to its seams; another is turned to them as well, or turned over."""
    own = np.flatnonzero(sewn.piece_of_vertex == number)
    pairs = _met(sewn, places, number)
    if sewn.on_middle[own].any():
        laid = _from_middle(sewn, number, own)
        at = np.searchsorted(own, pairs[:, 0])
        laid[:, 1] += float((places[pairs[:, 1], 1] - laid[at, 1]).mean())
        places[own] = laid
        return
    places[own] = brought(sewn.rest[own], sewn.rest[pairs[:, 0]], places[pairs[:, 1]])


def brought(points: Floats, known: Floats, there: Floats) -> Floats:
    """Points `(n, 2)` moved, and turned over if need be, as `known` `(p, 2)` come nearest to `there` `(p, 2)`."""
    one, other = known.mean(axis=0), there.mean(axis=0)
    left, _, right = np.linalg.svd((known - one).T @ (there - other))
    return np.asarray((points - one) @ (left @ right) + other)


def _shoulder_seam(sewn: Sewn, places: Floats) -> Ints:
    """The vertices of seams of front and back that run across, from the neck outwards; none where there is none."""
    back = _front_and_back(sewn)
    back = back[places[back, 0] >= 0]
    order = back[np.argsort(places[back, 0])]
    for seam in _in_rows(order, places):
        way = places[seam[-1]] - places[seam[0]]
        if abs(way[0]) > _ACROSS * np.hypot(*way) and np.hypot(*way) > _SHOULDER:
            return seam
    return np.zeros(0, dtype=np.intp)


def _front_and_back(sewn: Sewn) -> Ints:
    """The vertices of back pieces that are sewn to front ones."""
    role = np.array(sewn.roles)[sewn.piece_of_vertex]
    one, other = sewn.pairs.T
    mixed = ((role[one] == "front") & (role[other] == "back")) | ((role[one] == "back") & (role[other] == "front"))
    return np.unique(np.where(role[one] == "back", one, other)[mixed])


def _in_rows(order: Ints, places: Floats) -> list[Ints]:
    """Vertices of several seams, parted where the way from one to the next turns steep: the highest seam first."""
    rows: list[list[int]] = []
    left = list(order)
    while left:
        row = [max(left, key=lambda v: places[v, 1] - places[v, 0])]
        left.remove(row[0])
        while left:
            near = min(left, key=lambda v: float(np.hypot(*(places[v] - places[row[-1]]))))
            way = places[near] - places[row[-1]]
            if way[0] <= 0 or np.hypot(*way) > 2 * _NECK or abs(way[1]) > way[0]:
                break
            row.append(near)
            left.remove(near)
        rows.append(row)
    return [np.array(row) for row in rows if len(row) > 1]


def _nape(places: Floats, top: int, seam: Ints, side_neck: float) -> float:
    """How high the pattern's nape lies: as far below its neck base as blocks have it, or over the back neck."""
    if not len(seam):
        return float(places[top, 1]) - _RAGLAN
    neck = places[seam[0]]
    near = places[seam[np.hypot(*(places[seam] - neck).T) < _NECK]]
    way = (near[-1] if len(near) > 1 else places[seam[1]]) - neck
    return float(neck[1] - way[1] / max(way[0], 1e-6) * (neck[0] - side_neck)) - NECK_BASE


def _outer_slope(places: Floats, seam: Ints) -> float:
    """How steeply the outer half of the shoulder falls, radians."""
    if not len(seam):
        return 0.0
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(places[seam], axis=0).T))])
    half = places[seam[np.searchsorted(along, along[-1] / 2)]]
    way = places[seam[-1]] - half
    return float(np.arctan2(-way[1], way[0]))
