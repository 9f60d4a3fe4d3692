"""Many pieces at once with the general solver of the extra `nest`, where it is installed; and without it."""

import signal
import threading

import numpy as np
import pytest

from draft.cloth import nest
from draft.cloth.batches import Shelf, open_batches
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import made
from draft.cloth.effort import Effort, effort, stoppable
from draft.cloth.lays import lay_as
from draft.cloth.verify import faults
from tests.cloth.made_up import ell, rectangle, top

SHORT = Effort(300, 2, outside=1)


@pytest.fixture
def solver():
    return pytest.importorskip("spyrrow")


def test_the_solvers_lay_is_settled_on_the_true_width(solver):
    cut_pieces = top()
    lay = nest.nested(cut_pieces, Cloth(1473.2), SHORT, Shelf())
    assert lay.folding == "open" and faults(lay, cut_pieces) == []
    assert lay.length == pytest.approx(
        lay_as("open", cut_pieces, Cloth(1473.2), effort("usual"), Shelf()).length, rel=0.05
    )


def test_pairs_and_turned_pieces_come_back_as_they_were_laid(solver):
    cut_pieces = (
        made(1, "sleeve", "M", 4, ell(300, 400, 100, 100), "as a pair"),
        made(2, "bar", "M", 2, rectangle(80, 90)),
    )
    lay = nest.nested(cut_pieces, Cloth(900.0), SHORT, Shelf())
    assert faults(lay, cut_pieces) == []
    assert sum(copy.move.face_down for copy in lay.copies() if copy.cut_piece.number == 1) == 2


def test_a_piece_as_wide_as_the_cloth_and_two_that_fill_it_exactly(solver):
    """Both make the solver fail when it is given the true width."""
    wide = (made(1, "wide", "M", 1, rectangle(1000, 300)), made(2, "half", "M", 2, rectangle(500, 200)))
    lay = nest.nested(wide, Cloth(1000.0), SHORT, Shelf())
    assert lay.length == pytest.approx(500, abs=0.2)


def test_a_panic_of_the_solver_is_no_traceback(solver):
    """A width that is no number makes the solver panic, which is no `Exception`."""
    batch = made(1, "bar", "M", 1, rectangle(80, 90))
    shelf = Shelf()
    assert nest._solve(open_batches((batch,), shelf, True), float("nan"), 1) is None


def test_the_keyboard_stops_the_solver_too(solver):
    spent = Effort(300, 2, outside=60)
    threading.Timer(1.5, lambda: signal.raise_signal(signal.SIGINT)).start()
    cut_pieces = tuple(made(k, f"{k}", "M", 2, ell(200 + 10 * k, 300, 80, 90), "right side up") for k in range(1, 5))
    with stoppable(spent):
        lay = nest.nested(cut_pieces, Cloth(900.0), spent, Shelf())
    assert spent.stopped
    assert lay is None or faults(lay, cut_pieces) == []


def test_the_solver_works_beside_the_program_and_ends_with_it(solver):
    cut_pieces = tuple(made(k, f"{k}", "M", 2, ell(200 + 10 * k, 300, 80, 90), "right side up") for k in range(1, 5))
    with nest.Solving(cut_pieces, Cloth(900.0), SHORT, Shelf()) as solving:
        own = lay_as("open", cut_pieces, Cloth(900.0), SHORT, Shelf())
        lay = solving.lay()
    assert faults(own, cut_pieces) == faults(lay, cut_pieces) == []
    with (
        pytest.raises(ZeroDivisionError),
        nest.Solving(cut_pieces, Cloth(900.0), Effort(outside=3000), Shelf()) as left,
    ):
        raise ZeroDivisionError
    assert not left._thread.is_alive()


@pytest.mark.parametrize("odd", [False, True])
def test_of_many_pieces_one_half_mirrors_the_other(solver, odd):
    """Folded once where it may be and all have a twin; open with what has none beside the others; none is missing."""
    cut_pieces = tuple(made(k, f"{k}", "M", 4, ell(180 + 11 * k, 300, 80, 90), "as a pair") for k in range(1, 10))
    cut_pieces += (made(10, "tab", "M", 1, ell(120, 90, 40, 30), "right side up"),) if odd else ()
    for foldings in (("open",), ("one fold", "open")):
        with nest.Solving(cut_pieces, Cloth(1100.0), SHORT, Shelf(), foldings) as solving:
            lay = solving.lay()
        assert faults(lay, cut_pieces) == []
        assert lay.folding == ("one fold" if "one fold" in foldings and not odd else "open")


def test_coordinates_are_carried_over_exactly():
    """A placed item, turned or not, comes back as a move of our own shape: checked without the solver."""
    cut_piece, width = made(1, "ell", "M", 1, ell(300, 400, 100, 120), "right side up"), 900.0
    batches = open_batches((cut_piece,), Shelf(), one_way=False)
    ring = batches[0].shapes[0].ring
    for turned, sign in ((False, 1.0), (True, -1.0)):
        along_across = np.stack([ring[:, 1], -ring[:, 0]], axis=-1) * sign + (50.0, 700.0)
        expected = np.stack([width - along_across[:, 1], along_across[:, 0]], axis=-1)
        wanted = nest._wanted(batches, nest._Placed(0, turned, 50.0, 700.0), width)
        found = wanted.shape.ring + np.array([wanted.x, wanted.y])
        assert sorted(map(tuple, found.round(6))) == sorted(map(tuple, expected.round(6)))
