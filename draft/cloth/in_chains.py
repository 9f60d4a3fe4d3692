"""An open lay of many pieces, bettered for some seconds where nothing else works on it: in several chains of orders.

Where pieces come in twos they are laid on the left half of the cloth for the right one to mirror. Counts bound the
chains, no clock, so that the lay is the same on every machine.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from draft.cloth.batches import Shelf, open_batches
from draft.cloth.cut_pieces import CutPiece
from draft.cloth.effort import Effort
from draft.cloth.laid_beside import laid_beside
from draft.cloth.lay import Folding
from draft.cloth.many_pieces import ManyPieces, column_step, made_ready
from draft.cloth.search import BETTER, Put, StripLay
from draft.cloth.twins import opened, twins_of
from draft.geometry.chains import Chains, Ordered

_LAID = 1.5
"""Each chain lays so many times as many pieces as a search by itself."""


def laid_in_chains(
    cut_pieces: Sequence[CutPiece],
    width: float,
    one_way: bool,
    effort: Effort,
    shelf: Shelf,
    best: float = math.inf,
    foldings: Sequence[Folding] = ("open",),
) -> Iterator[tuple[Folding, StripLay]]:
    """Lays on cloth `width` mm wide, each shorter than `best` mm and those before it.

    They are open; where one half mirrors the other and `foldings` has it they are of cloth folded once, and its half.
    """
    step, twins = column_step(width, cut_pieces), twins_of(cut_pieces, shelf, one_way, width)
    batches = twins.batches if twins else open_batches(cut_pieces, shelf, one_way)
    many = made_ready(batches, width / 2 if twins else width, step, shelf)
    chains = Chains(many.strip)
    for seed in range(1, effort.chains + 1 if chains.may_be_kept else 1):
        if effort.stopped:
            return
        found = chains.bettered(seed, round(effort.pieces * _LAID), lambda: effort.stopped)
        if found is None or found.length >= best - BETTER:
            continue
        puts: list[Put] | None = _puts(many, chains, found)
        folded = twins is not None and not twins.left and "one fold" in foldings
        if twins and puts and not folded:
            puts = laid_beside(opened(puts, width, shelf), twins.left, width, step)
        laid = StripLay.of(puts or ())
        if puts and laid.length < best - BETTER:
            best = laid.length
            yield "one fold" if folded else "open", laid


def _puts(many: ManyPieces, chains: Chains, found: Ordered) -> list[Put]:
    batches = chains.kinds(found.order)
    return [
        many.put(batch, many.ways[batch][place.shape], place)
        for batch, place in zip(batches, found.places, strict=True)
    ]
