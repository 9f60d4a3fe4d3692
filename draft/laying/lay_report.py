"""What `lay` prints: a line a size, and what stands behind the figures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from draft.base.naming import SHOWN_BODIES
from draft.base.text_columns import in_columns
from draft.base.units import in_centimetres, in_inches
from draft.cloth.amount import in_metres, in_yards
from draft.cloth.bolt import Cloth, width_words
from draft.cloth.lay import Folding, Lay
from draft.cloth.needs import ClothNeed
from draft.cloth.remnant import StashFit

_COLUMNS: tuple[Folding, ...] = ("open", "one fold", "two folds")
STOPPED = "stopped: these are the best lays found so far; a longer search may find shorter ones"


def needs_report(needs: Sequence[ClothNeed], lengths: Mapping[str, Mapping[Folding, Lay | None]] | None = None) -> str:
    """One cloth: the length of each lay where they were all looked for, what is used, and what to buy."""
    head = ["size", *(_COLUMNS if lengths else ()), "shortest", "length", "of the cloth used", "buy"]
    rows: list[Sequence[str]] = [head]
    for need in needs:
        foldings = [_length(lengths[need.size].get(folding)) for folding in _COLUMNS] if lengths else []
        star = " *" if need.as_smaller else ""
        buy = f"{in_yards(need.bought)} or {in_metres(need.bought)}"
        length = f"{width_words(need.length)}{star}"
        rows.append([need.size, *foldings, need.lay.folding, length, f"{need.lay.used * 100:.0f} %", buy])
    lines = [cloth_words(needs[0].cloth), "", in_columns(rows)]
    if any(need.as_smaller for need in needs):
        lines.append("* as much as the size before it, whose pieces happen to lie less well")
    if any(need.lay.stopped for need in needs):
        lines.append(STOPPED)
    return "\n".join(lines)


def table_report(rows: Sequence[Sequence[ClothNeed]]) -> str:
    """What to buy: a row for each cloth, a column for each size."""
    table: list[Sequence[str]] = [["cloth", "", *(need.size for need in rows[0])]]
    for row in rows:
        cloth = row[0].cloth
        way = "one way" if cloth.one_way else "both ways"
        table.append([width_words(cloth.width), way, *(in_yards(need.bought) for need in row)])
        table.append(["", "", *(in_metres(need.bought) for need in row)])
    ends = f"with {_both(rows[0][0].cloth.ends)} at each cut end; rounded up to 1/8 yd and 5 cm"
    lines = [in_columns(table), ends]
    return "\n".join([*lines, STOPPED] if any(need.lay.stopped for row in rows for need in row) else lines)


def stash_report(size: str, answer: StashFit, have: str, ends: float) -> str:
    """Whether it fits, and what is missing if not, with so many mm kept free at each cut end of a length."""
    where = f"{have}, with {_both(ends)} kept free at each cut end" if ends else have
    who = f"{size}: " if size else ""
    if answer.fits:
        lay = answer.lay
        assert lay
        return f"{who}yes, it fits on {where} ({lay.folding})"
    if answer.left_over:
        cut_pieces = [
            f"{cut_piece.name} ({_both(cut_piece.height)} long, {_both(cut_piece.width)} wide)"
            for cut_piece in answer.left_over
        ]
        shown = ", ".join(cut_pieces[:SHOWN_BODIES])
        return f"{who}no lay found on {where}: there is no place for {shown}"
    if answer.lay is None:
        return f"{who}no lay found on {where}: all pieces are placed one by one, but not together"
    return f"{who}no, not on {where}: {_both(answer.missing)} more length is needed"


def cloth_words(cloth: Cloth) -> str:
    """The cloth and what was allowed for."""
    words = [f"cloth {width_words(cloth.width)} wide"]
    if cloth.shrink_across or cloth.shrink_down:
        words.append(f"shrinks {cloth.shrink_across * 100:g} % across and {cloth.shrink_down * 100:g} % down")
    if cloth.selvedge:
        words.append(f"{_both(cloth.selvedge)} kept free along each selvedge")
    if cloth.repeats:
        words.append(f"repeats {repeat_words(cloth)}")
    words.append("all pieces one way" if cloth.one_way else "pieces may be turned end for end")
    words.append(f"{_both(cloth.ends)} kept free at each cut end")
    return "; ".join(words)


def repeat_words(cloth: Cloth) -> str:
    """After how much its stripes or checks return."""
    ways = ((cloth.repeat_across, "across"), (cloth.repeat_along, "along its length"))
    return " and ".join(f"every {_both(mm)} {way}" for mm, way in ways if mm)


def _length(lay: Lay | None) -> str:
    return in_centimetres(lay.length) if lay else "–"


def _both(mm: float) -> str:
    return f"{in_inches(mm)} ({in_centimetres(mm)})"
