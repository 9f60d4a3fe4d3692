"""A garment: pieces with named edges, the joins that sew them together, and what is measured once it is finished.

Each thing of the trade has one record here. The tree says what was written of it; the plan fills the record with values
that are still to be found (`EdgeOf[Value, Value]`), drafting with what was found for every body (`Edge`).

Coordinates are millimetres on the cloth's face, x across and y up; the first axis of every array is the body. Edges
of a piece follow one another and close its outline.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.finish import (
    FINISHES,
    CornerKind,
    CutAs,
    Each,
    FasteningKind,
    Finish,
    Fit,
    Layer,
    LineKind,
    One,
    OnSide,
    OpenFor,
)
from draft.garment.join_records import (
    Finished,
    FinishedOf,
    Join,
    JoinNotch,
    JoinNotchOf,
    JoinOf,
    Notion,
    NotionOf,
    Opening,
    OpeningOf,
    Patch,
    SidePart,
)
from draft.garment.piece_records import (
    Cloth,
    ClothOf,
    Cut,
    CutOf,
    Edge,
    EdgeOf,
    InnerDart,
    InnerDartOf,
    Mark,
    MarkOf,
    Notch,
    NotchOf,
    Parting,
    PartingOf,
    Piece,
    PieceOf,
    Takeup,
    TakeupOf,
)

__all__ = [
    "FINISHES",
    "Cloth",
    "ClothOf",
    "CornerKind",
    "Cut",
    "CutAs",
    "CutOf",
    "Each",
    "Edge",
    "EdgeOf",
    "FasteningKind",
    "Finish",
    "Finished",
    "FinishedOf",
    "Fit",
    "Garment",
    "InnerDart",
    "InnerDartOf",
    "Join",
    "JoinNotch",
    "JoinNotchOf",
    "JoinOf",
    "Layer",
    "LineKind",
    "Mark",
    "MarkOf",
    "Notch",
    "NotchOf",
    "Notion",
    "NotionOf",
    "OnSide",
    "One",
    "OpenFor",
    "Opening",
    "OpeningOf",
    "Parting",
    "PartingOf",
    "Patch",
    "Piece",
    "PieceOf",
    "SidePart",
    "Takeup",
    "TakeupOf",
]


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
    letters: Mapping[tuple[str, str], str] | None = None
    """The letters of the seams along its edges, by piece and name, where they are not told from joins of its own."""
    unwashed: bool = False
    """Whether its pieces hold what washing takes from the cloth."""

    def piece(self, name: str) -> Piece:
        """The piece called `name`. Raises KeyError."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        raise KeyError(name)
