"""The three lays: open cloth, one fold down the middle, two folds with the selvedges to the middle. All are tried."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product

import numpy as np

from draft.cloth.bolt import Cloth
from draft.cloth.effort import Effort
from draft.cloth.layout import Kind, Layout, Move, Spot, Strip
from draft.cloth.parts import Part
from draft.cloth.search import FEW_PLACES, Found, Put, lay
from draft.cloth.shapes import Block, Shape, Shelf, folded_blocks, open_blocks
from draft.cloth.verify import stop_if_faulty

KINDS: tuple[Kind, ...] = ("one fold", "two folds", "open")
"""In the order in which makers know them: of lays of one length the first is taken."""
_FLAPS = 9
"""Widths tried for the left flap of two folds, from the narrowest that holds its pieces to the widest."""
_MOST_SHARES = 64
"""Ways tried of sharing the pieces out between two flaps."""


def best_lay(
    parts: Sequence[Part],
    cloth: Cloth,
    effort: Effort,
    shelf: Shelf | None = None,
    best: float = math.inf,
    turning: bool = False,
    kinds: Sequence[Kind] = KINDS,
) -> Layout | None:
    """The shortest of the three lays, if any is shorter than `best` mm. Verified. `turning` as in `lay_as`.

    A search that may last is made short first, in every kind of lay, so that a person who stops it has something.
    """
    shelf = shelf or Shelf()
    found: Layout | None = None
    lasting = sum(part.count for part in parts) > FEW_PLACES
    for spent in (effort.first(), effort) if lasting else (effort,):
        for kind in kinds if found is None or not effort.stopped else ():
            found = lay_as(kind, parts, cloth, spent, shelf, found.length if found else best, turning) or found
    return found


def lay_as(
    kind: Kind,
    parts: Sequence[Part],
    cloth: Cloth,
    effort: Effort,
    shelf: Shelf,
    best: float = math.inf,
    turning: bool = False,
) -> Layout | None:
    """The shortest lay of one kind that was found, if it is shorter than `best` mm. Verified.

    Cloth without a direction takes what one-way cloth would, if nothing shorter is found: turning is never worse.
    With `turning` that has been tried already, and is not tried again.
    """
    make = {"open": _open, "one fold": _one_fold, "two folds": _two_folds}[kind]
    ways = (True,) if cloth.one_way else (False,) if turning else (True, False)
    found: Layout | None = None
    for one_way in ways:
        found = make(parts, cloth.usable, one_way, effort, shelf, found.length if found else best) or found
    return stop_if_faulty(found, parts) if found else None


def _open(
    parts: Sequence[Part], width: float, one_way: bool, effort: Effort, shelf: Shelf, best: float
) -> Layout | None:
    strip = Strip(0.0, width)
    found = lay(open_blocks(parts, shelf, one_way), width, shelf, effort, best)
    return layout_of("open", width, [(strip, found)], effort) if found else None


def _one_fold(
    parts: Sequence[Part], width: float, one_way: bool, effort: Effort, shelf: Shelf, best: float
) -> Layout | None:
    blocks = folded_blocks(parts, shelf, one_way, width / 2)
    if blocks is None:
        return None
    strip = Strip(0.0, width / 2, fold=width / 2)
    found = lay(blocks, width / 2, shelf, effort, best)
    return layout_of("one fold", width, [(strip, found)], effort) if found else None


def _two_folds(
    parts: Sequence[Part], width: float, one_way: bool, effort: Effort, shelf: Shelf, best: float
) -> Layout | None:
    """Two doubled strips beside one another, both as long as the longer."""
    blocks, half = folded_blocks(parts, shelf, one_way, width / 2), width / 2
    if blocks is None:
        return None
    layout, tried = None, _Tried(blocks, shelf, effort)
    for share in _shares(blocks):
        other = [block.count - count for block, count in zip(blocks, share, strict=True)]
        low, high = tried.narrowest(share), half - tried.narrowest(other)
        for flap in np.linspace(low, high, _FLAPS) if high >= low else ():
            left = tried.lay(share, float(flap), best)
            right = tried.lay(other, half - float(flap), best) if left else None
            if left and right:
                best = max(left.length, right.length)
                first, second = two_flaps(float(flap), width)
                layout = layout_of("two folds", width, [(first, left), (second, right)], effort)
    return layout


def two_flaps(flap: float, width: float) -> tuple[Strip, Strip]:
    """The strips of cloth `width` mm wide folded from both sides: the left flap is `flap` mm wide, and they meet."""
    rest = width / 2 - flap
    return Strip(0.0, flap, fold=flap), Strip(flap, rest, fold=width - rest, fold_on_right=True)


def strips_of(layout: Layout, width: float) -> tuple[Strip, ...]:
    """The strips of the same kind of lay on cloth `width` mm wide."""
    if layout.kind == "two folds":
        return two_flaps(layout.strips[0].width + (width - layout.width) / 4, width)
    return (Strip(0.0, width),) if layout.kind == "open" else (Strip(0.0, width / 2, fold=width / 2),)


class _Tried:
    """Lays of a share of the blocks in strips of several widths."""

    def __init__(self, blocks: Sequence[Block], shelf: Shelf, effort: Effort) -> None:
        self._blocks, self._shelf, self._effort = blocks, shelf, effort

    def narrowest(self, share: Sequence[int]) -> float:
        """The width that a strip must have for its widest piece."""
        used = [block for block, count in zip(self._blocks, share, strict=True) if count]
        return max((min(shape.width for shape in block.shapes) for block in used), default=0.0)

    def lay(self, share: Sequence[int], width: float, best: float) -> Found | None:
        """The shortest lay of so many of each block, if shorter than `best`."""
        blocks = [Block(block.shapes, count) for block, count in zip(self._blocks, share, strict=True)]
        return lay(blocks, width, self._shelf, self._effort, best)


def _shares(blocks: Sequence[Block]) -> Iterator[tuple[int, ...]]:
    """Ways of sharing the blocks out, each only once though the flaps may be exchanged; the evenest areas first."""
    whole = tuple(block.count for block in blocks)
    most = math.prod(count + 1 for count in whole)
    if most > 4096:
        yield tuple(math.ceil(count / 2) for count in whole)
        return
    shares = [s for s in product(*(range(count + 1) for count in whole)) if sum(whole) > sum(s) >= sum(whole) / 2]
    total = sum(block.area * block.count for block in blocks)
    area = {share: sum(block.area * count for block, count in zip(blocks, share, strict=True)) for share in shares}
    yield from sorted(shares, key=lambda share: abs(area[share] - total / 2))[:_MOST_SHARES]


def layout_of(kind: Kind, width: float, found: Sequence[tuple[Strip, Found]], effort: Effort) -> Layout:
    """The layout that lays of strips beside one another make."""
    spots = [_spot(put, number, strip) for number, (strip, laid) in enumerate(found) for put in laid.puts]
    length = max(laid.length for _, laid in found)
    return Layout(kind, width, length, tuple(strip for strip, _ in found), tuple(spots), effort.stopped)


def _spot(put: Put, number: int, strip: Strip) -> Spot:
    shape: Shape = put.shape
    local = Move(shape.across, shape.along, float(shape.offset[0]) + put.x, float(shape.offset[1]) + put.y)
    on_table = Move(-1, 1, strip.left + strip.width, 0.0) if strip.fold_on_right else Move(1, 1, strip.left, 0.0)
    return Spot(shape.part, number, local.then(on_table), shape.on_fold)
