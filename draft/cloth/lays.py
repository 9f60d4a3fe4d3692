"""The three lays: open cloth, one fold down the middle, two folds with the selvedges to the middle. All are tried."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import islice, product

import numpy as np

from draft.cloth.batches import Batch, Shape, Shelf, folded_batches, open_batches
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import CutPiece
from draft.cloth.effort import Effort
from draft.cloth.in_chains import laid_in_chains
from draft.cloth.lay import Folding, Lay, Move, Placement, Strip
from draft.cloth.many_pieces import column_step
from draft.cloth.repeats import on_repeat
from draft.cloth.search import BETTER, FEW_PLACES, Put, StripLay
from draft.cloth.shortest import MANY_PLACES, are_many, shortest
from draft.cloth.verify import faults, stop_if_faulty

FOLDINGS: tuple[Folding, ...] = ("one fold", "two folds", "open")
"""In the order in which makers know them: of lays of one length the first is taken."""
_FLAPS = 9
"""Widths tried for the left flap of two folds, from the narrowest that holds its pieces to the widest."""
_PART = 4
"""A strip of two folds is searched for so manieth a part as long as the only strip of another kind."""
_MOST_SHARES = 64
"""Ways tried of sharing the pieces out between two flaps."""
_FEWER_SHARES = 6
"""The same of several pieces."""
_LOOKS = 600
"""How often two folds may be looked into beyond two other kinds of lay, in all shares and widths together."""


def best_lay(
    cut_pieces: Sequence[CutPiece],
    cloth: Cloth,
    effort: Effort,
    shelf: Shelf | None = None,
    best: float = math.inf,
    turning: bool = False,
    foldings: Sequence[Folding] = FOLDINGS,
) -> Lay | None:
    """The shortest of the three lays, if any is shorter than `best` mm. Verified. `turning` as in `lay_as`.

    A search that may last is made short first, in every kind of lay, so that a person who stops it has something.
    """
    shelf = shelf or Shelf()
    found: Lay | None = None
    if are_many(cut_pieces):
        return _best_of_many(cut_pieces, cloth, effort, shelf, best, foldings)
    lasting = sum(cut_piece.count for cut_piece in cut_pieces) > FEW_PLACES and effort.looks > effort.first().looks
    for spent in (effort.first(), effort) if lasting else (effort,):
        for folding in foldings if found is None or not effort.stopped else ():
            found = lay_as(folding, cut_pieces, cloth, spent, shelf, found.length if found else best, turning) or found
    return found


def _best_of_many(
    cut_pieces: Sequence[CutPiece],
    cloth: Cloth,
    effort: Effort,
    shelf: Shelf,
    best: float,
    foldings: Sequence[Folding],
) -> Lay | None:
    """Every kind is laid once, and only those are bettered that come near the shortest."""
    laid = {kind: lay for kind in foldings if (lay := lay_as(kind, cut_pieces, cloth, effort.first(), shelf))}
    found = min(laid.values(), key=lambda lay: lay.length, default=None)
    near = found.length * effort.hopeful if found else 0.0
    for kind in sorted((kind for kind in laid if laid[kind].length <= near), key=lambda kind: laid[kind].length):
        assert found
        found = lay_as(kind, cut_pieces, cloth, effort, shelf, found.length) or found
    if found and effort.chains and "open" in foldings and not cloth.repeats:
        found = _in_chains(found, cut_pieces, cloth, effort, shelf, foldings)
    return found if found and found.length < best - BETTER else None


def _in_chains(
    found: Lay,
    cut_pieces: Sequence[CutPiece],
    cloth: Cloth,
    effort: Effort,
    shelf: Shelf,
    foldings: Sequence[Folding],
) -> Lay:
    """The lay, or one that is shorter: open, or of cloth folded once."""
    width = cloth.usable
    chained = laid_in_chains(cut_pieces, width, cloth.one_way, effort, shelf, found.length, foldings)
    for folding, laid in chained:
        strip = Strip(0.0, width) if folding == "open" else Strip(0.0, width / 2, fold=width / 2)
        lay = lay_of(folding, width, [(strip, laid)], effort)
        found = found if faults(lay, cut_pieces) else lay
    return found


def lay_as(
    folding: Folding,
    cut_pieces: Sequence[CutPiece],
    cloth: Cloth,
    effort: Effort,
    shelf: Shelf,
    best: float = math.inf,
    turning: bool = False,
) -> Lay | None:
    """The shortest lay of one kind that was found, if it is shorter than `best` mm. Verified.

    Cloth without a direction takes what one-way cloth would, if nothing shorter is found: turning is never worse.
    With `turning` that has been tried already, and is not tried again. What was found is kept, for who asks for any.
    Checks lie on open cloth alone: its two layers cannot be seen at once.
    """
    if cloth.repeat_across and folding != "open":
        return None
    cut_pieces = on_repeat(cut_pieces, cloth, shelf)
    known: list[Lay] = shelf.known(
        cut_pieces, folding, cloth.usable, cloth.one_way, effort.looks, effort.places, effort.pieces
    )
    if known and not math.isfinite(best):
        return min(known, key=lambda lay: lay.length)
    found = _laid(folding, cut_pieces, cloth, effort, shelf, best, turning)
    known += [found] if found else []
    return found


def _laid(
    folding: Folding,
    cut_pieces: Sequence[CutPiece],
    cloth: Cloth,
    effort: Effort,
    shelf: Shelf,
    best: float,
    turning: bool,
) -> Lay | None:
    make = {"open": _open, "one fold": _one_fold, "two folds": _two_folds}[folding]
    ways = (True,) if cloth.one_way else (False,) if turning else (True, False)
    if are_many(cut_pieces):
        ways, effort = ways[-1:], replace(effort, looks=0)
    found: Lay | None = None
    for one_way in ways:
        found = make(cut_pieces, cloth.usable, one_way, effort, shelf, found.length if found else best) or found
    return stop_if_faulty(found, cut_pieces) if found else None


def _open(
    cut_pieces: Sequence[CutPiece], width: float, one_way: bool, effort: Effort, shelf: Shelf, best: float
) -> Lay | None:
    strip = Strip(0.0, width)
    found = shortest(
        open_batches(cut_pieces, shelf, one_way), width, column_step(width, cut_pieces), shelf, effort, best
    )
    return lay_of("open", width, [(strip, found)], effort) if found else None


def _one_fold(
    cut_pieces: Sequence[CutPiece], width: float, one_way: bool, effort: Effort, shelf: Shelf, best: float
) -> Lay | None:
    batches = folded_batches(cut_pieces, shelf, one_way, width / 2)
    if batches is None:
        return None
    strip = Strip(0.0, width / 2, fold=width / 2)
    found = shortest(batches, width / 2, column_step(width, cut_pieces), shelf, effort, best)
    return lay_of("one fold", width, [(strip, found)], effort) if found else None


def _two_folds(
    cut_pieces: Sequence[CutPiece], width: float, one_way: bool, effort: Effort, shelf: Shelf, best: float
) -> Lay | None:
    """Two doubled strips beside one another, both as long as the longer."""
    batches, half = folded_batches(cut_pieces, shelf, one_way, width / 2), width / 2
    if batches is None:
        return None
    several = sum(batch.count for batch in batches) > FEW_PLACES
    spent = replace(effort, looks=0) if several else effort  # in so many strips orders of several pieces take minutes
    lay, tried = None, _Tried(batches, column_step(width, cut_pieces), shelf, spent)
    for share, flap in _shared_out(tried, batches, half, several):
        if tried.enough and math.isfinite(best):
            break
        other = _rest(batches, share)
        if max(tried.least(share, flap), tried.least(other, half - flap)) >= best:
            continue
        left = tried.lay(share, flap, best)
        right = tried.lay(other, half - flap, best) if left else None
        if left and right:
            best = max(left.length, right.length)
            first, second = two_flaps(flap, width)
            lay = lay_of("two folds", width, [(first, left), (second, right)], effort)
    return lay


def _shared_out(
    tried: _Tried, batches: Sequence[Batch], half: float, several: bool
) -> Iterator[tuple[Sequence[int], float]]:
    """What the left flap may hold of each batch, and how wide it may then be."""
    for share in islice(_shares(batches), _FEWER_SHARES if several else None):
        low, high = tried.narrowest(share), half - tried.narrowest(_rest(batches, share))
        for flap in _flaps(low, high, sum(share) > MANY_PLACES / 2):
            yield share, float(flap)


def _rest(batches: Sequence[Batch], share: Sequence[int]) -> list[int]:
    return [batch.count - count for batch, count in zip(batches, share, strict=True)]


def _flaps(low: float, high: float, many: bool) -> Sequence[float]:
    """Widths to try for the left flap: of many pieces, shared out evenly, only the one nearest to half of both."""
    if high < low:
        return ()
    if many:
        return (min(max((low + high) / 2, low), high),)
    return tuple(float(flap) for flap in np.linspace(low, high, _FLAPS))


def two_flaps(flap: float, width: float) -> tuple[Strip, Strip]:
    """The strips of cloth `width` mm wide folded from both sides: the left flap is `flap` mm wide, and they meet."""
    rest = width / 2 - flap
    return Strip(0.0, flap, fold=flap), Strip(flap, rest, fold=width - rest, fold_on_right=True)


def strips_of(lay: Lay, width: float) -> tuple[Strip, ...]:
    """The strips of the same kind of lay on cloth `width` mm wide."""
    if lay.folding == "two folds":
        return two_flaps(lay.strips[0].width + (width - lay.width) / 4, width)
    return (Strip(0.0, width),) if lay.folding == "open" else (Strip(0.0, width / 2, fold=width / 2),)


class _Tried:
    """Lays of a share of the batches in strips of several widths: so many that each is searched for a part as long."""

    def __init__(self, batches: Sequence[Batch], step: float, shelf: Shelf, effort: Effort) -> None:
        self._batches, self._step, self._shelf = batches, step, shelf
        self._effort = replace(effort, looks=math.ceil(effort.looks / _PART), pieces=effort.pieces // _FLAPS)
        self._looks = shelf.looked + 2 * effort.looks + _LOOKS

    @property
    def enough(self) -> bool:
        """Whether all lays together have been searched for as long as two of another kind, and some more."""
        return self._shelf.looked >= self._looks

    def narrowest(self, share: Sequence[int]) -> float:
        """The width that a strip must have for its widest piece."""
        used = [batch for batch, count in zip(self._batches, share, strict=True) if count]
        return max((min(shape.width for shape in batch.shapes) for batch in used), default=0.0)

    def least(self, share: Sequence[int], width: float) -> float:
        """The length that a strip must have for the areas alone."""
        return sum(batch.area * count for batch, count in zip(self._batches, share, strict=True)) / width

    def lay(self, share: Sequence[int], width: float, best: float) -> StripLay | None:
        """The shortest lay of so many of each batch, if shorter than `best`."""
        batches = [Batch(batch.shapes, count) for batch, count in zip(self._batches, share, strict=True)]
        return shortest(batches, width, self._step, self._shelf, self._effort, best)


def _shares(batches: Sequence[Batch]) -> Iterator[tuple[int, ...]]:
    """Ways of sharing the batches out, each only once though the flaps may be exchanged; the evenest areas first."""
    whole = tuple(batch.count for batch in batches)
    most = math.prod(count + 1 for count in whole)
    if most > 4096:
        yield _even_share(batches)
        return
    shares = [s for s in product(*(range(count + 1) for count in whole)) if sum(whole) > sum(s) >= sum(whole) / 2]
    total = sum(batch.area * batch.count for batch in batches)
    area = {share: sum(batch.area * count for batch, count in zip(batches, share, strict=True)) for share in shares}
    yield from sorted(shares, key=lambda share: abs(area[share] - total / 2))[:_MOST_SHARES]


def _even_share(batches: Sequence[Batch]) -> tuple[int, ...]:
    """The places, the largest first, each given to the flap that has less; that flap's count of each batch."""
    share, areas = [0] * len(batches), [0.0, 0.0]
    for area, number in sorted(((b.area, k) for k, b in enumerate(batches) for _ in range(b.count)), reverse=True):
        flap = areas.index(min(areas))
        areas[flap] += area
        share[number] += flap == 0
    return tuple(share)


def lay_of(folding: Folding, width: float, found: Sequence[tuple[Strip, StripLay]], effort: Effort) -> Lay:
    """The lay that the lays of strips beside one another make."""
    placements = [_placement(put, number, strip) for number, (strip, laid) in enumerate(found) for put in laid.puts]
    length = max(laid.length for _, laid in found)
    return Lay(folding, width, length, tuple(strip for strip, _ in found), tuple(placements), effort.stopped)


def _placement(put: Put, number: int, strip: Strip) -> Placement:
    shape: Shape = put.shape
    local = Move(shape.across, shape.along, float(shape.offset[0]) + put.x, float(shape.offset[1]) + put.y)
    on_table = Move(-1, 1, strip.left + strip.width, 0.0) if strip.fold_on_right else Move(1, 1, strip.left, 0.0)
    return Placement(shape.cut_piece, number, local.then(on_table), shape.on_fold)
