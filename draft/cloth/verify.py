"""The check that stands between a lay and its figures: it knows nothing of how the lay was found.

Every piece is taken to the opened cloth, and shapely says whether any two share cloth, whether all lie within it, and
whether each is there as often, and of the hand, as it must be cut.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from draft.cloth.cut_pieces import CutPiece
from draft.cloth.lay import Copy, Lay
from draft.cloth.repeats import NEAR, off_repeat

DEEP = 0.01
"""Two pieces may share a strip of cloth so many mm wide, or stand out over its side: a fortieth of a drawn line."""


def faults(lay: Lay, cut_pieces: Sequence[CutPiece], cloth: Any = None) -> list[str]:
    """What is wrong with a lay of these cut pieces, one sentence each; nothing if it can be cut.

    `cloth` is a shapely outline for a remnant; otherwise the cloth is the lay's own rectangle.
    """
    import shapely

    copies = lay.copies()
    whole = shapely.box(0.0, 0.0, lay.width, lay.length) if cloth is None else cloth
    shapes = [shapely.Polygon(copy.ring) for copy in copies]
    shared = _sharing(copies, shapes)
    return [*_outside(copies, shapes, whole), *shared, *_counts(copies, cut_pieces), *_tilted(copies), *_off(copies)]


def stop_if_faulty(lay: Lay, cut_pieces: Sequence[CutPiece], cloth: Any = None) -> Lay:
    """The lay, if it can be cut. Raises RuntimeError otherwise: that is a fault of the program."""
    found = faults(lay, cut_pieces, cloth)
    if found:
        raise RuntimeError(f"a lay that cannot be cut was found ({found[0]}): this is a fault of the program")
    return lay


def _outside(copies: Sequence[Copy], shapes: Sequence[Any], cloth: Any) -> list[str]:
    import shapely

    room = cloth.buffer(DEEP, join_style="mitre")
    inside = shapely.covers(room, shapes)
    return [f"{copy.cut_piece} leaves the cloth" for copy, there in zip(copies, inside, strict=True) if not there]


def _sharing(copies: Sequence[Copy], shapes: Sequence[Any]) -> list[str]:
    import shapely

    cores = shapely.buffer(shapes, -DEEP / 2)
    near = shapely.STRtree(cores).query(cores, predicate="intersects")
    pairs = sorted((int(a), int(b)) for a, b in near.T if a < b)
    return [f"{copies[a].cut_piece} and {copies[b].cut_piece} overlap" for a, b in pairs]


def _counts(copies: Sequence[Copy], cut_pieces: Sequence[CutPiece]) -> list[str]:
    there = Counter(
        (c.cut_piece.number, c.cut_piece.size, c.move.face_down and c.cut_piece.fold is None) for c in copies
    )
    wrong = []
    for cut_piece in cut_pieces:
        face_up, face_down = (there[cut_piece.number, cut_piece.size, hand] for hand in (False, True))
        if face_up < cut_piece.count - cut_piece.mirrored or face_down < cut_piece.mirrored:
            wrong.append(f"{cut_piece} is there {face_up} + {face_down} times")
    return wrong


def _tilted(copies: Sequence[Copy]) -> list[str]:
    """A move can only mirror and shift, so a grain stays upright while its signs are 1 or -1."""
    upright = (-1, 1)
    return [f"{c.cut_piece} is tilted" for c in copies if c.move.across not in upright or c.move.along not in upright]


def _off(copies: Sequence[Copy]) -> list[str]:
    return [f"{c.cut_piece} is off the lines of the cloth" for c in copies if off_repeat(c) > NEAR]
