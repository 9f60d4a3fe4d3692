"""Cloth and tools: how much to buy, whether it stretches enough, what to sew with, and what to take care of."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.units import MM_PER_INCH
from draft.fit.stretch import least, needed_stretches
from draft.geometry.cubic import lines_through
from draft.paper.booklet.booklet_page import Book, Topic
from draft.paper.booklet.facts import BookletFacts, ClothAmounts, Matching, TooWide
from draft.paper.booklet.figures_table import put_table
from draft.paper.booklet.notions_words import is_taped, names_thread, notions_said
from draft.paper.booklet.set_blocks import STRONG, Block, bullets, column, paragraph, shown
from draft.paper.booklet.sizes_section import TableRows
from draft.paper.booklet.topics import told
from draft.paper.booklet.weight import carries
from draft.paper.drawing.drawing import PT, Item, Label, Path, Stroke
from draft.paper.drawing.sold import as_sold
from draft.paper.drawing.wording import Wording, capitalised
from draft.seams.joins_in_order import seam_letters
from draft.seams.matching import matched_joins

_BAR = Stroke(2.2)
_LINE = Stroke(0.35)
_HIGH = 15.0
_BASES = (4.0, 3.0, 2.0)
"""Inches of cloth that the gauge begins with: four is common practice, less where the page is too short for it."""
_EXACT = 0.01
"""A length so many mm over what a shop cuts is that (`rounded_up` of the room of cloth has the same)."""
_MARKED = 500.0
"""So long a stretch of a scrap is measured again once it is washed, mm."""


def material_section(book: Book, facts: BookletFacts) -> None:
    """The whole section."""
    say, wide = facts.wording.say, book.format.column
    book.chapter(say("material.title"), 70.0)
    washing = say("material.unwashed" if facts.drafted.unwashed else "material.wash")
    cloth = paragraph(cloth_asked(facts), wide, STRONG)
    measured = (
        []
        if facts.drafted.unwashed or _counted(facts)
        else [say("material.measured", length=as_sold(_MARKED, facts.wording))]
    )
    book.topics([("", [cloth, *told("cloth", facts), *_named(facts), washing, *measured]), _need(facts)])
    _amounts(book, facts)
    if facts.knit:
        _gauge(book, facts)
    topics: list[Topic] = [
        (say("material.notions"), [bullets(bought_besides(facts), wide)]),
        (say("material.tools"), [bullets([facts.said("material.needle"), *_tools(facts)], wide)]),
        (say("material.topic_care"), told("care", facts)),
        (say("material.care"), [say("material.blade"), say("material.heat")]),
    ]
    book.topics([topic for topic in topics if topic[1]])


def _tools(facts: BookletFacts) -> list[str]:
    """Besides the needle: what the steps take into the hand."""
    zips = {opening.use for join in facts.garment.joins for opening in join.openings}
    asked = {
        "twin": facts.knit,
        "hand": not facts.knit,
        "zip_foot": bool(zips & {"lapped zip", "invisible zip"}) or _has_zip(facts),
        "zip_foot_invisible": "invisible zip" in zips,
        "clips": True,
        "iron": True,
    }
    return [facts.wording.say(f"material.{key}") for key, is_used in asked.items() if is_used]


def _has_zip(facts: BookletFacts) -> bool:
    """Whether a zip is bought that no seam names, as for a fly."""
    return any("zip" in notion.name.split("_") for notion in facts.garment.notions)


def bought_besides(facts: BookletFacts) -> list[str]:
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


def cloth_asked(facts: BookletFacts) -> str:
    """What cloth the garment is for, in a sentence."""
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


def _need(facts: BookletFacts) -> Topic:
    """How the amounts of cloth are meant, or how to find them out."""
    known = facts.cloth is not None and facts.cloth.amounts
    said = [facts.wording.say(f"material.need_{'text' if known else 'unknown'}")]
    if known and _counted(facts):
        said.append(facts.wording.say("material.need_bought"))
    if known and facts.bare:
        said.append(facts.wording.say("material.need_bare"))
    if any(amount.laid == "pieced" for amount in (facts.cloth.amounts if facts.cloth else ())):
        said.append(facts.wording.say("material.need_parts"))
    said += _matching(facts)
    return facts.wording.say("material.need"), [*said, *(_too_wide(one, facts) for one in _not_held(facts))]


def _counted(facts: BookletFacts) -> bool:
    """Whether what washing takes is in the amounts: of a fabric that is known to shrink."""
    fabric = facts.drafted.planned.fabric if facts.drafted.planned else None
    return fabric is not None and fabric.shrinks


def _matching(facts: BookletFacts) -> list[str]:
    """At which seams stripes or checks meet, and what that costs at most."""
    found = [amount.matched for amount in (facts.cloth.amounts if facts.cloth else ()) if amount.matched]
    if not found:
        return []
    letters = seam_letters(facts.garment)
    seams = facts.wording.listed(sorted(letters[name] for name in matched_joins(facts.garment)))
    more = max(each.more for each in found)
    said = [facts.wording.say("material.matched", seams=seams)]
    said += [facts.wording.say("material.matched_more", more=as_sold(more, facts.wording))] if more > 1 else []
    return [" ".join(said)]


def _repeat(matched: Matching, wording: Wording) -> str:
    ways = zip(("across", "along"), matched.repeat, strict=True)
    said = [wording.say(f"material.repeat_{way}", length=wording.length(mm)) for way, mm in ways if mm]
    return wording.listed(said)


def _not_held(facts: BookletFacts) -> Sequence[TooWide]:
    return facts.cloth.too_wide if facts.cloth else ()


def _too_wide(found: TooWide, facts: BookletFacts) -> str:
    """Which sizes a cloth does not hold, and what would hold them."""
    wording = facts.wording
    width, least = as_sold(found.width, wording), as_sold(found.least, wording)
    which = wording.listed(found.sizes)
    wide, piece = as_sold(found.wide, wording), facts.wording.named(found.piece)
    said = wording.say("material.too_wide", width=width, sizes=which, piece=piece, wide=wide, least=least)
    styles = [wording.say("material.too_wide_style", style=style) for style in found.narrower]
    return " ".join([said, *styles[:1]])


def _amounts(book: Book, facts: BookletFacts) -> None:
    if rows := amount_table(facts):
        put_table(book, ["", "", *facts.sizes], rows)


def amount_table(facts: BookletFacts) -> TableRows:
    """How much to buy of each cloth, in the units that are printed; no rows where that is not known."""
    amounts = facts.cloth.amounts if facts.cloth else ()
    return [row for amount in amounts for row in _amount_rows(amount, facts)]


def _amount_rows(amounts: ClothAmounts, facts: BookletFacts) -> TableRows:
    say = facts.wording.say
    label = say("material.need_row", width=as_sold(amounts.width, facts.wording))
    if amounts.name:
        cloth = capitalised(facts.wording.named(amounts.name))
        label = say("material.need_named", cloth=cloth, width=as_sold(amounts.width, facts.wording))
    if amounts.matched:
        label = say("material.need_repeat", cloth=label, repeat=_repeat(amounts.matched, facts.wording))
    elif amounts.one_way:
        label = say("material.need_one_way", cloth=label)
    label = say(f"material.need_{amounts.laid}", cloth=label) if amounts.laid else label
    metres = [
        say("units.metre"),
        *(_or_none(mm, facts.wording.fixed(_up(mm, 50.0) / 1000, 2)) for mm in amounts.lengths),
    ]
    eighth = 36 / 8 * MM_PER_INCH
    yards = [
        say("units.yard"),
        *(_or_none(mm, facts.wording.inch_figure(_up(mm, eighth) / 36)) for mm in amounts.lengths),
    ]
    kept = {"both": [metres, yards], "cm": [metres], "in": [yards]}[facts.wording.units]
    return [[label if k == 0 else "", *row] for k, row in enumerate(kept)]


def _up(mm: float, step: float) -> float:
    """The length rounded up as shops sell, by eighths of a yard or by 5 cm; a hair over a step is on it."""
    return 0.0 if np.isnan(mm) else float(np.ceil((mm - _EXACT) / step) * step)


def _or_none(mm: float, figure: str) -> str:
    """A figure, or a dash where the cloth does not hold a size."""
    return "–" if np.isnan(mm) else figure


# ---- the gauge ------------------------------------------------------------------------------------------------------


def _gauge(book: Book, facts: BookletFacts) -> None:
    """A bar to hold the folded cloth against, and the lines that it must reach across and along, at true size."""
    say, wording = facts.wording.say, facts.wording
    across, down = stretch_asked(facts)
    base = _base(max(across, down), wording.units == "cm", book.format.full * book.format.enlarged)
    if across <= 0 or base is None:
        return
    said = wording.centimetres(base) if wording.units == "cm" else wording.length(base)
    reach = say("material.gauge_reach", share=wording.percent(across))
    along = say("material.gauge_along", share=wording.percent(down)) if down > 0 else ""
    gauge = gauge_block(
        base,
        across,
        say("material.gauge_base", base=said),
        reach,
        book.format.enlarged,
        (down, along) if along else None,
    )
    told = [say("material.gauge_text", base=said), *([say("material.gauge_down")] if along else [])]
    text = paragraph(" ".join(told), book.format.full)
    book.section(say("material.gauge"), text.height + gauge.height + 4.0, marked=False)
    drawn = shown(gauge, ": ".join([said, *filter(None, (reach, along))]))
    book.full_width(column([text, drawn], gap=3.0))


def _base(share: float, metric: bool, room: float) -> float | None:
    """How much cloth the gauge begins with, so that its line is on the page; None for cloth that stretches too far."""
    bases = [at * (25.0 if metric else MM_PER_INCH) for at in _BASES]
    return next((base for base in bases if base * (1 + share) <= room - 2.0), None)


def gauge_block(
    base: float, share: float, at_rest: str, reach: str, enlarged: float = 1.0, along: tuple[float, str] | None = None
) -> Block:
    """The bar of `base` mm from the left edge, and the line that lies `share` of it further, on the page as printed.

    `along` is the share that it must reach along the cloth, and the words of that line.
    """
    base /= enlarged
    end, low = base * (1 + share), _HIGH - 2.5
    ticks = [lines_through([(x, low), (x, low - 3.0)]) for x in np.arange(0.0, end + 0.1, base / 4)]
    size = 9.0 * PT
    wide = font_width(reach, size)
    over = wide + font_width(at_rest, size) + 4.0 > end  # then the words of the line stand above it
    items: tuple[Item, ...] = (
        Path((lines_through([(0.0, low), (base, low)]),), _BAR, id="gauge-base"),
        Path((lines_through([(0.0, low), (end, low)]), *ticks), _LINE),
        Path((lines_through([(end, 0.0), (end, _HIGH)]),), Stroke(0.8), id="gauge-reach"),
        Label("0", 0.0, low + 6.0, size),
        Label(at_rest, base / 2, low + 6.0, size, "middle"),
        Label(reach, max(end - 1.5, wide), low - 6.5 if over else low + 6.0, size, "end", bold=True),
    )
    return Block((*items, *(_along(base, low, size, *along) if along else ())), low + 8.0)


def _along(base: float, low: float, size: float, share: float, words: str) -> tuple[Item, ...]:
    """The line that the cloth must reach along its length, its words above it."""
    x = base * (1 + share)
    line = Path((lines_through([(x, 4.0), (x, low)]),), Stroke(0.8), id="gauge-along")
    return (line, Label(words, x - 1.5, 6.2, size, "end", bold=True))


def font_width(text: str, size: float) -> float:
    """How long bold words are, in mm."""
    from draft.paper.drawing.font import text_width

    return text_width(text, size, bold=True)
