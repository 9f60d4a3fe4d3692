"""Where pieces are cut, and their notches: drawn after the lines that are sewn, and kept while those stay."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Hashable
from typing import Any

import numpy as np

from draft.garment.as_before import content_of
from draft.garment.garment import Piece
from draft.page.bench import Asked, Bench, Gave
from draft.page.designing.at_hand import at_hand
from draft.page.designing.path_data import path_data
from draft.page.designing.undisturbed import at_rest
from draft.paper.piece.piece_lines import FLIP, Outlines

MOST = 400
"""Pieces in one size whose lines are kept: some eight sizes of ten pieces, in a few states."""


def cutting(asked: Asked, bench: Bench) -> Gave:
    """By the name of each piece its cutting line `cut` and its `notches`, a path for each size; a fold is no cut."""
    at_rest()
    drafted = at_hand(asked, bench).drafted
    good = drafted.outcome.drafted
    kept: OrderedDict[Hashable, dict[str, Any]] = bench.keep(("cut lines",), OrderedDict)
    found = {}
    for piece in drafted.garment.pieces:
        found[piece.name] = _kept(piece, good, kept)
    return {"pieces": found}


def _kept(piece: Piece, good: Any, kept: OrderedDict[Hashable, dict[str, Any]]) -> dict[str, Any]:
    key = (content_of(piece), good.tobytes())
    if key not in kept:
        kept[key] = _drawn(piece, good)
        while len(kept) > MOST:
            kept.popitem(last=False)
    kept.move_to_end(key)
    return kept[key]


def _drawn(piece: Piece, good: Any) -> dict[str, Any]:
    outlines = [Outlines.named("", piece, body) if good[body] else None for body in range(len(good))]
    return {"cut": [_cut(one) if one else "" for one in outlines], "notches": [_notches(one) for one in outlines]}


def _cut(one: Outlines) -> str:
    return "".join(path_data(line * FLIP) for _, line in one.cutting_edges)


def _notches(one: Outlines | None) -> list[str]:
    """The strokes of each of the piece's notches, in their order; an empty text for one that the size lacks."""
    if one is None:
        return []
    strokes = dict(one.notch_strokes)
    numbers = range(len(one.piece.notches))
    return ["".join(path_data(np.asarray(run)) for run in strokes[k]) if k in strokes else "" for k in numbers]
