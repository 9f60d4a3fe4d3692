"""A piece on paper: every word inside it and clear of every line, arrows and notches where they belong."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
import shapely

from draft.garment.garment import Edge, Garment, Piece, Takeup
from draft.geometry.cubic import line
from draft.geometry.flatten import flatten
from draft.geometry.ruler import chord_length
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import PT, Item, Label, Path, Turn
from draft.paper.drawing.papers import paper
from draft.paper.drawing.wording import ENGLISH, capitalised
from draft.paper.pages.sheet import draw_pattern, on_pages
from draft.paper.piece.notch_lines import NOTCH_OUT
from draft.paper.piece.piece_drawing import PieceDrawing, draw_piece
from draft.paper.piece.piece_lines import FLIP, Outlines
from draft.paper.piece.title_block import SMALLEST
from tests.asking import bundled
from tests.paper.made_up import SIZES, make_garment, span
from tests.paper.reading import line_shape, words_shape

PIECES = ("front", "back", "sleeve_band", "neckband")
SETS = [[body] for body in range(7)] + [list(range(7)), [2, 3]]


def labels(items: tuple[Item, ...]) -> list[Label]:
    return [item for item in items if isinstance(item, Label)]


def paths(items: tuple[Item, ...]) -> list[Path]:
    return [item for item in items if isinstance(item, Path)]


def everything(drawn: PieceDrawing) -> tuple[Item, ...]:
    return (*drawn.shared, *(item for items in drawn.sized for item in items))


@pytest.mark.parametrize("bodies", SETS, ids=lambda b: "-".join(SIZES[k] for k in b))
@pytest.mark.parametrize("name", PIECES)
def test_words_lie_inside_their_piece_and_clear_of_lines_and_of_one_another(
    garment: Garment, name: str, bodies: list[int]
) -> None:
    drawn = draw_piece(garment, garment.piece(name), bodies)
    outlines = [Outlines.of(garment, garment.piece(name), body) for body in bodies]
    leaders = [path for path in paths(everything(drawn)) if "leader" in dict(path.data)]
    drawn_lines = [path for path in paths(everything(drawn)) if "leader" not in dict(path.data)]
    lines = shapely.union_all([line_shape(path) for path in drawn_lines])
    inside = shapely.intersection_all([one.sewing_shape for one in outlines])
    for label in labels(drawn.shared):
        assert inside.contains(words_shape(label)), label.text
    for one, items in zip(outlines, drawn.sized, strict=True):
        for label in labels(items):
            assert one.cutting_shape.contains(words_shape(label)), label.text
    shapes = [(label, words_shape(label)) for label in labels(everything(drawn))]
    for label, shape in shapes:
        assert shape.distance(lines) > 0.4, label.text
        assert label.size >= SMALLEST * PT - 1e-9
    for (a, first), (b, second) in combinations(shapes, 2):
        assert first.distance(second) > 0.2, (a.text, b.text)
    for leader in leaders:
        met = [label.text for label, shape in shapes if shape.distance(line_shape(leader)) < 0.35]
        assert met == [dict(leader.data)["leader"]]


@pytest.mark.parametrize("name", PIECES)
def test_every_notch_of_a_nest_bears_the_name_of_its_size(garment: Garment, name: str) -> None:
    """The name beside it, or at the end of the leader that begins at it, is that of no other size."""
    drawn = draw_piece(garment, garment.piece(name), list(range(7)))
    known = [(size, label) for size, items in zip(SIZES, drawn.sized, strict=True) for label in labels(items)]
    leaders = [path for items in drawn.sized for path in paths(items) if "leader" in dict(path.data)]
    for size, items in zip(SIZES, drawn.sized, strict=True):
        for path in paths(items):
            if ".notch" not in path.id:
                continue
            inner = np.mean([run[0, 3] for run in path.runs], axis=0)
            led = [dict(leader.data)["leader"] for leader in leaders if np.allclose(leader.runs[0][0, 0], inner)]
            near = min(known, key=lambda one: words_shape(one[1]).distance(shapely.Point(inner)))[0]
            assert (led or [near]) == [size], path.id


@pytest.mark.parametrize("name", PIECES)
def test_a_piece_says_all_that_a_cutter_needs(garment: Garment, name: str) -> None:
    drawn = draw_piece(garment, garment.piece(name), [2])
    said = " / ".join(label.text for label in labels(drawn.shared))
    piece = garment.piece(name)
    for needed in ("Easy knit top", capitalised(piece.title), "Size M", ENGLISH.cut(piece), "1/2 in (1.3 cm)"):
        assert needed in said
    assert ("hem 1 in (2.5 cm)" in said) == piece.on_fold
    assert ("place on fold" in said) == piece.on_fold
    assert "grain" in said and "greatest stretch" in said


def test_arrows_lie_along_grain_and_stretch_at_a_slant_too() -> None:
    garment = make_garment(1)
    slant = np.radians(35)
    front = replace(
        garment.pieces[0],
        grain=np.array([[np.cos(slant), np.sin(slant)]]),
        stretch=np.array([[-np.sin(slant), np.cos(slant)]]),
    )
    drawn = draw_piece(garment, front, [0])
    for word, direction in (("grain", front.grain[0]), ("greatest stretch", front.stretch[0])):
        at = next(k for k, item in enumerate(drawn.shared) if isinstance(item, Label) and item.text == word)
        shaft = next(item for item in drawn.shared[at - 1 :: -1] if isinstance(item, Path) and item.stroke)
        step = shaft.runs[0][0, 3] - shaft.runs[0][0, 0]
        across = step[0] * (direction * FLIP)[1] - step[1] * (direction * FLIP)[0]
        assert abs(across) < 1e-6 * np.hypot(*step)
        assert np.hypot(*step) > 5


def test_cutting_and_sewing_lines_are_the_drafted_ones_edge_by_edge(garment: Garment) -> None:
    piece = garment.piece("front")
    drawn = draw_piece(garment, piece, [3])
    one = Outlines.of(garment, piece, 3)
    by_id = {path.id: path for path in paths(everything(drawn)) if path.id}
    for edge in piece.edges:
        if edge.on_fold:
            assert f"front.{edge.name}.cut" not in by_id
            continue
        sewn, cut = by_id[f"front.{edge.name}"], by_id[f"front.{edge.name}.cut"]
        assert np.array_equal(sewn.runs[0], edge.segments[3] * FLIP)
        assert dict(sewn.data)["source"] == str(edge.span)
        seam = shapely.LineString(flatten(sewn.runs[0], 1e-3))
        reach = [shapely.Point(p).distance(seam) for p in cut.runs[0][:, 0]]
        assert min(reach[1:-1] or reach) > edge.allowance - 0.05
    whole = shapely.union_all([line_shape(path) for name, path in by_id.items() if name.endswith(".cut")])
    off_fold = one.cutting_shape.exterior.difference(shapely.box(-1, -1000, 0.02, 1000))
    assert whole.hausdorff_distance(off_fold) < 0.1


def test_each_size_has_the_fold_as_far_as_it_is_cut_and_no_further(garment: Garment) -> None:
    drawn = draw_piece(garment, garment.piece("back"), list(range(7)))
    for body, items in enumerate(drawn.sized):
        (fold,) = (item for item in items if isinstance(item, Path) and item.id == f"back.fold.{garment.sizes[body]}")
        shape = Outlines.of(garment, garment.piece("back"), body).cutting_shape
        on_fold = shape.exterior.intersection(shapely.box(-1, -2000, 0.001, 2000))
        ends = line_shape(fold).bounds
        assert line_shape(fold).buffer(0.01).contains(on_fold)
        assert ends[1] == pytest.approx(on_fold.bounds[1], abs=0.01)
        assert ends[3] == pytest.approx(on_fold.bounds[3], abs=0.01)
        assert len({tuple(run[0, 0].round(6)) for run in fold.runs}) == 1  # its dashes begin where those of all do


def test_lines_to_lengthen_at_end_with_each_size(garment: Garment) -> None:
    tee = bundled("tidemill").garment
    drawn = draw_piece(tee, tee.piece("front"), list(range(7)))
    for body, items in enumerate(drawn.sized):
        (pair,) = (item for item in items if isinstance(item, Path) and item.id == f"front.longer.{tee.sizes[body]}")
        shape = Outlines.of(tee, tee.piece("front"), body).cutting_shape
        assert len(pair.runs) == 2 and shape.buffer(0.05).contains(line_shape(pair))
        assert line_shape(pair).distance(shape.exterior) < 0.01


@pytest.mark.parametrize("name", PIECES)
def test_notches_run_square_from_the_cutting_line_inward_at_most_half_the_allowance(
    garment: Garment, name: str
) -> None:
    piece = garment.piece(name)
    drawn = draw_piece(garment, piece, [4])
    one = Outlines.of(garment, piece, 4)
    notches = [path for path in paths(drawn.sized[0]) if ".notch" in path.id]
    assert len(notches) == len(piece.notches)
    for path, notch in zip(notches, piece.notches, strict=True):
        assert len(path.runs) == notch.strokes
        edge = piece.edge(notch.edge)
        seam = shapely.LineString(line_shape(Path((edge.segments[4] * FLIP,))).geoms[0])
        middle = np.mean([run[0, 0] for run in path.runs], axis=0)
        assert abs(seam.project(shapely.Point(middle)) - notch.at[4]) < 0.1
        for run in path.runs:
            outer, inner = run[0, 0], run[0, 3]
            assert one.cutting_shape.exterior.distance(shapely.Point(outer)) < 0.01
            assert np.hypot(*(inner - outer)) <= edge.allowance / 2
            assert abs(seam.distance(shapely.Point(inner)) + np.hypot(*(inner - outer)) - edge.allowance) < 0.02


def test_a_notch_on_an_edge_without_allowance_stays_outside_the_piece() -> None:
    garment = make_garment(1)
    bare = replace(garment.pieces[2], edges=tuple(replace(e, allowance=0.0) for e in garment.pieces[2].edges))
    drawn = draw_piece(garment, bare, [0])
    shape = Outlines.of(garment, bare, 0).sewing_shape
    for path in paths(drawn.sized[0]):
        if ".notch" in path.id:
            assert shape.intersection(line_shape(path)).length < 1e-6
            assert abs(line_shape(path).length - NOTCH_OUT) < 1e-6


def test_a_missing_notch_is_not_drawn() -> None:
    garment = make_garment(1)
    front = garment.pieces[0]
    gone = replace(front, notches=(replace(front.notches[0], at=np.array([np.nan])), front.notches[1]))
    ids = [path.id for path in paths(draw_piece(garment, gone, [0]).sized[0])]
    assert [name for name in ids if "notch" in name] == ["front.underarm.notch2"]


def test_every_size_of_a_nest_is_told_by_its_line_and_by_its_name(garment: Garment) -> None:
    for name in PIECES:
        drawn = draw_piece(garment, garment.piece(name), list(range(7)), "cutting")
        for size, items in zip(SIZES, drawn.sized, strict=True):
            tags = labels(items)
            assert tags and {tag.text for tag in tags} == {size}, (name, size)
            own = shapely.union_all([line_shape(path) for path in paths(items)])
            assert all(words_shape(tag).distance(own) < 3 for tag in tags)


def test_line_styles_differ_without_colour() -> None:
    seven = [line_styles.cutting_stroke(k) for k in range(7)]
    assert len({(s.dash, s.cap if s.dash else "") for s in seven}) == 7
    patterns = {(s.dash, round(s.width, 3)) for s in map(line_styles.cutting_stroke, range(14))}
    assert len(patterns) == 14


@pytest.mark.parametrize("length", [14.0, 30.0, 97.3, 655.2])
@pytest.mark.parametrize("index", range(7))
def test_a_fitted_pattern_ends_as_it_begins_with_a_dash(index: int, length: float) -> None:
    stroke = line_styles.evenly_dashed(line_styles.cutting_stroke(index), length)
    if not stroke.dash or length < 2 * sum(stroke.dash):
        return
    periods = (length - stroke.dash[0]) / sum(stroke.dash)
    assert periods == pytest.approx(round(periods), abs=1e-9)
    assert sum(stroke.dash) == pytest.approx(sum(line_styles.cutting_stroke(index).dash), rel=0.35)


def test_only_cutting_or_only_sewing_lines_on_request(garment: Garment) -> None:
    for lines, there, gone in (("cutting", ".hem.cut", "front.hem"), ("sewing", "front.hem", "front.hem.cut")):
        ids = {path.id for path in paths(draw_piece(garment, garment.piece("front"), [1], lines).sized[0])}  # type: ignore[arg-type]
        assert any(name.endswith(there) for name in ids) and gone not in ids


def test_a_piece_too_small_for_its_words_has_them_below(garment: Garment) -> None:
    corners = np.array([[[0, 0], [40, 0], [40, 30], [0, 30]]], dtype=float)
    edges = tuple(
        Edge(span(40), f"side{k}", line(corners[:, k], corners[:, (k + 1) % 4])[:, None], allowance=12.7)
        for k in range(4)
    )
    tab = Piece(span(40), "tab", edges, 2, np.array([[0.0, 1.0]]), np.array([[1.0, 0.0]]))
    small = make_garment(1)
    drawn = draw_piece(small, tab, [0])
    cut = Outlines.of(small, tab, 0).cutting_shape
    said = [label.text for label in labels(drawn.shared)]
    assert "Tab" in said and "Cut 2" in said and "grain" in said and "greatest stretch" in said
    needed = shapely.union_all([shapely.Polygon(ring) for ring in drawn.footprint.rings])
    for label in labels(drawn.shared):
        assert words_shape(label).distance(cut) > 1
        assert needed.buffer(1e-6).contains(words_shape(label))
    assert len(drawn.footprint.outline) == 1 and drawn.moved(Turn(1, 5.0, 9.0)).footprint.outline
    assert shapely.Polygon(drawn.footprint.outline[0]).symmetric_difference(cut).area < 1.0
    leader = next(i for i in paths(drawn.shared) if i.stroke and i.stroke.width == line_styles.FINE)
    start, end = shapely.Point(leader.runs[0][0, 0]), shapely.Point(leader.runs[0][-1, 3])
    block = shapely.union_all([words_shape(label) for label in labels(drawn.shared) if label.angle == 0]).envelope
    assert cut.contains(end) and start.distance(block) < 2.0


def test_pieces_with_words_beside_them_lie_upright_and_whole_on_a_page(garment: Garment) -> None:
    corners = np.array([[[0, 0], [45, 0], [45, 12], [0, 12]]], dtype=float).repeat(len(garment.sizes), axis=0)
    tabs = []
    for number in range(5):
        edges = tuple(
            Edge(span(40), f"side{k}", line(corners[:, k], corners[:, (k + 1) % 4])[:, None], allowance=5.0)
            for k in range(4)
        )
        grain = np.array([[0.0, 1.0]]).repeat(len(garment.sizes), axis=0)
        tabs.append(Piece(span(40), f"tab_{number}", edges, 2, grain, grain[:, ::-1]))
    live = paper("a4").live
    drawing = on_pages(draw_pattern(replace(garment, pieces=(*garment.pieces, *tabs)), [0, 6]), live)
    for one in drawing.footprints[len(garment.pieces) :]:
        points = np.concatenate(one.rings)
        assert one.outline and np.ptp(points, axis=0)[0] > np.ptp(points, axis=0)[1]
        assert np.array_equal((points.min(axis=0) + 1e-6) // live, (points.max(axis=0) - 1e-6) // live)


def _with_takeups(count: int) -> Piece:
    front, both = make_garment(count).pieces[0], np.ones(count)
    dart = Takeup(span(41), "bust_dart", "underarm", 260 * both, 24 * both, to=both[:, None] * [110.0, -290.0])
    pleat = Takeup(span(42), "pleat", "hem", 90 * both, 30 * both, length=60 * both)
    edges = tuple(replace(e, gathered=0.8 * both) if e.name == "cuff" else e for e in front.edges)
    return replace(front, takeups=(dart, pleat), edges=edges)


@pytest.mark.parametrize("count", [1, 3])
def test_darts_pleats_and_gathers_are_drawn(count: int) -> None:
    front = _with_takeups(count)
    drawn = draw_piece(make_garment(count), front, list(range(count)))
    for body, items in enumerate(drawn.sized):
        one = Outlines.of(make_garment(count), front, body)
        by_id = {path.id.removesuffix(f".{one.size}"): path for path in paths(items)}
        first, second = by_id["front.bust_dart"].runs
        ring, *notches = by_id["front.bust_dart.signs"].runs
        seam = line_shape(Path((front.edge("underarm").segments[body] * FLIP,))).geoms[0]
        ends = [seam.project(shapely.Point(leg[0, 0])) for leg in (first, second)]
        assert np.allclose(ends, [248, 272], atol=0.05)
        assert all(np.allclose(leg[0, 3], [110, 290]) for leg in (first, second))
        assert np.allclose(np.mean(ring[:, 0], axis=0), [110, 290])
        assert len(notches) == 2 and all(
            one.cutting_shape.exterior.distance(shapely.Point(n[0, 0])) < 0.01 for n in notches
        )
        left, right, *_ = by_id["front.pleat"].runs
        if count > 1:  # those of other sizes lie among its lines: it has its notches alone
            assert all(one.cutting_shape.exterior.distance(shapely.Point(n[0, 0])) < 0.01 for n in (left, right))
            assert "front.pleat.middle" not in by_id
            continue
        assert abs(np.hypot(*(left[0, 3] - left[0, 0])) - 60) < 1e-6
        assert abs(np.hypot(*(left[0, 0] - right[0, 0])) - 30) < 0.1
        assert all(one.sewing_shape.buffer(0.01).contains(shapely.Point(side[0, 3])) for side in (left, right))
        assert by_id["front.pleat.middle"].stroke.dash  # type: ignore[union-attr]
    said = [label.text for label in labels(drawn.shared)]
    cuff = chord_length(front.edge("cuff").segments[0]) * 0.8
    assert (ENGLISH.gather(cuff) if count == 1 else "gather") in said
    drawn_lines = [path for path in paths(everything(drawn)) if "leader" not in dict(path.data)]
    lines = shapely.union_all([line_shape(path) for path in drawn_lines])
    assert all(words_shape(label).distance(lines) > 0.4 for label in labels(everything(drawn)))


def test_a_fold_that_a_body_lacks_is_not_drawn() -> None:
    front = _with_takeups(1)
    none = replace(front, takeups=tuple(replace(takeup, width=np.array([0.0])) for takeup in front.takeups))
    assert not [
        p.id for p in paths(draw_piece(make_garment(1), none, [0]).sized[0]) if "dart" in p.id or "pleat" in p.id
    ]
