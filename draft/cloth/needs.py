"""What every size needs of every cloth, so that the figures make sense beside one another.

A search may by chance lay a larger size shorter than a smaller one, or find nothing better on wider cloth. So a lay is
handed on to where it holds as well: from narrow cloth to wide, from one-way cloth to cloth that may be turned, and
from one size to its neighbour, laid the same way. What is left, a larger size that still needs less than a smaller one,
is given as much as the smaller: nobody who is between sizes should have to buy again.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from draft.base.notes import Note, Problems, error
from draft.base.plainly import mm, sentence
from draft.base.progress import Progress
from draft.base.record import dataclass
from draft.base.units import in_centimetres
from draft.cloth.amount import EIGHTH_YARD, FIVE_CENTIMETRES, rounded_up
from draft.cloth.batches import Shelf
from draft.cloth.bolt import Cloth, width_words
from draft.cloth.cut_pieces import CutPiece, stop_if_too_many
from draft.cloth.effort import Effort
from draft.cloth.lay import Folding, Lay
from draft.cloth.lays import FOLDINGS, best_lay
from draft.cloth.like import laid_like, widened
from draft.cloth.search import BETTER

SHARED = 0.003
"""A size may take this share more than its own shortest lay if it is then laid as its neighbour is: 4 mm in a top."""


@dataclass(frozen=True)
class ClothNeed:
    """What one size needs of one cloth: its lay, and the `length` in mm given to it, never less than a smaller size."""

    size: str
    cloth: Cloth
    lay: Lay
    length: float

    @property
    def bought(self) -> float:
        """The length to buy, mm, before it is rounded up as shops sell."""
        return self.cloth.bought(self.length)

    @property
    def as_smaller(self) -> bool:
        """Whether it is given more than its own lay takes, because a smaller size needs that."""
        return self.length > self.lay.length + BETTER


@dataclass(frozen=True)
class Size:
    """A size and its cut pieces, with the outlines and regions found for them."""

    name: str
    cut_pieces: tuple[CutPiece, ...]
    shelf: Shelf


def cloth_needs(
    sizes: Sequence[Size],
    cloths: Sequence[Cloth],
    effort: Effort,
    progress: Progress | None = None,
    foldings: Sequence[Folding] = FOLDINGS,
) -> tuple[tuple[ClothNeed, ...], ...]:
    """What each size, the smallest first, needs of each cloth: a row for each cloth, in the order given.

    Raises Problems where a piece is wider than the cloth, there are too many pieces, or none of `foldings` holds them.
    """
    for size in sizes:
        stop_if_too_many(size.cut_pieces)
    stop_if_too_wide([cut_piece for size in sizes for cut_piece in size.cut_pieces], cloths)
    alone = len(sizes) == len(cloths) == 1
    asked = _Asked(sizes, effort, progress or (lambda words: None), foldings, alone)
    done: dict[Cloth, tuple[ClothNeed, ...]] = {}
    for cloth in sorted(cloths, key=lambda cloth: (not cloth.one_way, cloth.usable)):
        done[cloth] = _row(asked, cloth, _known(cloth, done))
    return tuple(done[cloth] for cloth in cloths)


@dataclass(frozen=True)
class _Asked:
    """What is the same for every cloth."""

    sizes: Sequence[Size]
    effort: Effort
    progress: Progress
    foldings: Sequence[Folding]
    alone: bool
    """Whether it is one size on one cloth: then more is asked of the same tables, as for the other kinds of lay."""


def stop_if_too_wide(cut_pieces: Sequence[CutPiece], cloths: Sequence[Cloth]) -> None:
    """Raises Problems that name every cut piece wider than some cloth."""
    notes = []
    narrowest = min(cloths, key=lambda cloth: cloth.usable)
    for cut_piece in cut_pieces:
        if cut_piece.width > narrowest.usable + 0.005:
            room = in_centimetres(narrowest.usable) + (" once washed" if narrowest.shrink_across else "")
            room += " between the selvedges' margins" if narrowest.selvedge else ""
            fact = f"{cut_piece} is {in_centimetres(cut_piece.width)} wide, and the cloth only {room}"
            wide = f"take cloth at least {width_words(narrowest.width_for(cut_piece.width))} wide"
            least = mm(narrowest.width_for(cut_piece.width))
            plainly = sentence("cloth_too_narrow", piece=cut_piece.name, least=least)
            notes.append(error(fact, None, f"{wide}, or set a seam in the middle of the piece", plainly=plainly))
    if notes:
        raise Problems(notes)


def _known(cloth: Cloth, done: dict[Cloth, tuple[ClothNeed, ...]]) -> list[tuple[ClothNeed, ...]]:
    """The needs whose lays hold on this cloth too."""
    if cloth.repeat_across:  # the lines of wider cloth lie elsewhere
        return []
    same = [other for other in done if replace(other, width=cloth.width, one_way=cloth.one_way) == cloth]
    return [done[other] for other in same if other.width <= cloth.width and (other.one_way or not cloth.one_way)]


def _row(asked: _Asked, cloth: Cloth, known: Sequence[tuple[ClothNeed, ...]]) -> tuple[ClothNeed, ...]:
    sizes, turning = asked.sizes, any(row[0].cloth == replace(cloth, one_way=True) for row in known)
    before = [_shortest([row[k].lay for row in known]) for k in range(len(sizes))]
    laid: list[Lay] = []
    for size, handed in zip(sizes, before, strict=True):
        asked.progress(f"{size.name}, {width_words(cloth.width)}")
        limit = handed.length if handed else math.inf
        found = best_lay(
            size.cut_pieces, cloth, asked.effort, size.shelf, limit, turning and not cloth.one_way, asked.foldings
        )
        found = found or (widened(handed, cloth.usable) if handed else None)
        if found is None:
            raise Problems([_no_lay(size, cloth, asked.foldings)])
        laid.append(replace(found, stopped=asked.effort.stopped))
        if not asked.alone:
            size.shelf.forget()
    laid = _shorter_as_larger(sizes, cloth, _as_neighbours(sizes, cloth, laid, before))
    return _never_less(sizes, cloth, laid)


def _shortest(lays: Sequence[Lay]) -> Lay | None:
    return min(lays, key=lambda lay: lay.length, default=None)


def _no_lay(size: Size, cloth: Cloth, foldings: Sequence[Folding]) -> Note:
    widest = max(size.cut_pieces, key=lambda cut_piece: cut_piece.width)
    fact = f"{widest} cannot be laid with {' or '.join(foldings)} on cloth {width_words(cloth.width)} wide"
    plainly = sentence("cloth_too_narrow", piece=widest.name, least=mm(cloth.width_for(widest.width)))
    return error(fact, None, "let all lays be tried, or take wider cloth", plainly=plainly)


def _as_neighbours(sizes: Sequence[Size], cloth: Cloth, laid: Sequence[Lay], before: Sequence[Lay | None]) -> list[Lay]:
    """The lays, with a size laid as the one before it where that costs next to nothing and nothing in the shop."""
    shared = list(laid)
    for k in range(1, len(sizes)):
        handed = before[k]
        limit = min(_same_amount(cloth, laid[k].length), laid[k].length * (1 + SHARED))
        limit = min(limit, handed.length) if handed else limit
        like = laid_like(shared[k - 1], sizes[k].cut_pieces, cloth, sizes[k].shelf, limit + BETTER)
        shared[k] = like or laid[k]
        sizes[k].shelf.forget()
    return shared


def _same_amount(cloth: Cloth, length: float) -> float:
    """The greatest length for which a shop sells the same, by the yard and by the metre."""
    return min(cloth.left(rounded_up(cloth.bought(length), step)) for step in (EIGHTH_YARD, FIVE_CENTIMETRES))


def _shorter_as_larger(sizes: Sequence[Size], cloth: Cloth, laid: list[Lay]) -> list[Lay]:
    """The lays, with a size laid as the next larger one where that was found to be shorter."""
    for k in reversed(range(len(sizes) - 1)):
        if laid[k].length > laid[k + 1].length + BETTER:
            limit = laid[k].length - BETTER
            laid[k] = laid_like(laid[k + 1], sizes[k].cut_pieces, cloth, sizes[k].shelf, limit) or laid[k]
    return laid


def _never_less(sizes: Sequence[Size], cloth: Cloth, laid: Sequence[Lay]) -> tuple[ClothNeed, ...]:
    found, longest = [], 0.0
    for size, lay in zip(sizes, laid, strict=True):
        longest = max(longest, lay.length)
        found.append(ClothNeed(size.name, cloth, lay, longest))
    return tuple(found)
