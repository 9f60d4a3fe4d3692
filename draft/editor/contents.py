"""The blocks and names of a file as an editor lists them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from draft.base.notes import Span
from draft.editor.symbols import Sort
from draft.language import tree


@dataclass(frozen=True)
class Item:
    """A name, what it is of, its line or block, and the names inside."""

    name: str
    sort: Sort | None
    span: Span
    name_span: Span
    inside: tuple[Item, ...] = ()


def items(file: tree.File) -> list[Item]:
    """What a file declares, in the order written."""
    return sorted(_items(file), key=lambda item: item.span.start)


def _items(file: tree.File) -> Iterator[Item]:
    for pattern in file.patterns:
        yield Item(pattern.name, None, pattern.span, pattern.name_span)
    for template in file.templates:
        yield _block(template, template.body, Sort.TEMPLATE)
    for piece in file.pieces:
        yield _block(piece, piece.body, Sort.PIECE)
    yield from _lines(Sort.STYLE, file.styles)
    yield from _lines(Sort.VALUE, (*file.values, *(u for solve in file.solves for u in solve.unknowns)))
    yield from _lines(Sort.JOIN, (*file.joins, *file.patches))
    yield from _lines(Sort.FINISHED, file.finished)


def _block(block: tree.Named, body: tree.Body, sort: Sort) -> Item:
    inside = (
        *_lines(Sort.INPUT, body.inputs),
        *_lines(Sort.VALUE, body.values),
        *_lines(Sort.POINT, body.points),
        *_lines(Sort.EDGE, body.edges),
        *_lines(Sort.TAKEUP, body.takeups),
        *_lines(Sort.MARK, body.marks),
    )
    ordered = tuple(sorted(inside, key=lambda item: item.span.start))
    return Item(block.name, sort, block.span, block.name_span, ordered)


def _lines(sort: Sort, lines: tuple[tree.Named, ...]) -> Iterator[Item]:
    for line in lines:
        yield Item(line.name, sort, line.span, line.name_span)
