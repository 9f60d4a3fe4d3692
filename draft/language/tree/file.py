"""A whole text."""

from __future__ import annotations

from draft.base.record import dataclass
from draft.language.tree.booklet_lines import Advice, Notion, Topic
from draft.language.tree.head_lines import (
    Cloth,
    Definition,
    Measure,
    OwnMeasure,
    Pattern,
    Property,
    Relation,
    Setting,
    Solve,
    StyleChoice,
    StyleRange,
)
from draft.language.tree.join_lines import Finished, Join, Patch
from draft.language.tree.nodes import Condition, Node, Without
from draft.language.tree.sheet_blocks import Piece, Template


@dataclass(frozen=True)
class File(Node):
    """A whole text."""

    patterns: tuple[Pattern, ...]
    measures: tuple[Measure | OwnMeasure, ...]
    properties: tuple[Property, ...]
    styles: tuple[StyleRange | StyleChoice, ...]
    values: tuple[Definition, ...]
    solves: tuple[Solve, ...]
    templates: tuple[Template, ...]
    pieces: tuple[Piece, ...]
    joins: tuple[Join, ...]
    finished: tuple[Finished, ...]
    checks: tuple[Relation, ...]
    booklet: tuple[Setting | Topic | Advice, ...] = ()
    patches: tuple[Patch, ...] = ()
    without: tuple[Without, ...] = ()
    cloths: tuple[Cloth, ...] = ()
    notions: tuple[Notion, ...] = ()
    conditions: tuple[Condition, ...] = ()
    """Every condition, once, in the order written: also of lines that are there for no choice."""
