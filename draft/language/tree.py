"""The tree of a piece file: what is written, with its place, and no meaning yet.

The span is the first field of every node and takes no part in comparison, so that two trees are equal when they say
the same.
"""

from __future__ import annotations

from dataclasses import field
from typing import Literal as Either

from draft.base.notes import Span
from draft.base.record import dataclass
from draft.base.units import Kind
from draft.garment.garment import CornerKind, CutAs, FasteningKind, Finish, Fit, Layer, OnSide, OpenFor

StepPlace = Either["", "after", "before", "instead of"]


@dataclass(frozen=True)
class Node:
    """Anything that was written somewhere."""

    span: Span = field(compare=False, repr=False)


# ---- values ---------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Literal(Node):
    """A quantity, in the engine's own units."""

    value: float
    kind: Kind


@dataclass(frozen=True)
class Ref(Node):
    """A name, or `piece.name`."""

    parts: tuple[str, ...]

    @property
    def text(self) -> str:
        """The name as written."""
        return ".".join(self.parts)


@dataclass(frozen=True)
class Call(Node):
    """A word of the language with what it is given; `word` is the name of its record."""

    word: str
    args: tuple[Expr, ...]


@dataclass(frozen=True)
class SizeName(Node):
    """A size of the chart as the key of a row; None is the row for every other size or option."""

    name: str | None


@dataclass(frozen=True)
class Options(Node):
    """The options of a style that one row is for."""

    names: tuple[str, ...]
    name_spans: tuple[Span, ...] = field(compare=False, repr=False)


@dataclass(frozen=True)
class Row(Node):
    """One row of a `by`: options of a choice, a level or a size, and the value there."""

    key: Options | Expr | SizeName
    value: Expr


@dataclass(frozen=True)
class By(Node):
    """A value for each choice, or a value read between levels."""

    subject: Ref
    rows: tuple[Row, ...]


@dataclass(frozen=True)
class SquareTo(Node):
    """The direction square to an edge where this one meets it."""

    edge: Ref


@dataclass(frozen=True)
class SewnLength(Node):
    """How long an edge is once its darts and pleats are closed and its gathers drawn up.

    Elastic draws it in to its own length, unless it lies `flat`.
    """

    edge: Ref
    flat: bool = False


Expr = Literal | Ref | Call | By | SewnLength
Way = Expr | SquareTo


# ---- branches -------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class ChoiceIs(Node):
    """A style that is set to one of some options, or to none of them."""

    style: Ref
    negated: bool
    options: tuple[str, ...]
    option_spans: tuple[Span, ...] = field(compare=False, repr=False)


@dataclass(frozen=True)
class Condition(Node):
    """What some lines are there for: all of its parts, or any of them."""

    parts: tuple[ChoiceIs, ...]
    every: bool


@dataclass(frozen=True)
class Branch(Node):
    """One `when` round a line: whether its condition must hold for the line to be there, or must not."""

    condition: Condition
    holds: bool


@dataclass(frozen=True)
class Line(Node):
    """What may stand under a `when`; `branches` are those round it, outermost first."""

    branches: tuple[Branch, ...] = field(default=(), kw_only=True, repr=False)


@dataclass(frozen=True)
class Without(Line):
    """Lines that are taken out of what something is made from; `section` is the one that it stands in, if any."""

    names: tuple[str, ...]
    name_spans: tuple[Span, ...] = field(compare=False, repr=False)
    section: str = ""


@dataclass(frozen=True)
class MadeAfter(Line):
    """The template that a piece is made from, on a line of its own."""

    template: Ref


# ---- declarations ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Named(Line):
    """A declaration of a name."""

    name: str
    name_span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class Setting(Line):
    """A line such as `title "..."` or `allowance 1/2 in`."""

    word: str
    value: str | Expr
    value_span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class Uses(Setting):
    """A file that is used: for its templates, or for what is named of it."""

    names: tuple[str, ...] = ()
    name_spans: tuple[Span, ...] = field(default=(), compare=False, repr=False)


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
class Pattern(Named):
    """The head of a file that can be drafted; `base` names the file of a pattern that it varies."""

    settings: tuple[Setting, ...]
    base: Setting | None = None


@dataclass(frozen=True)
class Measure(Named):
    """A body measure that the pattern uses, and what it is about where nobody took it."""

    estimate: Expr | None = None


@dataclass(frozen=True)
class OwnMeasure(Named):
    """A body measure of the pattern's own: what it can be, what it is about, and how it is taken."""

    low: Expr
    high: Expr
    estimate: Expr | None
    words: str


@dataclass(frozen=True)
class Property(Named):
    """A property of the cloth that the pattern leans on: its own figure, and the cloths that it suits."""

    default: Expr
    low: Expr | None
    high: Expr | None
    words: str


@dataclass(frozen=True)
class Cloth(Named):
    """One of several cloths that a pattern is cut of."""

    words: str
    properties: tuple[Property, ...]
    allowances: tuple[Setting, ...] = ()


@dataclass(frozen=True)
class StyleRange(Named):
    """A quantity that the reader may choose, within limits."""

    default: Expr
    low: Expr
    high: Expr
    words: str


@dataclass(frozen=True)
class StyleChoice(Named):
    """One of several names that the reader may choose."""

    default: str
    default_span: Span = field(compare=False, repr=False)
    options: tuple[str, ...]
    words: str


@dataclass(frozen=True)
class Definition(Named):
    """`name = value`."""

    value: Expr
    words: str


@dataclass(frozen=True)
class Unknown(Named):
    """A value to be found within a range."""

    low: Expr
    high: Expr
    nearest: Expr | None
    words: str


Sort = Either["equals", "at least", "at most"]


@dataclass(frozen=True)
class Relation(Line):
    """Two values and how they must stand to one another; `words` say why, and `fix` what helps where they do not."""

    left: Expr
    sort: Sort
    right: Expr
    words: str
    fix: str = ""


@dataclass(frozen=True)
class Solve(Line):
    """Unknowns and the relations that settle them."""

    unknowns: tuple[Unknown, ...]
    relations: tuple[Relation, ...]
    without: tuple[Without, ...] = ()


@dataclass(frozen=True)
class Input(Named):
    """What a template is given; of a choice also its `options`."""

    kind: Kind
    default: Expr | None
    words: str
    options: tuple[str, ...] = ()

    @property
    def what(self) -> str:
        """What is to be given, in words."""
        return f"a choice of {', '.join(self.options)}" if self.options else self.kind.value


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


@dataclass(frozen=True)
class Mark(Named):
    """A mark inside a piece: at one point or a row of them, or a line through several.

    What stands at points is a drill mark, or a `fastening`; a buttonhole is so long, `going` its way.
    """

    drill: bool
    at: tuple[Ref, ...]
    words: str
    fastening: FasteningKind = ""
    length: Expr | None = None
    going: Expr | None = None
    there: Expr | None = None


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


@dataclass(frozen=True)
class Notion(Named):
    """What is bought besides the cloth: so many or so much, or what is needed for seams, edges and marks."""

    amount: Expr | None
    uses: tuple[Ref, ...]
    words: str


@dataclass(frozen=True)
class Topic(Line):
    """A paragraph of the booklet about one of its topics."""

    about: str
    about_span: Span = field(compare=False, repr=False)
    text: str


@dataclass(frozen=True)
class Advice(Line):
    """What a designer says of a step of the booklet, or a step of her own: words, a picture, a link.

    With a `place` it comes before, after or instead of the step `beside`.
    """

    to: Ref
    text: str
    picture: Setting | None
    place: StepPlace = ""
    beside: Ref | None = None
    link: Setting | None = None


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
