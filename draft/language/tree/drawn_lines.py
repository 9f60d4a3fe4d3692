"""What is drawn on a sheet: points, edges, darts and pleats, notches, marks and corners."""

from __future__ import annotations

from typing import Literal as Either

from draft.base.record import dataclass
from draft.garment.garment import CornerKind, FasteningKind, Finish, LineKind
from draft.language.tree.nodes import Expr, Line, Named, Node, Ref, Way


@dataclass(frozen=True)
class Place(Named):
    """A point and where it lies; `by` tells the style that settles which of several places it has."""

    value: Expr


LegSort = Either["straight", "curve", "arc", "following", "beside"]


@dataclass(frozen=True)
class Leg(Line):
    """One stretch of an edge; `to` is None on the last, which runs to the edge's end.

    `about` is the centre of an arc, or the edge that a leg follows; `along` are the edges that it runs beside.
    A curve that bends `evenly` does so with no step of its curvature.
    """

    sort: LegSort
    to: Ref | None
    leaving: Way | None = None
    heading: Way | None = None
    arriving: Way | None = None
    about: Expr | None = None
    along: tuple[Ref, ...] = ()
    evenly: bool = False


@dataclass(frozen=True)
class EdgeOption(Line):
    """An option of an edge that stands under a `when`: a field of its finish, or `measuring`."""

    word: str
    value: Expr | bool


@dataclass(frozen=True)
class Edge(Named):
    """A named side of a piece; `sometimes` are options that not every choice of a style gives it."""

    start: Ref
    end: Ref
    legs: tuple[Leg, ...]
    finish: Finish[Expr, Expr | None]
    measuring: Expr | None = None
    sometimes: tuple[EdgeOption, ...] = ()


@dataclass(frozen=True)
class Bowed(Node):
    """How the legs of a dart are curved: by so much in their middle, together or apart, or both `towards` one side."""

    by: Expr
    towards: Ref | None = None
    apart: bool = False


@dataclass(frozen=True)
class Takeup(Named):
    """A dart, with the point that it runs to, or a pleat, with the length that it is folded for.

    The edge may be trued across a dart; one is sewn to its point, or so much `short` of it. It is `pressed` towards an
    edge or a point.
    """

    edge: Ref
    width: Expr
    at: Expr
    to: Expr | None
    length: Expr | None
    trued: bool = False
    trued_over: Expr | None = None
    pressed: Ref | None = None
    short: Expr | None = None
    there: Expr | None = None
    """Of one that was traced: 1 where it lies on the part that was traced, 0 where it does not."""
    other: Expr | None = None
    """The second point of a dart that lies inside its piece, on a line."""
    bowed: Bowed | None = None


@dataclass(frozen=True)
class Notch(Line):
    """A notch on one edge, so far or such a share of it from one of its ends.

    One that was traced has no distance: it lies where `near` does.
    """

    edge: Ref
    distance: Expr | None
    near: Ref
    double: bool
    there: Expr | None = None
    words: str = ""


@dataclass(frozen=True)
class Mark(Named):
    """A mark inside a piece: at one point or a row of them, or a line through several.

    What stands at points is a drill mark, or a `fastening`; a buttonhole is so long, `going` its way. A `line` may be
    a fold, or run across the piece through its only point: a level, or where the piece may be lengthened.
    """

    drill: bool
    at: tuple[Ref, ...]
    words: str
    fastening: FasteningKind = ""
    length: Expr | None = None
    going: Expr | None = None
    there: Expr | None = None
    line: LineKind = ""


@dataclass(frozen=True)
class Corner(Line):
    """How the cutting line goes round a corner."""

    at: Ref
    kind: CornerKind


@dataclass(frozen=True)
class EdgeAgain(Named):
    """Options for an edge that was drawn elsewhere."""

    finish: Finish[Expr, Expr | None]
    said: frozenset[str]
    measuring: Expr | None = None
