"""Whether it fits on the cloth that is there, said in the words of a form."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from draft.base.notes import Problems
from draft.cloth.bolt import Cloth
from draft.cloth.effort import effort
from draft.cloth.needs import Size
from draft.cloth.remnant import StashFit, read_rectangle
from draft.garment.garment import Garment
from draft.laying.lay_sizes import sizes_of
from draft.laying.stash import on_stash
from draft.paper.drawing.wording import Wording


def stash_told(
    garment: Garment, have: Sequence[str], cloth: Cloth, wording: Wording
) -> tuple[list[dict[str, Any]], list[str]]:
    """Of each size whether it `fits` and what is `said`, and the layouts as SVG; what is no cloth is said too."""
    try:
        rectangles = [read_rectangle(each) for each in have]
    except Problems:
        return [{"fits": False, "said": wording.say("screen.have_unread")}], []
    narrowest = min(width for _, width in rectangles)
    told, layouts = [], []
    for size in sizes_of(garment):
        said = ""
        try:
            answer, picture = on_stash(garment, size, have, cloth, effort("quick"))
        except Problems:
            said, answer, picture = _too_narrow(size, narrowest, wording), StashFit(False, None), None
        who = f"{size.name}: " if len(garment.sizes) > 1 else ""
        told.append({"fits": answer.fits, "said": who + (said or _said(answer, cloth, wording))})
        layouts += [picture.decode()] if picture else []
    return told, layouts


def _said(answer: StashFit, cloth: Cloth, wording: Wording) -> str:
    if answer.fits:
        return wording.say("screen.have_fits", ends=wording.length(cloth.ends))
    if answer.left_over:
        pieces = dict.fromkeys(wording.named(piece.name) for piece in answer.left_over)
        return wording.say("screen.have_no_place", pieces=wording.listed(list(pieces)))
    if answer.lay is None:
        return wording.say("screen.have_not_together")
    return wording.say("screen.have_short", missing=wording.length(answer.missing))


def _too_narrow(size: Size, width: float, wording: Wording) -> str:
    widest = max(size.cut_pieces, key=lambda piece: piece.width)
    if widest.width <= width:
        return wording.say("screen.have_unread")
    least = wording.length(widest.width)
    return wording.say("screen.have_narrow", piece=wording.named(widest.name), least=least)
