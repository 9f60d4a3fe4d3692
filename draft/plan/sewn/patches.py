"""Pieces laid onto a line marked on another piece, such as a patch pocket."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence

from draft.base.notes import Note, error, nearest
from draft.garment.garment import Patch, PieceOf
from draft.language import tree
from draft.plan.plan import Value


def patches(
    lines: Iterable[tree.Patch], pieces: Sequence[PieceOf[Value, Value]], declared: Collection[str], notes: list[Note]
) -> Iterator[Patch]:
    """The patches that the lines make; nothing is said of declared pieces that have mistakes of their own."""
    names = [piece.name for piece in pieces]
    for line in lines:
        if {line.piece.text, line.onto.parts[0]} & (set(declared) - set(names)):
            continue
        if line.piece.text not in names:
            hint = nearest(line.piece.text, names) or (f"choose from {', '.join(names)}",)
            notes.append(error(f"there is no piece called `{line.piece.text}`", line.piece.span, *hint))
        elif line.onto.text not in (known := [f"{piece.name}.{name}" for piece in pieces for name in _lines(piece)]):
            fix = "mark one: under `marks` of a piece, `pocket_line  line a to b`; then write `onto front.pocket_line`"
            hint = nearest(line.onto.text, known) or ((f"choose from {', '.join(known)}",) if known else (fix,))
            notes.append(error(f"`{line.onto.text}` is no line marked on a piece", line.onto.span, *hint))
        else:
            onto, marked = line.onto.parts
            yield Patch(line.span, line.name, line.piece.text, onto, marked)


def _lines(piece: PieceOf[Value, Value]) -> list[str]:
    return [mark.name for mark in piece.marks if not mark.drill and not mark.line]
