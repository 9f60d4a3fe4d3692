"""A piece that nobody could cut: too large for any table, without area, or too much of it altogether."""

import numpy as np
import pytest

from draft.base.notes import Problems, Severity, Source, Span
from draft.checks import extent
from draft.drafting.checked import draft_and_check
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.cubic import line
from tests.asking import asked

HERE = Span(Source("trial.piece", "trial"), 0, 5)


def rectangle(name, *sizes):
    """A piece of a rectangle so wide and high for each body, drawn clockwise."""
    corners = np.array([[(0, 0), (0, h), (w, h), (w, 0)] for w, h in sizes], dtype=float)
    edges = tuple(
        Edge(HERE, side, line(corners[:, k], corners[:, (k + 1) % 4])[:, None], allowance=10.0)
        for k, side in enumerate(("left", "top", "right", "hem"))
    )
    return Piece(HERE, name, edges, 1, np.zeros((len(sizes), 2)), np.zeros((len(sizes), 2)))


def told(*pieces, sizes=("S", "M")):
    notes = extent.check(Garment("Trial", "", sizes, pieces, (), ()))
    assert all(note.severity is Severity.ERROR for note in notes)
    return [note.message for note in notes]


def test_usual_pieces_pass():
    assert told(rectangle("band", (400, 25), (420, 25)), rectangle("tab", (5.1, 5), (5, 5))) == []
    assert told(rectangle("train", (3_000, 4_999), (3_100, 5_000))) == []


def test_a_large_piece_is_told_with_its_line_and_size():
    (words,) = told(rectangle("skirt", (300, 4_000), (300, 30_000)))
    assert words == "`skirt` is 30.0 m long in size M, and no piece is longer than 5 m"
    (note,) = extent.check(Garment("Trial", "", ("S", "M"), (rectangle("skirt", (9_000, 10), (10, 10)),), (), ()))
    assert "`top`" in note.hints[0] and "cm" in note.hints[0]


@pytest.mark.parametrize("size", [(0, 0), (300, 0), (0, 300), (4.9, 5), (1e-9, 1e-9)])
def test_a_piece_without_area_is_told(size):
    assert told(rectangle("bow", (300, 300), size)) == ["`bow` has no area, for size M"]


def test_a_body_that_was_not_drafted_says_nothing():
    assert told(rectangle("front", (300, 300), (np.nan, np.nan))) == []


def test_too_much_altogether():
    (words,) = told(*(rectangle(f"sail {k}", (4_000, 4_000), (4_100, 4_000)) for k in range(4)))
    assert words == "all pieces together are 66 square metres of pattern, and no garment has over 60"


def test_more_pieces_than_a_garment_has():
    tab = rectangle("tab", (50, 50), (50, 50))
    assert told(*[tab] * 200) == []
    assert told(*[tab] * 201) == ["201 pieces are more than one garment has, which is 200 at most"]


def test_nothing_is_drawn_or_checked_of_such_a_piece(tmp_path):
    path = tmp_path / "tote.piece"
    path.write_text(
        'pattern tote\n    title "Tote"\n\npiece side\n    points\n        a at 0, 0\n        b from a: 1000 m across\n'
        "        c from a: 20 cm up\n    outline\n        ab a to b straight, unjoined\n"
        "        bc b to c straight, unjoined\n        ca c to a straight, unjoined\n    cut 1\n",
        encoding="utf-8",
    )
    with pytest.raises(Problems) as told_of:
        draft_and_check(asked(path))
    assert len(told_of.value.notes) == 1
