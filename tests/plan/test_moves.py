"""Moves on paper keep what paper keeps: lengths, areas, angles. All of it follows from the moves being rigid."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.base.notes import Problems, Source
from draft.bodies.bodies import Bodies
from draft.checks import darts_inside, seam_ends
from draft.drafting.drafting import Drafted, draft_plan
from draft.garment.garment import Piece
from draft.geometry.area import outline_areas
from draft.geometry.cubic import cross, dot
from draft.geometry.length import length, point_at
from draft.geometry.motion import after, laying, moved, parting, turning
from draft.language.reader import read
from draft.plan.library import Texts
from draft.plan.make import plan_texts

BLOCK = """\
pattern moved
    title  "Moved"

block front
    points
        waist_centre  at 0, 0
        neck_centre   at 0, 34 cm
        neck          at 7 cm, 42 cm
        shoulder_tip  at 18 cm, 38 cm
        armpit        at 24 cm, 20 cm
        waist_side    at 22 cm, 0
        bust_axis     on waist: 9 cm from waist_centre
        bust_point    from bust_axis: 17 cm up
        dart_mark     square from bust_point onto armpit to waist_side

    outline
        neckline  neck_centre to neck          curve leaving across arriving up
        shoulder  neck to shoulder_tip         straight
        armhole   shoulder_tip to armpit       curve leaving down arriving across
        side      armpit to waist_side         straight
        waist     waist_side to waist_centre   straight
        centre    waist_centre to neck_centre  straight

    lines
        across_line  on_centre to on_side   straight

    points
        on_centre  on centre: 25 cm from waist_centre
        on_side    on armhole: 50 % from armpit

    darts
        bust_dart   on side: 3 cm wide at dart_mark, to bust_point
        waist_dart  on waist: 25 mm wide at bust_axis, to bust_point

"""
ONE = Bodies(("one",), {})


def drafted(lines: str) -> Drafted:
    plan = plan_texts(Texts(read(Source("moved", BLOCK + lines)), (), Path()), {})
    return draft_plan(plan, ONE)


def piece(*moves: str, head: str = "piece made from front") -> Piece:
    rows = "".join(f"        {move}\n" for move in moves)
    return drafted(f"{head}\n    moves\n{rows}    cut 1\n").garment.piece("made")


def plain() -> Piece:
    return drafted("piece made from front\n    cut 1\n").garment.piece("made")


def angle(of: Piece, dart: str) -> float:
    takeup = next(takeup for takeup in of.takeups if takeup.name == dart)
    path = of.edge(takeup.edge).segments
    assert takeup.to is not None
    legs = [point_at(path, takeup.at + way * takeup.width / 2) - takeup.to for way in (-1, 1)]
    return float(np.arctan2(cross(*legs), dot(*legs))[0])


def area_beside_darts(of: Piece) -> float:
    """The area of the outline less the triangles of its darts."""
    whole = abs(float(outline_areas(np.concatenate([edge.segments for edge in of.edges], axis=1))[0]))
    return whole - sum(_triangle(of, takeup.name) for takeup in of.takeups)


def _triangle(of: Piece, dart: str) -> float:
    takeup = next(takeup for takeup in of.takeups if takeup.name == dart)
    path = of.edge(takeup.edge).segments
    legs = [point_at(path, takeup.at + way * takeup.width / 2) - takeup.to for way in (-1, 1)]
    return abs(float(cross(*legs)[0])) / 2


def long(of: Piece, edge: str) -> float:
    return float(length(of.edge(edge).segments)[0])


@pytest.mark.parametrize(
    ("edge", "place"),
    [("shoulder", "50 % from neck"), ("neckline", "40 % from neck"), ("waist", "3 cm from waist_centre")],
)
def test_a_dart_moved_keeps_its_angle_and_all_areas(edge: str, place: str) -> None:
    before = plain()
    after_it = piece("hold centre", f"close bust_dart, open moved on {edge} at {place}")
    assert angle(after_it, "moved") == pytest.approx(angle(before, "bust_dart"), abs=1e-9)
    assert area_beside_darts(after_it) == pytest.approx(area_beside_darts(before), rel=1e-6)


def test_no_edge_changes_its_length_beside_what_closes_and_opens() -> None:
    before, moved_on = plain(), piece("close bust_dart, open moved on shoulder at 50 % from neck")
    for edge in ("neckline", "armhole", "waist", "centre"):
        assert long(moved_on, edge) == pytest.approx(long(before, edge), abs=1e-6)
    assert long(moved_on, "side") == pytest.approx(long(before, "side") - 30.0, abs=0.05)
    opened = next(takeup for takeup in moved_on.takeups if takeup.name == "moved")
    assert long(moved_on, "shoulder") - float(opened.width[0]) == pytest.approx(long(before, "shoulder"), abs=1e-6)


def test_a_share_of_a_dart_leaves_the_rest_of_its_angle() -> None:
    whole = angle(plain(), "bust_dart")
    shared = piece("close 40 % of bust_dart, open moved on shoulder at 50 % from neck")
    assert angle(shared, "moved") == pytest.approx(0.4 * whole, abs=1e-9)
    assert angle(shared, "bust_dart") == pytest.approx(0.6 * whole, abs=1e-9)


def test_two_darts_to_one_point_become_one_with_both_angles() -> None:
    before, merged = plain(), piece("close bust_dart, into waist_dart")
    both = angle(before, "bust_dart") + angle(before, "waist_dart")
    assert [takeup.name for takeup in merged.takeups] == ["waist_dart"]
    assert angle(merged, "waist_dart") == pytest.approx(both, abs=1e-9)


def test_a_dart_moved_there_and_back_is_where_it_was() -> None:
    before = plain()
    back = piece(
        "hold centre",
        "close waist_dart, open neck_dart on neckline at 40 % from neck",
        "close neck_dart, open again on waist at 88.75 mm from waist_centre",
    )
    assert angle(back, "again") == pytest.approx(angle(before, "waist_dart"), abs=1e-9)
    for edge in ("shoulder", "armhole", "side"):
        np.testing.assert_allclose(back.edge(edge).segments, before.edge(edge).segments, atol=1e-6)


def test_slashes_hinged_at_one_edge_open_the_other_by_their_sum() -> None:
    before = plain()
    fuller = piece("hold centre", "slash waist to shoulder 4 times, spread 1 cm at waist, into pleat fold, folded 3 cm")
    folds = [takeup for takeup in fuller.takeups if takeup.name.startswith("fold")]
    assert [float(fold.width[0]) for fold in folds] == pytest.approx([10.0] * 4, abs=1e-6)
    assert long(fuller, "waist") == pytest.approx(long(before, "waist") + 40.0, abs=1e-6)
    assert long(fuller, "shoulder") == pytest.approx(long(before, "shoulder"), abs=0.5)


def test_paper_parted_evenly_is_longer_by_so_much() -> None:
    before, longer = plain(), piece("hold waist", "slash along across_line, spread 2 cm")
    assert long(longer, "centre") == pytest.approx(long(before, "centre") + 20.0, abs=0.6)  # the cut is not quite level
    shorter = piece("hold waist", "slash along across_line, spread -2 cm")
    assert long(shorter, "centre") == pytest.approx(long(before, "centre") - 20.0, abs=0.6)


def test_an_extended_edge_lies_so_far_outside() -> None:
    before, stand = plain(), piece("extend centre by 2 cm as stand")
    assert stand.edge("stand").segments[0, :, :, 0] == pytest.approx(
        np.full((len(stand.edge("stand").segments[0]), 4), -20)
    )
    assert long(stand, "stand") == pytest.approx(long(before, "centre"), abs=1e-6)
    assert long(stand, "waist") == pytest.approx(long(before, "waist") + 20.0, abs=1e-6)


def test_a_half_opened_out_is_twice_as_large_and_its_own_mirror_image() -> None:
    before, whole = plain(), piece("lay front mirrored as left, centre on centre")
    areas = [
        abs(float(outline_areas(np.concatenate([e.segments for e in p.edges], axis=1))[0])) for p in (before, whole)
    ]
    assert areas[1] == pytest.approx(2 * areas[0], rel=1e-9)
    mirrored = whole.edge("left_armhole").segments[:, ::-1, ::-1] * np.array([-1.0, 1.0])
    np.testing.assert_allclose(mirrored, whole.edge("armhole").segments, atol=1e-9)


def test_both_pieces_of_a_cut_have_all_of_the_paper() -> None:
    lines = (
        "block lined from front\n    lines\n        cut_line  dart_place to neck_place   straight\n"
        "    points\n        dart_place  on waist: 4 cm from waist_centre\n"
        "        neck_place  on neckline: 50 % from neck\n"
        "piece one from lined, between cut_line and centre\n    cut 1\n"
        "piece other from lined, between cut_line and side\n    cut 1\n"
        "join\n    cut  along lined.cut_line\n"
    )
    garment = drafted(lines).garment
    areas = [
        abs(float(outline_areas(np.concatenate([e.segments for e in garment.piece(name).edges], axis=1))[0]))
        for name in ("one", "other")
    ]
    whole = abs(float(outline_areas(np.concatenate([e.segments for e in plain().edges], axis=1))[0]))
    assert sum(areas) == pytest.approx(whole, rel=1e-9)
    join = garment.joins[0]
    assert {part.piece for part in (*join.first, *join.second)} == {"one", "other"}
    assert join.first[0].reverse != join.second[0].reverse
    assert {takeup.name for takeup in garment.piece("other").takeups} == {"bust_dart", "waist_dart"}
    assert garment.piece("one").takeups == ()


@pytest.mark.parametrize(
    ("lines", "fact"),
    [
        ("block a from b\n\nblock b from a\n", "traced from one another in a ring"),
        ("piece made from frnt\n    cut 1\n", "no block or piece called `frnt`"),
        ("piece made from front, between wiast and centre\n    cut 1\n", "no edge or line called `wiast`"),
        ("piece made from front, between side and centre\n    cut 1\n", "between them lies the whole"),
        (
            "piece made\n    moves\n        extend a by 1 cm as b\n    cut 1\n",
            "traced from no draft that could be moved",
        ),
        ("block front_two from front\n    cut 1\n", "which is not cut"),
    ],
)
def test_what_cannot_be_traced_is_told(lines: str, fact: str) -> None:
    with pytest.raises(Problems) as told:
        drafted(lines)
    assert fact in str(told.value.notes[0].message)


# ---- motions


def points(count: int = 5) -> Floats:
    return np.random.default_rng(3).normal(size=(2, count, 2)) * 100


def test_motions_keep_distances_and_lay_what_they_say() -> None:
    first, towards, onto, facing = (points()[:, k] for k in range(4))
    for mirrored in (False, True):
        way = laying(first, towards, onto, facing, mirrored)
        there = moved(points(), way)
        np.testing.assert_allclose(there[:, 0], onto, atol=1e-9)
        direction = (there[:, 1] - onto) / np.linalg.norm(there[:, 1] - onto, axis=1)[:, None]
        wanted = (facing - onto) / np.linalg.norm(facing - onto, axis=1)[:, None]
        np.testing.assert_allclose(direction, wanted, atol=1e-9)
        np.testing.assert_allclose(
            np.linalg.norm(np.diff(there, axis=1), axis=2), np.linalg.norm(np.diff(points(), axis=1), axis=2), atol=1e-9
        )


def test_turning_back_undoes_a_turn() -> None:
    about, angle = points()[:, 0], np.array([0.3, -1.2])
    both = after(turning(about, -angle), turning(about, angle))
    np.testing.assert_allclose(moved(points(), both), points(), atol=1e-9)


def test_paper_parts_by_both_amounts_at_its_ends() -> None:
    near, far = np.array([[0.0, 0.0]]), np.array([[0.0, 100.0]])
    way = parting(near, far, np.array([30.0]), np.array([10.0]), np.array([[1.0, 0.0]]))
    assert np.linalg.norm(moved(near[:, None], way)[0, 0] - near[0]) == pytest.approx(30.0)
    assert np.linalg.norm(moved(far[:, None], way)[0, 0] - far[0]) == pytest.approx(10.0)


def test_a_facing_traced_off_its_piece_may_end_aslant() -> None:
    lines = (
        "block faced from front\n    lines\n        inner  inner_top to inner_low   beside neckline then centre\n"
        "    points\n        inner_top  on shoulder: 4 cm from neck\n"
        "        inner_low  on waist: 5 cm from waist_centre\n"
        "piece body from faced\n    cut 1\npiece facing from faced, between inner and centre\n    cut 1\n"
        "join\n    facing  facing.neckline to body.neckline\n"
    )
    found = drafted(lines).garment
    assert found.joins[0].faced
    assert [note for note in seam_ends.check(found) if "corner" in note.message] == []


def test_a_dart_that_opens_is_sewn_as_is_said() -> None:
    opened = piece(
        "close bust_dart, open moved on shoulder at 50 % from neck, trued over 3 cm, pressed towards neckline"
    )
    (moved_dart,) = (takeup for takeup in opened.takeups if takeup.name == "moved")
    assert moved_dart.trued_over is not None and moved_dart.towards == "neckline"


def test_a_dart_that_a_cut_leaves_without_its_point_is_told() -> None:
    lines = (
        "block lined from front\n    lines\n        low_line  low_centre to low_side   straight\n"
        "    points\n        low_centre  on centre: 8 cm from waist_centre\n"
        "        low_side    on side: 8 cm from waist_side\n"
        "piece under from lined, between low_line and waist\n    cut 1\n"
    )
    (note,) = darts_inside.check(drafted(lines).garment)
    assert "`under.waist_dart` runs to a point outside of `under`" in note.message
    assert "close waist_dart, into" in note.hints[1]
    closed = lines.replace("    lines\n", "    moves\n        close waist_dart, into bust_dart\n    lines\n", 1)
    assert darts_inside.check(drafted(closed).garment) == []


def test_a_dart_pressed_towards_an_edge_that_is_cut_off_is_pressed_towards_the_cut() -> None:
    lines = (
        "block lined from front\n    lines\n        low_line  low_centre to low_side   straight\n"
        "    points\n        low_centre  on centre: 4 cm from waist_centre\n"
        "        low_side    on side: 2 cm from waist_side\n"
        "piece over from lined, between low_line and shoulder\n    cut 1\n"
        "piece whole from front\n    cut 1\n"
    )
    pressed = BLOCK.replace("at dart_mark, to bust_point", "at dart_mark, to bust_point, pressed towards waist")
    made = draft_plan(plan_texts(Texts(read(Source("moved", pressed + lines)), (), Path()), {}), ONE).garment
    over, whole = (
        next(takeup for takeup in made.piece(name).takeups if takeup.name == "bust_dart") for name in ("over", "whole")
    )
    assert (over.towards, whole.towards) == ("low_line", "waist")
    assert over.pressed is not None and np.array_equal(over.pressed, whole.pressed)


def test_paper_turned_over_is_still_on_its_side_of_the_cut() -> None:
    lines = (
        "block lined from front\n    lines\n        yoke_line  on_centre to on_side   straight\n"
        "block upper from lined, between yoke_line and shoulder\n"
        "piece lower from lined, between yoke_line and waist\n    cut 1\n"
        "piece both from lined, between yoke_line and shoulder\n"
        "    moves\n        lay upper mirrored as other, centre on centre\n    cut 1\n"
        "join\n    yoke  along lined.yoke_line\n"
    )
    join = drafted(lines).garment.joins[0]
    assert {part.edge for part in (*join.first, *join.second)} == {"yoke_line", "other_yoke_line"}
