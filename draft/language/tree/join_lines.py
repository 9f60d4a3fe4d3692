"""What is sewn to what, and what is measured once it is."""

from __future__ import annotations

from draft.base.record import dataclass
from draft.garment.garment import Fit, Layer, OnSide, OpenFor
from draft.language.tree.nodes import Expr, Named, Node, Ref


@dataclass(frozen=True)
class SidePart(Node):
    """One edge in one side of a join, or the part of it from one place on it to another, run in that direction."""

    edge: Ref
    reverse: bool
    layer: Layer = ""
    ends: tuple[Ref, Ref] | None = None


@dataclass(frozen=True)
class JoinNotch(Node):
    """A notch of a join, so far or such a share of it along its first side."""

    at: Expr
    double: bool
    matched: bool = False
    """Whether what is woven or printed on the cloth goes on there from one side to the other."""
    words: str = ""


@dataclass(frozen=True)
class LeftOpen(Node):
    """So much of a join that is not sewn, from a place on it; on one side of the body, or on both."""

    length: Expr
    near: Ref
    on_side: OnSide
    use: OpenFor = ""


@dataclass(frozen=True)
class Join(Named):
    """Which edges are sewn to which; `ratio` is what the first side measures for each length of the second.

    A join `along` a line sews together again what was cut there: its sides are found. One `onto` a seam turns its first
    side under and stitches it down there. What is `caught` lies between the two sides.
    """

    first: tuple[SidePart, ...]
    second: tuple[SidePart, ...]
    ratio: Expr | None
    fit: Fit
    notches: tuple[JoinNotch, ...]
    quarters: bool
    trued: bool
    trued_over: Expr | None
    words: str
    along: Ref | None = None
    onto: Ref | None = None
    caught: tuple[SidePart, ...] = ()
    openings: tuple[LeftOpen, ...] = ()


@dataclass(frozen=True)
class Patch(Named):
    """A piece that is laid onto a line marked on another and stitched on round its edges."""

    piece: Ref
    onto: Ref


@dataclass(frozen=True)
class Finished(Named):
    """A measurement of the finished garment.

    `over` is the length of the body that it is worn over, `passing` what it must pass on the way there, and `going`
    the way on the cloth in which it is then stretched.
    """

    around: bool
    value: Expr
    words: str
    over: Expr | None = None
    passing: tuple[Expr, ...] = ()
    going: Expr | None = None
