"""Orders bettered in several chains: lays that can be cut, the same every time, and no longer than without."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.cloth.batches import Shelf, open_batches
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import CutPiece, made
from draft.cloth.effort import Effort, effort
from draft.cloth.in_chains import laid_in_chains
from draft.cloth.lay import Folding, Strip
from draft.cloth.lays import best_lay, lay_of
from draft.cloth.many_pieces import column_step, made_ready
from draft.cloth.verify import faults
from draft.geometry.chains import Chains
from tests.cloth.made_up import ell, rectangle
from tests.cloth.shapes_drawn import cut_pieces


def coat() -> tuple[CutPiece, ...]:
    """Twenty pieces, each cut twice: bars, panels that taper, and ells of a hand."""
    found = []
    for k in range(20):
        wide, high = 150.0 + 31 * (k % 7), 200.0 + 53 * (k % 5)
        taper = np.array([(0, 0), (wide, 0), (wide * 0.7, high), (wide * 0.1, high)])
        ring = [rectangle(wide, high / 4), taper, ell(wide, high, wide / 3, high / 4)][k % 3]
        found.append(made(k + 1, f"piece {k}", "M", 2, ring, "as a pair" if k % 3 else ""))
    return tuple(found)


FEW = Effort(600, 2, 300, chains=2)


@settings(max_examples=12, deadline=None)
@given(cut_pieces(6), st.booleans(), st.booleans())
def test_each_lay_can_be_cut_and_is_shorter_than_the_one_before(
    drawn: tuple[CutPiece, ...], one_way: bool, twins: bool
) -> None:
    """Random pieces, among many pairs and alone; asked twice it is the same."""
    pairs = (made(90, "panel", "M", 12, ell(400, 700, 180, 300), "as a pair"),) if twins else ()
    own, asked = (*pairs, *drawn), []
    for _ in range(2):
        lays = [laid for _, laid in laid_in_chains(own, 1300.0, one_way, replace(FEW, pieces=60), Shelf())]
        assert lays
        asked.append([[(put.x, put.y) for put in laid.puts] for laid in lays])
    assert asked[0] == asked[1]
    lengths = [laid.length for laid in lays]
    assert lengths == sorted(lengths, reverse=True)
    for laid in lays:
        lay = lay_of("open", 1300.0, [(Strip(0.0, 1300.0), laid)], FEW)
        assert faults(lay, own) == []
        assert not one_way or not any(placement.move.turned for placement in lay.placements)


def test_pieces_alike_are_one_kind_and_come_back_as_their_own() -> None:
    cut_pieces = (*coat(), *coat())
    shelf = Shelf()
    strip = made_ready(open_batches(cut_pieces, shelf, False), 1473.2, column_step(1473.2, cut_pieces), shelf).strip
    chains = Chains(strip)
    found = chains.bettered(1, 100)
    assert found and len(set(found.order)) <= len(set(strip.pieces)) / 2
    own = chains.kinds(found.order)
    assert sorted(own) == sorted(strip.pieces)
    assert all(place.shape in strip.kinds[kind].ways for kind, place in zip(own, found.places, strict=True))


def test_chains_make_no_lay_longer_and_leave_other_kinds_alone() -> None:
    cloth, plain = Cloth(1473.2), replace(FEW, chains=0)
    alone, chained = best_lay(coat(), cloth, plain), best_lay(coat(), cloth, FEW)
    assert alone and chained and chained.length <= alone.length and faults(chained, coat()) == []
    folded = [best_lay(coat(), cloth, spent, foldings=("one fold",)) for spent in (plain, FEW)]
    assert folded[0] and folded[1] and folded[0].length == folded[1].length


def test_a_person_who_stops_the_search_keeps_what_was_found() -> None:
    spent = replace(effort("usual"), chains=4)
    spent.stop.set()
    lay = best_lay(coat(), Cloth(1473.2), spent)
    assert lay and faults(lay, coat()) == [] and lay.stopped


def test_pieces_all_alike_have_one_order() -> None:
    bars = (made(1, "bar", "M", 40, rectangle(300, 100)),)
    ((_, laid),) = laid_in_chains(bars, 1200.0, False, FEW, Shelf())
    assert laid.length <= 1000.6


def test_where_one_half_mirrors_the_other_the_cloth_may_be_folded_once() -> None:
    pieces = tuple(one for one in coat() if one.mirrored or one.fold)
    found = best_lay(pieces, Cloth(1473.2), replace(FEW, pieces=0, chains=0), foldings=("open",))
    assert found
    both: tuple[Folding, ...] = ("one fold", "open")
    for foldings, folding in ((both, "one fold"), (both[1:], "open")):
        chained = laid_in_chains(pieces, 1473.2, False, FEW, Shelf(), 2 * found.length, foldings)
        kinds = {kind for kind, _ in chained}
        assert kinds == {folding}
    chained_lay = best_lay(pieces, Cloth(1473.2), FEW)
    assert chained_lay and faults(chained_lay, pieces) == []
