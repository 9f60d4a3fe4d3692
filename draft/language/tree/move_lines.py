"""What a sheet is traced from, and the moves that are made on it."""

from __future__ import annotations

from dataclasses import field
from typing import Literal as Either

from draft.base.notes import Span
from draft.base.record import dataclass
from draft.language.tree.nodes import Expr, Line, Named, Node, Ref


@dataclass(frozen=True)
class Origin(Node):
    """What a sheet is traced from: all of a draft, or the part between some of its lines and edges."""

    draft: Ref
    between: tuple[Ref, ...] = ()


@dataclass(frozen=True)
class Opened(Named):
    """Where a dart that is closed opens again, and how it is sewn there."""

    edge: Ref
    at: Expr
    trued: bool = False
    trued_over: Expr | None = None
    pressed: Ref | None = None
    short: Expr | None = None


@dataclass(frozen=True)
class LetOut(Node):
    """What a dart that is closed becomes on an edge, instead of another dart."""

    into: Either["ease", "gathers", "flare"]
    edge: Ref
    at: Expr | None


@dataclass(frozen=True)
class Merged(Node):
    """Another dart to the same point, into which one is closed."""

    dart: Ref


@dataclass(frozen=True)
class Hold(Line):
    """The edge whose part of the paper rests while the moves below are made."""

    edge: Ref


@dataclass(frozen=True)
class Close(Line):
    """A dart closed about its point, all of it or a share of how it was drawn."""

    share: Expr | None
    dart: Ref
    into: Opened | LetOut | Merged


@dataclass(frozen=True)
class Slash(Line):
    """Paper cut along a line, or so many times from one edge to another, and spread."""

    line: Ref | None
    start: Ref | None
    end: Ref | None
    times: float
    times_span: Span = field(compare=False, repr=False)
    spreads: tuple[tuple[Expr, Ref | None], ...]
    into: Either["", "ease", "gathers", "flare", "pleat"]
    pleat: str = ""
    folded: Expr | None = None


@dataclass(frozen=True)
class Lay(Line):
    """Another draft laid onto this one: an edge on an edge, or a point on a point and another towards a third."""

    draft: Ref
    mirrored: bool
    word: str
    word_span: Span = field(compare=False, repr=False)
    first: Ref
    onto: Ref
    towards: tuple[Ref, Ref] | None
    onto_edge: bool = False


@dataclass(frozen=True)
class Extend(Named):
    """An edge moved outwards as a new edge."""

    edge: Ref
    amount: Expr


Move = Hold | Close | Slash | Lay | Extend
