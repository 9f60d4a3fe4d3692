"""What a booklet is made from: plain records, so that whoever has more to say can fill in more of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property
from typing import TYPE_CHECKING

from draft.base.record import dataclass
from draft.bodies.wearers import MEN
from draft.drafting.drafting import Drafted
from draft.garment.garment import Edge, Garment, Join, Piece, SidePart
from draft.paper.drawing.called import Called
from draft.paper.drawing.face import NO_FACE, Face
from draft.paper.drawing.wording import Wording
from draft.paper.flat.views import knit
from draft.paper.pages.paged_sheet import PagedSheet
from draft.paper.pictures.lay_drawing import LayPicture
from draft.seams.bare import is_bare
from draft.seams.joins_in_order import neighbour, seam_letters

if TYPE_CHECKING:
    from draft.paper.worn.worn_sheet import WornSheet

Hemmed = Sequence[tuple[Piece, Edge]]


@dataclass(frozen=True)
class Matching:
    """Stripes or checks that are matched: after how many mm they return across and along, and how many mm they cost.

    That is what the size that takes most needs more than of plain cloth laid one way.
    """

    repeat: tuple[float, float]
    more: float


@dataclass(frozen=True)
class ClothAmounts:
    """What each size needs of one cloth: its width, whether pieces must all point one way, lengths to buy in mm."""

    width: float
    one_way: bool
    lengths: tuple[float, ...]
    name: str = ""
    """Which cloth it is, where the pattern has several."""
    laid: str = ""
    """`folded` or `thrifty`, where there are both; `pieced` where long strips are cut across in parts."""
    matched: Matching | None = None


@dataclass(frozen=True)
class TooWide:
    """Sizes that cloth `width` mm wide does not hold: their widest piece, how wide it is, and what it asks for, in mm.

    `usable` is what of the cloth's width pieces may lie on.
    """

    width: float
    sizes: tuple[str, ...]
    piece: str
    wide: float
    least: float
    name: str = ""
    usable: float = 0.0
    narrower: tuple[str, ...] = ()
    """Choices of one style with which they fit, such as `sleeve=cap`."""


@dataclass(frozen=True)
class ClothPlan:
    """How much to buy of cloth of each width, how the pieces are laid on it, and which sizes it does not hold."""

    amounts: tuple[ClothAmounts, ...] = ()
    lays: tuple[LayPicture, ...] = ()
    too_wide: tuple[TooWide, ...] = ()

    def __add__(self, other: ClothPlan) -> ClothPlan:
        return ClothPlan(self.amounts + other.amounts, self.lays + other.lays, self.too_wide + other.too_wide)


@dataclass(frozen=True)
class BookletFacts:
    """A drafted pattern, the sizes to speak of (indices of its bodies), and what else is known.

    `sheets` are the printed patterns whose pages are mapped.
    """

    drafted: Drafted
    bodies: tuple[int, ...]
    wording: Wording
    sheets: tuple[PagedSheet, ...] = ()
    cloth: ClothPlan | None = None
    face: Face = NO_FACE
    worn: WornSheet | None = None
    """The garment on a form of its wearer, where that was asked for."""
    large: tuple[str, ...] = ()
    """The large papers that it comes on too, and `projector`."""

    @property
    def garment(self) -> Garment:
        """What was drafted, as it is cut; of a body whose sides differ one between them, which is sewn alike."""
        return self.drafted.unwashed or self.drafted.garment

    @property
    def for_men(self) -> bool:
        """Whether its pattern says that men wear it."""
        return self.drafted.plan.wearers.name == MEN.name

    @property
    def cut_garment(self) -> Garment:
        """The pieces that lie on the cloth, those of both sides apart where they differ."""
        return self.drafted.to_cut

    @property
    def sizes(self) -> tuple[str, ...]:
        """The names of the sizes, in order."""
        return tuple(self.garment.sizes[body] for body in self.bodies)

    @property
    def middle(self) -> int:
        """The body that drawings show: the one in the middle."""
        return self.bodies[len(self.bodies) // 2]

    @cached_property
    def version(self) -> str:
        """`1.1`, or `1.1, 2026-05-04` where the designer says of which day it is; empty without one."""
        plan = self.drafted.plan
        return ", ".join([plan.version, *([self.wording.date(plan.day)] if plan.day else [])])

    @cached_property
    def bare(self) -> bool:
        """Whether the pieces come without seam allowances."""
        return is_bare(self.garment)

    @cached_property
    def knit(self) -> bool:
        """Whether the garment is made for cloth that stretches."""
        return knit(self.garment)

    @cached_property
    def letters(self) -> Mapping[str, str]:
        """The letter of each seam, which stands on its pieces too."""
        return seam_letters(self.garment)

    @property
    def title(self) -> str:
        """The pattern's name as it is printed."""
        return self.wording.titled(self.garment)

    def said(self, key: str) -> str:
        """A text that there are two of: for knits, and with `_woven` at its end for cloth that does not stretch."""
        return self.wording.say(key if self.knit else f"{key}_woven")

    def edge(self, name: str) -> str:
        """An edge as it is called in words."""
        return self.wording.edge(name)

    def piece(self, piece: Piece) -> Called:
        """A piece as it is called within a sentence."""
        return self.wording.called([self.wording.named(piece.title)])

    def pieces(self, names: Sequence[str]) -> Called:
        """Several pieces, each once, as they are called within a sentence."""
        titles = [self.garment.piece(name).title for name in dict.fromkeys(names)]
        return self.wording.called([self.wording.named(title) for title in titles])


def joined_to(garment: Garment, piece: str, edge: str) -> list[Join]:
    """The joins that an edge is part of."""
    return [
        join
        for join in garment.joins
        if any((part.piece, part.edge) == (piece, edge) for part in (*join.first, *join.second))
    ]


def turned_up_edges(garment: Garment) -> dict[str, list[tuple[Piece, Edge]]]:
    """The edges that are turned up, by the name of the first of those that go in one; those of a piece that is stitched
    on are hemmed before that.

    Edges of one name go in one, and so do edges that meet, on a piece or across a seam.
    """
    found = _turned_up_by_name(garment)
    for name in list(found):
        for other in [other for other in found if name in found and other != name]:
            if _run_on(garment, found[name], found[other]):
                found[name] += found.pop(other)
    return found


def _run_on(garment: Garment, some: Hemmed, others: Hemmed) -> bool:
    """Whether one of some edges meets one of others."""
    return any(
        meets(garment, SidePart(piece.name, edge.name), SidePart(on.name, beside.name))
        for piece, edge in some
        for on, beside in others
    )


def meets(garment: Garment, part: SidePart, other: SidePart) -> bool:
    """Whether two edges follow one another on a piece, or across a seam between two that sews none to its facing."""
    edges = {(part.piece, part.edge), (other.piece, other.edge)}
    if part.piece == other.piece:
        return (other.piece, other.edge) in {neighbour(garment, part, at_end) for at_end in (False, True)}
    sewn = [join for join in garment.joins if not (join.is_facing or join.is_lying)]
    return any(edges == _at_end(garment, join, at_end) for join in sewn for at_end in (False, True))


def _at_end(garment: Garment, join: Join, at_end: bool) -> set[tuple[str, str]]:
    """The edges of both sides that meet where a seam ends, or where it begins."""
    at = -1 if at_end else 0
    return {neighbour(garment, parts[at], at_end) for parts in (join.first, join.second)}


def _turned_up_by_name(garment: Garment) -> dict[str, list[tuple[Piece, Edge]]]:
    found: dict[str, list[tuple[Piece, Edge]]] = {}
    stitched_on = {patch.piece for patch in garment.patches}
    for piece in garment.pieces:
        for edge in piece.edges:
            if edge.turned_up and edge.allowance > 0 and piece.name not in stitched_on:
                found.setdefault(edge.name, []).append((piece, edge))
    return found
