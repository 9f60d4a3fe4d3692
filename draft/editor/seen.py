"""What is seen of another file in a pattern that takes names from it, and after which templates pieces are made."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from draft.language import tree


def seen_of(file: tree.File, names: tuple[str, ...] | None) -> tree.File:
    """A file with nothing but what is seen of it."""
    if names is None:
        return file
    fields = ("measures", "properties", "styles", "values", "templates", "pieces", "joins", "patches")
    pieces = {piece.name: piece for piece in file.pieces}
    drawn, waiting = set(names), [name for name in names if name in pieces]
    while waiting:  # what a piece is traced from, or made after, gives it its names
        piece = pieces[waiting.pop()]
        led = [template.text for template in templates_of(piece)] + ([piece.origin.draft.text] if piece.origin else [])
        waiting += [name for name in led if name in pieces and name not in drawn]
        drawn |= set(led)
    kept: dict[str, Any] = {f: tuple(line for line in getattr(file, f) if line.name in drawn) for f in fields}
    return replace(file, **kept, solves=(), finished=())


def templates_of(piece: tree.Piece) -> list[tree.Ref]:
    """The templates that a piece is made from: several where each is for another option of a style."""
    return [*([piece.template] if piece.template else []), *(line.template for line in piece.body.after)]
