"""How much cloth a garment takes, how it is laid on it, and whether it fits on what is there."""

from __future__ import annotations

import math
from typing import Any

from draft.base.notes import stop_if_errors
from draft.cloth.amount import in_metres, in_yards
from draft.cloth.table import common_cloths
from draft.laying.asked import usual_width, washing, widths_asked
from draft.laying.in_booklet import Bolts, cloth_plan
from draft.laying.lay_sizes import picture_file
from draft.page.bench import Asked, Bench, Gave
from draft.page.request_asked import list_of, paper_asked
from draft.page.sewing.garment_at_hand import drafted_asked, words_asked
from draft.page.sewing.stash_told import stash_told
from draft.paper.booklet import ClothAmounts, TooWide
from draft.paper.drawing.sold import as_sold
from draft.paper.drawing.wording import Wording, capitalised


def amount(asked: Asked, bench: Bench) -> Gave:
    """`amounts` a cloth and size, `layouts` as SVG, what is `too_wide`, and whether it fits on what they `have`."""
    drafted = drafted_asked(asked, bench)
    stop_if_errors(drafted.notes)
    wording, paper = words_asked(asked, drafted.planned, bench), paper_asked(asked)
    garment = drafted.to_cut
    known = {cloth.name: cloth.known for cloth in garment.cloths} or {"": garment.cloth}
    widths = widths_asked(paper.cloth or (), list(known), "width")
    each = {name: widths.get(name) or [usual_width(figures)] for name, figures in known.items()}
    plan = cloth_plan(garment, each, Bolts(washing(drafted), paper.one_way), wording)
    said: Gave = {
        "amounts": [_amount(one, garment.sizes, wording) for one in plan.amounts],
        "layouts": [picture_file(picture, wording).decode() for picture in plan.lays],
        "too_wide": [_too_wide(one, wording) for one in plan.too_wide],
        "have": [],
    }
    have = list_of(asked, "have")
    if have:
        first = next(iter(each.values()))[0]
        take = washing(drafted)
        across, down = (max(take.get(f"shrinkage_{way}", 0.0), 0.0) for way in ("across", "down"))
        (cloth,) = common_cloths([first], across, down, paper.one_way)
        said["have"], pictures = stash_told(garment, have, cloth, wording)
        said["layouts"] += pictures
    return said


def _amount(one: ClothAmounts, sizes: tuple[str, ...], wording: Wording) -> dict[str, Any]:
    known = zip(sizes, one.lengths, strict=True)
    return {
        "cloth": capitalised(wording.named(one.name)) if one.name else "",
        "width": as_sold(one.width, wording),
        "laid": one.laid,
        "lengths": {size: _bought(length, wording) for size, length in known if math.isfinite(length)},
    }


def _bought(length: float, wording: Wording) -> str:
    """`1.45 m`, `1 5/8 yd`: as a shop cuts it."""
    return in_yards(length) if wording.units == "in" else in_metres(length).replace(".", wording.say("units.decimal"))


def _too_wide(one: TooWide, wording: Wording) -> dict[str, Any]:
    return {
        "width": wording.length(one.width),
        "sizes": list(one.sizes),
        "piece": wording.named(one.piece),
        "least": as_sold(one.least, wording),
    }
