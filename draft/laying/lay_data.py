"""Lays as data: what each size needs of each cloth, and whether it fits on what is there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from draft.base.as_data import Data, mm, percent_of
from draft.cloth.amount import EIGHTH_YARD, FIVE_CENTIMETRES, rounded_up
from draft.cloth.bolt import Cloth
from draft.cloth.lay import Folding, Lay
from draft.cloth.needs import ClothNeed
from draft.cloth.remnant import StashFit


def cloth_data(cloth: Cloth) -> Data:
    """A cloth and what is allowed for."""
    return {
        "width_mm": mm(cloth.width),
        "shrinks_across_percent": percent_of(cloth.shrink_across),
        "shrinks_down_percent": percent_of(cloth.shrink_down),
        "one_way": cloth.one_way,
        "kept_free_at_each_end_mm": mm(cloth.ends),
        "kept_free_along_each_selvedge_mm": mm(cloth.selvedge),
        "repeat_across_mm": mm(cloth.repeat_across) or None,
        "repeat_along_mm": mm(cloth.repeat_along) or None,
    }


def needs_data(
    rows: Sequence[Sequence[ClothNeed]], lengths: Mapping[str, Mapping[Folding, Lay | None]] | None = None
) -> list[Data]:
    """A row for each cloth, with what each size needs of it."""
    return [{"cloth": cloth_data(row[0].cloth), "sizes": [_need(need, lengths) for need in row]} for row in rows]


def _need(need: ClothNeed, lengths: Mapping[str, Mapping[Folding, Lay | None]] | None) -> Data:
    tried = (lengths or {}).get(need.size, {})
    return {
        "size": need.size,
        "folding": need.lay.folding,
        "length_mm": mm(need.length),
        "lengths_by_folding_mm": {folding: mm(lay.length) if lay else None for folding, lay in tried.items()},
        "used_percent": percent_of(need.lay.used),
        "to_buy_mm": mm(rounded_up(need.bought, FIVE_CENTIMETRES)),
        "to_buy_yards": round(rounded_up(need.bought, EIGHTH_YARD) / 914.4, 3),
        "as_the_size_before": need.as_smaller,
        "stopped": need.lay.stopped,
    }


def stash_data(size: str, answer: StashFit) -> Data:
    """Whether a size fits on what is there, and what is missing."""
    return {
        "size": size or None,
        "fits": answer.fits,
        "folding": answer.lay.folding if answer.lay and answer.fits else None,
        "missing_mm": mm(answer.missing) if answer.missing else None,
        "left_over": [
            {"piece": one.name, "length_mm": mm(one.height), "width_mm": mm(one.width)} for one in answer.left_over
        ],
    }
