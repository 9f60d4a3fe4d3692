"""Every bundled pattern drafts clean in all sizes, and what a maker would check by hand holds.

The checks of the engine are asked, and then again by coarser means of our own: chords for lengths, the ends of short
chords for angles, a polygon for what crosses.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest
import shapely

from draft.base.arrays import Floats
from draft.garment.garment import Edge, Garment, Join, Piece, SidePart
from draft.seams.joins_in_order import folds_an_end
from draft.seams.wedges import closes_a_wedge
from tests.asking import bundled
from tests.pieces.bundled import CLOSE, PATTERNS, chord_length, place_on, points, taken_up

SIZES = ("XS", "S", "M", "L", "XL", "2XL", "3XL")
SEAM = 0.5  # mm
ANGLE = 1.0  # degrees
STEP = 0.02  # mm: a chord long enough to have a direction, and too short to turn

every_pattern = pytest.mark.parametrize("name", PATTERNS)


def test_the_bundle_holds_a_top_a_skirt_and_a_tee() -> None:
    assert {"marlpit", "ropewalk", "tidemill"} <= set(PATTERNS)


@every_pattern
def test_every_size_drafts_and_nothing_is_said_against_it(name: str) -> None:
    found = bundled(name)
    assert found.garment.sizes == SIZES
    assert found.outcome.drafted.all()
    assert found.notes == ()


@every_pattern
def test_every_promise_of_the_file_is_kept(name: str) -> None:
    assert bundled(name).outcome.promises
    assert all(promise.met.all() for promise in bundled(name).outcome.promises)


@every_pattern
def test_both_sides_of_every_seam_are_of_one_length(name: str) -> None:
    garment = bundled(name).garment
    assert garment.joins
    for join in garment.joins:
        first, second = _whole(garment, join, join.first), _whole(garment, join, join.second)
        wanted = second if join.ratio is None else second * join.ratio
        seams = min(_copies(garment.piece(part.piece)) for part in join.first)
        assert np.all(np.abs(first - wanted) / seams < SEAM), join.name


@every_pattern
def test_outlines_run_on_across_the_ends_of_seams(name: str) -> None:
    garment = bundled(name).garment
    tested = 0
    for join in garment.joins:
        if len(join.first) == len(join.second) and join.fit == "even" and _runs_on(garment, join):
            for at_start in (True, False):
                if closes_a_wedge(garment, join) and _one_corner(garment, join, at_start):
                    continue  # where a cut ends nothing runs on
                if any(_passes(garment, part[0 if at_start else -1], at_start) for part in (join.first, join.second)):
                    continue
                inside = sum(
                    _inside_angle(garment, part[0 if at_start else -1], at_start) for part in (join.first, join.second)
                )
                assert np.all(np.abs(inside - 180.0) < ANGLE), (join.name, at_start)
                tested += 1
    assert tested >= 3


def _folds(garment: Garment) -> list[tuple[Piece, Edge]]:
    return [(piece, edge) for piece in garment.pieces for edge in piece.edges if edge.on_fold]


def test_all_but_what_has_legs_or_panels_are_cut_on_folds() -> None:
    assert {name for name in PATTERNS if not _folds(bundled(name).garment)} == {"boatyard", "roundhouse", "slipway"}


@every_pattern
def test_outlines_are_square_to_folds(name: str) -> None:
    garment = bundled(name).garment
    for piece, edge in _folds(garment):
        for at_start in (True, False):
            inside = _inside_angle(garment, SidePart(piece.name, edge.name), at_start)
            assert np.all(np.abs(inside - 90.0) < ANGLE), (piece.name, at_start)


@every_pattern
def test_outlines_are_closed_and_simple(name: str) -> None:
    for piece in bundled(name).garment.pieces:
        for shape in _shapes(piece):
            assert shape.is_valid, piece.name


@every_pattern
def test_every_piece_of_a_larger_size_is_larger(name: str) -> None:
    for piece in bundled(name).garment.pieces:
        steps = np.diff([shape.area for shape in _shapes(piece)])
        assert np.all(steps > 0) or np.all(steps == 0), piece.name  # a binding may be the same in all sizes


@every_pattern
def test_finished_measurements_rise_with_the_size(name: str) -> None:
    garment = bundled(name).garment
    for measurement in garment.finished:
        steps = np.diff(measurement.values)
        assert np.all(steps > -0.01), measurement.name
        if measurement.around:
            # mm: two sizes of one girth are one size; what fits closely rises as the body does
            least = 5.0 if measurement.over is None else np.minimum(5.0, 0.9 * np.diff(measurement.over[1]))
            assert np.all(steps > least), measurement.name


@every_pattern
def test_notches_lie_at_equal_distances_along_both_sides(name: str) -> None:
    """Read off the drawing: each notch of one side of an even seam has its fellow on the other."""
    garment = bundled(name).garment
    tested = 0
    for join in garment.joins:
        copies = {_copies(garment.piece(part.piece)) for part in (*join.first, *join.second)}
        drawn_up = any(garment.piece(p.piece).edge(p.edge).gathered is not None for p in (*join.first, *join.second))
        if len(join.first) == len(join.second) == len(copies) == 1 and join.fit == "even" and not drawn_up:
            one, other = (_notches(garment, part[0]) for part in (join.first, join.second))
            assert one.shape == other.shape
            assert np.all(np.abs(one - other) < SEAM)
            tested += one.size
    assert tested > 0


@every_pattern
def test_every_piece_says_what_a_cutter_needs(name: str) -> None:
    for piece in bundled(name).garment.pieces:
        assert piece.cut >= 1
        assert np.allclose(np.hypot(*piece.grain.T), 1.0)
        assert all(edge.allowance > 0 or edge.unjoined for edge in piece.edges if not edge.on_fold)


@every_pattern
def test_dart_legs_are_of_one_length(name: str) -> None:
    for piece in bundled(name).garment.pieces:
        for takeup in piece.takeups:
            if takeup.to is None:
                continue
            edge = piece.edge(takeup.edge)
            legs = [np.hypot(*(place_on(edge, takeup.at + side * takeup.width / 2) - takeup.to).T) for side in (-1, 1)]
            assert np.all(np.abs(legs[0] - legs[1]) < 2.0), takeup.name  # mm: less than is eased away along a leg


# ---- by our own means ----------------------------------------------------------------------------------------------


def _copies(piece: Piece) -> int:
    return piece.cut * (2 if piece.on_fold else 1)


def _whole(garment: Garment, join: Join, parts: tuple[SidePart, ...]) -> Floats:
    """The length of a side, each edge as often as it is cut; or as its seam is, where another one has the rest."""
    found = []
    fewest = min(_copies(garment.piece(part.piece)) for part in (*join.first, *join.second))
    for part in parts:
        piece = garment.piece(part.piece)
        edge = piece.edge(part.edge)
        drawn_up = 1.0 if edge.gathered is None else edge.gathered
        often = fewest if _shared(garment, part) else _copies(piece)
        found.append((chord_length(edge) - taken_up(piece, part.edge)) * drawn_up * often)
    return np.asarray(np.sum(found, axis=0))


def _shared(garment: Garment, part: SidePart) -> bool:
    """Whether two seams have one copy each of an edge cut twice: both sides of a fly, a back and two fronts."""
    copies = [
        min(_copies(garment.piece(other.piece)) for other in (*join.first, *join.second))
        for join in garment.joins
        if not join.is_lying
        and any((one.piece, one.edge) == (part.piece, part.edge) for one in (*join.first, *join.second))
    ]
    return len(copies) > 1 and sum(copies) == _copies(garment.piece(part.piece))


def _passes(garment: Garment, part: SidePart, at_start: bool) -> bool:
    """Whether another seam runs straight on past an end: no outline crosses there, as at the foot of a fly."""
    edges = garment.piece(part.piece).edges
    place = [edge.name for edge in edges].index(part.edge)
    beside = edges[(place + (-1 if at_start != part.reverse else 1)) % len(edges)].name
    sewn = {(one.piece, one.edge) for join in garment.joins for one in (*join.first, *join.second)}
    return (part.piece, beside) in sewn and bool(np.all(_inside_angle(garment, part, at_start) > 180.0 - ANGLE))


def _runs_on(garment: Garment, join: Join) -> bool:
    """Whether the pieces lie beside one another once they are sewn."""
    return not join.is_lying and not join.faced and not folds_an_end(garment, join)


def _one_corner(garment: Garment, join: Join, at_start: bool) -> bool:
    """Whether both sides begin, or end, at one point of the piece."""
    ends = []
    for part in (join.first[0], join.second[0]):
        line = points(garment.piece(part.piece).edge(part.edge), 1)
        ends.append(line[:, 0 if at_start != part.reverse else -1])
    return bool(np.allclose(*ends))


def _shapes(piece: Piece) -> list[shapely.Polygon]:
    outline = np.concatenate([points(edge, 24)[:, :-1] for edge in piece.edges], axis=1)
    return [shapely.remove_repeated_points(shapely.Polygon(line), 0.001) for line in outline]


def _ends(edge: Edge) -> Iterator[Floats]:
    """The directions `(B, 2)` into the edge from its first point and from its last, off the shortest chords."""
    line = points(edge, 24 * CLOSE)
    for ordered in (line, line[:, ::-1]):
        away = np.hypot(*np.moveaxis(ordered - ordered[:, :1], -1, 0))
        far = ordered[np.arange(len(line)), np.argmax(away > STEP, axis=1)]
        yield (far - ordered[:, 0]) / np.hypot(*(far - ordered[:, 0]).T)[:, None]


def _inside_angle(garment: Garment, part: SidePart, at_start: bool) -> Floats:
    """The angle between an edge and its neighbour at one end, degrees; a corner of a piece is below 180."""
    piece = garment.piece(part.piece)
    place = [edge.name for edge in piece.edges].index(part.edge)
    first_end = at_start != part.reverse
    own = list(_ends(piece.edges[place]))[0 if first_end else 1]
    neighbour = piece.edges[(place + (-1 if first_end else 1)) % len(piece.edges)]
    beside = list(_ends(neighbour))[1 if first_end else 0]
    return np.asarray(np.degrees(np.arccos(np.clip(np.sum(own * beside, axis=-1), -1, 1))))


def _notches(garment: Garment, part: SidePart) -> Floats:
    piece = garment.piece(part.piece)
    whole = chord_length(piece.edge(part.edge))
    on_it = [notch.at for notch in piece.notches if notch.edge == part.edge]
    found = [at for at in on_it if np.all((at > SEAM) & (at < whole - SEAM))]  # one at an end meets the other's corner
    return np.sort([whole - at if part.reverse else at for at in found], axis=0)


def test_our_own_lengths_are_good_enough() -> None:
    """A quarter circle of 100 mm as one cubic: 157.1 mm; the common constant is right to 3 in 10,000."""
    k = 4 / 3 * (np.sqrt(2) - 1)
    quarter = np.array([[[[100, 0], [100, 100 * k], [100 * k, 100], [0, 100]]]])
    span = bundled("marlpit").garment.pieces[0].span
    assert chord_length(Edge(span, "arc", quarter, allowance=0.0))[0] == pytest.approx(50 * np.pi, rel=3e-4)


def test_the_seams_of_a_join_are_told_from_its_pieces() -> None:
    garment = bundled("ropewalk").garment
    waist: Join = next(join for join in garment.joins if join.name == "waist")
    assert [_copies(garment.piece(part.piece)) for part in waist.second] == [2, 2]
