"""Whether sizes that are tried on are hers, as the girths tell: by how much each is off, and which would be hers."""

from __future__ import annotations

from draft.answers.size import Sized, size_for
from draft.base.notes import Problems
from draft.drafting.request import Request
from draft.fit.levels import levels, over
from draft.sitting.size_worn import SizeWorn


def sizes_for(request: Request) -> dict[str, SizeWorn]:
    """Each size of the chart beside one person; nothing where the pattern says of no girth what it is worn over."""
    try:
        found = size_for(request)
    except Problems:  # what decides no size is no mistake here
        return {}
    return {size: _worn(found, row) for row, size in enumerate(found.sizes.garment.sizes)}


def _worn(found: Sized, row: int) -> SizeWorn:
    fit, sizes = found.by_sure, found.sizes.garment
    known = [list(levels(sizes))[k] for k in found.unsure.sure]
    lacks = [float(each.values[row] - over(each)[row]) - float(fit.ease[0, row, k]) for k, each in enumerate(known)]
    cut = int(fit.cut[0])
    small = [k for k in range(len(known)) if not fit.enough[0, row, k]]
    frame = fit.frame
    at = max(small, key=lambda k: lacks[k]) if small else frame
    graded = fit.grading(0) if cut >= 0 else {}
    return SizeWorn(
        sizes.sizes[row],
        fit.names[at],
        lacks[at],
        sizes.sizes[cut] if cut >= 0 else "",
        tuple((fit.names[k], sizes.sizes[size]) for k, size in graded.items() if size >= 0),
        too_small=bool(small),
        too_large=not small and 0 <= cut < row,
    )
