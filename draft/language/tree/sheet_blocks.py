"""Sheets of paper as a whole: pieces, blocks and templates."""

from __future__ import annotations

from dataclasses import field

from draft.base.notes import Span
from draft.base.record import dataclass
from draft.garment.garment import CutAs, Layer
from draft.language.tree.drawn_lines import Corner, Edge, EdgeAgain, Mark, Notch, Place, Takeup
from draft.language.tree.head_lines import Definition, Input, Setting
from draft.language.tree.move_lines import Move, Origin
from draft.language.tree.nodes import Line, Named, Node, Ref, Without


@dataclass(frozen=True)
class MadeAfter(Line):
    """The template that a piece is made from, on a line of its own."""

    template: Ref


@dataclass(frozen=True)
class CutPart(Node):
    """So many of a piece, of one cloth or the only one; as one side of it where it is made of two."""

    count: str
    cloth: Ref | None
    cut_as: CutAs
    layer: Layer
    count_span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class Cut(Setting):
    """How often a piece is cut, of which cloths."""

    parts: tuple[CutPart, ...]


@dataclass(frozen=True)
class Contents(Node):
    """What a piece or a template holds; `values` are its `let` lines, or what a piece passes to its template."""

    inputs: tuple[Input, ...]
    given: tuple[Definition, ...]
    values: tuple[Definition, ...]
    points: tuple[Place, ...]
    edges: tuple[Edge, ...]
    settings: tuple[Setting, ...]
    takeups: tuple[Takeup, ...] = ()
    notches: tuple[Notch, ...] = ()
    marks: tuple[Mark, ...] = ()
    corners: tuple[Corner, ...] = ()
    lines: tuple[Edge, ...] = ()
    moves: tuple[Move, ...] = ()
    again: tuple[EdgeAgain, ...] = ()
    without: tuple[Without, ...] = ()
    after: tuple[MadeAfter, ...] = ()


@dataclass(frozen=True)
class Template(Named):
    """A piece with inputs; `base` is the template that it is made from."""

    words: str
    body: Contents
    base: Ref | None = None


@dataclass(frozen=True)
class Piece(Named):
    """A piece to be cut, or a block, which is not: drawn on its own, after a template, or traced from a draft."""

    template: Ref | None
    body: Contents
    origin: Origin | None = None
    is_block: bool = False
    words: str = ""
