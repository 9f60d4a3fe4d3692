"""Laying pieces on printed pages: as few pages as a short, repeatable search finds.

Pieces are put down one by one where they touch the fewest new pages (`packing_grid`), then a few are taken up and put
down again.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from draft.base.arrays import Floats
from draft.paper.pages.many_on_pages import lay_many
from draft.paper.pages.packing_grid import PackingGrid, Place
from draft.paper.pages.packing_rules import TAPED, Packing, Rules

MANY = 16
"""More pieces are laid by columns: tables of all that touches would take minutes."""
LARGE = 12e6
"""So are pieces that fill more square mm of paper together, some 250 pages."""
_ROUNDS, _FOR_EACH = 200, 60
"""How often pieces are taken up at least, and for each piece: of more there are more ways to lie beside one another."""
_SEED = 7


def pack_on_pages(
    pieces: Sequence[Sequence[Floats]], live: tuple[float, float], rules: Rules = TAPED, rounds: int | None = None
) -> Packing:
    """Lay pieces, each by its rings `(n, 2)` in mm, on pages with this printed area in mm. Same input, same packing."""
    rounds = max(_ROUNDS, _FOR_EACH * len(pieces)) if rounds is None else rounds
    return _packed(tuple(tuple(ring.tobytes() for ring in rings) for rings in pieces), live, rules, rounds)


@lru_cache(maxsize=64)
def _packed(written: tuple[tuple[bytes, ...], ...], live: tuple[float, float], rules: Rules, rounds: int) -> Packing:
    """As `pack_on_pages`; the same pieces on the same paper are laid once."""
    pieces = [[np.frombuffer(ring).reshape(-1, 2) for ring in rings] for rings in written]
    if len(pieces) > MANY or _area(pieces) > LARGE:
        whole = tuple(k for k in range(len(pieces)) if rules.is_whole(k))
        turns, columns, rows = lay_many(pieces, live, rules.cell, rules.upright, whole, rules.roll)
        return Packing(tuple(turns), columns, rows)
    chance = random.Random(_SEED)
    grid = PackingGrid(pieces, live, rules)
    order = sorted(range(len(pieces)), key=lambda k: -grid.turned[k][0].area)
    best = grid.fill({}, order, chance)
    while best is None:
        grid = PackingGrid(pieces, live, rules, grid.spare + 1)
        best = grid.fill({}, order, chance)
    state = chance.getstate()
    found = []
    for onwards in (True, False):  # each finds what the other misses, and neither takes long
        chance.setstate(state)
        found.append(_bettered(grid, best, order, chance, rounds if len(pieces) > 1 else 0, onwards))
        if grid.cost(found[-1])[0] <= grid.least and not rules.roll:
            break
    return grid.packing(min(found, key=grid.cost))


def _bettered(
    grid: PackingGrid,
    first: dict[int, Place],
    order: Sequence[int],
    chance: random.Random,
    rounds: int,
    onwards: bool,
) -> dict[int, Place]:
    """The best places found by taking a few pieces up and putting them down again.

    `onwards` it goes on from those that leave a page the emptiest, which is then the nearest to being left out; else
    from the best.
    """
    best = now = first
    least = grid.cost(first)
    emptiest = grid.promise(first, least)
    for _ in range(rounds):
        if least[0] <= grid.least and not grid.rules.roll:
            break  # the area alone fills so many pages
        taken = chance.sample(order, k=min(len(order), chance.choice((1, 2, 2, 3, len(order)))))
        kept = {k: place for k, place in (now if onwards else best).items() if k not in taken}
        tried = grid.fill(kept, [k for k in order if k in taken], chance)
        if tried is None:
            continue
        cost = grid.cost(tried)
        if onwards and (promise := grid.promise(tried, cost)) <= emptiest:
            now, emptiest = tried, promise
        if cost <= least:
            best, least = tried, cost
    return best


def _area(pieces: Sequence[Sequence[Floats]]) -> float:
    """Of the boxes about all pieces, square mm."""
    return float(sum(np.prod(np.ptp(np.concatenate(rings), axis=0)) for rings in pieces))
