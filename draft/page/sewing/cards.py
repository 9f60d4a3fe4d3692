"""The shelf: which garments there are, and of each a card with its flat drawing and what its designer says of it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

from draft.drafting.drafting import Drafted, draft_plan
from draft.drafting.request import Request, Whom
from draft.drafting.whom import ONE_SIZE, chart_for, find_bodies, read_sizes
from draft.page.bench import Asked, Bench, Gave
from draft.page.request_asked import garment_asked
from draft.page.sewing.garment_at_hand import planned, words_asked
from draft.page.sewing.shelf_order import GROUPS, KNITS, Group
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.material_section import cloth_asked
from draft.paper.booklet.order import sewing_order
from draft.paper.drawing.svg import svg
from draft.paper.drawing.wording import Wording
from draft.paper.flat import flat_drawing
from draft.plan.library import bundled_files, bundled_patterns


def shelf(_asked: Asked, bench: Bench) -> Gave:
    """The `groups` of garments, for `card`: the file that the page was opened with, then the bundle.

    Of each garment its `name`, what it is `made` as and whether of `knit` cloth; nothing of both of her file.
    """
    own = [{"name": "own", "garments": [{"name": "file", "made": "", "knit": None}]}] if bench.file else []
    there = set(bench.keep("patterns", bundled_patterns))
    return {"groups": [*own, *(_group(group, there) for group in GROUPS)]}


def _group(group: Group, there: set[str]) -> dict[str, Any]:
    garments = [name for name in group.garments if name in there]
    return {
        "name": group.name,
        "garments": [{"name": name, "made": group.made, "knit": name in KNITS} for name in garments],
    }


def card(asked: Asked, bench: Bench) -> Gave:
    """One garment: `title`, `sizes`, `cloth`, its designer's words on `garment` and `skill`, how many `steps` there are
    to sew, its `flat` as SVG."""
    name = garment_asked(asked, bench)
    sizes = sizes_of(name, bench)
    found = planned(Request(name), bench)
    whom = Whom(sizes=(sizes[len(sizes) // 2],))
    drafted = replace(
        draft_plan(found.plan, find_bodies(whom, found.chart, found.plan.measures, found.plan.known)[0]), planned=found
    )
    wording = words_asked(asked, drafted.planned, bench)
    drawing = flat_drawing(drafted.garment, 0, wording=wording)
    return {
        "name": name if name in bundled_files() else "file",
        "title": wording.titled(drafted.garment),
        "sizes": " – ".join(dict.fromkeys((sizes[0], sizes[-1]))),
        "cloth": cloth_asked(BookletFacts(drafted, (0,), wording)),
        "garment": topic(drafted, "garment", wording),
        "skill": topic(drafted, "skill", wording),
        "steps": len(sewing_order(drafted.garment)),
        "flat": svg(drawing) if drawing else "",
    }


def sizes_of(pattern: str, bench: Bench, named: Path | None = None) -> tuple[str, ...]:
    """The names of the sizes of a pattern's usual chart, or of the one that is named."""
    plan = planned(Request(pattern, Whom(chart=named)), bench)
    if plan.chart is None and not plan.plan.measures:
        return (ONE_SIZE,)
    chart = chart_for(plan.request.whom, plan.chart)
    return bench.keep(("sizes", chart), lambda: read_sizes(chart, plan.plan.known).names)


def topic(drafted: Drafted, name: str, wording: Wording) -> str:
    """What the designer says about a topic, as one text."""
    return " ".join(wording.named(text) for text in drafted.plan.booklet.about(name))
