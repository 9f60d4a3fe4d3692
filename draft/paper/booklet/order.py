"""The steps of sewing in the order of the trade.

Stay stitches and interfacing come first, then darts and pleats, and what is stitched onto a piece that still lies flat;
then the joins with their zips, buttonholes once all of their piece is sewn, and hems last. What the designer places
otherwise goes there (`own_steps.py`).
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, InnerDart, Join, Mark, Opening, Patch, Piece, Takeup
from draft.geometry.cubic import norm
from draft.paper.booklet.facts import joined_to, turned_up_edges
from draft.paper.flat.views import knit
from draft.plan.advice import Advice
from draft.seams.joins_in_order import has_zip, joins_in_order
from draft.seams.sides import takeups_of

Sort = Literal[
    "interfacing", "stay", "takeups", "patch", "join", "zip", "fastenings", "hem", "slit", "turning", "elastic", "own"
]
_STAND = 0.15
"""The stand of a collar is bowed by less than this share of its length, and the cap of a sleeve by far more."""
_BOWED = 1.0  # mm: an edge that leaves the straight line by less does not stretch out


@dataclass(frozen=True)
class SewingStep:
    """One step: what it is about is in the field of its sort."""

    name: str
    sort: Sort
    patch: Patch | None = None
    join: Join | None = None
    opening: Opening | None = None
    edges: tuple[tuple[Piece, Edge], ...] = ()
    pieces: tuple[Piece, ...] = ()
    takeups: tuple[Takeup, ...] = ()
    inner_darts: tuple[InnerDart, ...] = ()
    marks: tuple[Mark, ...] = ()
    own: Advice | None = None

    @property
    def names(self) -> frozenset[str]:
        """All that a designer may call the step by: its join, or edges and marks with their pieces."""
        if self.sort in ("hem", "takeups"):
            return frozenset(f"{piece.name}.{edge.name}" for piece, edge in self.edges)
        if self.sort == "fastenings":
            return frozenset(f"{piece.name}.{mark.name}" for piece in self.pieces for mark in self.marks)
        return frozenset() if self.sort in ("interfacing", "stay", "elastic") else frozenset([self.name])


_ASLANT = float(np.sin(np.radians(10.0)))
"""By more than this an edge is off the grain and off the weft: then it grows as it is handled."""


def sewing_order(garment: Garment) -> list[SewingStep]:
    """All steps in their order, without the designer's own."""
    found = [*_prepared(garment), *_takeups(garment)]
    found += [SewingStep(patch.name, "patch", patch=patch) for patch in garment.patches]
    joins = joins_in_order(garment)
    for number, join in enumerate(joins):
        found += [*_elastic(garment, join), *_join(join)]
        rest = {piece for other in joins[number + 1 :] for piece in other.pieces}
        found += _fastenings(garment, join.pieces - rest)
    found += _fastenings(garment, {piece.name for piece in garment.pieces} - {n for j in joins for n in j.pieces})
    found += [SewingStep(name, "hem", edges=tuple(edges)) for name, edges in turned_up_edges(garment).items()]
    return [*found, *_left_for_last(joins)]


def _left_for_last(joins: list[Join]) -> list[SewingStep]:
    """Slits, which are hemmed over the hem, and holes that all is turned through."""
    opened = [(join, opening) for join in joins for opening in join.openings]
    slits = [SewingStep(join.name, "slit", join=join, opening=one) for join, one in opened if one.use == "slit"]
    holes = [SewingStep(join.name, "turning", join=join, opening=one) for join, one in opened if one.use == "turning"]
    return slits + holes


def _join(join: Join) -> list[SewingStep]:
    """A join with the zips that go into it: an invisible one before its seam is sewn, a lapped one after that."""
    before = [o for o in join.openings if o.use == "invisible zip"]
    after = [o for o in join.openings if o.use == "lapped zip"]
    return [
        *(SewingStep(join.name, "zip", join=join, opening=opening) for opening in before),
        SewingStep(join.name, "join", join=join),
        *(SewingStep(join.name, "zip", join=join, opening=opening) for opening in after),
    ]


def _elastic(garment: Garment, join: Join) -> list[SewingStep]:
    """Elastic that lies in the fold of a band, before the band is sewn on."""
    parts = [(garment.piece(part.piece), part.edge) for part in (*join.first, *join.second)]
    found = [(piece, piece.edge(name)) for piece, name in parts if piece.cut == 1 and _is_folded_band(piece)]
    drawn = [(piece, edge) for piece, edge in found if edge.elastic is not None and not edge.turned_up]
    return [SewingStep(piece.name, "elastic", pieces=(piece,), edges=((piece, edge),)) for piece, edge in drawn]


def _is_folded_band(piece: Piece) -> bool:
    return any(mark.line == "fold" for mark in piece.marks)


def _prepared(garment: Garment) -> list[SewingStep]:
    """Stay stitches along curved edges of woven cloth that another piece is set onto, and interfacing on its pieces.

    The stitches come first, before the pieces are handled (common practice).
    """
    faced = tuple(piece for piece in garment.pieces if any(is_interfacing(cut.cloth) for cut in piece.cuts))
    found = [SewingStep("interfacing", "interfacing", pieces=faced)] if faced else []
    loose = [] if knit(garment) else [piece for piece in garment.pieces if piece not in faced]
    stayed = [(piece, edge) for piece in loose for edge in piece.edges if _is_stayed(garment, piece, edge)]
    return [SewingStep("stay", "stay", edges=tuple(stayed)), *found] if stayed else found


def is_interfacing(cloth: str) -> bool:
    """Whether a cloth is one that is ironed or sewn onto the wrong side of another, by its name."""
    return "interfacing" in cloth.split("_")


def _is_stayed(garment: Garment, piece: Piece, edge: Edge) -> bool:
    """Whether an edge is curved and is bound by a band or a facing; one that is drawn up must give instead."""
    return (
        _is_bowed(edge)
        and edge.gathered is None
        and any(
            join.is_facing or (len(join.pieces) > 1 and _is_alone(garment, join, piece))
            for join in joined_to(garment, piece.name, edge.name)
            if not join.is_lying and not _is_folded(garment, join)
            if not _is_taped(garment, join) or (join.is_facing and _is_aslant(piece, edge))
        )
    )


def _is_aslant(piece: Piece, edge: Edge) -> bool:
    """Whether an edge runs aslant to the grain, so that it grows before the tape in its seam holds it."""
    way = edge.segments[:, -1, 3] - edge.segments[:, 0, 0]
    along = np.abs(np.sum(way * piece.grain, axis=-1)) / np.maximum(norm(way), 1e-9)
    return bool(np.max(np.minimum(along, np.sqrt(np.maximum(0.0, 1 - along**2)))) > _ASLANT)


def _is_taped(garment: Garment, join: Join) -> bool:
    """Whether something is sewn into a seam that keeps its length."""
    return not has_zip(join) and any(join.name in notion.uses for notion in garment.notions)


def _is_folded(garment: Garment, join: Join) -> bool:
    """Whether pleats lie in a seam: they hold their edge."""
    parts = [(garment.piece(part.piece), part.edge) for part in (*join.first, *join.second)]
    return any(one.length is not None for piece, name in parts for one in takeups_of(piece, piece.edge(name)))


def _is_alone(garment: Garment, join: Join, piece: Piece) -> bool:
    """Whether the other side of a join is one edge of another piece: of a straight band, or of a stand."""
    for own, other in ((join.first, join.second), (join.second, join.first)):
        if piece.name in {part.piece for part in own} and len(other) == 1:
            edge = garment.piece(other[0].piece).edge(other[0].edge)
            return not _is_bowed(edge) or (len(own) > 1 and not _is_bowed(edge, _STAND))
    return False


def _is_bowed(edge: Edge, share: float = 0.0) -> bool:
    """Whether an edge leaves the straight line between its ends by 1 mm, or by a share of that line."""
    start, end = edge.segments[:, :1, :1], edge.segments[:, -1:, 3:]
    along = (end - start) / np.maximum(norm(end - start)[..., None], 1e-9)
    off = edge.segments - start
    least = max(_BOWED, share * float(np.min(norm(end - start))))
    return bool(np.max(np.abs(off[..., 0] * along[..., 1] - off[..., 1] * along[..., 0])) > least)


def _is_there(takeup: Takeup | InnerDart) -> bool:
    """Whether it takes up anything in any size: on a straight figure a dart may vanish."""
    return bool(np.any(np.nan_to_num(takeup.width) > 0))


def _takeups(garment: Garment) -> list[SewingStep]:
    """The darts and pleats of each piece, in one go."""
    found = []
    for piece in garment.pieces:
        edges = tuple((piece, edge) for edge in piece.edges if any(map(_is_there, takeups_of(piece, edge))))
        takeups = tuple(takeup for _, edge in edges for takeup in takeups_of(piece, edge) if _is_there(takeup))
        inner = tuple(filter(_is_there, piece.inner_darts))
        if takeups or inner:
            found.append(SewingStep(piece.name, "takeups", None, None, None, edges, (piece,), takeups, inner))
    return found


def _fastenings(garment: Garment, pieces: set[str] | frozenset[str]) -> list[SewingStep]:
    """The buttonholes, buttons and snaps of pieces that are all sewn."""
    return [
        SewingStep(piece.name, "fastenings", pieces=(piece,), marks=marks)
        for piece in garment.pieces
        if piece.name in pieces and (marks := tuple(mark for mark in piece.marks if mark.fastening))
    ]
