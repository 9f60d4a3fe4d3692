"""The blocks and names of a file as an editor lists them."""

from __future__ import annotations

from collections.abc import Iterator

from draft.base.notes import Span
from draft.base.record import dataclass
from draft.editor.symbols import NameSort
from draft.language import tree


@dataclass(frozen=True)
class Declaration:
    """A name, what it is of, its line or block, and the names inside."""

    name: str
    sort: NameSort | None
    span: Span
    name_span: Span
    inside: tuple[Declaration, ...] = ()


def declarations(file: tree.File) -> list[Declaration]:
    """What a file declares, in the order written."""
    return sorted(_declarations(file), key=lambda declaration: declaration.span.start)


def _declarations(file: tree.File) -> Iterator[Declaration]:
    for pattern in file.patterns:
        yield Declaration(pattern.name, None, pattern.span, pattern.name_span)
    for template in file.templates:
        yield _block(template, template.body, NameSort.TEMPLATE)
    for piece in file.pieces:
        yield _block(piece, piece.body, NameSort.PIECE)
    yield from _lines(NameSort.STYLE, file.styles)
    yield from _lines(NameSort.VALUE, (*file.values, *(u for solve in file.solves for u in solve.unknowns)))
    yield from _lines(NameSort.JOIN, (*file.joins, *file.patches))
    yield from _lines(NameSort.FINISHED, file.finished)


def _block(block: tree.Named, body: tree.Contents, sort: NameSort) -> Declaration:
    inside = (
        *_lines(NameSort.INPUT, body.inputs),
        *_lines(NameSort.VALUE, body.values),
        *_lines(NameSort.POINT, body.points),
        *_lines(NameSort.EDGE, body.edges),
        *_lines(NameSort.TAKEUP, body.takeups),
        *_lines(NameSort.MARK, body.marks),
    )
    ordered = tuple(sorted(inside, key=lambda declaration: declaration.span.start))
    return Declaration(block.name, sort, block.span, block.name_span, ordered)


def _lines(sort: NameSort, lines: tuple[tree.Named, ...]) -> Iterator[Declaration]:
    for line in lines:
        yield Declaration(line.name, sort, line.span, line.name_span)
