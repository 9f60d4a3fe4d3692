"""Pieces laid onto a line marked on another piece, such as a patch pocket."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from draft.base.notes import Note, error, nearest
from draft.garment.garment import Patch
from draft.language import tree
from draft.plan.plan import PiecePlan


def patch(
    written: tree.Patch, pieces: Sequence[PiecePlan], declared: Collection[str], notes: list[Note]
) -> Patch | None:
    """The plan of a patch, or None with a note; nothing is said of declared pieces that have mistakes of their own."""
    names = [piece.name for piece in pieces]
    if {written.piece.text, written.onto.parts[0]} & (set(declared) - set(names)):
        return None
    if written.piece.text not in names:
        hint = nearest(written.piece.text, names) or (f"choose from {', '.join(names)}",)
        notes.append(error(f"there is no piece called `{written.piece.text}`", written.piece.span, *hint))
        return None
    onto = next((piece for piece in pieces if piece.name == written.onto.parts[0]), None)
    lines = [] if onto is None else [mark.name for mark in onto.marks if not mark.drill]
    if len(written.onto.parts) != 2 or written.onto.parts[1] not in lines:
        known = [f"{piece.name}.{mark.name}" for piece in pieces for mark in piece.marks if not mark.drill]
        fix = "mark one: under `marks` of a piece, `pocket_line  line a to b`; then write `onto front.pocket_line`"
        hint = nearest(written.onto.text, known) or ((f"choose from {', '.join(known)}",) if known else (fix,))
        notes.append(error(f"`{written.onto.text}` is no line marked on a piece", written.onto.span, *hint))
        return None
    return Patch(written.span, written.name, written.piece.text, *written.onto.parts)
