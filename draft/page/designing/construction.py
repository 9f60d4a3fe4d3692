"""How a sheet came about: lines and points that are no outline, and the paper as it was before it was moved."""

from __future__ import annotations

from typing import Any

from draft.answers.as_drafted import is_whole, sheet_of
from draft.drafting.drafting import Drafted
from draft.page.bench import Asked, Bench, Gave
from draft.page.designing.at_hand import at_hand
from draft.page.designing.path_data import path_data, shown
from draft.paper.pictures.working_drawing import WorkingSheet


def construction(asked: Asked, bench: Bench) -> Gave:
    """Of each block and piece in the `size` asked for: `lines` with their names, what was there `before`, `points`.

    `block` says that it is drawn and not cut; then its own `edges` are there too.
    """
    drafted = at_hand(asked, bench).drafted
    body = body_asked(asked, drafted)
    blocks = {block.name for block in drafted.plan.blocks}
    sheets = [
        _sheet(sheet_of(drafted, piece, body), piece.name in blocks)
        for piece in (*drafted.plan.blocks, *drafted.plan.pieces)
        if is_whole(drafted, piece, body)
    ]
    return {"sheets": sheets}


def body_asked(asked: Asked, drafted: Drafted) -> int:
    """The number of the size that is asked for; that of the middle one where it is none of them."""
    names = drafted.garment.sizes
    size = asked.get("size")
    return names.index(size) if size in names else len(names) // 2


def _sheet(sheet: WorkingSheet, is_block: bool) -> dict[str, Any]:
    said: dict[str, Any] = {
        "name": sheet.name,
        "title": sheet.title,
        "block": is_block,
        "lines": [{"name": name, "d": path_data(run)} for name, run in sheet.lines],
        "before": [path_data(run) for run in sheet.before],
    }
    if is_block:
        said["edges"] = [{"name": name, "d": path_data(run)} for name, run in sheet.edges]
        said["points"] = [{"name": name, "at": shown(at * [1, -1])} for name, at in sheet.points]
    return said
