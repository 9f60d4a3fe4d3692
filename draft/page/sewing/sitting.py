"""How it sits: the room at each level, what that means, what the cloth must do, what was estimated, which size fits."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.answers.fit import fit_files
from draft.answers.size import Sized, size_for
from draft.base.naming import plain
from draft.base.notes import Problems
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request
from draft.fit.levels import closeness, levels, over
from draft.fit.stretch import least, needed_stretches
from draft.page.bench import Asked, Bench, Gave
from draft.page.request_asked import request_asked
from draft.page.sewing.garment_at_hand import drafted_for, words_asked
from draft.page.sewing.in_plain_words import measure_called, measure_said
from draft.paper.drawing.wording import Wording, capitalised

_SEEN = 0.005
_CLOSENESS = {"close fitting": "close", "semi-fitted": "semi", "loose": "loose"}


def sit(asked: Asked, bench: Bench) -> Gave:
    """Of a person: `levels`, `stretch`, `estimates`, her `picture` beside the garment, and the `size` to cut; of sizes
    of a chart the levels of each."""
    request = request_asked(asked, bench)
    drafted = drafted_for(request, bench)
    wording = words_asked(asked, drafted.planned, bench)
    said: Gave = {
        "sizes": list(drafted.garment.sizes),
        "levels": _levels(drafted, wording),
        "stretch": _stretch(drafted, wording),
        "estimates": _estimates(drafted, wording),
    }
    if request.whom.is_person or len(drafted.garment.sizes) == 1:
        said["picture"] = next(iter(fit_files(drafted, wording).values())).decode()
    if request.whom.is_person:
        said["size"] = _size(request, wording)
    return said


def _levels(drafted: Drafted, wording: Wording) -> list[dict[str, Any]]:
    """Each girth that is worn over something: of each size the body, the garment, the room and a word for it."""
    return [
        {
            "title": capitalised(wording.named(plain(one.name))),
            "rows": [
                {
                    "body": wording.length(float(body)),
                    "garment": wording.length(float(mine)),
                    "room": wording.length(float(mine - body)),
                    "how": wording.say(f"screen.fits_{_CLOSENESS[closeness(float(mine - body), float(body))]}"),
                }
                for body, mine in zip(over(one), one.values, strict=True)
            ],
        }
        for one in levels(drafted.garment)
    ]


def _stretch(drafted: Drafted, wording: Wording) -> list[dict[str, str]]:
    """What of each way the cloth must give, and of what it has: nothing where nothing asks for any."""
    found = needed_stretches(drafted.garment)
    said = []
    for way, asked in zip(("across", "down"), least(drafted.garment, found), strict=True):
        share = float(np.max(asked.share))
        if share > _SEEN:
            has = drafted.garment.cloth.get(f"stretch_{way}")
            said.append(
                {
                    "way": way,
                    "needs": wording.percent(np.ceil(share * 100 - 1e-9) / 100),
                    "has": "" if has is None else wording.percent(float(has)),
                    "short": "" if has is None or has + _SEEN >= share else "yes",
                }
            )
    return said


def _estimates(drafted: Drafted, wording: Wording) -> list[dict[str, str]]:
    """What was not measured, and how far off it may be."""
    return [
        {
            "name": one.name,
            "title": capitalised(measure_called(one.name, wording)),
            "value": measure_said(float(one.values[0]), one.kind, wording),
            "spread": "" if one.spread is None else measure_said(float(one.spread[0]), one.kind, wording),
            "said": one.said,
        }
        for one in drafted.told_estimates
    ]


def _size(request: Request, wording: Wording) -> dict[str, Any] | None:
    """Which size of the chart would do instead, by the levels of which enough is known; None where none can be told."""
    try:
        sized = size_for(request)
    except Problems:
        return None
    return {"sizes": list(sized.sizes.garment.sizes), **_advice(sized, wording)}


def _advice(sized: Sized, wording: Wording) -> dict[str, Any]:
    """The size to cut by the frame, and where to go over to another: `cut` is empty where none is large enough."""
    fit, names = sized.by_sure, sized.sizes.garment.sizes
    cut = int(fit.cut[0])
    grading = fit.grading(0) if cut >= 0 else {}
    too_small = cut < 0 or any(size < 0 for size in grading.values())
    at = _by_size(names, {fit.names[level]: size for level, size in grading.items() if size >= 0}, wording)
    return {
        "cut": "" if too_small else names[cut],
        "by": wording.named(plain(fit.names[fit.frame])),
        "grade": at,
        "print": [] if too_small else [names[k] for k in sorted({cut, *grading.values()})],
    }


def _by_size(names: Sequence[str], grading: dict[str, int], wording: Wording) -> list[dict[str, str]]:
    sizes = dict.fromkeys(grading.values())
    return [
        {
            "size": names[size],
            "at": wording.listed([wording.named(plain(level)) for level, other in grading.items() if other == size]),
        }
        for size in sizes
    ]
