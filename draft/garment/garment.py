"""A drafted pattern: pieces with named edges, drawn for all bodies at once.

Coordinates are millimetres on the cloth's face, x across and y up; the first axis of every array is the body.
Edges of a piece follow one another and close its outline.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from draft.base.arrays import Floats
from draft.base.notes import Span

CornerKind = Literal["carried", "cut", "stepped", "peaked"]
CutAs = Literal["", "as a pair", "right side up"]
Fit = Literal["even", "stretched", "eased", "gathered"]


@dataclass(frozen=True)
class Edge:
    """One named side of a piece, as cubic segments `(bodies, segments, 4, 2)` from its first point to its last.

    `allowance` is the width in mm added outside it (0 on the fold). `corner` says how the allowance ends: `meet`
    carries neighbouring cutting lines on until they meet; `mirror` reflects the neighbours about this edge, so that
    a hem lies flat when it is turned up.
    """

    span: Span
    name: str
    segments: Floats
    allowance: float
    on_fold: bool = False
    corner: Literal["meet", "mirror"] = "meet"
    end_corner: CornerKind = "carried"
    """How the cutting line goes round the corner at the edge's last point: carried on until both sides meet, cut
    square to both edges, or stepped from one width to the other; peaked is carried on, and may meet a fold aslant."""
    gathered: Floats | None = None
    """The share of its length `(bodies,)` that the edge is drawn up to before it is sewn; None where it is not."""
    ends: tuple[str, str] = ("", "")
    """The names of its first and last point."""
    unjoined: bool = False
    """Whether no join is meant to name it: an opening, an edge that stays raw, one caught in the seam of another."""


@dataclass(frozen=True)
class Notch:
    """A mark on an edge, `at` mm from the edge's first point `(bodies,)`; two strokes tell back from front.

    `at` is not a number for a body that has no such mark.
    """

    span: Span
    edge: str
    at: Floats
    strokes: int = 1


@dataclass(frozen=True)
class Takeup:
    """A dart or a pleat on an edge, `width` mm wide `(bodies,)` with its middle `at` mm along the edge `(bodies,)`.

    A dart runs to its point `to` `(bodies, 2)`; a pleat is folded for `length` mm `(bodies,)`. Where the edge is to be
    trued across a dart, `trued_over` is for how many mm `(bodies,)` to either side.
    """

    span: Span
    name: str
    edge: str
    at: Floats
    width: Floats
    to: Floats | None = None
    length: Floats | None = None
    trued_over: Floats | None = None


@dataclass(frozen=True)
class Mark:
    """A mark inside a piece: a drill mark at one point, or a line through several, `(bodies, points, 2)`."""

    span: Span
    name: str
    drill: bool
    points: Floats
    words: str = ""


@dataclass(frozen=True, eq=False)
class Piece:
    """A piece as drafted: half of it where it lies on a fold."""

    span: Span
    name: str
    edges: tuple[Edge, ...]
    cut: int
    grain: Floats
    """Unit vectors `(bodies, 2)` along the lengthwise grain."""
    stretch: Floats
    """Unit vectors `(bodies, 2)` along the direction of greatest stretch; across the grain where none is named."""
    notches: tuple[Notch, ...] = ()
    printed: str = ""
    """The name as it is printed, where the file gives one."""
    takeups: tuple[Takeup, ...] = ()
    marks: tuple[Mark, ...] = ()
    stretches: bool = True
    """Whether the file names the direction of greatest stretch: that of a woven garment has none to name."""
    cut_as: CutAs = ""
    """Whether the piece is cut as mirrored pairs, or only with the cloth's right side up."""

    @property
    def title(self) -> str:
        """The name as it is printed: `sleeve band`."""
        return self.printed or self.name.replace("_", " ")

    @property
    def on_fold(self) -> bool:
        """Whether the piece is half of what is cut."""
        return any(edge.on_fold for edge in self.edges)

    def edge(self, name: str) -> Edge:
        """The edge called `name`. Raises KeyError."""
        for edge in self.edges:
            if edge.name == name:
                return edge
        raise KeyError(name)


@dataclass(frozen=True)
class SidePart:
    """One edge in one side of a join; `reverse` if the side runs along it from last point to first."""

    piece: str
    edge: str
    reverse: bool = False


@dataclass(frozen=True)
class Join:
    """A seam: which edges are sewn to which.

    `ratio` `(bodies,)` is what the first side measures for each length of the second: below 1 where it is stretched
    to it, above 1 where it is eased or gathered in; None where both are to be of one length. `notches` are shares of
    the first side's length, `(bodies,)` each.
    """

    span: Span
    name: str
    first: tuple[SidePart, ...]
    second: tuple[SidePart, ...]
    ratio: Floats | None = None
    notches: tuple[Floats, ...] = ()
    double_notches: tuple[Floats, ...] = ()
    """Those that are cut as two strokes, so that the back is told from the front."""
    fit: Fit = "even"
    trued_over: Floats | None = None
    """How far from the seam, mm `(bodies,)`, the outlines at its ends are blended into one; None where they are not."""

    @property
    def pieces(self) -> frozenset[str]:
        """The names of the pieces that it sews."""
        return frozenset(part.piece for part in (*self.first, *self.second))

    @property
    def stretched(self) -> bool:
        """Whether the first side is shorter and stretched to the second."""
        return self.fit == "stretched"


@dataclass(frozen=True)
class Patch:
    """A piece that is laid onto a line marked on another, and stitched on round its edges: a patch pocket."""

    span: Span
    name: str
    piece: str
    onto: str
    line: str


@dataclass(frozen=True)
class Finished:
    """A measurement of the finished garment, read off the drafted lines: mm `(bodies,)`.

    `over` is what of the body it is worn over and `passing` what it must pass on the way there, mm `(bodies,)` each
    with its name. `across` is how far the line lies across the cloth: 1 across, 0 along the length, `(bodies,)`.
    """

    name: str
    girth: bool
    values: Floats
    words: str = ""
    span: Span | None = None
    over: tuple[str, Floats] | None = None
    passing: tuple[tuple[str, Floats], ...] = ()
    across: Floats | None = None

    @property
    def title(self) -> str:
        """The name as it is said: `upper arm`."""
        return self.name.replace("_", " ")

    @property
    def ease(self) -> Floats | None:
        """By how much the garment is larger than what it is worn over: mm `(bodies,)`."""
        return self.values - self.over[1] if self.over else None


@dataclass(frozen=True, eq=False)
class Garment:
    """Everything that a plan drafted for a list of bodies."""

    title: str
    maker: str
    sizes: tuple[str, ...]
    pieces: tuple[Piece, ...]
    joins: tuple[Join, ...]
    finished: tuple[Finished, ...]
    chosen: tuple[tuple[str, Floats], ...] = ()
    """What the solver chose: name and value for each body."""
    cloth: Mapping[str, float] = field(default_factory=dict)
    """What is known of the cloth that it was planned for, by the name of `draft.fabrics.properties`."""
    patches: tuple[Patch, ...] = ()

    def piece(self, name: str) -> Piece:
        """The piece called `name`. Raises KeyError."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        raise KeyError(name)
