"""How much cloth a pack tells of, and which style would make a piece narrow enough where cloth is too narrow for it."""

from __future__ import annotations

from dataclasses import replace

from draft.base.naming import and_list
from draft.base.notes import Note, caution
from draft.base.units import in_centimetres
from draft.cloth.bolt import width_words
from draft.drafting.drafting import Drafted
from draft.laying.asked import usual_width, washing, widths_asked
from draft.laying.in_booklet import Bolts, cloth_plan
from draft.pack.narrower import narrower_styles
from draft.pack.paper_request import PaperRequest
from draft.paper.booklet import ClothPlan, TooWide
from draft.paper.drawing.wording import Wording


def cloth_for(drafted: Drafted, paper: PaperRequest, wording: Wording) -> ClothPlan | None:
    """How much cloth is needed, of the widths that were given, or else of the usual one."""
    if paper.cloth is not None and not paper.cloth:
        return None
    garment = drafted.to_cut
    known = {cloth.name: cloth.known for cloth in garment.cloths} or {"": garment.cloth}
    asked = widths_asked(paper.cloth or (), list(known), "--cloth")
    widths = {name: asked.get(name) or [usual_width(figures)] for name, figures in known.items()}
    plan = cloth_plan(garment, widths, Bolts(washing(drafted), paper.one_way, paper.selvedge, paper.repeat), wording)
    return replace(plan, too_wide=tuple(replace(one, narrower=narrower_styles(drafted, one)) for one in plan.too_wide))


def told_too_wide(found: TooWide) -> Note:
    """A caution for sizes that a cloth does not hold, with what would."""
    of = f"`{found.name}` " if found.name else ""
    fact = f"{of}cloth {width_words(found.width)} wide does not hold {and_list(found.sizes)}: `{found.piece}` is "
    wide = f"take cloth at least {width_words(found.least)} wide, or set a seam in the middle of the piece"
    styles = [f"or choose a narrower style: it fits with `--style {style}`" for style in found.narrower]
    return caution(f"{fact}{in_centimetres(found.wide)} wide", None, wide, *styles)
