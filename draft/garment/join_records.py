"""What is sewn to what, what that takes besides cloth, and what is measured once it is sewn."""

from __future__ import annotations

from typing import Generic, TypeAlias

from draft.base.arrays import Floats
from draft.base.notes import Span
from draft.base.record import dataclass
from draft.garment.finish import Each, Fit, Layer, OnSide, OpenFor


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
    matched: bool = False
    """Whether stripes and checks meet there."""
    words: str = ""
    """What the designer says of it, printed beside it on both sides."""
    ends: OpenFor | None = None
    """What an opening is for that begins or ends there; None of all other notches."""


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


JoinNotch: TypeAlias = JoinNotchOf[Floats]
Opening: TypeAlias = OpeningOf[Floats]
Join: TypeAlias = JoinOf[Floats]
Notion: TypeAlias = NotionOf[Floats]
Finished: TypeAlias = FinishedOf[Floats]
