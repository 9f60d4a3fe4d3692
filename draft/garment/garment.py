"""A garment: pieces with named edges, the joins that sew them together, and what is measured once it is finished.

Each thing of the trade has one record here. The tree says what was written of it; the plan fills the record with values
that are still to be found (`EdgeOf[Value, Value]`), drafting with what was found for every body (`Edge`).

Coordinates are millimetres on the cloth's face, x across and y up; the first axis of every array is the body. Edges
of a piece follow one another and close its outline.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, fields
from typing import Generic, Literal, TypeAlias, TypeVar

from draft.base.arrays import Floats
from draft.base.notes import Span
from draft.base.record import dataclass
from draft.base.units import Kind

CornerKind = Literal["carried", "cut", "stepped", "peaked"]
FasteningKind = Literal["", "button", "buttonhole", "snap"]
CutAs = Literal["", "as a pair", "right side up"]
Layer = Literal["", "outside", "inside"]
OnSide = Literal["", "left", "right"]
OpenFor = Literal["", "lapped zip", "invisible zip", "slit", "turning"]
Fit = Literal["even", "stretched", "eased", "gathered"]

Each = TypeVar("Each")
"""A value of its own for each body: written, planned, or found."""
One = TypeVar("One")
"""A value that is one for all bodies."""


@dataclass(frozen=True, kw_only=True)
class Finish(Generic[Each, One]):
    """What a designer says of an edge behind its line: the rule of the grammar that reads an option has its name.

    An option that is given a value has a `kind`; the others are said or not.
    """

    allowance: One = field(default=None, metadata={"kind": Kind.LENGTH})  # type: ignore[assignment]
    """The width in mm that is added outside the edge: that of the pattern where nothing is said, 0 on the fold."""
    turned_up: bool = False
    """Whether it is a hem: the neighbours' cutting lines are mirrored about it, so that it lies flat when turned up."""
    on_fold: bool = False
    unjoined: bool = False
    """Whether no join is meant to name it: an opening, an edge that stays raw, one caught in the seam of another."""
    gathered: Each | None = field(default=None, metadata={"kind": Kind.NUMBER})
    """The share of its length `(bodies,)` that the edge is drawn up to before it is sewn; None where it is not."""
    elastic: Each | None = field(default=None, metadata={"kind": Kind.LENGTH})
    """How long the elastic along the edge is while nothing stretches it, mm `(bodies,)`; None where there is none.

    While it is sewn it is stretched to the cloth, so that seams are walked along the cloth as it is drawn; what is
    finished lies at the elastic's length, and gives until the cloth is flat.
    """


FINISHES = {option.name: option.metadata.get("kind") for option in fields(Finish)}
"""The options of an edge by their rules in the grammar, with the kind of what each is given."""


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
    whole: str = ""
    """The edge that it is a part of, where seams begin or end within that."""


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


@dataclass(frozen=True)
class TakeupOf(Generic[Each]):
    """A dart or a pleat on an edge, `width` mm wide `(bodies,)` with its middle `at` mm along the edge `(bodies,)`.

    A dart is sewn to its point `to` `(bodies, 2)`; a pleat is folded for `length` mm `(bodies,)`. Where the edge is to
    be trued across a dart, `trued_over` is for how many mm `(bodies,)` to either side, or `let_in` says that it runs
    straight from end to end once its darts are shut.
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
    towards: str = ""
    """The edge or point that it is said to be pressed towards."""
    there: Each | None = None


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


@dataclass(frozen=True)
class SidePart:
    """One edge in one side of a join; `reverse` if the side runs along it from last point to first."""

    piece: str
    edge: str
    reverse: bool = False
    layer: Layer = ""
    """Which side of a piece of two it is of; all of its layers together where none is named."""
    ends: tuple[str, str] | None = None
    """Of an edge that is still to be parted: the places between which a seam has it."""

    @property
    def drawn(self) -> str:
        """The edge as it is drawn, of which this may be a part."""
        return self.edge.partition(" from ")[0]


@dataclass(frozen=True)
class JoinNotchOf(Generic[Each]):
    """A notch of a join, cut on both sides: where along the first side `(bodies,)`, as a share of it or in mm."""

    at: Each
    in_mm: bool = False
    double: bool = False
    """Whether it is cut as two strokes, so that the back is told from the front."""
    of_whole: bool = False
    """Whether it is a share of the whole seam, opened out and as often as its sides are cut: a quarter of a round."""


@dataclass(frozen=True)
class OpeningOf(Generic[Each]):
    """A part of a join that is not sewn, `length` mm `(bodies,)` of it.

    It begins `at` mm `(bodies,)` along the edge of `part`, as that is drawn, at a place of a name; on one side of the
    body, or on both.
    """

    span: Span
    length: Each
    at: Each
    part: SidePart
    place: str
    on_side: OnSide = ""
    use: OpenFor = ""
    """What it is for, and so how it is finished; nothing where the file does not say."""


@dataclass(frozen=True)
class JoinOf(Generic[Each]):
    """A seam: which edges are sewn to which.

    `ratio` `(bodies,)` is what the first side measures for each length of the second: below 1 where it is stretched
    to it, above 1 where it is eased or gathered in; None where both are to be of one length.
    """

    span: Span
    name: str
    first: tuple[SidePart, ...]
    second: tuple[SidePart, ...]
    ratio: Each | None = None
    notches: tuple[JoinNotchOf[Each], ...] = ()
    fit: Fit = "even"
    trued_over: Each | None = None
    """How far from the seam, mm `(bodies,)`, the outlines at its ends are blended into one; None where they are not."""
    openings: tuple[OpeningOf[Each], ...] = ()
    onto: str = ""
    """The seam on which its first side is turned under and stitched down; its second is what lies there."""
    caught: bool = False
    """Whether its second side is caught between the two sides of another join, of the same name and first side."""
    faced: bool = False
    """Whether one side is a facing of the other, traced off the same paper: it is turned back, and its ends with it."""
    parted: bool = False
    """Whether it sews together again what was cut along a line: no side is a facing or a band of the other."""

    @property
    def is_facing(self) -> bool:
        """Whether it sews a facing to its piece."""
        return self.faced and not self.parted

    @property
    def of_layers(self) -> bool:
        """Whether the outside of a piece is sewn to its inside: at its ends no outline runs on across it."""
        return len(self.pieces) == 1 and {part.layer for part in (*self.first, *self.second)} == {"outside", "inside"}

    @property
    def is_lying(self) -> bool:
        """Whether it sews nothing end to end: what is caught, stitched down, or lies as the other side of a piece."""
        return bool(self.onto) or self.caught or self.of_layers

    def closes(self, piece: str) -> bool:
        """Whether it sews a piece to itself, into a ring or a tube or along its middle."""
        return self.pieces == {piece} and not self.is_lying

    @property
    def pieces(self) -> frozenset[str]:
        """The names of the pieces that it sews."""
        return frozenset(part.piece for part in (*self.first, *self.second))

    @property
    def stretched(self) -> bool:
        """Whether the first side is shorter and stretched to the second."""
        return self.fit == "stretched"


@dataclass(frozen=True)
class NotionOf(Generic[Each]):
    """What is bought besides the cloth: an `amount` `(bodies,)`, in mm or a number of them, or what it is used for.

    `uses` are joins by name, edges and rows of marks by `piece.name`; how much they need is read off the garment.
    """

    span: Span
    name: str
    words: str = ""
    amount: Each | None = None
    in_mm: bool = False
    uses: tuple[str, ...] = ()


@dataclass(frozen=True)
class Patch:
    """A piece that is laid onto a line marked on another, and stitched on round its edges: a patch pocket."""

    span: Span
    name: str
    piece: str
    onto: str
    line: str


@dataclass(frozen=True)
class FinishedOf(Generic[Each]):
    """A measurement of the finished garment, read off the drafted lines: mm `(bodies,)`.

    `over` is what of the body it is worn over and `passing` what it must pass on the way there, mm `(bodies,)` each
    with its name. `across` is how far the line lies across the cloth: 1 across, 0 along the length, `(bodies,)`.
    """

    name: str
    around: bool
    values: Each
    words: str = ""
    span: Span | None = None
    over: tuple[str, Each] | None = None
    passing: tuple[tuple[str, Each], ...] = ()
    across: Each | None = None
    flat: Each | None = None
    """Where elastic draws it in: what it measures once that is stretched until the cloth lies flat, mm `(bodies,)`."""

    @property
    def title(self) -> str:
        """The name as it is said: `upper arm`."""
        return self.name.replace("_", " ")


Cloth: TypeAlias = ClothOf[float]
Cut: TypeAlias = CutOf[float]
Edge: TypeAlias = EdgeOf[Floats, float]
Notch: TypeAlias = NotchOf[Floats]
Parting: TypeAlias = PartingOf[Floats]
Takeup: TypeAlias = TakeupOf[Floats]
InnerDart: TypeAlias = InnerDartOf[Floats]
Mark: TypeAlias = MarkOf[Floats]
Piece: TypeAlias = PieceOf[Floats, float]
JoinNotch: TypeAlias = JoinNotchOf[Floats]
Opening: TypeAlias = OpeningOf[Floats]
Join: TypeAlias = JoinOf[Floats]
Notion: TypeAlias = NotionOf[Floats]
Finished: TypeAlias = FinishedOf[Floats]


@dataclass(frozen=True, eq=False)
class Garment:
    """Everything that a plan drafted for a list of bodies. It is equal to itself alone."""

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
    cloths: tuple[Cloth, ...] = ()
    """The cloths that it is cut of, by their names; none where there is one without a name."""
    notions: tuple[Notion, ...] = ()

    def piece(self, name: str) -> Piece:
        """The piece called `name`. Raises KeyError."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        raise KeyError(name)
