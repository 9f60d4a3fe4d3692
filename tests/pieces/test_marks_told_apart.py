"""What a maker has to find on every bundled pattern: notches at a cut edge and what they meet, her own buttonhole."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
import shapely
import shapely.affinity

from draft.garment.garment import Garment, Piece
from draft.garment.marks import places
from draft.geometry.flatten import polyline
from draft.paper.booklet import BookletFacts, booklet_pdf
from draft.paper.drawing.drawing import Label, Path
from draft.paper.drawing.wording import Wording
from draft.paper.piece.piece_drawing import draw_piece
from draft.paper.piece.piece_lines import outlines_of
from draft.paper.piece.sliding_fastenings import slide, strokes_at
from draft.seams.joins_in_order import seam_letters
from draft.seams.wedges import closes_a_wedge
from tests.asking import bundled
from tests.paper.reading import text_of
from tests.pieces.bundled import PATTERNS

every_pattern = pytest.mark.parametrize("name", PATTERNS)


@every_pattern
def test_every_notch_begins_where_its_size_is_cut(name: str) -> None:
    garment = bundled(name).garment
    for piece in garment.pieces:
        bare = {edge.name for edge in piece.edges if not edge.allowance} | _of_wedges(garment, piece)
        for one in outlines_of(piece, [(size, body) for body, size in enumerate(garment.sizes)]):
            cut = one.cutting_ring
            for number, strokes in one.notch_strokes:
                if piece.notches[number].edge not in bare:
                    begins = shapely.points(strokes[:, 0, 0])
                    assert shapely.distance(cut, begins).max() < 0.3, (piece.name, one.size, number)


def _of_wedges(garment: Garment, piece: Piece) -> set[str]:
    """The edges of a dart that is a seam: its allowance closes over the marks between its legs."""
    wedges = [join for join in garment.joins if closes_a_wedge(garment, join)]
    return {part.edge for join in wedges for part in (*join.first, *join.second) if part.piece == piece.name}


@every_pattern
def test_fastenings_of_two_sizes_never_lie_over_one_another_but_for_strokes_with_a_name(name: str) -> None:
    garment = bundled(name).garment
    bodies = range(len(garment.sizes))
    for piece in garment.pieces:
        if not any(mark.fastening for mark in piece.marks):
            continue
        outlines = outlines_of(piece, [(garment.sizes[body], body) for body in bodies])
        drawn = draw_piece(garment, piece, bodies)
        for mark in piece.marks:
            sliding = slide(mark, piece, list(bodies))
            for place in range(max(len(places(mark, body)) for body in bodies)) if mark.fastening else ():
                points = [places(mark, body)[place] for body in bodies if len(places(mark, body)) > place]
                apart = [float(np.hypot(*(a - b))) for a, b in combinations(points, 2)]
                if place in sliding:
                    strokes = [strokes_at(mark, place, outlines, one) for one in outlines]
                    gaps = [float(np.hypot(*(a - b).mean(axis=0))) for a, b in combinations(strokes, 2)]
                    assert min(gaps) > 0.8, (piece.name, mark.name, place)  # a stroke of a pencil
                elif mark.fastening:
                    assert max(apart, default=0.0) < 0.3 or min(apart) > 9.0, (piece.name, mark.name, place)
            if sliding and mark.fastening == "button":
                for size, items in zip(garment.sizes, drawn.sized, strict=True):
                    said = sum(isinstance(item, Label) and item.text == size and not item.bold for item in items)
                    assert said >= len(sliding), (piece.name, size)


def test_a_hole_of_a_nest_is_as_long_and_begins_as_it_does_alone() -> None:
    garment = bundled("lockside").garment
    piece = garment.piece("stand")
    hole = next(mark for mark in piece.marks if mark.fastening == "buttonhole")
    assert hole.length is not None and hole.way is not None
    for body, items in enumerate(draw_piece(garment, piece, range(7)).sized):
        drawn = next(i for i in items if isinstance(i, Path) and i.id == f"stand.hole.{garment.sizes[body]}")
        line, stroke = (shapely.LineString(polyline(run)) for run in drawn.runs)
        assert line.length == pytest.approx(float(hole.length[body]), abs=0.01)
        at = shapely.Point(*(places(hole, body)[0] * [1, -1]))
        assert stroke.centroid.distance(at) < 1e-6 and line.project(at) == pytest.approx(3.0, abs=0.01)
        assert hole.way[body][0] < 0  # away from the edge, so that the pull holds the button at its end


def test_what_a_notch_meets_is_said_by_the_letter_of_that_seam() -> None:
    for pattern, piece, edge, seam in (
        ("boatyard", "waistband", "long", "side"),
        ("lockside", "stand", "neck", "yoke_front"),
    ):
        garment = bundled(pattern).garment
        found = [notch.said for notch in garment.piece(piece).notches if notch.edge == edge]
        assert seam_letters(garment)[seam] in found, (pattern, found)


@every_pattern
def test_what_is_cut_once_and_has_no_like_half_says_which_side_is_up(name: str) -> None:
    garment = bundled(name).garment
    assert [
        p.name for p in garment.pieces if _is_one_sided(p) and not all(cut.cut_as == "right side up" for cut in p.cuts)
    ] == []


def _is_one_sided(piece: Piece) -> bool:
    """Whether a piece that is cut once is another shape when it is turned over, however it is laid then."""
    if piece.cut != 1 or piece.on_fold or any(cut.cut_as == "as a pair" for cut in piece.cuts):
        return False
    shape = outlines_of(piece, [("", 0)])[0].sewing_shape
    flat = shapely.affinity.scale(shape, xfact=-1.0)
    turned = [shapely.affinity.rotate(flat, angle) for angle in (0, 90, 180, 270)]
    moved = [
        shapely.affinity.translate(one, *(np.subtract(shape.bounds[:2], one.bounds[:2]).tolist())) for one in turned
    ]
    return min(one.symmetric_difference(shape).area for one in moved) > 0.01 * float(shape.area)


@every_pattern
def test_interfacing_is_cut_without_allowances_by_one_rule(name: str) -> None:
    for cloth in bundled(name).garment.cloths:
        if "interfacing" in cloth.name:
            assert cloth.allowance is not None and float(cloth.allowance) == 0.0, cloth.name


@every_pattern
def test_the_cover_says_for_whom_its_chart_is(name: str) -> None:
    drafted = bundled(name)
    words = {"women": "for women", "men": "for men"}[drafted.plan.wearers.name]
    cover = text_of(booklet_pdf(BookletFacts(drafted, tuple(range(len(drafted.garment.sizes))), Wording())), 0)
    assert words in " ".join(cover.split())
