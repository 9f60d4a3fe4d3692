"""Two versions of a text over one another: the lines of the other one, and which edges have moved how far."""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.notes import Problems, error
from draft.garment.changes import Changes, changes
from draft.garment.garment import Garment
from draft.page.bench import Asked, Bench, Gave
from draft.page.designing.at_hand import at_hand
from draft.page.designing.path_data import each_path


def compare(asked: Asked, bench: Bench) -> Gave:
    """The `other` text drafted as the `text` is: the paths of its edges by piece in each size, and what has moved.

    Raises `Problems` where either cannot be drafted, or they have other sizes.
    """
    new = at_hand(asked, bench).drafted.garment
    old = at_hand(asked, bench, "other").drafted.garment
    if old.sizes != new.sizes:
        raise Problems([error("the two versions are not of the same sizes", None, "choose one size that both have")])
    found = changes(old, new)
    return {"pieces": _paths(old), "changed": _changed(found, new.sizes), **_only_one(found)}


def _paths(old: Garment) -> dict[str, list[dict[str, Any]]]:
    return {
        piece.name: [{"name": edge.name, "d": each_path(edge.segments)} for edge in piece.edges] for piece in old.pieces
    }


def _changed(found: Changes, sizes: tuple[str, ...]) -> list[dict[str, Any]]:
    rows = []
    for edge in found.changed:
        worst = int(np.argmax(edge.moved))
        rows.append(
            {
                "piece": edge.piece,
                "edge": edge.edge,
                "moved": round(float(edge.moved[worst]), 1),
                "longer": round(float(edge.longer[worst]), 1),
                "size": sizes[worst],
            }
        )
    return sorted(rows, key=lambda row: -row["moved"])


def _only_one(found: Changes) -> dict[str, list[str]]:
    return {
        "new": [*found.new_pieces, *found.new_edges],
        "missing": [*found.missing_pieces, *found.missing_edges],
        "elsewhere": [name for name, _ in found.elsewhere],
    }
