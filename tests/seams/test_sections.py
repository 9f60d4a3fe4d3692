"""Seams from notch to notch: lengths known by construction, ease where it was put, and what the drawn notches say."""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.notes import Severity
from draft.checks import seam_lengths, seam_notches
from draft.garment.garment import Garment, Join, SidePart
from draft.seams.sections import sections, sections_of
from draft.seams.sides import sewn_distance, side
from draft.seams.walk import walk_seams
from tests.asking import bundled
from tests.seams.test_walk import garment, panel

PAIR = panel("one", "20 cm") + panel("two", "30 cm")


def lengths(made: Garment) -> list[tuple[str, str, float, float]]:
    """What lies at both ends of each section, and its lengths for the first body."""
    return [(s.begins, s.ends, round(float(s.first[0]), 6), round(float(s.second[0]), 6)) for s in sections(made)]


def with_notches(text: str, *places: str) -> str:
    """A panel with notches of its own."""
    return text.replace(
        "\n    cut", "\n    notches\n" + "\n".join(f"        {place}" for place in places) + "\n    cut"
    )


def test_a_join_without_notches_is_one_section() -> None:
    assert lengths(garment(PAIR + "\njoin\n    j one.side to two.side")) == [("start", "end", 400, 400)]


def test_the_marks_of_a_join_part_it_in_order() -> None:
    made = garment(PAIR + "\njoin\n    j one.side to two.side, notch at 75 %, double notch at 10 cm")
    assert lengths(made) == [
        ("start", "double notch 1", 100, 100),
        ("double notch 1", "notch 2", 200, 200),
        ("notch 2", "end", 100, 100),
    ]


def test_a_stretched_band_is_stretched_alike_in_every_section() -> None:
    made = garment(
        panel("front", "bust_girth / 4", more="FOLD cut 1")
        + panel("back", "bust_girth / 4 + 3 cm", more="FOLD cut 1")
        + panel("band", "(bust_girth + 6 cm) * 90 %", "5 cm")
        + "\njoin\n    hem band.hem to front.hem then back.hem reversed, stretched 90 %, quarters"
    )
    found = sections(made)
    assert len(found) == 4
    for section in found:
        assert np.allclose(section.first, 0.9 * section.second) and np.allclose(section.difference, 0)
        assert np.allclose(section.ease, -0.1 * section.second)


@pytest.mark.parametrize("name", ["marlpit", "tidemill", "ropewalk"])
def test_the_sections_of_the_bundled_patterns_add_up_to_their_seams(name: str) -> None:
    made = bundled(name).garment
    for walked in walk_seams(made):
        found = sections_of(made, walked.join)
        assert np.allclose(sum(s.first for s in found), walked.first, atol=1e-6)
        assert np.allclose(sum(s.second for s in found), walked.second, atol=1e-6)
        assert all((s.first > 0).all() and (s.second > 0).all() for s in found)


@pytest.mark.parametrize("name", ["marlpit", "tidemill", "ropewalk"])
def test_the_notches_that_are_drawn_lie_where_the_sections_end(name: str) -> None:
    """Walked again off the drawn notches, without the shares that set them."""
    made = bundled(name).garment
    seen = 0
    for join in made.joins:
        found = sections_of(made, join)
        ends = np.cumsum([[s.first for s in found], [s.second for s in found]], axis=1)[:, :-1]
        for parts, places in ((join.first, ends[0]), (join.second, ends[1])):
            whole = side(made, parts).length
            drawn = drawn_places(made, join, parts)
            seen += len(drawn)
            for at in drawn:
                there = np.isfinite(at)
                images = [np.abs(places - at), np.abs(places - (2 * whole - at))]  # a half is opened out to the whole
                assert (np.min(np.minimum(*images), axis=0)[there] < 0.01).all()
    assert seen >= 8


def drawn_places(made: Garment, join: Join, parts: tuple[SidePart, ...]) -> list[np.ndarray]:
    """How far along a side, as it is sewn, the notches of a join lie on its pieces."""
    found, begun = [], np.zeros(len(made.sizes))
    for side_edge in side(made, parts).edges:
        for notch in side_edge.piece.notches:
            if notch.span == join.span and notch.edge == side_edge.edge.name:
                at = sewn_distance(side_edge.piece, side_edge.edge, notch.at)
                found.append(begun + (side_edge.length - at if side_edge.part.reverse else at))
        begun = begun + side_edge.length
    return found


def test_notches_set_by_hand_on_both_sides_show_where_ease_lies() -> None:
    cap = with_notches(panel("one", "42 cm"), "on hem: 12 cm from a", "double on hem: 31 cm from a")
    hole = with_notches(panel("two", "40 cm"), "on hem: 11.5 cm from a", "double on hem: 30 cm from a")
    made = garment(cap + hole + "\njoin\n    j one.hem to two.hem, eased 105 %")
    assert lengths(made) == [
        ("start", "notch 1", 120, 115),
        ("notch 1", "double notch 2", 190, 185),
        ("double notch 2", "end", 110, 100),
    ]
    assert [float(s.ease[0]) for s in sections(made)] == pytest.approx([5, 5, 10])
    assert seam_notches.check(made) == []


@pytest.mark.parametrize(
    ("join", "expected"),
    [
        ("{0}.side then {0}.top", [(100, 100), (300, 300), (50, 60), (150, 140)]),
        ("{0}.top reversed then {0}.side reversed", [(150, 140), (50, 60), (300, 300), (100, 100)]),
    ],
)
def test_notches_set_by_hand_on_a_second_edge_lie_behind_the_first(join: str, expected: list[tuple[int, int]]) -> None:
    one = with_notches(panel("one", "20 cm"), "on side: 10 cm from b", "on top: 5 cm from c")
    two = with_notches(panel("two", "20 cm"), "on side: 10 cm from b", "on top: 6 cm from c")
    made = garment(one + two + f"\njoin\n    j {join.format('one')} to {join.format('two')}")
    assert [(first, second) for _, _, first, second in lengths(made)] == expected


def test_a_side_without_length_is_walked_all_the_same() -> None:
    made = garment(panel("one", "20 cm") + panel("two", "20 cm", "0 cm") + "\njoin\n    j one.side to two.side")
    assert lengths(made) == [("start", "end", 400, 0)]


def test_a_side_run_backwards_over_darts_is_walked_as_it_is_sewn() -> None:
    skirt = with_notches(panel("skirt", "40 cm"), "on top: 5 cm from d", "on top: 25 cm from d")
    skirt += """
    points
        middle on top: 10 cm from d
        tip    from middle: 8 cm down
    darts
        dart on top: 3 cm wide at middle, to tip
"""
    yoke = with_notches(panel("yoke", "37 cm", "8 cm"), "on hem: 5 cm from a", "on hem: 22 cm from a")
    made = garment(skirt + yoke + "\njoin\n    waist yoke.hem to skirt.top reversed")
    assert [(first, second) for _, _, first, second in lengths(made)] == [(50, 50), (170, 170), (150, 150)]


def test_edges_sewn_to_edges_match_where_they_end() -> None:
    text = PAIR + "\njoin\n    j one.side then one.top to two.side then two.top"
    assert lengths(garment(text)) == [("start", "`side` to `top`", 400, 400), ("`side` to `top`", "end", 200, 300)]
    (note,) = seam_lengths.check(garment(text))
    assert note.hints[1] == (
        "most of that lies from `side` to `top` to the end: there the first side is 100.0 mm shorter"
    )


def test_a_misfit_is_placed_between_the_notches_where_it_lies() -> None:
    one = with_notches(panel("one", "20 cm"), "on side: 10 cm from b", "on side: 20 cm from b")
    two = with_notches(panel("two", "20 cm", "41 cm"), "on side: 10 cm from b", "on side: 21 cm from b")
    (note,) = seam_lengths.check(garment(one + two + "\njoin\n    j one.side to two.side"))
    assert note.hints[0].startswith("at worst `one.side` is 10.0 mm too short")
    assert note.hints[1] == "most of that lies from notch 1 to notch 2: there the first side is 10.0 mm shorter"


def test_notches_by_hand_that_do_not_come_together_are_told() -> None:
    one = with_notches(panel("one", "20 cm"), "on side: 10 cm from b")
    for far, told in ((10.09, False), (10.3, True)):
        two = with_notches(panel("two", "20 cm"), f"on side: {far} cm from b")
        notes = seam_notches.check(garment(one + two + "\njoin\n    j one.side to two.side"))
        assert bool(notes) == told
    assert notes[0].severity is Severity.CAUTION
    assert notes[0].message == "notches along `j` do not come together, for body 1, body 2, body 3"
    assert notes[0].hints[0] == (
        "at worst they lie 3.0 mm apart (body 1): 100.0 mm along `one.side` and 103.0 mm along `two.side`"
    )


def test_notches_by_hand_that_do_not_pair_off_are_told() -> None:
    one = with_notches(panel("one", "20 cm"), "on side: 10 cm from b", "double on side: 20 cm from b")
    two = with_notches(panel("two", "20 cm"), "on side: 10 cm from b", "on side: 20 cm from b")
    join = "\njoin\n    j one.side to two.side"
    (note,) = seam_notches.check(garment(one + two + join))
    assert note.message == (
        "the notches along `j` do not pair off: `one.side` has 1 single and 1 double and `two.side` has 2 single"
    )
    assert len(sections(garment(one + two + join))) == 1
    assert seam_notches.check(garment(one + panel("two", "20 cm") + join)) == []  # a notch on one side shows a pocket


def test_a_half_sewn_to_a_whole_is_walked_along_its_first_half_and_marked_on_both() -> None:
    text = (
        panel("front", "bust_girth / 4", more="FOLD cut 1")
        + panel("band", "bust_girth / 2", "5 cm")
        + "\njoin\n    hem front.hem to band.hem, notch at 40 %"
    )
    made = garment(text)
    (walked,) = walk_seams(made)
    assert np.allclose(walked.difference, 0)
    for section in sections(made):
        assert np.allclose(section.first, section.second)
    assert [float(notch.at[0]) for notch in made.piece("band").notches] == pytest.approx([80, 320])
    assert [float(notch.at[0]) for notch in made.piece("front").notches] == pytest.approx([80])


def test_a_band_marked_by_hand_pairs_off_with_both_images_of_a_half() -> None:
    front = with_notches(panel("front", "20 cm", more="FOLD cut 1"), "on hem: 8 cm from a")
    band = with_notches(panel("band", "40 cm", "5 cm"), "on hem: 8 cm from a", "on hem: 32 cm from a")
    made = garment(front + band + "\njoin\n    hem band.hem to front.hem")
    assert [(first, second) for _, _, first, second in lengths(made)] == [(80, 80), (240, 240), (80, 80)]
    assert seam_notches.check(made) == []
