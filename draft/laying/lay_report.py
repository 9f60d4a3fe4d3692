"""What `lay` prints: a line a size, and what stands behind the figures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from draft.base.naming import SHOWN_BODIES
from draft.base.text_columns import in_columns
from draft.base.units import in_centimetres, in_inches
from draft.cloth.amount import in_metres, in_yards
from draft.cloth.bolt import Cloth, width_words
from draft.cloth.layout import Kind, Layout
from draft.cloth.needs import Need
from draft.cloth.remnant import Answer

KINDS: tuple[Kind, ...] = ("open", "one fold", "two folds")
STOPPED = "stopped: these are the best lays found so far; a longer search may find shorter ones"


def needs_report(needs: Sequence[Need], lengths: Mapping[str, Mapping[Kind, Layout | None]] | None = None) -> str:
    """One cloth: the length of each lay where they were all looked for, what is used, and what to buy."""
    head = ["size", *(KINDS if lengths else ()), "shortest", "length", "of the cloth used", "buy"]
    rows: list[Sequence[str]] = [head]
    for need in needs:
        kinds = [_length(lengths[need.size].get(kind)) for kind in KINDS] if lengths else []
        mark = " *" if need.as_smaller else ""
        buy = f"{in_yards(need.bought)} or {in_metres(need.bought)}"
        length = f"{in_inches(need.length)} ({in_centimetres(need.length)}){mark}"
        rows.append([need.size, *kinds, need.layout.kind, length, f"{need.layout.used * 100:.0f} %", buy])
    lines = [cloth_words(needs[0].cloth), "", in_columns(rows)]
    if any(need.as_smaller for need in needs):
        lines.append("* as much as the size before it, whose pieces happen to lie less well")
    if any(need.layout.stopped for need in needs):
        lines.append(STOPPED)
    return "\n".join(lines)


def table_report(rows: Sequence[Sequence[Need]]) -> str:
    """What to buy: a row for each cloth, a column for each size."""
    table: list[Sequence[str]] = [["cloth", "", *(need.size for need in rows[0])]]
    for row in rows:
        cloth = row[0].cloth
        way = "one way" if cloth.one_way else "both ways"
        table.append([width_words(cloth.width), way, *(in_yards(need.bought) for need in row)])
        table.append(["", "", *(in_metres(need.bought) for need in row)])
    ends = f"with {_both(rows[0][0].cloth.ends)} at each cut end; rounded up to 1/8 yd and 5 cm"
    lines = [in_columns(table), ends]
    return "\n".join([*lines, STOPPED] if any(need.layout.stopped for row in rows for need in row) else lines)


def stash_report(size: str, answer: Answer, have: str, ends: float) -> str:
    """Whether it fits, and what is missing if not, with so many mm kept free at each cut end of a length."""
    where = f"{have}, with {_both(ends)} kept free at each cut end" if ends else have
    who = f"{size}: " if size else ""
    if answer.fits:
        layout = answer.layout
        assert layout
        return f"{who}yes, it fits on {where} ({layout.kind})"
    if answer.left_over:
        parts = [f"{part.name} ({_both(part.height)} long, {_both(part.width)} wide)" for part in answer.left_over]
        shown = ", ".join(parts[:SHOWN_BODIES])
        return f"{who}no lay found on {where}: there is no place for {shown}"
    if answer.layout is None:
        return f"{who}no lay found on {where}: all pieces are placed one by one, but not together"
    return f"{who}no, not on {where}: {_both(answer.missing)} more length is needed"


def cloth_words(cloth: Cloth) -> str:
    """The cloth and what was allowed for."""
    words = [f"cloth {width_words(cloth.width)} wide"]
    if cloth.shrink_across or cloth.shrink_down:
        words.append(f"shrinks {cloth.shrink_across * 100:g} % across and {cloth.shrink_down * 100:g} % down")
    words.append("all pieces one way" if cloth.one_way else "pieces may be turned end for end")
    words.append(f"{_both(cloth.ends)} kept free at each cut end")
    return "; ".join(words)


def _length(layout: Layout | None) -> str:
    return in_centimetres(layout.length) if layout else "–"


def _both(mm: float) -> str:
    return f"{in_inches(mm)} ({in_centimetres(mm)})"
