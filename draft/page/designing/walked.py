"""A join walked: its two sides laid along one another, each edge as long as it is sewn, with all that they match at."""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.notes import Problems, error
from draft.checks.seam_lengths import fits
from draft.drafting.drafting import Drafted
from draft.garment.garment import Garment, Join
from draft.page.bench import Asked, Bench, Gave
from draft.page.designing.at_hand import at_hand
from draft.page.designing.browser_offsets import Lines
from draft.page.designing.path_data import shown
from draft.seams.sections import matches
from draft.seams.sharing import both_sides
from draft.seams.sides import Side
from draft.seams.walk import Walked


def walk(asked: Asked, bench: Bench) -> Gave:
    """The `join` of a name: its `first` and `second` side as edges with their sewn lengths in each size, and `matches`.

    `difference` is by how much the first is longer than it should be, mm; `wanted` what it should be. Raises `Problems`
    where there is no such join.
    """
    drafted = at_hand(asked, bench).drafted
    name = asked.get("join")
    join = next((join for join in drafted.garment.joins if join.name == name), None)
    if join is None:
        raise Problems([error("there is no such join in this pattern", None, "choose one of those that are listed")])
    return walk_of(drafted, join)


def walk_of(drafted: Drafted, join: Join) -> Gave:
    """What `walk` gives of one join."""
    garment = drafted.garment
    first, second = both_sides(garment, join)
    walked = Walked(join, first.whole / first.copies, second.whole / first.copies)
    assert drafted.planned
    return {
        "name": join.name,
        "at": Lines(drafted.planned.texts.main.span.source).of(join.span),
        "fit": join.fit,
        "first": _side(first),
        "second": _side(second),
        "times": round(second.copies / first.copies, 4),
        "lengths": [shown(walked.first), shown(walked.second)],
        "wanted": shown(np.broadcast_to(walked.wanted, walked.first.shape)),
        "difference": shown(walked.difference),
        "fits": bool(fits(walked)),
        "matches": _matches(garment, join),
    }


def _side(side: Side) -> list[dict[str, Any]]:
    return [
        {
            "piece": each.piece.name,
            "edge": each.edge.name,
            "whole": each.edge.whole or each.edge.name,
            "reverse": each.part.reverse,
            "length": shown(each.length),
        }
        for each in side.edges
    ]


def _matches(garment: Garment, join: Join) -> list[dict[str, Any]]:
    found = [match for match in matches(garment, join) if match.is_notch]
    return [{"what": match.what, "first": shown(match.first), "second": shown(match.second)} for match in found]
