"""An edge trued across its darts is one smooth line once they are folded shut, and what is folded away lies on it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from draft.base.arrays import Floats
from draft.geometry.cubic import cross, dot, line, norm, reverse, turned
from draft.geometry.dart import Taken, true_darts
from draft.geometry.length import length, point_at, tangent_at
from draft.geometry.nearest import nearest_place
from draft.geometry.spline import hobby

LONG = 300.0


def an_edge(sag: float) -> Floats:
    """An edge from right to left, as the upper edge of a piece runs, hollow by about `sag` mm."""
    return hobby(np.array([[[LONG, 0.0], [LONG / 2, -sag], [0.0, 0.0]]]), [None] * 3)


def one_dart(path: Floats, at: float, width: float, depth: float, lean: float, over: float = 40.0) -> Taken:
    to = point_at(path, np.array([at])) + np.array([[lean, -depth]])
    return Taken(np.array([at]), np.array([width]), to, np.array([over]))


def closed_kink(path: Floats, dart: Taken) -> float:
    """By how many degrees the edge turns where the legs come together."""
    assert dart.to is not None
    angles = []
    for way in (-1, 1):
        leg = dart.at + way * dart.width / 2
        arm, along = point_at(path, leg) - dart.to, tangent_at(path, leg + way * 1e-3)
        angles.append(np.degrees(np.arctan2(cross(arm, along), dot(arm, along)))[0])
    return float((angles[1] - angles[0] + 180) % 360 - 180)


DARTS = st.tuples(
    st.floats(0, 12), st.floats(100, 200), st.floats(5, 40), st.floats(70, 130), st.floats(-15, 15), st.floats(20, 60)
)


@given(DARTS)
def test_the_edge_is_smooth_once_the_dart_is_shut(drawn: tuple[float, ...]) -> None:
    sag, at, width, depth, lean, over = drawn
    path, (dart,) = true_darts(edge := an_edge(sag), [one_dart(edge, at, width, depth, lean, over)])
    assert dart.to is not None
    legs = [norm(point_at(path, dart.at + way * dart.width / 2) - dart.to)[0] for way in (-1, 1)]
    assert abs(legs[0] - legs[1]) < 1e-6
    assert abs(closed_kink(path, dart)) < 0.05
    assert np.allclose([path[0, 0, 0], path[0, -1, 3]], [[LONG, 0], [0, 0]])
    assert np.allclose(path[:, 1:, 0], path[:, :-1, 3])


@given(DARTS)
def test_what_is_folded_away_ends_where_the_edge_does(drawn: tuple[float, ...]) -> None:
    """Folded over the first leg, the near half of the peak lies on the edge before it."""
    sag, at, width, depth, lean, over = drawn
    path, (dart,) = true_darts(edge := an_edge(sag), [one_dart(edge, at, width, depth, lean, over)])
    assert dart.to is not None
    begin = dart.at - dart.width / 2
    leg = point_at(path, begin) - dart.to
    leg /= norm(leg)[:, None]
    for share in (0.1, 0.3, 0.5):
        away = point_at(path, begin + share * dart.width) - dart.to
        folded = dart.to + 2 * dot(away, leg)[:, None] * leg - away
        assert nearest_place(path, folded)[1][0] < 1e-3


def test_a_straight_edge_loses_what_the_dart_takes_and_little_more() -> None:
    edge = line(np.array([[LONG, 0.0]]), np.array([[0.0, 0.0]]))[:, None]
    path, (dart,) = true_darts(edge, [one_dart(edge, 150.0, 30.0, 100.0, 0.0)])
    sewn = (length(path) - dart.width)[0]
    # Two arms of a hollow, 40 mm each, raised by atan(15 / 100): the chord is shorter by 2 * 40 * (1 - cos).
    bridged = LONG - 30.0 - 2 * 40.0 * (1 - np.cos(np.arctan(0.15)))
    assert bridged < sewn < LONG - 30.0
    # The hollow is filled by about half of what its arms rise, and from leg to axis the line climbs as steeply.
    assert np.isclose(path[..., 1].max(), 40.0 * 0.15 / 2 + 15.0 * 0.15, atol=0.6)


def test_darts_leave_one_another_alone_and_are_found_again() -> None:
    edge = an_edge(5.0)
    pleat = Taken(np.array([40.0]), np.array([40.0]))
    darts = [one_dart(edge, 210.0, 25.0, 90.0, 0.0), one_dart(edge, 100.0, 30.0, 100.0, 5.0), pleat]
    path, found = true_darts(edge, darts)
    for dart in found[:2]:
        assert abs(closed_kink(path, dart)) < 0.05
    assert found[2].width == 40.0
    assert found[2].at == 40.0  # it lies before both of them
    assert np.isfinite(path).all()
    assert path.shape[1] >= edge.shape[1]


def test_without_a_dart_to_true_the_edge_stays() -> None:
    edge = an_edge(5.0)
    pleat = Taken(np.array([100.0]), np.array([20.0]))
    assert true_darts(edge, [pleat]) == (edge, [pleat])


def test_a_dart_of_no_width_and_one_at_the_very_end_are_drawn() -> None:
    edge = an_edge(5.0)
    for at, width in ((150.0, 0.0), (10.0, 20.0), (LONG - 12.0, 20.0)):
        path, (dart,) = true_darts(edge, [one_dart(edge, at, width, 100.0, 0.0)])
        assert np.isfinite(path).all()
        assert np.isfinite(dart.at).all()
        assert abs(dart.width[0] - width) < 1.0


@given(DARTS)
def test_pressed_to_the_end_what_is_folded_away_lies_on_what_is_behind(drawn: tuple[float, ...]) -> None:
    """Folded over the last leg, the far half of the peak lies on the edge behind it."""
    sag, at, width, depth, lean, over = drawn
    edge = an_edge(sag)
    path, (dart,) = true_darts(edge, [replace(one_dart(edge, at, width, depth, lean, over), pressed=np.ones(1))])
    assert dart.to is not None
    assert abs(closed_kink(path, dart)) < 0.05
    end = dart.at + dart.width / 2
    leg = point_at(path, end) - dart.to
    leg /= norm(leg)[:, None]
    for share in (0.1, 0.3, 0.5):
        away = point_at(path, end - share * dart.width) - dart.to
        folded = dart.to + 2 * dot(away, leg)[:, None] * leg - away
        assert nearest_place(path, folded)[1][0] < 1e-3


@given(DARTS)
def test_an_edge_the_other_way_round_is_trued_alike(drawn: tuple[float, ...]) -> None:
    sag, at, width, depth, lean, over = drawn
    edge = an_edge(sag)
    dart = one_dart(edge, at, width, depth, lean, over)
    other = replace(dart, at=length(edge) - dart.at, pressed=np.ones(1))
    first, there = true_darts(edge, [dart])
    second, back = true_darts(reverse(edge), [other])
    assert np.allclose(length(first), length(second), atol=1e-3)
    assert np.allclose(there[0].width, back[0].width, atol=1e-3)
    places = np.linspace(0.05, 0.95, 19)
    for share in places:
        assert nearest_place(second, point_at(first, length(first) * share))[1][0] < 0.01


def shut(points: Floats, dart: Taken, path: Floats) -> Floats:
    """Points `(1, 2)` behind a dart, turned about its point until its legs meet."""
    assert dart.to is not None
    first, last = (point_at(path, dart.at + way * dart.width / 2) - dart.to for way in (-1, 1))
    return turned(points - dart.to, np.arctan2(cross(last, first), dot(last, first))) + dart.to


@given(
    st.lists(st.tuples(st.floats(5, 30), st.floats(60, 140), st.floats(-20, 20), st.booleans()), min_size=1, max_size=3)
)
def test_darts_let_into_a_straight_edge_leave_it_straight_once_they_are_shut(
    drawn: list[tuple[float, float, float, bool]],
) -> None:
    edge = line(np.array([[LONG, 0.0]]), np.array([[0.0, 0.0]]))[:, None]
    darts = [
        replace(
            one_dart(edge, 60.0 + 90.0 * k, width, depth, lean), let_in=True, pressed=np.array([1.0 if ends else 0.0])
        )
        for k, (width, depth, lean, ends) in enumerate(drawn)
    ]
    path, found = true_darts(edge, darts[::-1])
    found = found[::-1]
    assert np.allclose([path[0, 0, 0], path[0, -1, 3]], [[LONG, 0], [0, 0]])
    legs = [
        0.0,
        *(float((one.at + way * one.width / 2)[0]) for one in found for way in (-1, 1)),
        float(length(path)[0]),
    ]
    assert legs == sorted(legs)
    shut_places = []
    for k in range(len(found) + 1):
        for place in (legs[2 * k] + 1e-6, (legs[2 * k] + legs[2 * k + 1]) / 2, legs[2 * k + 1] - 1e-6):
            where = point_at(path, np.array([place]))
            for dart in reversed(found[:k]):
                where = shut(where, dart, path)
            shut_places.append(where[0])
    places = np.array(shut_places)
    way = places[-1] - places[0]
    aside = cross(places - places[0], np.broadcast_to(way / np.hypot(*way), places.shape))
    assert np.abs(aside).max() < 1e-5
    sewn = legs[-1] - sum(one.width[0] for one in found)
    assert np.isclose(sewn, np.hypot(*way), atol=1e-4)
    for one in found:
        assert one.to is not None
        first, last = (norm(point_at(path, one.at + end * one.width / 2) - one.to)[0] for end in (-1, 1))
        assert abs(first - last) < 1e-6
