"""A body whose left and right differ: each half from its own side, joined whole, cut apart only where it matters."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest

from draft.answers.sides_said import sides_report
from draft.base.arrays import Floats
from draft.base.notes import Severity
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request, Whom
from draft.garment.garment import Piece
from draft.geometry.length import length
from draft.pack.pack import pack_files
from draft.pack.paper_request import PaperRequest
from draft.seams.allowance import cutting_line
from draft.seams.handed import LEFT, RIGHT, handed
from draft.seams.walk import walk_seams
from tests.asking import bundled

WHOLE = """name = "Ines"
[measures]
bust_girth = "98 cm"
waist_girth = "83 cm"
hip_girth = "104 cm"
stature = "168 cm"
shoulder_slope = "21 deg"
outer_arm_length = "57 cm"
inside_leg_length = "75 cm"
"""
SLOPE = '[measures.left]\nshoulder_slope = "25 deg"\n'
ARM = '[measures.left]\nouter_arm_length = "58 cm"\n'
HIP = '[measures.left]\nhip_girth = "53 cm"\n'


@cache
def ines(pattern: str, sides: str = "") -> Drafted:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "ines.toml"
        path.write_text(WHOLE + sides, encoding="utf-8")
        return draft_and_check(Request(pattern, Whom(body=path)), whole=True)


def _edge(piece: Piece, name: str) -> Floats:
    return piece.edge(name).segments[0]


def test_only_what_differs_is_cut_apart() -> None:
    apart = ines("tidemill", ARM).apart
    assert apart and (apart.opened, apart.parted, apart.between) == ((), ("sleeve",), ())
    names = [piece.name for piece in apart.cut.pieces]
    assert names == ["back", "front", "sleeve_left", "sleeve_right", "neckband"]
    assert all(apart.cut.piece(name) is ines("tidemill", ARM).garment.piece(name) for name in ("back", "front"))
    long = [float(np.ptp(_edge(apart.cut.piece(f"sleeve_{side}"), "back_seam")[..., 1])) for side in ("left", "right")]
    assert long[0] - long[1] > 4.0  # the arm is 1 cm longer, a short sleeve of it by its share


def test_who_has_both_sides_alike_is_drafted_as_before() -> None:
    alike = ines("tidemill", '[measures.left]\nshoulder_slope = "21 deg"\n')
    assert alike.apart is None and sides_report(alike) == ""
    plain = ines("tidemill")
    for one, other in zip(plain.to_cut.pieces, alike.to_cut.pieces, strict=True):
        for edge, same in zip(one.edges, other.edges, strict=True):
            assert np.array_equal(edge.segments, same.segments)


@pytest.mark.parametrize("pattern", ["marlpit", "tidemill", "lockside", "netloft", "hooded"])
def test_each_half_of_a_sloping_shoulder_is_that_of_its_side(pattern: str) -> None:
    drafted = ines(pattern, SLOPE)
    assert drafted.apart and ("yoke" if pattern == "lockside" else "back") in drafted.apart.opened
    assert [note.message for note in drafted.notes if note.severity is Severity.ERROR] == []
    assert all(np.abs(seam.difference).max() < 0.5 for seam in walk_seams(drafted.seamed))
    halves, cut = drafted.apart.halves, drafted.apart.cut
    for name in drafted.apart.opened:
        piece = cut.piece(name)
        for edge in halves.piece(name).edges:
            for row, side in enumerate(("left", "right")):
                own = next((one for one in piece.edges if one.name == f"{edge.name}, {side}"), None)
                if own is not None:
                    assert length(own.segments) == pytest.approx(length(edge.segments)[row], abs=0.05)
        starts = np.concatenate([edge.segments[0, :1, 0] for edge in piece.edges])
        ends = np.concatenate([edge.segments[0, -1:, 3] for edge in piece.edges])
        assert np.abs(np.roll(ends, 1, axis=0) - starts).max() < 1e-3  # the outline is closed


def test_seen_from_the_front_the_left_is_on_the_right_and_from_behind_on_the_left() -> None:
    cut = ines("tidemill", SLOPE).to_cut
    for name, way in (("front", 1), ("back", -1)):
        piece = cut.piece(name)
        left, right = (_edge(piece, f"shoulder, {side}") for side in ("left", "right"))
        assert (left[..., 0].mean() - right[..., 0].mean()) * way > 0
        falls = [np.abs(one[-1, 3] - one[0, 0]) for one in (left, right)]
        slopes = [np.degrees(np.arctan2(fall[1], fall[0])) for fall in falls]
        assert slopes == pytest.approx([25.0, 21.0], abs=0.05)
    sleeve = cut.piece("sleeve_left")  # its front half lies towards the viewer's left: the arm is seen from outside
    front, back = (_edge(sleeve, name)[..., 0].mean() for name in ("front_seam", "back_seam"))
    assert front < back


def test_hands_follow_the_seams() -> None:
    assert handed(bundled("tidemill", "M").garment) == {
        "back": RIGHT,
        "front": LEFT,
        "sleeve": RIGHT,
        "neckband": RIGHT,
    }
    hands = handed(bundled("breakwater", "M").garment)
    assert (hands["left_front"], hands["right_front"]) == (LEFT, RIGHT)
    assert handed(bundled("boatyard", "M").garment)["back"] == RIGHT


def test_the_wide_hip_is_on_its_side_and_the_hem_runs_on_across_the_middle() -> None:
    drafted = ines("ropewalk", HIP)
    assert drafted.apart and drafted.apart.opened == ("front",) and drafted.apart.parted == ("back",)
    front = drafted.to_cut.piece("front")
    assert "hem" in [edge.name for edge in front.edges]
    xs = _edge(front, "hem")[..., 0]
    # A quarter of twice 53 cm on her left and of twice 51 cm on her right, each with its ease
    assert (xs.max(), -xs.min()) == pytest.approx((270.0, 260.0), abs=0.5)


def test_it_is_said_on_the_screen_and_in_both_booklets() -> None:
    drafted = ines("tidemill", HIP + 'shoulder_slope = "25 deg"\n')
    told = sides_report(drafted)
    assert "hip girth, left 53 cm, right 51 cm (from the middle to the middle)" in told
    assert "shoulder slope, left 25 deg, right 21 deg" in told and "cut once" in told
    for language, said in (("en", "Left and right"), ("de", "Links und rechts")):
        files = pack_files(drafted, PaperRequest(pages=("a4",), language=language, cloth=()))
        assert said in files["booklet.html"].decode()


def test_every_outline_can_be_cut_and_bears_its_letters() -> None:
    for pattern in ("lockside", "boatyard", "breakwater"):
        cut = ines(pattern, SLOPE + 'hip_girth = "53 cm"\nwaist_girth = "42 cm"\n').to_cut
        for piece in cut.pieces:
            assert len(cutting_line(piece, 0))
        assert cut.letters
        assert {name for name, _ in cut.letters} <= {piece.name for piece in cut.pieces}
