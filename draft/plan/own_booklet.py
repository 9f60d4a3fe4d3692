"""The designer's own lines in the booklet, settled for the options that are chosen."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from draft.base.notes import Note
from draft.garment.garment import PieceOf
from draft.language import tree
from draft.plan.advice import Booklet, Steps, booklet
from draft.plan.plan import Value

_Pieces = Sequence[PieceOf[Value, Value]]


def own_booklet(file: tree.File, written: tree.File, pieces: _Pieces, folder: Path, notes: list[Note]) -> Booklet:
    """What `file`, settled, says in its booklet; steps of what only `written` has, for other options, are left out."""
    there = {line.name for line in (*file.joins, *file.patches)}
    gone = {line.name for line in (*written.joins, *written.patches)} - there
    gone |= {piece.name for piece in written.pieces} - {piece.name for piece in pieces}
    gone |= _of_other_options(file, written)
    lines = [line for line in file.booklet if not isinstance(line, tree.Advice) or not _about(line) & gone]
    return booklet(lines, Steps(frozenset(there), frozenset(_in_pieces(file, pieces))), folder, notes)


def _about(line: tree.Advice) -> set[str]:
    return {ref.parts[0] for ref in (line.to, line.beside) if ref}


def _of_other_options(file: tree.File, written: tree.File) -> set[str]:
    """Steps of the designer's own that are there for other options."""
    return _own(written.booklet) - _own(file.booklet)


def _own(lines: Iterable[object]) -> set[str]:
    return {line.to.text for line in lines if isinstance(line, tree.Advice) and line.beside}


def _in_pieces(file: tree.File, pieces: _Pieces) -> Iterable[str]:
    """What of a piece has a step of its own: hems, edges with darts or pleats, rows of buttonholes."""
    stitched_on = {line.piece.text for line in file.patches}
    for piece in pieces:
        if piece.name not in stitched_on:
            yield from (f"{piece.name}.{edge.name}" for edge in piece.edges if edge.turned_up)
        yield from (f"{piece.name}.{takeup.edge}" for takeup in piece.takeups)
        yield from (f"{piece.name}.{mark.name}" for mark in piece.marks if mark.fastening)
