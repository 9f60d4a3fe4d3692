"""Outlines trued across a seam: they run on, bending one way, and nothing moves beyond the stretch that was given."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.arrays import Floats
from draft.checks import run
from draft.garment.garment import Garment, Piece
from draft.geometry.apart import farthest
from draft.geometry.area import outline_area
from draft.geometry.cubic import cross, derivative, reverse, second_derivative
from draft.geometry.fairness import fairness
from draft.geometry.length import length, locate
from draft.geometry.part import part_along
from draft.seams.allowance import cutting_line, sewing_line
from draft.seams.trueing import TELLING, to_true
from draft.seams.walk import seam_ends, walk_seams
from tests.seams.test_walk import garment, panel

LEAN = st.floats(-9, 9).map(lambda lean: round(lean, 2))


def leaning(name: str, width: str, lean: float, more: str = "cut 1", bowed: bool = False) -> str:
    """A panel whose side leans, its hem and top straight or bowed."""
    word = f"{lean} cm" if lean >= 0 else f"0 cm - {-lean} cm"
    text = panel(name, width, more=more, lean=word)
    if bowed:
        text = text.replace("hem   a to b straight", "hem   a to b curve leaving (10 deg below across)")
    return text


def two(one: float, other: float, option: str = "", bowed: bool = False, more: str = "cut 1") -> Garment:
    pieces = leaning("one", "bust_girth / 4", one, more, bowed) + leaning("two", "30 cm", other, more)
    return garment(pieces + f"\njoin\n    j one.side to two.side{option}")


def worst_kink(made: Garment) -> float:
    return max(float(np.abs(corner.kink).max()) for corner in seam_ends(made))


@settings(max_examples=25, deadline=None)
@given(LEAN, LEAN, st.booleans(), st.sampled_from(["4 cm", "15 mm", "12 cm", "90 cm"]))
def test_after_trueing_the_outlines_run_on(one: float, other: float, bowed: bool, over: str) -> None:
    made = two(one, other, f", trued over {over}", bowed)
    assert worst_kink(made) < 0.02
    for piece in made.pieces:
        for edge in piece.edges:
            assert (fairness(edge.segments).corner < 1e-4).all()  # the blend runs on from the edge as it was


@settings(max_examples=25, deadline=None)
@given(LEAN, LEAN, st.booleans())
def test_the_seam_moves_along_itself_and_all_beyond_the_blend_stays(one: float, other: float, bowed: bool) -> None:
    plain, made = two(one, other, "", bowed), two(one, other, ", trued over 4 cm", bowed)
    grown = []
    for before, after in zip(plain.pieces, made.pieces, strict=True):
        assert np.array_equal(before.edge("left").segments, after.edge("left").segments)
        old, new = before.edge("side").segments, after.edge("side").segments
        grown.append([length(new) - length(old), *_along(old, new)])
        for name, following in pairwise(["hem", "side", "top"]):
            assert np.allclose(after.edge(name).segments[:, -1, 3], after.edge(following).segments[:, 0, 0], atol=1e-9)
        for name in ("hem", "top"):
            old, new = before.edge(name).segments, after.edge(name).segments
            if name == "top":  # run both towards the seam
                old, new = reverse(old), reverse(new)
            kept = length(old) - 40.0
            assert (farthest(part_along(old, 0 * kept, kept), part_along(new, 0 * kept, kept))[0] < 1e-5).all()
            assert np.allclose(old[:, 0, 0], new[:, 0, 0])
    assert np.allclose(*grown, atol=1e-6)  # both sides alike, so that they are of the lengths that they were apart


def _along(old: Floats, new: Floats) -> list[Floats]:
    """How far both ends of a straight seam have moved out along it, having moved nowhere else."""
    out = old[:, -1, 3] - old[:, 0, 0]
    out = out / np.linalg.norm(out, axis=-1)[:, None]
    moved = [new[:, -1, 3] - old[:, -1, 3], old[:, 0, 0] - new[:, 0, 0]]
    by = [np.sum(shift * out, axis=-1) for shift in moved]
    for shift, along in zip(moved, by, strict=True):
        assert np.allclose(shift, along[:, None] * out, atol=1e-9)
    return by


@pytest.mark.parametrize("lean", [-9.0, -3.0, 1.0, 5.0, 9.0])
@pytest.mark.parametrize("over", [2.0, 4.0, 5.0])
def test_two_straights_are_blended_by_an_arc_that_touches_both(lean: float, over: float) -> None:
    """At an angle of a its radius r is over / tan(a / 2), and it passes the corner at r (1 / cos(a / 2) - 1)."""
    plain, made = two(lean, lean), two(lean, lean, f", trued over {over} cm")
    half = np.arctan2(abs(lean), 40.0)  # each of the two edges leans so much from being square to the seam
    radius = 10 * over / np.tan(half)
    passed = radius * (1 / np.cos(half) - 1)
    old, new = (one.piece("one").edge("side").segments for one in (plain, made))
    at_top, at_hem = _along(old, new)
    way = np.sign(lean)  # leaning out the two tops make a peak, and the two hems a hollow
    np.testing.assert_allclose(at_top, -way * passed, rtol=4e-3)
    np.testing.assert_allclose(at_hem, way * passed, rtol=4e-3)
    top = made.piece("one").edge("top").segments[:, 0]  # the blend, from the seam
    bend = cubic_curvature(top)
    np.testing.assert_allclose(np.abs(bend), 1 / radius, rtol=0.06)


def cubic_curvature(segments: Floats) -> Floats:
    """The curvature of cubics `(B, 4, 2)`, 1/mm, at places from start to end: `(B, places)`."""
    t = np.linspace(0.0, 1.0, 41)
    first, second = derivative(segments[:, None], t), second_derivative(segments[:, None], t)
    return np.asarray(cross(first, second) / np.linalg.norm(first, axis=-1) ** 3)


@settings(max_examples=30, deadline=None)
@given(LEAN, LEAN, st.sampled_from([1.5, 4.0, 12.0]))
def test_a_blend_of_two_straights_bends_one_way(one: float, other: float, over: float) -> None:
    """No hollow beside a hump: from where the blend begins on one piece to where it ends on the other."""
    made = two(one, other, f", trued over {over} cm")
    for name, place in (("hem", -1), ("top", 0)):
        bends = [cubic_curvature(made.piece(piece).edge(name).segments[:, place]) for piece in ("one", "two")]
        # the second piece is laid turned over along the first; both then run towards the seam, or both away from it
        bent = np.concatenate(bends, axis=1)
        if made.piece("one").edge(name).segments.shape[1] > 1:
            assert (bent > -1e-9).all() or (bent < 1e-9).all()


@pytest.mark.parametrize("lean", [3.0, -3.0])
def test_what_follows_a_trued_edge_ends_where_the_seam_ends_now(lean: float) -> None:
    facing = """
piece facing
    points
        a is one.d
        b is one.c
        c from b: 5 cm down
        d from a: 5 cm down
    outline
        top    b to a following one.top
        left   a to d straight
        low    d to c straight
        right  c to b straight
    cut 1
"""
    pieces = leaning("one", "20 cm", lean) + leaning("two", "30 cm", lean)
    made = garment(pieces + facing + "\njoin\n    j one.side to two.side, trued")
    top, followed = made.piece("one").edge("top").segments, made.piece("facing").edge("top").segments
    assert top.shape[1] == 2 and np.allclose(top, followed, atol=1e-6)


def test_trued_and_nothing_more_is_over_4_cm() -> None:
    plain, same, other = (two(5.0, 0.0, f", trued{over}") for over in ("", " over 4 cm", " over 4.2 cm"))
    for name in ("hem", "top"):
        edges = [made.piece("one").edge(name).segments for made in (plain, same, other)]
        assert np.array_equal(edges[0], edges[1]) and np.abs(edges[0] - edges[2]).max() > 0.1


def test_an_edge_sewn_to_its_mirror_image_is_turned_once() -> None:
    text = leaning("back", "20 cm", 3.0, more="cut 2 as a pair")
    made = garment(text + "\njoin\n    centre back.side to back.side, trued")
    assert worst_kink(made) < 0.02
    assert made.piece("back").edge("hem").segments.shape[1] == 2  # one blend, not two


def test_beside_a_fold_the_other_edge_takes_the_whole_turn() -> None:
    text = panel("yoke", "20 cm", more="FOLD cut 1") + panel("back", "20 cm", more="cut 2 as a pair")
    text = text.replace(
        "c at 20 cm + 0 cm, 40 cm\n        d at 0, 40 cm", "c at 20 cm, 40 cm\n        d at 2 cm, 40 cm"
    )
    text = text.replace("d at 2 cm", "d at 0", 1)  # only the back's centre leans
    made = garment(text + "\njoin\n    j yoke.hem to back.hem")
    (kinked,) = [c for c in seam_ends(made) if np.abs(c.kink).max() > 0.02]
    assert kinked.neighbours == ("left", "left")
    after = garment(text + "\njoin\n    j yoke.hem to back.hem, trued over 6 cm")
    assert worst_kink(after) < 0.02
    assert np.array_equal(after.piece("yoke").edge("left").segments, made.piece("yoke").edge("left").segments)


def shared(left: float, right: float, joins: Sequence[str]) -> Garment:
    """Two fronts that are not alike, sewn to the two sides of one back."""
    fronts = leaning("left", "20 cm", left) + leaning("right", "25 cm", right)
    back = leaning("back", "30 cm", 2.0, more="FOLD cut 1")
    return garment(fronts + back + "\njoin" + "".join(f"\n    {join}" for join in joins))


@pytest.mark.parametrize(("left", "right"), [(5.0, 5.0), (5.0, 1.0), (-3.0, 6.0)])
def test_two_fronts_run_on_from_the_line_of_one_back(left: float, right: float) -> None:
    """Whichever is written first: the back gets the line in the middle of those that they ask for."""
    joins = ("l left.side to back.side, trued", "r right.side to back.side, trued")
    made, other = (shared(left, right, order) for order in (joins, joins[::-1]))
    assert worst_kink(made) < 0.02
    plain = shared(left, right, _untrued(joins))
    for walked, drawn in zip(walk_seams(made), walk_seams(plain), strict=True):
        np.testing.assert_allclose(walked.difference, drawn.difference, atol=1e-6)
    ends = [one.piece("back").edge("side").segments[:, -1, 3] for one in (made, plain)]
    assert (np.abs(ends[0] - ends[1]).max(axis=1) > 0.5).all()
    for piece in made.pieces:
        for edge in piece.edges:
            np.testing.assert_allclose(edge.segments, other.piece(piece.name).edge(edge.name).segments, atol=1e-9)


def _untrued(joins: Sequence[str]) -> list[str]:
    return [join.replace(", trued", "") for join in joins]


def test_two_fronts_that_are_alike_are_trued_as_each_would_be_alone() -> None:
    both = shared(5.0, 5.0, ("l left.side to back.side, trued", "r right.side to back.side, trued"))
    alone = two(5.0, 2.0, ", trued")
    hem, only = both.piece("back").edge("hem").segments, alone.piece("two").edge("hem").segments
    np.testing.assert_allclose(hem, only, atol=1e-9)


def test_a_fold_that_one_front_meets_turns_both() -> None:
    """Where one of the fronts has a fold beside the seam the back takes the whole turn, and the other runs on."""
    folded = leaning("left", "20 cm", 5.0).replace("hem   a to b straight", "hem   a to b straight, on fold")
    fronts = folded + leaning("right", "25 cm", 1.0) + leaning("back", "30 cm", 2.0, more="cut 2 as a pair")
    joins = "\njoin\n    l left.side to back.side, trued\n    r right.side to back.side, trued"
    made = garment(fronts + joins)
    assert worst_kink(made) < 0.02
    assert made.piece("left").edge("hem").segments.shape[1] == 1


@pytest.mark.parametrize("order", [(0, 1, 2, 3), (3, 0, 2, 1), (2, 1, 3, 0), (1, 3, 0, 2)])
def test_where_four_pieces_meet_both_lines_run_on(order: tuple[int, ...]) -> None:
    leans = {"front": 5.0, "back": 1.0, "front_skirt": 3.0, "back_skirt": -2.0}
    joins = (
        "side front.side to back.side, trued",
        "skirt_side front_skirt.side to back_skirt.side, trued",
        "front_waist front.hem to front_skirt.top reversed, trued",
        "back_waist back.hem to back_skirt.top reversed, trued",
    )
    pieces = "".join(leaning(name, "20 cm", lean) for name, lean in leans.items())
    made, mixed = (
        garment(f"{pieces}\njoin" + "".join(f"\n    {joins[k]}" for k in places)) for places in (range(4), order)
    )
    assert worst_kink(mixed) < 0.02
    for piece in made.pieces:
        for edge in piece.edges:
            assert np.array_equal(edge.segments, mixed.piece(piece.name).edge(edge.name).segments)


def test_a_short_edge_is_blended_over_half_of_it_at_most() -> None:
    pieces = leaning("one", "5 cm", 2.0) + leaning("two", "30 cm", 0.0)
    made = garment(pieces + "\njoin\n    j one.side to two.side, trued over 40 cm")
    assert worst_kink(made) < 0.02
    hem = made.piece("one").edge("hem").segments
    assert np.allclose(hem[0, 0], [[0, 0], [25 / 3, 0], [50 / 3, 0], [25, 0]])


def test_what_runs_on_already_is_left_alone() -> None:
    plain, made = two(2.0, 0.0), two(2.0, 0.0)
    straight = two(0.0, 0.0, ", trued")
    assert straight.piece("one").edge("hem").segments.shape[1] == 1
    for before, after in zip(plain.pieces, made.pieces, strict=True):
        assert all(np.array_equal(a.segments, b.segments) for a, b in zip(before.edges, after.edges, strict=True))


def test_only_the_join_that_asks_is_trued() -> None:
    pieces = leaning("one", "20 cm", 3.0) + leaning("two", "20 cm", 0.0) + leaning("three", "20 cm", 3.0)
    made = garment(pieces + "\njoin\n    j one.side to two.side, trued\n    k three.side to two.left reversed")
    kinks = {(c.join.name, c.at_start): float(np.abs(c.kink).max()) for c in seam_ends(made)}
    assert kinks["j", True] < 0.02 and kinks["j", False] < 0.02
    assert kinks["k", True] > 1 and kinks["k", False] > 1


@settings(max_examples=15, deadline=None)
@given(LEAN, LEAN)
def test_a_trued_piece_has_a_sound_cutting_line(one: float, other: float) -> None:
    made = two(one, other, ", trued over 5 cm", bowed=True)
    for piece in made.pieces:
        grown = _areas(piece)
        assert grown[1] > grown[0] + 10.0 * 500  # an allowance of half an inch on a piece two metres round, or so
    assert not [note for note in run(made) if "crosses" in note.message or "corner inside" in note.message]


def _areas(piece: Piece) -> tuple[float, float]:
    return outline_area(sewing_line(piece, 0)), outline_area(cutting_line(piece, 0))


def test_what_trueing_would_move_is_told_before_it_is_done() -> None:
    made = two(5.0, 0.0)
    found = list(to_true(made, 40.0))
    assert [(t.seam_end.join.name, t.seam_end.at_start) for t in found] == [("j", True), ("j", False)]
    half = np.arctan2(5.0, 40.0) / 2
    for trueing in found:
        for moved in trueing.moved:
            assert np.allclose(moved, 40 / np.tan(half) * (1 / np.cos(half) - 1), rtol=0.02)  # that of an arc
    assert worst_kink(made) > 1  # nothing was done yet


@pytest.mark.parametrize(("degrees", "told"), [(0.09, False), (0.11, True)])
def test_only_what_shows_is_told(degrees: float, told: bool) -> None:
    assert TELLING == 0.1
    made = two(round(40 * float(np.tan(np.radians(degrees))), 6), 0.0)
    assert bool(list(to_true(made, 40.0))) == told


def test_notches_stay_at_their_distances_from_the_seam() -> None:
    text = leaning("one", "20 cm", 6.0) + leaning("two", "30 cm", 0.0) + leaning("three", "20 cm", 6.0)
    text += "\njoin\n    j one.side to two.side, trued\n    k one.hem to three.hem, notch at 50 %"
    made = garment(text)
    assert worst_kink(made) > 0  # the hems are seams of their own here
    (notch,) = made.piece("one").notches
    hem = made.piece("one").edge("hem").segments
    assert np.allclose(notch.at, length(hem) / 2)
    index, _ = locate(hem, notch.at)
    assert (index == 0).all()


@pytest.mark.parametrize("over", ["4 cm", "9 cm"])
def test_a_band_is_sized_to_the_edges_as_they_are_trued(over: str) -> None:
    """What is measured off an edge is its length after trueing, whichever way the names run."""
    pieces = leaning("one", "30 cm", 6.0) + leaning("two", "bust_girth / 4", 4.0)
    band = panel("band", "length of one.top + length of two.top", "5 cm")
    joins = f"\njoin\n    j one.side to two.side, trued over {over}\n    b band.hem to one.top reversed then two.top"
    made, plain = (garment(pieces + band + text) for text in (joins, joins.replace(f", trued over {over}", "")))
    walked = {one.join.name: one for one in walk_seams(made)}
    np.testing.assert_allclose(walked["b"].difference, 0.0, atol=1e-9)
    tops = [sum(length(m.piece(name).edge("top").segments) for name in ("one", "two")) for m in (made, plain)]
    assert np.all(np.abs(tops[0] - tops[1]) > 0.05)  # trueing changes their length, so the band must have followed


def test_an_unknown_that_is_matched_to_a_trued_edge_meets_it_as_trued() -> None:
    pieces = leaning("one", "30 cm", 6.0) + leaning("two", "30 cm", 4.0)
    band = panel("band", "band_length", "5 cm")
    wanted = "so that band_length equals length of one.top + length of two.top"
    solve = f"\nsolve\n    band_length from 10 cm to 90 cm\n    {wanted}\n"
    joins = "\njoin\n    j one.side to two.side, trued\n    b band.hem to one.top reversed then two.top"
    walked = {one.join.name: one for one in walk_seams(garment(solve + pieces + band + joins))}
    np.testing.assert_allclose(walked["b"].difference, 0.0, atol=0.02)
