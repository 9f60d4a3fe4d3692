"""The finished garment drawn flat: true to the drafted lines, complete, for garments of several kinds."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import shapely
from shapely.affinity import affine_transform

from draft.garment.garment import Garment
from draft.geometry.flatten import polyline
from draft.geometry.ruler import chord_length
from draft.paper.drawing.drawing import Drawing, Label, Path
from draft.paper.drawing.polygons import polygon
from draft.paper.drawing.wording import Wording
from draft.paper.flat import flat_drawing
from draft.paper.flat.bands import bands
from draft.paper.flat.limbs import limb, meetings
from draft.paper.flat.panels import front_and_back, panels
from draft.paper.flat.similar import MIRROR, Similar, onto
from draft.paper.flat.views import INSIDE, OUTLINE, PAPER, STITCH
from tests.asking import bundled
from tests.paper.made_up import make_garment
from tests.paper.patterns import PATTERNS


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
    assert len([run for path in paths(skirt) if path.stroke == STITCH for run in path.runs]) == 2


def test_a_sleeve_is_set_into_its_armhole() -> None:
    garment = bundled("tidemill").garment
    front, back = front_and_back(panels(garment, 2))
    assert front and back
    (join,) = [join for join in garment.joins if join.name == "cap"]
    for panel in (front, back):
        found = [m for m in meetings(garment, join, "sleeve", 2) if m.other.piece == panel.piece.name]
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
