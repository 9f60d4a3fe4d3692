"""Cloth and tools: how much to buy, whether it stretches enough, what to sew with, and what to take care of."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.units import MM_PER_INCH
from draft.fit.stretch import least, needed_stretches
from draft.geometry.cubic import lines_through
from draft.paper.booklet.booklet_page import FULL, MAIN_X, SIDE, STRONG, Block, Book, column, combined, paragraph
from draft.paper.booklet.facts import BookletFacts, ClothAmounts
from draft.paper.booklet.notions_words import is_taped, names_thread, notions_said
from draft.paper.booklet.sizes_section import TableRows
from draft.paper.booklet.topics import told
from draft.paper.booklet.weight import carries
from draft.paper.drawing.drawing import PT, Item, Label, Path, Stroke
from draft.paper.drawing.wording import capitalised

_BAR = Stroke(2.2)
_LINE = Stroke(0.35)
_HIGH = 13.0
_BASES = (4.0, 3.0, 2.0)
"""Inches of cloth that the gauge begins with: four is common practice, less where the page is too short for it."""


def material_section(book: Book, facts: BookletFacts) -> None:
    """The whole section."""
    say = facts.wording.say
    book.section(say("material.title"))
    washing = say("material.unwashed" if facts.drafted.unwashed else "material.wash")
    book.entry("", paragraph(_cloth(facts), STRONG), *told("cloth", facts), *_named(facts), washing)
    _need(book, facts)
    if facts.knit:
        _gauge(book, facts)
    _listed(book, say("material.notions"), _bought(facts))
    _listed(book, say("material.tools"), [facts.said("material.needle"), *_tools(facts)])
    if care := told("care", facts):
        book.entry(say("material.topic_care"), *care)
    book.entry(say("material.care"), say("material.blade"), say("material.heat"))


def _listed(book: Book, title: str, lines: Sequence[str]) -> None:
    book.entry(title, column([paragraph(f"– {line}") for line in lines], gap=0.3))


def _tools(facts: BookletFacts) -> list[str]:
    """Besides the needle: what the steps take into the hand."""
    zips = {opening.use for join in facts.garment.joins for opening in join.openings}
    asked = {
        "twin": facts.knit,
        "hand": not facts.knit,
        "zip_foot": bool(zips & {"lapped zip", "invisible zip"}),
        "zip_foot_invisible": "invisible zip" in zips,
        "clips": True,
        "iron": True,
    }
    return [facts.wording.say(f"material.{key}") for key, is_used in asked.items() if is_used]


def _bought(facts: BookletFacts) -> list[str]:
    """Notions, with thread, and what carries the weight of a knit, where the designer does not say which."""
    thread = [] if names_thread(facts) else [facts.said("material.thread")]
    carrying = [join for join in facts.garment.joins if carries(join, facts) and not is_taped(facts, join.name)]
    return [*notions_said(facts), *thread, *([facts.wording.say("material.tape")] if carrying else [])]


def stretch_asked(facts: BookletFacts) -> tuple[float, float]:
    """How far the cloth must stretch across and down: as planned for, or else the least that the garment needs."""
    garment = facts.garment
    ways = least(garment, needed_stretches(garment))
    asked = [float(np.nanmax(way.share[list(facts.bodies)])) for way in ways]
    planned = [garment.cloth.get(name, 0.0) for name in ("stretch_across", "stretch_down")]
    across, down = (plan or np.ceil(ask * 20 - 1e-9) / 20 for plan, ask in zip(planned, asked, strict=True))
    return float(across), float(down)


def _cloth(facts: BookletFacts) -> str:
    if not facts.knit:
        return facts.wording.say("material.woven")
    across, down = stretch_asked(facts)
    if across <= 0:
        return facts.wording.say("material.knit_any")
    shares = {"across": facts.wording.percent(across), "down": facts.wording.percent(down)}
    return facts.wording.say("material.knit_down" if down > 0 else "material.knit", **shares)


def _named(facts: BookletFacts) -> list[str]:
    """The cloths of a garment of several, with what its designer says of each."""
    named, say = facts.wording.named, facts.wording.say
    cloths = [cloth for cloth in facts.garment.cloths if cloth.words]
    return [
        say("material.cloth_named", cloth=capitalised(named(cloth.name)), words=named(cloth.words)) for cloth in cloths
    ]


def _need(book: Book, facts: BookletFacts) -> None:
    side = facts.wording.say("material.need")
    plan = facts.cloth
    if plan is None or not plan.amounts:
        book.entry(side, facts.wording.say("material.need_unknown"))
        return
    book.entry(side, facts.wording.say("material.need_text"))
    book.table(
        ["", "", *facts.sizes], [row for amounts in plan.amounts for row in _amount_rows(amounts, facts)], first=MAIN_X
    )


def _amount_rows(amounts: ClothAmounts, facts: BookletFacts) -> TableRows:
    say = facts.wording.say
    label = say("material.need_row", width=facts.wording.length(amounts.width))
    if amounts.name:
        cloth = capitalised(facts.wording.named(amounts.name))
        label = say("material.need_named", cloth=cloth, width=facts.wording.length(amounts.width))
    label = say("material.need_one_way", cloth=label) if amounts.one_way else label
    metres = [say("units.metre"), *(facts.wording.number(_up(mm, 50.0) / 1000, 2) for mm in amounts.lengths)]
    yards = [
        say("units.yard"),
        *(facts.wording.inch_figure(_up(mm, 36 / 8 * MM_PER_INCH) / 36) for mm in amounts.lengths),
    ]
    kept = {"both": [metres, yards], "cm": [metres], "in": [yards]}[facts.wording.units]
    return [[label if k == 0 else "", *row] for k, row in enumerate(kept)]


def _up(mm: float, step: float) -> float:
    """The length rounded up as shops sell: by eighths of a yard, or by 5 cm."""
    return float(np.ceil(mm / step - 1e-6) * step)


# ---- the gauge ------------------------------------------------------------------------------------------------------


def _gauge(book: Book, facts: BookletFacts) -> None:
    """A bar to hold the folded cloth against, and the line that it must reach, at true size."""
    across, _ = stretch_asked(facts)
    base = _base(across, facts.wording.units == "cm")
    if across <= 0 or base is None:
        return
    said = facts.wording.centimetres(base) if facts.wording.units == "cm" else facts.wording.length(base)
    text = facts.wording.say("material.gauge_text", base=said)
    reach = facts.wording.say("material.gauge_reach", share=facts.wording.percent(across))
    gauge = gauge_block(base, across, facts.wording.say("material.gauge_base", base=said), reach)
    head = combined([paragraph(facts.wording.say("material.gauge"), STRONG, SIDE), paragraph(text).moved(MAIN_X, 0.0)])
    book.full_width(column([head, gauge], gap=3.0))


def _base(share: float, metric: bool) -> float | None:
    """How much cloth the gauge begins with, so that its line is on the page; None for cloth that stretches too far."""
    bases = [at * (25.0 if metric else MM_PER_INCH) for at in _BASES]
    return next((base for base in bases if base * (1 + share) <= FULL - 2.0), None)


def gauge_block(base: float, share: float, at_rest: str, reach: str) -> Block:
    """The bar of `base` mm from the left edge, and the line that lies `share` of it further."""
    end, low = base * (1 + share), _HIGH - 2.5
    ticks = [lines_through([(x, low), (x, low - 3.0)]) for x in np.arange(0.0, end + 0.1, base / 4)]
    size = 9.0 * PT
    right = end + font_width(reach, size) / 2 <= FULL
    items: tuple[Item, ...] = (
        Path((lines_through([(0.0, low), (base, low)]),), _BAR, id="gauge-base"),
        Path((lines_through([(0.0, low), (end, low)]), *ticks), _LINE),
        Path((lines_through([(end, 0.0), (end, _HIGH)]),), Stroke(0.8), id="gauge-reach"),
        Label("0", 0.0, low + 6.0, size),
        Label(at_rest, base / 2, low + 6.0, size, "middle"),
        Label(reach, end if right else FULL, low + 6.0, size, "middle" if right else "end", bold=True),
    )
    return Block(items, low + 8.0)


def font_width(text: str, size: float) -> float:
    """How long bold words are, in mm."""
    from draft.paper.drawing.font import text_width

    return text_width(text, size, bold=True)
