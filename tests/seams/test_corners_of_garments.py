"""Corners of the small garments' cutting lines, each found again with ruler, set square and compass, in every size."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
import pytest
import shapely
from shapely.affinity import affine_transform

from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.garment.garment import Piece
from draft.geometry import cubic
from draft.geometry.flatten import flatten
from draft.seams.allowance import cutting_line, opened_out, sewing_line
from tests.asking import asked
from tests.good.cases import HERE

SAME = 1e-6  # mm
CLOSE = 0.02  # mm: fitted curves, both flattened
SIZES = range(3)
every_size = pytest.mark.parametrize("body", SIZES, ids=["S", "M", "L"])


@cache
def drafted(name: str) -> Drafted:
    return draft_and_check(asked(HERE / f"{name}.piece"))


def piece(name: str) -> Piece:
    garment, own = name.split(".")
    return drafted(garment).garment.piece(own)


def point(name: str, body: int) -> np.ndarray:
    garment, _, own = name.partition(".")
    return drafted(garment).outcome.trace.values[own][body]


def vertices(name: str, body: int) -> np.ndarray:
    """The points between the segments of a piece's cutting line."""
    return cutting_line(piece(name), body)[:, 0]


def moved(at: np.ndarray, across: float, up: float) -> np.ndarray:
    return at + np.array([across, up])


def has(found: np.ndarray, *wanted: np.ndarray) -> bool:
    return all(cubic.norm(found - one).min() < SAME for one in wanted)


def region(path: np.ndarray) -> shapely.Polygon:
    return shapely.Polygon(flatten(path, 1e-3))


@dataclass(frozen=True)
class Corner:
    """A corner of a sewing line: where it is, how it is reached and left, and what is square outwards of either side.

    The allowances `widths` are those of the edge before it and of the edge behind it.
    """

    at: np.ndarray
    arrive: np.ndarray
    leave: np.ndarray
    squares: tuple[np.ndarray, np.ndarray]
    widths: tuple[float, float]

    @property
    def carried(self) -> np.ndarray:
        """Where the two lines at their allowances' distance meet."""
        return self.at + np.linalg.solve(np.stack(self.squares), np.array(self.widths))

    def across(self, times: float) -> list[np.ndarray]:
        """Where a line so many times the allowance away, square to the corner's own direction, meets those two."""
        out = cubic.unit(self.arrive - self.leave)
        far = times * max(self.widths)
        return [
            self.at + np.linalg.solve(np.stack([square, out]), np.array([width, far]))
            for square, width in zip(self.squares, self.widths, strict=True)
        ]


def corner(name: str, body: int) -> Corner:
    """The corner at a point such as `collars.collar.tip`."""
    shape, at = piece(name.rpartition(".")[0]), point(name, body)
    after = next(e for e in shape.edges if cubic.norm(e.segments[body, 0, 0] - at) < SAME)
    before = shape.edges[shape.edges.index(after) - 1]
    arrive, leave = cubic.end_tangent(before.segments[body, -1]), cubic.start_tangent(after.segments[body, 0])
    way = 1.0 if shapely.LinearRing(flatten(sewing_line(shape, body), 1e-3)).is_ccw else -1.0
    squares = (way * cubic.right_of(arrive), way * cubic.right_of(leave))
    return Corner(at, arrive, leave, squares, (before.allowance, after.allowance))


CARRIED = [
    "apron.apron.tie",
    "collars.dagger_collar.end",
    "insets.heart.point",
    "lapel.facing.shoulder",
    "scallops.cape.tip_2",
    "tapered_skirt.back.hip_side",
    "tapered_skirt.back.waist_side",
    "tunic.body.tip",
    "tailcoat_and_scarf.front.neck",
    "tailcoat_and_scarf.front.breast",
]
TRIMMED = ["lapel.facing.dip", "tailcoat_and_scarf.front.slope", "tailcoat_and_scarf.front.side"]
CUT = [
    ("collars.collar.tip", 1),
    ("collars.dagger_collar.tip", 3),
    ("insets.gusset.left", 1),
    ("insets.gusset.right", 1),
    ("insets.gusset.high", 3),
    ("insets.gusset.low", 3),
    ("lapel.facing.lapel", 1),
    ("scallops.cape.tip_1", 3),
    ("tunic.body.neck", 1),
    ("tunic.body.armpit", 1),
]
HEMS = [
    ("apron.apron", "hem"),
    ("apron.apron", "top"),
    ("curled_tips.hood", "face"),
    ("lapel.facing", "hem"),
    ("tailcoat_and_scarf.front", "tail_hem"),
    ("tapered_skirt.back", "hem"),
    ("tunic.body", "hem_edge"),
]


@every_size
@pytest.mark.parametrize("name", [*CARRIED, *TRIMMED])
def test_both_allowances_end_where_their_lines_meet(name: str, body: int) -> None:
    assert has(vertices(name.rpartition(".")[0], body), corner(name, body).carried)


@every_size
@pytest.mark.parametrize(("name", "times"), CUT)
def test_a_corner_is_cut_across_square_to_its_own_direction(name: str, times: int, body: int) -> None:
    """As far from its point as its allowance is wide where the file says so, thrice as far where it is too sharp."""
    assert has(vertices(name.rpartition(".")[0], body), *corner(name, body).across(times))


@every_size
def test_a_leafs_ends_are_square_however_little_they_open(body: int) -> None:
    tip, stalk = point("insets.leaf.tip", body), point("insets.leaf.stalk", body)
    found = vertices("insets.leaf", body)
    assert has(found, moved(tip, 10, 10), moved(tip, 10, -10), moved(stalk, -30, 10), moved(stalk, -30, -10))


@every_size
def test_allowances_of_other_widths_in_one_straight_seam_step_square_to_it(body: int) -> None:
    """Where the file asks for it, at the end of the zip, and where nothing is said, above the slit."""
    zip_end, slit_top = point("tapered_skirt.back.zip_end", body), point("tapered_skirt.back.slit_top", body)
    found = vertices("tapered_skirt.back", body)
    assert has(found, moved(zip_end, -15, 0), moved(zip_end, -25, 0))
    assert has(found, moved(slit_top, -15, 0), moved(slit_top, -30, 0))


@every_size
def test_the_wider_of_two_stepped_allowances_ends_at_the_corner(body: int) -> None:
    waist = point("tapered_skirt.back.waist_centre", body)
    found = vertices("tapered_skirt.back", body)
    assert has(found, moved(waist, -25, 0), moved(waist, -15, 0), moved(waist, -15, 15))


@every_size
@pytest.mark.parametrize(("name", "hem"), HEMS)
def test_a_hem_turned_up_lies_flat_and_is_as_wide_as_what_it_lies_on(name: str, hem: str, body: int) -> None:
    shape = piece(name)
    edge = shape.edge(hem)
    start, end = edge.segments[body, 0, 0], edge.segments[body, -1, 3]
    along = cubic.unit(end - start)
    inwards = cubic.right_of(along) * (-1 if shapely.LinearRing(flatten(sewing_line(shape, body), 1e-3)).is_ccw else 1)
    stood_up = [*along, *inwards, -start @ along, -start @ inwards]
    upright = affine_transform(region(cutting_line(shape, body)), stood_up)
    below, band = (upright.intersection(shapely.box(-9e3, *at)) for at in ((-9e3, 9e3, 0), (0, 9e3, edge.allowance)))
    turned_up = affine_transform(below, [1, 0, 0, -1, 0, 0])
    assert turned_up.bounds[3] == pytest.approx(edge.allowance, abs=SAME)
    assert turned_up.symmetric_difference(band).area < CLOSE * edge.allowance


@every_size
def test_a_hem_that_meets_its_seam_too_slantwise_is_cut_across_instead(body: int) -> None:
    found, end = vertices("tailcoat_and_scarf.scarf", body), corner("tailcoat_and_scarf.scarf.end", body)
    tip = found[np.argsort(found[:, 0])[-2:]]
    assert np.allclose(cubic.dot(tip - end.at, cubic.unit(end.carried - end.at)), 3 * 20, atol=SAME)


@every_size
def test_a_neck_peaked_at_the_fold_ends_on_the_folds_line(body: int) -> None:
    across, up = 8, 16
    assert has(vertices("tunic.body", body), np.array([0.0, 15 * np.hypot(across, up) / across]))


@every_size
def test_between_two_scallops_their_circles_meet(body: int) -> None:
    low, middle = point("scallops.collar.a", body), point("scallops.collar.o_1", body)
    radius, half = cubic.norm(low - middle) + 6, low[0] - middle[0]
    meets = moved(middle, half, -np.sqrt(radius**2 - half**2))
    assert cubic.norm(vertices("scallops.collar", body) - meets).min() < CLOSE


@every_size
def test_a_hearts_cleft_is_trimmed_on_its_axis(body: int) -> None:
    found = vertices("insets.heart", body)
    on_axis = found[np.abs(found[:, 0]) < SAME]
    cleft = on_axis[on_axis[:, 1].argmax()]
    edges = shapely.LineString(flatten(piece("insets.heart").edge("one").segments[body], 1e-3))
    assert cleft[1] > 90 and edges.distance(shapely.Point(cleft)) == pytest.approx(10, abs=CLOSE)


@every_size
def test_in_a_bend_tighter_than_its_allowance_the_straight_parts_meet(body: int) -> None:
    """Under the apron's arm: the straight above the bend, and the edge behind the corner that the bend ends in."""
    side, bend, arm, tie = (point(f"apron.apron.{name}", body) for name in ("bib_side", "bend", "arm", "tie"))
    first, second = cubic.unit(bend - side), cubic.unit(tie - arm)
    squares = -cubic.right_of(np.stack([first, second]))
    meets = np.linalg.solve(squares, np.array([squares[0] @ bend + 20, squares[1] @ arm + 20]))
    assert has(vertices("apron.apron", body), meets)


@every_size
def test_under_a_tip_that_hangs_over_the_allowance_comes_to_a_corner(body: int) -> None:
    found, bend = vertices("curled_tips.hood", body), point("curled_tips.hood.bend", body)
    corners = found[np.abs(found[:, 0] - (bend[0] - 15)) < CLOSE]
    back = shapely.LineString(flatten(piece("curled_tips.hood").edge("back").segments[body], 1e-3))
    assert corners[:, 1].max() < point("curled_tips.hood.under", body)[1]
    assert back.distance(shapely.Point(corners[corners[:, 1].argmax()])) == pytest.approx(15, abs=CLOSE)


@every_size
def test_round_a_curl_that_no_corner_fits_the_line_is_everywhere_its_allowance_off(body: int) -> None:
    hat = piece("curled_tips.hat")
    cut, sewn = (region(opened_out(line, hat, body)) for line in (cutting_line(hat, body), sewing_line(hat, body)))
    assert shapely.hausdorff_distance(cut.exterior, sewn.buffer(15, quad_segs=64).exterior) < CLOSE
