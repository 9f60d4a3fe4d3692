"""An open lay of which one half mirrors the other: half as many places to find, on half of the cloth.

Most of a garment is cut in twos, a left and a right. A search that finds a place for one of each on half the width,
and lays the other where the middle of the cloth mirrors it, has so much less to try that it finds a shorter lay in the
same seconds. What has no twin, or is wider than half of the cloth, is left to be laid beside the others.
"""

from __future__ import annotations

from collections.abc import Sequence

from draft.base.record import dataclass
from draft.cloth.batches import Batch, Shelf, open_batches
from draft.cloth.cut_pieces import CutPiece
from draft.cloth.search import Put

_MOST_LEFT = 0.1
"""Where more than this share of the area has no twin, what is laid beside the others costs more than is won."""


@dataclass(frozen=True)
class Twins:
    """What is to be laid on the left half of the cloth, and what is left."""

    batches: tuple[Batch, ...]
    left: tuple[Batch, ...]


def twins_of(cut_pieces: Sequence[CutPiece], shelf: Shelf, one_way: bool, width: float) -> Twins | None:
    """The twins among cut pieces on single cloth `width` mm wide; None where too much has none."""
    twins, left = list[Batch](), list[Batch]()
    for cut_piece in cut_pieces:
        pairs = _pairs(cut_piece) if cut_piece.width <= width / 2 else 0
        used = (pairs, pairs) if cut_piece.fold is None else (2 * pairs, 0)
        batches = open_batches([cut_piece], shelf, one_way)
        twins += [Batch(batches[0].shapes, pairs)] if pairs else []
        rest = [Batch(batch.shapes, batch.count - taken) for batch, taken in zip(batches, used, strict=False)]
        left += [batch for batch in rest if batch.count]
    most = _MOST_LEFT * sum(cut_piece.area * cut_piece.count for cut_piece in cut_pieces)
    if not twins or sum(batch.area * batch.count for batch in left) > most:
        return None
    return Twins(tuple(twins), tuple(left))


def opened(puts: Sequence[Put], width: float, shelf: Shelf) -> list[Put]:
    """The pieces of the left half, and those that mirror them on cloth `width` mm wide; shapes are this shelf's."""
    found: list[Put] = []
    for put in puts:
        own = put.shape
        hand = 1 if own.cut_piece.fold is not None else -1  # of an outline that mirrors itself both lie face up
        twin = shelf.shape(own.cut_piece, hand * own.across, own.along)
        x = width - put.x - float(own.high[0]) - float(twin.low[0])
        found += [put, Put(put.batch, twin, x, put.y + float(own.low[1] - twin.low[1]))]
    return found


def _pairs(cut_piece: CutPiece) -> int:
    """How many places are found for two at once: a left and a right, or two of an outline that mirrors itself."""
    if cut_piece.fold is not None:
        return cut_piece.count // 2
    return min(cut_piece.mirrored, cut_piece.count - cut_piece.mirrored)
