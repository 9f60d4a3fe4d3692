"""What is folded away of a dart with bowed legs ends where the cloth does that it lies on once the dart is sewn."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.arrays import Floats
from draft.geometry.cubic import point, turned, unit
from draft.geometry.dart import Taken, true_darts
from draft.geometry.dart_leg import leg
from draft.geometry.length import length, point_at
from draft.geometry.nearest import nearest_place
from tests.geometry.test_dart import an_edge

FITS = 0.1  # mm: a pencil's line is wider
AHEAD = 60.0  # mm that a seam goes on straight beyond the edge
SHARES = np.linspace(0.02, 0.98, 13)


class Seam:
    """A leg as many short steps, from beyond the edge to the dart's point; its `inside` is towards the other leg."""

    def __init__(self, path: Floats, dart: Taken, way: int) -> None:
        mouth, other = (point_at(path, dart.at + w * dart.width / 2) for w in (way, -way))
        assert dart.to is not None and dart.bow is not None
        drawn = leg(mouth, dart.to, dart.bow, other - mouth)
        steps = list(point(drawn[0], np.linspace(0, 1, 1500)))
        out = (steps[0] - steps[1]) / np.hypot(*(steps[0] - steps[1]))
        self.line = np.array([steps[0] + d * out for d in np.arange(AHEAD, 0.0, -0.1)] + steps)
        ways = np.diff(self.line, axis=0)
        self.runs = np.concatenate([[0.0], np.cumsum(np.hypot(*ways.T))])
        normals = np.stack([-ways[:, 1], ways[:, 0]], axis=1) / np.hypot(*ways.T)[:, None]
        middle = len(normals) // 2
        self.inside = normals * np.sign(normals[middle] @ (other[0] - mouth[0]))

    def seen(self, place: Floats) -> tuple[float, float]:
        """How far along a place `(2,)` lies, and how far inside."""
        k = min(int(np.argmin(np.hypot(*(self.line - place).T))), len(self.inside) - 1)
        way = self.line[k + 1] - self.line[k]
        away = place - self.line[k]
        return float(self.runs[k] + away @ way / np.hypot(*way)), float(away @ self.inside[k])

    def place(self, along: float, inside: float) -> Floats:
        """The place `(1, 2)` so far along and so far inside."""
        k = min(int(np.searchsorted(self.runs, along, side="right")) - 1, len(self.inside) - 1)
        way = self.line[k + 1] - self.line[k]
        on = self.line[k] + (along - self.runs[k]) * way / np.hypot(*way)
        return (on + inside * self.inside[k])[None]


def misses(path: Floats, dart: Taken) -> Floats:
    """By how many mm the cloth between the legs ends beside the edge that it lies on, at many places of its edge."""
    first, last = Seam(path, dart, -1), Seam(path, dart, 1)
    under = last if dart.pressed is not None and dart.pressed[0] > 0 else first
    found = []
    for share in SHARES:
        folded = point_at(path, dart.at + (share - 0.5) * dart.width)[0]
        along, inside = min((seam.seen(folded) for seam in (first, last)), key=lambda seen: seen[1])
        found.append(nearest_place(path, under.place(along, -inside))[1][0])
    return np.array(found)


def bowed_dart(path: Floats, at: float, width: float, depth: float, bow: float, to_end: bool) -> Taken:
    """A dart with its point square from the middle between its legs, bowed by so many mm."""
    places = np.array([at])
    first, last = (point_at(path, places + way * width / 2) for way in (-1, 1))
    to = (first + last) / 2 + depth * turned(unit(last - first), np.array(np.pi / 2))
    return Taken(
        places, np.array([width]), to, np.array([60.0]), False, np.ones(1) if to_end else None, np.array([bow])
    )


@settings(max_examples=25)
@given(
    st.floats(0, 15), st.floats(110, 190), st.floats(20, 50), st.floats(100, 150), st.floats(-0.95, 0.95), st.booleans()
)
def test_it_ends_with_the_edge_below_where_the_legs_are_bowed(
    sag: float, at: float, width: float, depth: float, share: float, to_end: bool
) -> None:
    edge = an_edge(sag)
    path, (dart,) = true_darts(edge, [bowed_dart(edge, at, width, depth, share * width / 8, to_end)])
    assert misses(path, dart).max() < FITS


def test_a_dart_that_is_hardly_bowed_is_nearly_a_straight_one() -> None:
    edge = an_edge(8.0)
    bowed = bowed_dart(edge, 150.0, 40.0, 110.0, 1e-6, False)
    path, _ = true_darts(edge, [bowed])
    plain, _ = true_darts(edge, [replace(bowed, bow=None)])
    places = np.linspace(0.0, 1.0, 41) * length(plain)
    assert max(nearest_place(path, point_at(plain, place[None]))[1][0] for place in places) < 0.01
