"""A piece, and all that lies on it: edges, notches, darts and pleats, marks; and the cloths that it is cut of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Generic, TypeAlias

from draft.base.arrays import Floats
from draft.base.notes import Span
from draft.base.record import dataclass
from draft.garment.finish import CornerKind, CutAs, Each, FasteningKind, Finish, Layer, LineKind, One, OpenFor


@dataclass(frozen=True)
class EdgeOf(Finish[Each, One]):
    """One named side of a piece, as cubic segments `(bodies, segments, 4, 2)` from its first point to its last."""

    span: Span
    name: str
    segments: Each
    ends: tuple[str, str] = ("", "")
    """The names of its first and last point."""
    end_corner: CornerKind = "carried"
    """How the cutting line goes round the corner at the edge's last point: carried on until both sides meet, cut
    square to both edges, or stepped from one width to the other; peaked is carried on, and may meet a fold aslant."""
    cornered: bool = False
    """Whether it may have corners inside: it runs beside several edges."""
    drawn_up: Each | None = None
    """The length in mm `(bodies,)` that a join gathers it to; None where none does."""
    shut: bool = False
    """Whether it is sewn to the next edge from its last point on, as one leg of a dart to the other."""
    whole: str = ""
    """The edge that it is a part of, where seams begin or end within that."""
    cut_along: str = ""
    """The line of a draft, `front.princess`, that it was cut along, where a piece lay on the other side."""


@dataclass(frozen=True)
class PartingOf(Generic[Each]):
    """A place within an edge at which a seam begins or ends, `at` mm from the edge's first point `(bodies,)`."""

    span: Span
    edge: str
    name: str
    at: Each


@dataclass(frozen=True)
class NotchOf(Generic[Each]):
    """A notch on an edge, `at` mm from the edge's first point `(bodies,)`; two strokes tell back from front.

    `at` is not a number for a body that has no such notch.
    """

    span: Span
    edge: str
    at: Each
    strokes: int = 1
    there: Each | None = None
    """Of one that was traced: 1 where it lies on the part that was traced, 0 where not, `(bodies,)`."""
    part: str = ""
    """The part of the way round that it bears beside it, such as `1/2`."""
    meets: str = ""
    """The letter of the seam that ends where it is laid."""
    words: str = ""
    """What the designer says of it, printed beside it: what it meets, or what begins there."""
    ends: OpenFor | None = None
    """What an opening is for that begins or ends there, as its join says; None of all other notches."""

    @property
    def said(self) -> str:
        """What tells it from others: the designer's words, or else its part of the way or the seam that ends there."""
        return self.words or self.part or self.meets


@dataclass(frozen=True)
class TakeupOf(Generic[Each]):
    """A dart or a pleat on an edge, `width` mm wide `(bodies,)` with its middle `at` mm along the edge `(bodies,)`.

    A dart is sewn to its point `to` `(bodies, 2)`; a pleat is folded for `length` mm `(bodies,)`. Where the edge is to
    be trued across a dart, `trued_over` is for how many mm `(bodies,)` to either side, or `let_in` says that it runs
    straight from end to end once its darts are shut; square to a fold at either end, in one curve.
    """

    span: Span
    name: str
    edge: str
    at: Each
    width: Each
    to: Each | None = None
    length: Each | None = None
    trued_over: Each | None = None
    there: Each | None = None
    let_in: bool = False
    from_fold: Each | None = None
    """The way `(bodies, 2)` in which an edge leaves a fold at its start, square to it."""
    to_fold: Each | None = None
    """The way `(bodies, 2)` in which it arrives at a fold at its end."""
    bow_first: Each | None = None
    """By how many mm `(bodies,)` the middle of a dart's first leg lies off its chord, towards the edge's end; less than
    none is towards its start. None of a straight one."""
    bow_last: Each | None = None
    bow_together: Each | None = None
    """By how many mm `(bodies,)` they are bowed towards one another; less than none apart, none to one side."""
    pressed: Each | None = None
    """1 where it is pressed towards the edge's end, 0 where towards its start, `(bodies,)`; None if nothing is said."""
    towards: str = ""
    """The edge or point that it is said to be pressed towards."""


@dataclass(frozen=True)
class InnerDartOf(Generic[Each]):
    """A dart inside a piece, sewn from one point `to` to the `other`, `(bodies, 2)` each.

    It is `width` mm wide `(bodies,)` on a line of the piece, with its middle at `at` `(bodies, 2)`, where the line runs
    along unit vectors `way` `(bodies, 2)`.
    """

    span: Span
    name: str
    line: str
    at: Each
    way: Each
    width: Each
    to: Each
    other: Each
    pressed: Each | None = None
    """1 where it is pressed the way that `way` goes, 0 where against it, `(bodies,)`; None if nothing is said."""
    towards: str = ""
    """The edge or point that it is said to be pressed towards."""
    there: Each | None = None
    bow_first: Each | None = None
    """As that of a dart on an edge: of the legs at the start of `way`, and of those at its end."""
    bow_last: Each | None = None


@dataclass(frozen=True)
class MarkOf(Generic[Each]):
    """A mark inside a piece: at each of its points `(bodies, points, 2)`, or a line through them.

    What stands at points is a drill mark, or a `fastening`. A buttonhole is `length` mm long `(bodies,)`, and runs
    along the unit vectors `way` `(bodies, 2)`.
    """

    span: Span
    name: str
    drill: bool
    points: Each
    words: str = ""
    fastening: FasteningKind = ""
    length: Each | None = None
    way: Each | None = None
    there: Each | None = None
    line: LineKind = ""
    """What a line is for: to be folded on, a level of the body, or to be lengthened at; empty where words say it."""


@dataclass(frozen=True)
class CutOf(Generic[One]):
    """So many of a piece from one cloth; of the only one where that has no name."""

    count: int
    cloth: str = ""
    cut_as: CutAs = ""
    layer: Layer = ""
    """Which side of the finished piece it is, where that has two."""
    allowance: One | None = None
    """In mm all round, where it is another than on the edges: that of a cloth which is not the piece's first."""


@dataclass(frozen=True)
class ClothOf(Generic[One]):
    """One of several cloths that a garment is cut of, by the designer's name, and what is known of it.

    `known` are figures by the name of `draft.fabrics.properties`. Pieces of it have an `allowance` of their own, in mm,
    where it says so.
    """

    span: Span
    name: str
    words: str = ""
    known: Mapping[str, float] = field(default_factory=dict)
    allowance: One | None = None


@dataclass(frozen=True, eq=False)
class PieceOf(Generic[Each, One]):
    """A piece as drafted: half of it where it lies on a fold. It is equal to itself alone."""

    span: Span
    name: str
    edges: tuple[EdgeOf[Each, One], ...]
    cut: int
    """How many of it are sewn: sides and cloths that lie on one another are one."""
    grain: Each
    """Unit vectors `(bodies, 2)` along the lengthwise grain."""
    stretch: Each
    """Unit vectors `(bodies, 2)` along the direction of greatest stretch; across the grain where none is named."""
    notches: tuple[NotchOf[Each], ...] = ()
    printed: str = ""
    """The name as it is printed, where the file gives one."""
    takeups: tuple[TakeupOf[Each], ...] = ()
    marks: tuple[MarkOf[Each], ...] = ()
    stretches: bool = True
    """Whether the file names the direction of greatest stretch: that of a woven garment has none to name."""
    cut_as: CutAs = ""
    """Whether the piece is cut as mirrored pairs, or only with the cloth's right side up."""
    cuts: tuple[CutOf[One], ...] = ()
    """What is cut of which cloth, for which side of it; nothing where there is one cloth, and the piece has one side.

    What is cut lies on one another: `cut` is how many there are then.
    """
    partings: tuple[PartingOf[Each], ...] = ()
    """Where its edges are still to be parted; nothing once they are."""
    inner_darts: tuple[InnerDartOf[Each], ...] = ()

    @property
    def title(self) -> str:
        """The name as it is printed: `sleeve band`."""
        return self.printed or self.name.replace("_", " ")

    @property
    def all_cuts(self) -> tuple[CutOf[One], ...]:
        """What is cut of it, also of the only cloth."""
        return self.cuts or ((CutOf(self.cut, cut_as=self.cut_as),) if self.cut else ())

    @property
    def layers(self) -> tuple[Layer, ...]:
        """The sides that it is made of: none, where it is one layer of cloth."""
        return tuple(dict.fromkeys(cut.layer for cut in self.cuts if cut.layer))

    def copies(self, layer: Layer = "") -> int:
        """How many of it are sewn, or of one of its sides; a half on the fold is two."""
        found = sum(cut.count for cut in self.cuts if cut.layer == layer) if layer else self.cut
        return found * (2 if self.on_fold else 1)

    @property
    def on_fold(self) -> bool:
        """Whether the piece is half of what is cut."""
        return any(edge.on_fold for edge in self.edges)

    def edge(self, name: str) -> EdgeOf[Each, One]:
        """The edge called `name`. Raises KeyError."""
        for edge in self.edges:
            if edge.name == name:
                return edge
        raise KeyError(name)


Cloth: TypeAlias = ClothOf[float]
Cut: TypeAlias = CutOf[float]
Edge: TypeAlias = EdgeOf[Floats, float]
Notch: TypeAlias = NotchOf[Floats]
Parting: TypeAlias = PartingOf[Floats]
Takeup: TypeAlias = TakeupOf[Floats]
InnerDart: TypeAlias = InnerDartOf[Floats]
Mark: TypeAlias = MarkOf[Floats]
Piece: TypeAlias = PieceOf[Floats, float]
