"""What is bought besides the cloth: how much is said, or for which seams, edges and marks it is."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from draft.base.notes import error, nearest
from draft.base.units import Kind
from draft.garment.garment import NotionOf, PieceOf
from draft.language import tree
from draft.plan.plan import Value
from draft.plan.values import Values
from draft.words.word import Kinds

_AMOUNTS: Kinds = frozenset({Kind.LENGTH, Kind.NUMBER})


def notions(values: Values, file: tree.File, pieces: Sequence[PieceOf[Value, Value]]) -> tuple[NotionOf[Value], ...]:
    """All notions of a pattern; a note on each that is for nothing which the pattern has."""
    known = _usable(file, pieces)
    seen: set[str] = set()
    found = []
    for line in file.notions:
        if line.name in seen:
            fact = f"`{line.name}` is there twice"
            values.notes.append(error(fact, line.name_span, "take one of the two out, or call it otherwise"))
        seen.add(line.name)
        found.append(_notion(values, line, known))
    return tuple(found)


def _usable(file: tree.File, pieces: Sequence[PieceOf[Value, Value]]) -> Collection[str]:
    """What a notion may be for: joins, and the edges and marks of pieces that are cut."""
    found = {join.name: None for join in file.joins}
    for piece in pieces:
        found |= {f"{piece.name}.{edge.name}": None for edge in piece.edges}
        found |= {f"{piece.name}.{mark.name}": None for mark in piece.marks}
    return found


def _notion(values: Values, line: tree.Notion, known: Collection[str]) -> NotionOf[Value]:
    amount = values.compile(line.amount, None, _AMOUNTS) if line.amount else None
    for use in line.uses:
        if use.text not in known:
            fact = f"`{use.text}` is no join, and no edge or mark of a piece that is cut"
            near = [name for name in known if len(use.parts) == 1 or name.startswith(f"{use.parts[0]}.")]
            hint = nearest(use.text, near) if len(use.parts) == 1 else _of_piece(use, near)
            hint = hint or ("a notion is for a join, as `centre_back`, an edge or marks of a piece",)
            values.notes.append(error(fact, use.span, *hint))
    in_mm = bool(amount and amount.kind is Kind.LENGTH)
    return NotionOf(line.span, line.name, line.words, amount, in_mm, tuple(use.text for use in line.uses))


def _of_piece(use: tree.Ref, near: Sequence[str]) -> tuple[str, ...]:
    """An edge or mark of the piece that is meant, if its own name is alike."""
    found = nearest(use.parts[-1], [name.rpartition(".")[2] for name in near])
    return tuple(hint.replace("`", f"`{use.parts[0]}.", 1) for hint in found)
