"""A garment whose left and right were drafted apart, put together to be cut: what differs is cut once for each side.

A half on the fold is opened out, each half from its own side; of what is cut as a pair each side has its own piece.
What is alike on both sides, to a cutter's eye, stays as it is for one body, and what goes round the body in one piece,
such as a band, is between the two.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any, Literal

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Span
from draft.base.record import dataclass
from draft.bodies.left_right import SIDES
from draft.garment.garment import CutAs, Garment, Piece
from draft.garment.opened_out import opened
from draft.garment.reflected import about, reflected, run_back
from draft.garment.some_bodies import of_bodies
from draft.seams.handed import LEFT, handed
from draft.seams.joins_in_order import edge_letters

ALIKE = 0.5
"""mm within which two sides are cut alike: what a seam may be off by."""


@dataclass(frozen=True, eq=False)
class Apart:
    """Both sides of one body: `halves` with the bodies `left` and `right`, and what is `cut` of them, for one body.

    `opened` are the pieces, as they are drafted, that are cut whole and once; `parted` are those cut for each side.
    """

    halves: Garment
    cut: Garment
    opened: tuple[str, ...]
    parted: tuple[str, ...]
    between: tuple[str, ...] = ()
    """Those that go round the body, or are of one side alone."""


def put_together(alike: Garment, halves: Garment) -> Apart:
    """What is cut for a body of which `halves` has both sides, and `alike` one body between them."""
    sides = [of_bodies(halves, np.array([k])) for k in range(2)]
    hands, letters = handed(alike), edge_letters(alike)
    made, marked = list[Piece](), dict[tuple[str, str], str]()
    how: dict[How, list[str]] = {"opened": [], "parted": [], "between": []}
    for piece in alike.pieces:
        one, other = (side.piece(piece.name) for side in sides)
        new: tuple[Piece, ...] = (piece,)
        if not _same(one, other):
            done, new = _apart(piece, one, other, hands[piece.name])
            how[done].append(piece.name)
        made += new
        marked |= {(each.name, edge): said for each in new for edge, said in _letters(piece, each, letters)}
    cut = replace(alike, pieces=tuple(made), joins=(), patches=(), letters=marked)
    return Apart(halves, cut, *(tuple(how[done]) for done in ("opened", "parted", "between")))


How = Literal["opened", "parted", "between"]


def _apart(piece: Piece, left: Piece, right: Piece, hand: int) -> tuple[How, tuple[Piece, ...]]:
    """What is cut in place of a piece of which both sides differ."""
    folds = sum(edge.on_fold for edge in piece.edges)
    if folds == 1:
        near, far = (left, right) if hand == LEFT else (right, left)
        return "opened", (_cut_once(opened(near, far, *(SIDES if hand == LEFT else SIDES[::-1])), halved=False),)
    if not folds and _in_two(piece):
        return "parted", (_for_side(left, "left", hand), _for_side(right, "right", hand))
    words = piece.name.split("_")
    of_its_side = left if "left" in words else right if "right" in words else _between(left, right)
    return "between", (of_its_side,)


def _letters(drafted: Piece, made: Piece, letters: Mapping[tuple[str, str], str]) -> Iterator[tuple[str, str]]:
    for edge in made.edges:
        for name in (edge.name, edge.whole):
            if (drafted.name, name) in letters:
                yield edge.name, letters[drafted.name, name]
                break


def _same(one: Any, other: Any) -> bool:
    return all(
        a.shape == b.shape and bool(np.all((np.abs(a - b) <= ALIKE) | (np.isnan(a) & np.isnan(b))))
        for a, b in zip(_arrays(one), _arrays(other), strict=True)
    )


def _arrays(part: Any) -> Iterator[Floats]:
    if isinstance(part, np.ndarray):
        yield part
    elif isinstance(part, tuple):
        for inner in part:
            yield from _arrays(inner)
    elif is_dataclass(part) and not isinstance(part, type | Span):
        for inner in fields(part):
            yield from _arrays(getattr(part, inner.name))


def _between(one: Any, other: Any) -> Any:
    """A record with the means of both of its arrays."""
    if isinstance(one, np.ndarray):
        return (one + other) / 2 if one.shape == other.shape else one
    if isinstance(one, tuple):
        return tuple(map(_between, one, other))
    if not is_dataclass(one) or isinstance(one, type | Span):
        return one
    return replace(one, **{f.name: _between(getattr(one, f.name), getattr(other, f.name)) for f in fields(one)})


def _in_two(piece: Piece) -> bool:
    return piece.cut > 0 and all(cut.count % 2 == 0 for cut in piece.all_cuts)


def _for_side(piece: Piece, side: str, hand: int) -> Piece:
    """The piece for one side as it lies on the cloth, right side up: turned over where it was drawn for the other."""
    if (side == SIDES[0]) != (hand == LEFT):
        piece = run_back(reflected(piece, *about(np.zeros(2), np.array([0.0, 1.0]))))
    mine = replace(piece, name=f"{piece.name}_{side}", printed=f"{piece.title}, {side}")
    return _cut_once(mine, halved=True)


def _cut_once(piece: Piece, halved: bool) -> Piece:
    """Cut with its right side up; where it has an outside and an inside, one of each and the inside turned over."""
    share = 2 if halved else 1
    cuts = tuple(replace(cut, count=cut.count // share) for cut in piece.cuts)
    of = {cut.cloth: sum(other.count for other in cuts if other.cloth == cut.cloth) for cut in cuts}
    cuts = tuple(replace(cut, cut_as=_as(of[cut.cloth])) for cut in cuts)
    count = piece.cut // share
    return replace(piece, cut=count, cut_as=_as(count), cuts=cuts)


def _as(count: int) -> CutAs:
    return "as a pair" if count > 1 and count % 2 == 0 else "right side up"
