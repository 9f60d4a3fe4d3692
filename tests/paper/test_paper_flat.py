"""The finished garment drawn flat: true to the drafted lines, complete, for garments of several kinds."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path as File

import numpy as np
import pytest
import shapely
from shapely.affinity import affine_transform

from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment
from draft.geometry.cubic import lines_through
from draft.geometry.flatten import polyline
from draft.geometry.ruler import chord_length
from draft.paper.drawing.drawing import Drawing, Label, Path
from draft.paper.drawing.polygons import polygon
from draft.paper.drawing.wording import Wording
from draft.paper.flat import flat_drawing
from draft.paper.flat.bands import band_lines, bands
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.done import Done
from draft.paper.flat.gathers import FOLD
from draft.paper.flat.hoods import hoods
from draft.paper.flat.limbs import limb, meetings
from draft.paper.flat.panels import front_and_back, panels
from draft.paper.flat.put_together import together
from draft.paper.flat.similar import MIRROR, Similar, onto
from draft.paper.flat.slits_and_zips import EDGE
from draft.paper.flat.strips import SEAM
from draft.paper.flat.ties import ties_of
from draft.paper.flat.views import INSIDE, OUTLINE, PAPER, STITCH, views
from draft.paper.flat.wrapped import wrap_fronts
from tests.asking import asked, bundled
from tests.paper.made_up import make_garment
from tests.paper.patterns import PATTERNS

HERE = File(__file__).parents[1]


@pytest.fixture(scope="module", params=PATTERNS)
def drafted(request: pytest.FixtureRequest) -> Garment:
    return bundled(request.param).garment


def paths(drawing: Drawing) -> list[Path]:
    return [item for item in drawing.items() if isinstance(item, Path)]


def test_front_and_back_stand_side_by_side_with_their_names(drafted: Garment) -> None:
    drawing = flat_drawing(drafted, 2)
    assert drawing is not None
    assert [item.text for item in drawing.items() if isinstance(item, Label)] == ["Front", "Back"]
    boxes = np.array([path.box() for path in paths(drawing)])
    assert boxes[:, 0].min() >= 0 and boxes[:, 1, 0].max() <= drawing.width and boxes[:, 1, 1].max() <= drawing.height
    assert abs((boxes[:, 1, 1].max() - boxes[:, 0, 1].min()) - 90) < 1.5


def test_each_view_is_symmetrical(drafted: Garment) -> None:
    drawing = flat_drawing(drafted, 2)
    assert drawing is not None
    words = [item for item in drawing.items() if isinstance(item, Label)]
    lines = [path for path in paths(drawing) if path.stroke == OUTLINE]
    for word in words:
        own = [run for path in lines for run in path.runs if abs(run[:, :, 0].mean() - word.x) < drawing.width / 4]
        every = shapely.MultiLineString([polyline(run) for run in own])
        mirrored = affine_transform(every, [-1, 0, 0, 1, 2 * word.x, 0])
        assert every.hausdorff_distance(mirrored) < 0.3  # bands are sampled


def test_the_lines_of_the_front_are_the_drafted_ones() -> None:
    garment = bundled("marlpit").garment
    drawing = flat_drawing(garment, 2)
    assert drawing is not None
    front = garment.piece("front")
    overarm = chord_length(front.edge("overarm").segments[2])
    found = [run for path in paths(drawing) if path.stroke == OUTLINE for run in path.runs]
    lengths = sorted({round(chord_length(run), 3) for run in found})
    side = chord_length(front.edge("underarm").segments[2])
    ratios = {round(a / b, 4) for a in lengths for b in lengths}
    assert any(abs(ratio - side / overarm) < 1e-3 for ratio in ratios)


def test_the_inside_shows_in_the_neck_and_two_rows_of_stitches_at_a_knit_hem() -> None:
    drawing = flat_drawing(bundled("marlpit").garment, 2)
    assert drawing is not None
    assert any(path.fill == INSIDE for path in paths(drawing))
    stitches = [run for path in paths(drawing) if path.stroke == STITCH for run in path.runs]
    assert len(stitches) == 4  # two rows on the front, two on the back
    skirt = flat_drawing(bundled("ropewalk").garment, 2)
    assert skirt is not None
    stitched = [run for path in paths(skirt) if path.stroke == STITCH for run in path.runs]
    assert len(stitched) == 3  # a row on the front, one on the back, and that of the lapped zip


def test_a_slit_stands_apart_and_a_lapped_zip_is_stitched_on_the_wearers_left() -> None:
    garment = bundled("ropewalk").garment
    back, joined = views(garment, 2)["back"], Done(joins=frozenset(["centre_back"]))
    rows = [run for _, runs, stroke in back.items if stroke == STITCH for run in runs if len(run) == 2]
    (row,) = rows
    assert row[0, 0, 0] == pytest.approx(-10.0) and row[-1, 3, 0] == pytest.approx(0.0, abs=0.01)
    assert chord_length(row[:1]) == pytest.approx(180.0)
    wedges = [run for fill, runs, _ in back.items if fill == INSIDE for run in runs if len(run) == 3]
    (wedge,) = wedges
    assert np.ptp(wedge[..., 1]) == pytest.approx(120.0)
    early = views(garment, 2, joined)["back"]
    assert not [run for _, runs, stroke in early.items if stroke == STITCH for run in runs]
    assert [run for fill, runs, _ in early.items if fill == INSIDE for run in runs if len(run) == 3]
    assert not bundled("ropewalk", back_slit="no").garment.joins[1].openings[1:]


def test_a_zip_in_the_side_is_seen_on_the_wearers_left_once_it_is_in() -> None:
    garment = bundled("roundhouse").garment
    front = views(garment, 2)["front"]
    side = max(front.edges["skirt", "side"], key=lambda run: float(run[..., 0].max()))
    top = side.reshape(-1, 2)[side.reshape(-1, 2)[:, 1].argmax()]
    end, pull = _of_zips(front)
    assert pull[0, 0] == pytest.approx(top, abs=0.01)
    assert shapely.LineString(polyline(side)).distance(shapely.Point(pull[1, 0])) == pytest.approx(7.0, abs=0.01)
    opened = next(join for join in garment.joins if join.name == "left_side").openings[0].length[2]
    assert np.linalg.norm((end[0, 0] + end[0, 3]) / 2 - top) == pytest.approx(opened, abs=0.01)
    sewn = Done(joins=frozenset(join.name for join in garment.joins))
    assert not _of_zips(views(garment, 2, sewn)["front"])
    assert not _of_zips(views(bundled("roundhouse", closing="elastic").garment, 2)["front"])


def _of_zips(view: Canvas) -> list[np.ndarray]:
    """Short lines of a view, as thick as an edge, that are on one side of the wearer alone."""
    lines = [run for _, runs, stroke in view.items if stroke == EDGE for run in runs if _size(run) < 40]
    return [
        run for run in lines if not any(np.allclose(MIRROR.points(run).mean((0, 1)), o.mean((0, 1))) for o in lines)
    ]


def _size(run: np.ndarray) -> float:
    return float(np.ptp(run.reshape(-1, 2), axis=0).max())


def test_a_lapped_zip_in_the_side_is_stitched_on_the_front() -> None:
    garment = draft_and_check(asked(HERE / "good" / "notions.piece", styles={"closing": "zip"})).garment
    found = views(garment, 0)
    rows = {
        key: [run for _, runs, stroke in view.items if stroke == STITCH for run in runs if run[..., 0].min() > 20]
        for key, view in found.items()
    }
    assert [chord_length(run) for run in rows["front"]] == [pytest.approx(190.0, abs=2.0)] and not rows["back"]


def test_a_hood_stands_on_the_neck_as_deep_as_it_is_drafted() -> None:
    garment = bundled("hooded").garment
    (hood,) = hoods(garment)
    assert (hood.piece.name, hood.seat, hood.crown) == ("hood", "seat", "crown_seam")
    front, back = (views(garment, 2)[key] for key in ("front", "back"))
    plain = views(bundled("hooded", neck_finish="band").garment, 2)["front"]
    rise = garment.piece("hood").edge("crown_seam").segments[2, ..., 1].max()
    assert front.box()[1, 1] - plain.box()[1, 1] == pytest.approx(rise, rel=0.12)
    assert ("hood", "face") in front.edges and ("hood", "face") not in back.edges
    assert ("hood", "crown_seam") in back.edges
    unsewn = views(garment, 2, Done(joins=frozenset(["overarm", "underarm"])))["front"]
    assert ("hood", "face") not in unsewn.edges
    assert not hoods(bundled("marlpit").garment)


def test_gathers_are_short_strokes_into_the_piece() -> None:
    garment = draft_and_check(asked(str(HERE / "good" / "tiered_skirt.piece"))).garment
    gathered = [join for join in garment.joins if join.fit == "gathered"]
    assert gathered
    strokes = [run for view in views(garment, 0).values() for _, runs, s in view.items if s == FOLD for run in runs]
    assert len(strokes) > 20 and {round(chord_length(run)) for run in strokes} == {34, 18, 26}


def test_a_sleeve_is_set_into_its_armhole() -> None:
    garment = bundled("tidemill").garment
    front, back = front_and_back(panels(garment, 2))
    assert front and back
    (join,) = [join for join in garment.joins if join.name == "cap"]
    for panel in (front, back):
        found = [m for m in meetings(garment, join, "sleeve", 2) if m.others[0].piece == panel.piece.name]
        assert len(found) == 1
        sleeve = limb(garment, found[0], panel.piece, panel.move, 2)
        assert sleeve is not None
        ring = polygon(sleeve.outline)
        edges = [polyline(panel.move.points(edge.segments[2])) for edge in panel.piece.edges]
        body = shapely.Polygon(np.concatenate(edges))
        assert ring.area > 100 * 100
        assert ring.intersection(body).area < 0.05 * ring.area
        names = [name for name, _ in sleeve.lines]
        assert "" in names and "hem" in names and len([n for n in names if n.endswith("_seam")]) == 1


@pytest.mark.parametrize(
    ("pattern", "expected"),
    [
        ("marlpit", {"neckband": 12.7, "sleeve_band": 12.7}),
        ("tidemill", {"neckband": 20}),
        ("ropewalk", {"waistband": 30}),
    ],
)
def test_bands_have_their_finished_width(pattern: str, expected: dict[str, float]) -> None:
    garment = bundled(pattern).garment
    assert {band.piece.name: pytest.approx(band.width) for band in bands(garment, 2)} == expected


def test_a_seam_in_the_middle_is_drawn_and_darts_are() -> None:
    garment = bundled("ropewalk").garment
    front, back = front_and_back(panels(garment, 2))
    assert front and back and not front.sewn and back.sewn
    assert back.middle == "centre"


def test_moves_bring_points_onto_points_and_follow_one_another() -> None:
    a, b, c, d = (np.array(at, dtype=float) for at in ((1, 2), (4, 3), (-2, 5), (0, 9)))
    for over in (False, True):
        move = onto(a, b, c, d, over)
        assert np.allclose(move.points(a), c) and np.allclose(move.points(b), d) and move.over == over
        for after in (MIRROR, Similar(1j, 3 - 2j)):
            assert np.allclose(move.then(after).points(a), after.points(c))


def test_a_garment_without_front_or_back_has_no_flat_drawing() -> None:
    garment = make_garment(1)
    assert flat_drawing(garment, 0) is not None
    assert flat_drawing(replace(garment, pieces=garment.pieces[2:]), 0) is None


def test_one_panel_alone_is_drawn_alone() -> None:
    garment = make_garment(1)
    drawing = flat_drawing(replace(garment, pieces=garment.pieces[1:2]), 0, wording=Wording())
    assert drawing is not None
    assert [item.text for item in drawing.items() if isinstance(item, Label)] == ["Back"]
    assert [path.fill for path in paths(drawing) if path.fill] == [PAPER]


def test_a_blouse_has_its_yoke_its_buttons_and_its_collar_on_both_views() -> None:
    garment = bundled("lockside").garment
    found = views(garment, 2)
    assert found.keys() == {"front", "back"}
    front, back = found["front"].edges, found["back"].edges
    assert {("yoke", "front_yoke_line"), ("placket", "front_edge"), ("collar", "point")} <= front.keys()
    assert {("yoke", "yoke_line"), ("yoke", "armhole"), ("collar", "edge")} <= back.keys()
    drawn = chord_length(front["collar", "point"][0])
    assert drawn == pytest.approx(chord_length(garment.piece("collar").edge("point").segments[2]), abs=0.01)
    lap = front["placket", "front_edge"][0][..., 0]
    assert lap.min() == pytest.approx(15.0, abs=0.1) and lap.max() == pytest.approx(15.0, abs=0.1)


def test_a_yoke_lies_above_its_front_as_it_is_sewn() -> None:
    whole = together(bundled("lockside").garment, 2, Done(everything=True))
    front = whole.garment.piece("front")
    ends = np.concatenate([edge.segments[2][[0, -1], [0, 3]] for edge in front.edges])
    gaps = np.linalg.norm(np.roll(ends.reshape(-1, 2, 2)[:, 0], -1, axis=0) - ends.reshape(-1, 2, 2)[:, 1], axis=-1)
    assert gaps.max() < 0.5, "the outline closes"
    yoke, drafted = front.edge("yoke front_armhole"), whole.drafted.piece("yoke").edge("front_armhole")
    assert chord_length(yoke.segments[2]) == pytest.approx(chord_length(drafted.segments[2]), abs=0.01)
    assert together(bundled("marlpit").garment, 2, Done(everything=True)).garment is bundled("marlpit").garment


def test_long_sleeves_hang_and_short_ones_stand_out() -> None:
    for name, hangs in (("netloft", True), ("lockside", True), ("tidemill", False)):
        garment = bundled(name).garment
        edges = views(garment, 2)["front"].edges
        hem, side = edges["sleeve", "hem"][0], edges["front", "side"][0]
        under = float(hem[..., 1].mean()) < float(side[..., 1].max()) - 150
        assert under == hangs, name


def test_a_cuffed_sleeve_has_its_slit_and_its_pleats_behind_where_they_are_drafted() -> None:
    garment = bundled("lockside").garment
    found = views(garment, 2)
    hem = found["back"].edges["sleeve", "hem_under"][0]
    drawn = chord_length(hem) / chord_length(garment.piece("sleeve").edge("hem_under").segments[2])
    slits, pleats = (_lines_of(found["back"], length * drawn) for length in (90.0, 30.0))
    assert (len(slits), len(pleats)) == (2, 4), "a slit and two pleats on either sleeve"
    assert not [line for length in (90.0, 30.0) for line in _lines_of(found["front"], length * drawn)]
    foot = slits[0][0, 0]
    assert min(np.linalg.norm(foot - end) for end in (hem[0, 0], hem[-1, 3])) < 1.0, (
        "the slit begins where the cuff does"
    )
    folds = sorted(float(np.linalg.norm(line[0, 0] - foot)) for line in pleats)[:2]
    assert folds == pytest.approx([30.0 * drawn, 65.0 * drawn], rel=0.02)
    sewn = Done(joins=frozenset(join.name for join in garment.joins) - {"cuff_set"})
    assert not _lines_of(views(garment, 2, sewn)["back"], 90.0 * drawn)


def _lines_of(view: Canvas, long: float) -> list[np.ndarray]:
    """The straight lines of a view that are so long, mm, but for gathers."""
    runs = [run for _, runs, stroke in view.items for run in runs if stroke != FOLD and len(run) == 1]
    return [run for run in runs if abs(np.linalg.norm(run[0, 3] - run[0, 0]) - long) < 1.0]


def test_the_longer_front_of_a_wrap_lies_on_top_and_fronts_are_no_mirror_images() -> None:
    garment = bundled("breakwater").garment
    back = next(panel for panel in panels(garment, 2) if panel.piece.name == "back")
    lower, upper = wrap_fronts(garment, 2, back, Done(everything=True))
    assert (lower.piece.name, upper.piece.name) == ("left_front", "right_front")
    assert lower.reach == pytest.approx(80, abs=3) and upper.reach == pytest.approx(130, abs=3)
    edge = next(run.path for run in upper.ring if run.edge == "right_edge")
    assert edge[..., 0].max() == pytest.approx(130, abs=3), "the wearer's right front ends on the viewer's right"


def test_the_ties_of_a_wrap_are_knotted_at_the_side_and_nowhere_before_it_is_finished() -> None:
    garment = bundled("breakwater").garment
    back = next(panel for panel in panels(garment, 2) if panel.piece.name == "back")
    lower, upper = fronts = wrap_fronts(garment, 2, back, Done(everything=True))
    ties = ties_of(garment, 2, fronts)
    assert ties and (ties.long, ties.wide) == pytest.approx((600.0, 20.0))
    for at, front, edge in ((ties.at_edge, upper, "right_edge"), (ties.at_side, lower, "underarm")):
        line = next(run.path for run in front.ring if run.edge == edge)
        assert shapely.LineString(polyline(line)).distance(shapely.Point(at)) < 0.1
    assert ties.at_edge[1] == pytest.approx(ties.at_side[1], abs=5.0), "both are caught at one height"
    belted = replace(garment, pieces=tuple(replace(p, cut=1) if p.name == "tie" else p for p in garment.pieces))
    assert ties_of(belted, 2, fronts) is None, "a belt is no tie"
    front = views(garment, 2)["front"]
    sewn = views(garment, 2, Done(joins=frozenset(join.name for join in garment.joins)))["front"]
    assert front.hangs > 0 and sewn.hangs == 0
    assert front.box()[0, 1] == pytest.approx(sewn.box()[0, 1] - front.hangs)


def test_a_strip_is_as_wide_at_an_edge_whose_last_part_is_but_a_rounding() -> None:
    edge = lines_through([(0.0, 0.0), (50.0, 10.0), (100.0, 0.0), (100.0, 1e-9)])
    plain, same = (band_lines(one, 15.0, 1.0)[0] for one in (edge[:2], edge))
    assert plain == pytest.approx(same)


def _buttons(view: Canvas) -> list[np.ndarray]:
    """The middles `(2,)` of the circles of a waistband's button."""
    rings = [run for _, runs, _ in view.items for run in runs if len(run) == 24]
    return [ring[:, 0].mean(axis=0) for ring in rings if np.ptp(ring[:, 0, 0]) == pytest.approx(18.0, abs=0.1)]


@pytest.mark.parametrize(
    ("name", "seen", "across"),
    [("ropewalk", "back", -15.0), ("boatyard", "front", 15.0), ("roundhouse", "front", None)],
)
def test_a_waistband_shows_its_button_on_the_wearers_left(name: str, seen: str, across: float | None) -> None:
    found = {key: _buttons(view) for key, view in views(bundled(name).garment, 2).items()}
    other = {"front": "back", "back": "front"}[seen]
    assert found[other] == [] and len(found[seen]) >= 1
    at = found[seen][0][0]
    assert at == pytest.approx(across, abs=2.0) if across is not None else at > 50


def test_panels_that_go_all_the_way_round_are_seen_in_front_and_behind() -> None:
    found = views(bundled("roundhouse").garment, 2)
    assert list(found) == ["front", "back"]
    assert found["front"].box() == pytest.approx(found["back"].box(), abs=20.0)


def test_the_band_of_a_vee_has_its_mitre_and_a_round_one_none() -> None:
    def mitres(neckline: str) -> list[np.ndarray]:
        view = views(bundled("marlpit", "M", neckline=neckline).garment, 0)["front"]
        runs = [run for _, runs, stroke in view.items if stroke == SEAM for run in runs if len(run) == 1]
        return [run for run in runs if np.abs(run[0, (0, 3), 0]).max() < 1.0]

    (mitre,) = mitres("vee")
    assert abs(mitre[0, 3, 1] - mitre[0, 0, 1]) > 12.7, "aslant across a band of half an inch"
    assert mitres("scoop") == []
