"""Many pieces on cloth: laid by columns, verified like every lay, in a count of steps and not of seconds."""

import numpy as np
import pytest

from draft.cloth.batches import Shelf, open_batches
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import made
from draft.cloth.effort import Effort, effort
from draft.cloth.lay_near import Wanted
from draft.cloth.lays import FOLDINGS, best_lay, lay_as
from draft.cloth.like import laid_like, same_places
from draft.cloth.many_pieces import column_step, lay_many
from draft.cloth.search import shortest_in_strip
from draft.cloth.settled import settled
from draft.cloth.shortest import are_many
from draft.cloth.verify import faults
from tests.cloth.made_up import ell, rectangle

CLOTH = Cloth(1473.2)
FEW_STEPS = Effort(600, 2, 200)


def coat(grown=1.0):
    """Twenty pieces, each cut twice: bars, panels that taper, and ells of a hand."""
    found = []
    for k in range(20):
        wide, high = (150 + 31 * (k % 7)) * grown, (200 + 53 * (k % 5)) * grown
        ring = [
            rectangle(wide, high / 4),
            np.array([(0, 0), (wide, 0), (wide * 0.7, high), (wide * 0.1, high)]),
            ell(wide, high, wide / 3, high / 4),
        ][k % 3]
        found.append(made(k + 1, f"piece {k}", "M", 2, ring, "as a pair" if k % 3 else ""))
    return tuple(found)


@pytest.mark.parametrize("folding", FOLDINGS)
@pytest.mark.parametrize("one_way", (False, True))
def test_every_kind_of_lay_can_be_cut(folding, one_way):
    cut_pieces = coat()
    assert are_many(cut_pieces)
    cloth = Cloth(1473.2, one_way=one_way)
    lay = lay_as(folding, cut_pieces, cloth, FEW_STEPS, Shelf())
    assert lay.folding == folding and faults(lay, cut_pieces) == []
    assert not one_way or not any(placement.move.turned for placement in lay.placements)
    assert 0.6 < lay.used <= 1.0


def test_two_folds_share_the_pieces_out():
    lay = lay_as("two folds", coat(), CLOTH, FEW_STEPS, Shelf())
    counts = [sum(placement.strip == strip for placement in lay.placements) for strip in (0, 1)]
    assert min(counts) >= 5


def test_the_shortest_kind_is_taken_and_more_effort_is_never_longer():
    first = best_lay(coat(), CLOTH, Effort(600, 2, 0))
    best = best_lay(coat(), CLOTH, Effort(600, 2, 2_000))
    assert faults(best, coat()) == [] and best.length < first.length
    kinds = [lay_as(kind, coat(), CLOTH, Effort(600, 2, 0), Shelf()) for kind in FOLDINGS]
    assert first.length == pytest.approx(min(lay.length for lay in kinds))
    assert best_lay(coat(), CLOTH, Effort(600, 2, 0), best=first.length) is None


def test_the_same_question_has_the_same_lay():
    one, other = (best_lay(coat(), CLOTH, FEW_STEPS) for _ in range(2))
    assert [(p.cut_piece.number, p.move) for p in one.placements] == [
        (p.cut_piece.number, p.move) for p in other.placements
    ]


def test_a_search_stopped_by_a_person_still_gives_a_lay():
    spent = effort("usual")
    spent.stop.set()
    lay = best_lay(coat(), CLOTH, spent)
    assert faults(lay, coat()) == []


def test_pieces_all_alike_have_one_order():
    bars = (made(1, "bar", "M", 40, rectangle(300, 100)),)
    lay = lay_as("open", bars, Cloth(1200.0), FEW_STEPS, Shelf())
    assert lay.length == pytest.approx(1000.0, abs=0.6) and faults(lay, bars) == []


def test_widths_that_divide_the_cloth_fill_it():
    """Halves, thirds and quarters of the cloth lie side by side, and a piece just as wide as it fits."""
    cut_pieces = tuple(
        made(k, f"bar {k}", "M", count, rectangle(1200 / count, 90 + k)) for k, count in enumerate((1, 2, 3, 4) * 4, 1)
    )
    lay = lay_as("open", cut_pieces, Cloth(1200.0), FEW_STEPS, Shelf())
    assert lay.length == pytest.approx(sum(90 + k for k in range(1, 17)), abs=16 * 0.5)


def test_columns_suit_the_widths_that_are_laid():
    """Ten bars of 98 mm lie side by side on a metre, whatever a column's width is."""
    bars = (made(1, "bar", "M", 120, rectangle(98, 60)),)
    step = column_step(1000.0, bars)
    assert int(1000.0 / step + 1e-9) // int(np.ceil(98 / step)) == 10
    assert 2.5 < column_step(1473.2, coat()) <= 4.1 and column_step(1473.2, bars * 4) > 5.0


def test_a_piece_wider_than_the_strip_has_no_lay():
    wide = (made(1, "wide", "M", 40, rectangle(1300, 100)),)
    shelf = Shelf()
    assert lay_many(open_batches(wide, shelf, False), 1200.0, column_step(1200.0, wide), shelf, FEW_STEPS) is None


def test_columns_come_near_the_exact_walk():
    """Twelve bars and tapers: by columns no more than 6 % longer than by exact regions; both find most of the order."""
    few = coat()[:6]
    shelf = Shelf()
    batches = open_batches(few, shelf, False)
    exact = shortest_in_strip(batches, 1473.2, shelf, Effort())
    columns = lay_many(batches, 1473.2, column_step(1473.2, few), shelf, Effort())
    assert columns.length <= exact.length * 1.06


def test_a_size_is_laid_as_its_neighbour():
    model = lay_as("open", coat(), CLOTH, FEW_STEPS, Shelf())
    larger = laid_like(model, coat(1.02), CLOTH, Shelf(), model.length * 1.2)
    assert larger is None or (same_places(model, larger) and faults(larger, coat(1.02)) == [])
    same = laid_like(model, coat(), CLOTH, Shelf(), model.length * 1.2)
    assert same is not None and faults(same, coat()) == []


def test_settling_lowers_every_piece_and_leaves_none_on_another():
    shelf = Shelf()
    pieces = [made(k, f"bar {k}", "M", 1, rectangle(200, 80)) for k in range(1, 7)]
    apart = [
        Wanted(k, shelf.shape(one, 1, 1), 210.0 * (k % 3), 30.0 + 120.0 * (k // 3)) for k, one in enumerate(pieces)
    ]
    laid = settled(apart, 630.0, shelf)
    assert laid.length == pytest.approx(160.0, abs=0.1)
    off = [Wanted(0, apart[0].shape, -0.1, 0.0), Wanted(1, apart[1].shape, 430.1, 0.0)]
    assert sorted(put.x for put in settled(off, 630.0, shelf).puts) == [0.0, 430.0]
