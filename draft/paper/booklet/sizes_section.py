"""Choosing a size: how to, the size chart, and what the finished garment measures."""

from __future__ import annotations

import math
from collections.abc import Sequence

from draft.base.arrays import Floats
from draft.base.units import Kind, QuantityError, read_quantity
from draft.bodies.measures import BodyMeasure
from draft.paper.booklet.apart_section import put_apart
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.figures_table import put_table, table_height
from draft.paper.booklet.measure_names import measure_name
from draft.paper.booklet.otherwise_section import elsewhere, put_otherwise
from draft.paper.booklet.set_blocks import FINE, bullets
from draft.paper.drawing.wording import Wording, capitalised

TableRows = list[list[str]]

_CHOSEN_BY = ("bust_girth", "waist_girth", "hip_girth")
"""The girths that a size is chosen by, the first first (EN 13402-2 has the same; from memory)."""


def sizes_section(book: Book, facts: BookletFacts) -> None:
    """How to choose, and both tables; where no body is measured, as for a bag, there is nothing to choose."""
    if not facts.drafted.plan.measures:
        _finished(book, facts, is_chapter=True)
        _styles(book, facts)
        put_otherwise(book, facts)
        return
    say, many = facts.wording.say, len(facts.sizes) > 1
    book.chapter(say("choosing.title"), 70.0)
    if many:
        said = [
            *(say("choosing.drafted", whom=whom) for whom in for_whom(facts)),
            say("choosing.measure"),
            _compare(facts),
            facts.said("choosing.between"),
        ]
    else:
        key = "choosing.single" if facts.wording.is_size(facts.sizes[0]) else "choosing.person"
        said = [say(key, name=facts.sizes[0])]
    book.topics([("", [text for text in said if text])])
    body = body_table(facts)
    book.section(say("choosing.chart"), table_height(body) / (1 if many else 2))
    put_table(book, ["", "", *facts.sizes], body)
    if said := _estimated(facts):
        book.topics([("", said)])
    put_apart(book, facts)
    _finished(book, facts)
    _styles(book, facts)
    put_otherwise(book, facts)


def _finished(book: Book, facts: BookletFacts, is_chapter: bool = False) -> None:
    say, finished = facts.wording.say, finished_table(facts)
    if finished:
        begin = book.chapter if is_chapter else book.section
        begin(say("choosing.finished"), 24.0 + max(table_height(finished) / 2, 60.0))
        book.topics([("", [say("choosing.finished_text")])])
        put_table(book, ["", "", *facts.sizes], finished)
        _where(book, facts)


def _estimated(facts: BookletFacts) -> list[str]:
    """What was not measured: those of which it is known how far off they may be, each with that, and the others."""
    say, known, rest = facts.wording.say, list[str](), list[str]()
    for estimate in facts.drafted.told_estimates:
        called = measure_name(estimate.name, facts.wording)
        if estimate.spread is None:
            rest.append(called)
            continue
        far = float(estimate.spread[0])
        if estimate.kind is Kind.ANGLE:
            spread = say("units.degree", number=facts.wording.number(math.degrees(far)))
        else:
            spread = facts.wording.length(far)
        known.append(say("choosing.estimate", measure=called, spread=spread))
    said = [say("choosing.estimated", measures=facts.wording.listed(known))] if known else []
    said += [say("choosing.estimated_only", measures=facts.wording.listed(rest))] if rest else []
    return [*said, say("choosing.estimated_last")] if said else []


def for_whom(facts: BookletFacts) -> list[str]:
    """Whose bodies the sizes of a chart are; nothing where nobody is measured, or one person was."""
    sized = facts.drafted.plan.measures and facts.wording.is_size(facts.sizes[0])
    return [facts.wording.say(f"choosing.for_{facts.drafted.plan.wearers.name}")] if sized else []


def how_to(measure: BodyMeasure, wording: Wording) -> str:
    """How a body measure is taken."""
    key = f"how.{measure.name}"
    return capitalised(wording.say(key) if wording.has(key) else wording.named(measure.how))


def _compare(facts: BookletFacts) -> str:
    """By which measures a size is chosen."""
    names = [name for name in _CHOSEN_BY if name in facts.drafted.plan.measures]
    said = [measure_name(name, facts.wording) for name in names or facts.drafted.plan.measures[:1]]
    rest = facts.wording.say("choosing.compare_rest", measures=facts.wording.listed(said[1:])) if said[1:] else ""
    return facts.wording.say("choosing.compare", first=said[0], rest=rest).strip() if said else ""


def _styles(book: Book, facts: BookletFacts) -> None:
    if rows := chosen(facts):
        book.section(facts.wording.say("choosing.styles"), 24.0, marked=False)
        listed = [bullets([row], book.format.column, FINE) for row in rows]
        book.topics([("", [facts.wording.say("choosing.styles_text"), *listed])])


def chosen(facts: BookletFacts) -> list[str]:
    """The styles as they are set, without those that add nothing."""
    styles = [style for style in facts.drafted.plan.styles if style.words and not style.set_to.startswith("0 ")]
    return [f"{capitalised(facts.wording.named(s.words))}: {_set_to(s.set_to, facts.wording)}" for s in styles]


def _set_to(text: str, wording: Wording) -> str:
    """A choice by its name, or an amount in the units that are printed."""
    try:
        found = read_quantity(text)
    except QuantityError:
        return wording.option(text)
    if found.kind is Kind.LENGTH:
        return wording.length(found.value)
    if found.kind is Kind.ANGLE:
        return wording.say("units.degree", number=wording.number(math.degrees(found.value)))
    return wording.percent(found.value) if "%" in text else wording.number(found.value, 3)


def body_table(facts: BookletFacts) -> TableRows:
    """The measures that the pattern needs, each in the units that are printed."""
    rows: TableRows = []
    for name in facts.drafted.plan.measures:
        values = facts.drafted.bodies.values[name][list(facts.bodies)]
        label = capitalised(measure_name(name, facts.wording))
        if facts.drafted.plan.known[name].kind is Kind.ANGLE:
            degrees = [facts.wording.number(math.degrees(value)) for value in values]
            rows.append([label, facts.wording.say("units.degree", number="").strip(), *degrees])
        else:
            rows += in_units(label, values, facts.wording)
    return rows


def key_table(facts: BookletFacts) -> TableRows:
    """The girths that a size is chosen by, for the cover; none where there is one size."""
    names = [name for name in _CHOSEN_BY if name in facts.drafted.plan.measures] if len(facts.sizes) > 1 else []
    rows: TableRows = []
    for name in names:
        values = facts.drafted.bodies.values[name][list(facts.bodies)]
        rows += in_units(capitalised(measure_name(name, facts.wording)), values, facts.wording)
    return rows


def finished_table(facts: BookletFacts) -> TableRows:
    """The finished measurements."""
    rows: TableRows = []
    for finished in facts.drafted.garment.finished:
        label = capitalised(facts.wording.named(finished.name))
        label = f"{label}, {facts.wording.say('choosing.around')}" if finished.around else label
        rows += in_units(label, finished.values[list(facts.bodies)], facts.wording)
    return rows


def in_units(label: str, values: Floats | Sequence[float], wording: Wording) -> TableRows:
    """Lengths in mm `(n,)` as one row of a table, or as two where they are given both ways."""
    metric = [wording.say("units.centimetre"), *(wording.number(value / 10) for value in values)]
    inches = [wording.say("units.inch"), *(wording.inch_figure(value) for value in values)]
    kept = {"both": [metric, inches], "cm": [metric], "in": [inches]}[wording.units]
    return [[label if k == 0 else "", *row] for k, row in enumerate(kept)]


def _where(book: Book, facts: BookletFacts) -> None:
    """Where each of them is taken, as the designer says it."""
    said = [
        f"{capitalised(facts.wording.named(finished.name))}: {facts.wording.named(finished.words)}"
        for finished in facts.drafted.garment.finished
        if finished.words
    ]
    said += elsewhere(facts)
    if said:
        book.topics([("", [bullets([text], book.format.column, FINE) for text in said])])
