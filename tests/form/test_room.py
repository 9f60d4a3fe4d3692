"""The room of a garment on a form: girths that are known, levels where the tape brings them, and what is said of it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from draft.bodies.bodies import Bodies
from draft.drafting.drafting import Drafted
from draft.fit.hanging import hanging
from draft.fit.room_on_form import LEVELS, room_on_form
from draft.fit.room_words import FRONT_AND_BACK, room_words
from draft.form import Form, form_of
from draft.form.dress_form import ROW
from draft.form.going_down import girths_at, reaches, shoulder_at, tape_down
from draft.garment.garment import Edge, Garment, Join, Piece, SidePart
from draft.geometry.cubic import line
from draft.paper.drawing.drawing import Path
from draft.paper.pictures.form_views import Placed
from draft.paper.pictures.measured_levels import height_on_form, mark_items
from tests.asking import bundled
from tests.fit.made_up import SPAN, measured
from tests.form.made_up import form

WIDE, LONG = 260.0, 600.0  # mm: half of a front, and how long it is


def _piece(name: str, wide: float) -> Piece:
    """A rectangle on the fold, from its lower corner at the fold on."""
    corners = [(0.0, 0.0), (wide, 0.0), (wide, LONG), (0.0, LONG)]
    names = ("hem", "side", "waist", "centre")
    edges = []
    for k, edge in enumerate(names):
        ends = [np.array([corners[(k + i) % 4]]) for i in range(2)]
        edges.append(Edge(SPAN, edge, line(*ends)[:, None], allowance=0.0, on_fold=edge == "centre"))
    return Piece(SPAN, name, tuple(edges), 1, np.array([[0.0, 1.0]]), np.array([[1.0, 0.0]]))


def _tube(wide: float) -> Garment:
    join = Join(SPAN, "side", (SidePart("front", "side"),), (SidePart("back", "side"),))
    pieces = (_piece("front", wide), _piece("back", wide))
    return Garment("Tube", "", ("M",), pieces, (join,), (measured("hip", [4 * wide], over=[1010.0]),))


def _form_of(drafted: Drafted) -> Form:
    found = form_of(drafted.bodies, drafted.plan.wearers)
    assert found is not None
    return found


def test_a_tube_that_hangs_from_the_waist() -> None:
    on = form(hip_girth=101.0)
    room = room_on_form(_tube(WIDE), on, 0)
    assert room is not None and len(room.heights) == LEVELS
    assert np.allclose(room.garment, 4 * WIDE)
    assert room.heights[-1] == pytest.approx(on.heights.of("waist")[0], abs=5)
    assert room.heights[-1] - room.heights[0] == pytest.approx(LONG, abs=10)
    hip = on.heights.of("hip")[0]
    assert np.interp(hip, room.heights, room.ease) == pytest.approx(4 * WIDE - 1010.0, abs=3)
    assert room.stands_off.max() == pytest.approx(room.ease.max() / (2 * np.pi))


def test_a_tight_tube_is_stretched_by_what_it_lacks() -> None:
    room = room_on_form(_tube(240.0), form(hip_girth=101.0), 0)
    assert room is not None
    assert room.strain.max() == pytest.approx(1010.0 / 960.0 - 1, abs=0.005)


def test_levels_of_a_top_come_where_the_tape_brings_them() -> None:
    """The Marlpit top is drafted for 15 cm of ease at the waist and 5 cm at the hip: there they come to lie again."""
    drafted = bundled("marlpit", "M")
    on = _form_of(drafted)
    room = room_on_form(drafted.garment, on, 0)
    assert room is not None
    for level, ease in (("waist", 150.0), ("hip", 50.0)):
        assert np.interp(on.heights.of(level)[0], room.heights, room.ease) == pytest.approx(ease, abs=8), level


def test_darts_take_up_their_width() -> None:
    drafted = bundled("ropewalk", "M")
    room = room_on_form(drafted.garment, _form_of(drafted), 0)
    assert room is not None
    body = float(drafted.bodies.values["waist_girth"][0])
    assert room.garment[-1] == pytest.approx(body + 10, abs=80)  # two centimetres below a shaped waist
    without = replace(drafted.garment, pieces=tuple(replace(piece, takeups=()) for piece in drafted.garment.pieces))
    wider = room_on_form(without, _form_of(drafted), 0)
    assert wider is not None and wider.garment[-1] - room.garment[-1] > 60
    assert wider.garment[0] == pytest.approx(room.garment[0])


@pytest.mark.parametrize("name", ["netloft", "lockside", "boatyard", "roundhouse"])
def test_what_hangs_in_a_way_that_nobody_knows_has_no_levels(name: str) -> None:
    assert hanging(bundled(name).garment, 0) is None


def test_the_form_s_girths_go_on_down_the_legs() -> None:
    on = form(thigh_girth=60.0, knee_girth=38.0)
    for level in ("hip", "waist", "bust"):
        height = on.heights.of(level)
        assert girths_at(on, 0, height)[0] == pytest.approx(on.girth(level)[0], abs=0.1)
    knee = np.array([on.measured["knee_height"][0]])
    middle = on.leg.placed(0)[1, 0]
    assert girths_at(on, 0, knee)[0] == pytest.approx(380.0 + 4 * middle, abs=1)
    assert np.ptp(reaches(on, 0, knee, "side")) == pytest.approx(380.0 / np.pi, abs=1)


def test_a_tape_goes_straight_over_what_is_hollow() -> None:
    on = form()
    aside = 100.0
    start, waist = shoulder_at(on, 0, aside), on.heights.of("waist")[0]
    for to_back in (False, True):
        heights, long = tape_down(on, 0, aside, to_back)
        down = np.interp(waist, heights[::-1], long[::-1])
        assert start - waist < down < 1.25 * (start - waist)
        assert (np.diff(long) > 0).all() and (np.diff(heights) < 0).all()
    front, back = (np.interp(waist, *(row[::-1] for row in tape_down(on, 0, aside, side))) for side in (False, True))
    assert front > back + 10  # over the bust it is farther


def test_the_shoulder_s_line_falls_by_its_slope() -> None:
    on = form(shoulder_slope=24.0, shoulder_length=13.0)
    neck, tip = float(on.heights.neck[0]), float(on.heights.tip[0])
    fall = shoulder_at(on, 0, neck) - shoulder_at(on, 0, tip)
    assert fall / (tip - neck) == pytest.approx(np.tan(np.radians(24.0)))
    assert np.max(on.halves[0, ROW["shoulder"], :, 0]) == pytest.approx(tip, abs=15)


# ---- words ----------------------------------------------------------------------------------------------------------


def _said(garment: float, body: float, stretch: float) -> str:
    worn = measured("bust", [garment], over=[body])
    made = Garment("Made up", "", ("M",), (), (), (worn,), cloth={"stretch_across": stretch} if stretch else {})
    return "; ".join(room_words(made, 0, None, None))


def test_words_for_room_and_for_tightness() -> None:
    assert "bust: 15 cm of room, loose: it hangs free" in _said(1090, 940, 0.4)
    assert "bust: 4 cm of room, semi-fitted: it follows the body" in _said(980, 940, 0.0)
    assert "bust: 4 cm less than the body, stretched by 4.4 % of the 40 % it gives: it clings" in _said(900, 940, 0.4)
    assert "too tight to wear for long" in _said(760, 940, 0.4)
    assert "and the cloth gives 40 %: it does not go round" in _said(600, 940, 0.4)
    assert "and the cloth does not stretch: it does not go round" in _said(900, 940, 0.0)


def test_a_girth_never_says_that_the_bust_is_not_tight() -> None:
    for garment in (900.0, 980.0, 1090.0):
        said = _said(garment, 940, 0.4)
        assert FRONT_AND_BACK in said and "not tight" not in said


def test_a_bust_that_lies_lower_than_it_is_measured_is_told() -> None:
    drafted = bundled("tidemill", "L")
    on = _form_of(drafted)
    said = room_words(drafted.garment, 0, on, room_on_form(drafted.garment, on, 0))
    assert any("but the bust of this form lies where the garment has" in one for one in said)
    assert not any(one.startswith("bust: 4 cm of room, ") for one in said)


def test_one_of_many_is_as_alone() -> None:
    many = bundled("marlpit")
    alone: Bodies = many.bodies.select(["L"])
    on = form_of(alone, many.plan.wearers)
    assert on is not None
    one = room_on_form(bundled("marlpit", "L").garment, on, 0)
    other = room_on_form(many.garment, _form_of(many), list(many.bodies.names).index("L"))
    assert one is not None and other is not None and np.allclose(one.ease, other.ease, atol=0.01)


def test_elastic_draws_in_without_stretching_the_cloth() -> None:
    worn = replace(measured("waist", [700.0], over=[770.0]), flat=np.array([820.0]))
    made = Garment("Made up", "", ("M",), (), (), (worn,), cloth={"stretch_across": 0.4})
    (said,) = room_words(made, 0, None, None)
    assert said == "waist: 7 cm less than the body, drawn in by its elastic, and its cloth is not stretched"


def test_measured_levels_of_trunk_and_legs_lie_on_the_form() -> None:
    drafted = bundled("slipway", "M")
    on = _form_of(drafted)
    heights = [height_on_form(on, 0, name) for name in ("waist", "hip", "thigh", "knee")]
    assert None not in heights and heights == sorted(heights, key=lambda height: -(height or 0))
    assert height_on_form(on, 0, "upper_arm") is None
    at = Placed(50.0, 150.0, 0.1)
    strokes = mark_items(on, 0, "front", at, "thigh", (608.0, 547.0))
    assert len(strokes) == 2  # one a leg
    blocks = mark_items(on, 0, "front", at, "hip", (1010.0, 1010.0 + 100 * np.pi))
    widths = [float(np.ptp(block.box()[:, 0])) for block in blocks if isinstance(block, Path)]
    assert np.allclose(widths, 5.0 + 0.25, atol=0.01)  # 50 mm at a tenth, and the width of the line
