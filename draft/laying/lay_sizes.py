"""From a garment to lays: one size after the other, several as one, or what fits on the stash."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from functools import lru_cache

import numpy as np

from draft.base.notes import Note, Problems, caution, error, remark
from draft.base.output_names import OutputNames
from draft.base.progress import Progress
from draft.base.record import dataclass
from draft.base.units import MM_PER_INCH, in_centimetres
from draft.cloth import nest
from draft.cloth.batches import Shelf
from draft.cloth.bolt import Cloth, checked
from draft.cloth.cut_pieces import CutPiece, cut_pieces_of, stop_if_too_many, times
from draft.cloth.effort import Effort
from draft.cloth.lay import Folding, Lay
from draft.cloth.lays import FOLDINGS, best_lay, lay_as
from draft.cloth.like import laid_like
from draft.cloth.needs import ClothNeed, Size, cloth_needs, stop_if_too_wide
from draft.cloth.shortest import are_many
from draft.cloth.table import cloth_csv
from draft.drafting.drawable import stop_if_not_drawable
from draft.garment.garment import Garment
from draft.laying.groups import Group, groups
from draft.laying.picture import group_picture
from draft.paper.drawing.svg import svg
from draft.paper.drawing.wording import ENGLISH, Wording
from draft.paper.pictures.lay_drawing import LayPicture, draw_lay

NARROWER = 10.0
"""Cloth is seldom just as wide as it is said to be: a centimetre less is usual (common practice)."""
SOLVED_IN = 3.8
"""Seconds that a general solver is given for one size of many pieces: with all else the lay is there in five."""
BESIDE = 1_000
"""Of many pieces our own search lays so many again beside the solver, which needs the processors more."""
CHAINS = 4
"""So many times our own search begins anew for one size of many pieces where no solver is."""
MARKEDLY = 50.0
"""More than this, mm, is more than the rounding up in the shop is likely to cover."""


@dataclass(frozen=True)
class Diagram:
    """One diagram: the sizes it serves on one cloth, and the picture."""

    group: Group
    picture: LayPicture


@lru_cache(maxsize=4)  # what a search finds out about the outlines of a garment serves every cloth
def sizes_of(garment: Garment) -> tuple[Size, ...]:
    """The sizes that were drafted, with their cut pieces. Raises Problems where there is none, or too much."""
    stop_if_not_drawable(garment)
    edges = [edge.segments for piece in garment.pieces for edge in piece.edges]
    drafted = [b for b in range(len(garment.sizes)) if all(np.isfinite(segments[b]).all() for segments in edges)]
    if not drafted:
        raise Problems([error("none of these sizes was drafted, so there is nothing to lay")])
    return tuple(Size(garment.sizes[body], cut_pieces_of(garment, body), Shelf()) for body in drafted)


def lay_sizes(
    garment: Garment,
    cloths: Sequence[Cloth],
    effort: Effort,
    progress: Progress | None = None,
    foldings: Sequence[Folding] = FOLDINGS,
) -> tuple[tuple[ClothNeed, ...], ...]:
    """What every size needs of every cloth: a row for each cloth. Raises Problems for cloth that cannot be."""
    return cloth_needs(sizes_of(garment), [checked(cloth) for cloth in cloths], effort, progress, foldings)


def by_folding(
    garment: Garment, row: Sequence[ClothNeed], effort: Effort
) -> Mapping[str, Mapping[Folding, Lay | None]]:
    """The shortest lay of every kind, for the sizes of a row: its own is the shortest of all."""
    sizes = {size.name: size for size in sizes_of(garment)}
    found: dict[str, dict[Folding, Lay | None]] = {}
    for need in row:
        size, own = sizes[need.size], need.lay
        found[need.size] = {own.folding: own}
        for folding in FOLDINGS:
            if folding != own.folding:
                spent = effort.first() if are_many(size.cut_pieces) else effort
                found[need.size][folding] = lay_as(folding, size.cut_pieces, need.cloth, spent, size.shelf)
    return found


def width_notes(
    garment: Garment, row: Sequence[ClothNeed], effort: Effort, foldings: Sequence[Folding] = FOLDINGS
) -> tuple[Note, ...]:
    """A caution for the sizes that would need markedly more if the cloth were a little narrower than it should be.

    Of many pieces nothing is said: two searches for them differ by as much.
    """
    cloth = row[0].cloth
    narrower = replace(cloth, width=cloth.width - NARROWER)
    laid = {need.size for need in row}
    sizes = [size for size in sizes_of(garment) if size.name in laid and not are_many(size.cut_pieces)]
    needs = {need.size: need for need in row}
    if effort.stopped or any(cut_piece.width > narrower.usable for size in sizes for cut_piece in size.cut_pieces):
        return ()
    sizes = [size for size in sizes if not _goes_on(size, needs[size.name], narrower, effort)]
    if not sizes:
        return ()
    (other,) = cloth_needs(sizes, [narrower], effort, foldings=foldings)
    more = [(o.size, o.bought - needs[o.size].bought) for o in other if o.bought - needs[o.size].bought > MARKEDLY]
    if not more or effort.stopped:
        return ()
    listed = ", ".join(f"{size} {in_centimetres(length)}" for size, length in more)
    fact = f"cloth {in_centimetres(NARROWER)} narrower than this needs more: {listed}"
    return (caution(fact, None, "measure your cloth between the selvedges, washed, before you cut"),)


def _goes_on(size: Size, need: ClothNeed, narrower: Cloth, effort: Effort) -> bool:
    """Whether narrower cloth holds about the same lay, or one of its kind, so that no other need be looked for."""
    limit, lay, own = narrower.left(need.bought + MARKEDLY), need.lay, size.cut_pieces
    if laid_like(lay, own, narrower, size.shelf, limit):
        return True
    return lay_as(lay.folding, own, narrower, effort, size.shelf, limit) is not None


def as_one(garment: Garment, copies: int) -> Size:
    """All sizes, each so many times, as if they were one."""
    sizes = sizes_of(garment)
    cut_pieces = tuple(times(cut_piece, copies) for size in sizes for cut_piece in size.cut_pieces)
    name = " + ".join(size.name for size in sizes) + (f" x {copies}" if copies > 1 else "")
    return Size(name, cut_pieces, Shelf())


def lay_together(
    garment: Garment, cloth: Cloth, copies: int, effort: Effort, progress: Progress | None = None
) -> tuple[ClothNeed, tuple[Note, ...]]:
    """All sizes, each so many times, as one lay; and what there is to say about how it was found."""
    whole = as_one(garment, copies)
    stop_if_too_many(whole.cut_pieces)
    stop_if_too_wide(whole.cut_pieces, [checked(cloth)])
    if progress:
        progress(whole.name)
    notes: tuple[Note, ...] = ()
    found = best_lay(whole.cut_pieces, cloth, effort, whole.shelf)
    assert found, "every piece is narrower than the cloth, so there is a lay"
    if effort.outside and not effort.stopped and not cloth.repeats:
        found, notes = _also_nested(found, whole.cut_pieces, cloth, effort, whole.shelf)
    found = replace(found, stopped=effort.stopped)
    return ClothNeed(whole.name, cloth, found, found.length), notes


@contextmanager
def solving(
    garment: Garment, cloths: Sequence[Cloth], effort: Effort, foldings: Sequence[Folding]
) -> Iterator[nest.Solving | None]:
    """The general solver at work beside our own search, where it is installed: one size of many pieces on one cloth."""
    if len(cloths) > 1 or cloths[0].repeats or "open" not in foldings or not nest.installed():
        yield None
        return
    sizes, cloth = sizes_of(garment), checked(cloths[0])
    if len(sizes) > 1 or not are_many(sizes[0].cut_pieces):
        yield None
        return
    (size,) = sizes
    stop_if_too_many(size.cut_pieces)
    stop_if_too_wide(size.cut_pieces, [cloth])
    spent = replace(effort, outside=max(effort.outside, SOLVED_IN))
    with nest.Solving(size.cut_pieces, cloth, spent, size.shelf, foldings) as solver:
        yield solver


def lay_at_best(
    garment: Garment,
    cloths: Sequence[Cloth],
    effort: Effort,
    progress: Progress | None = None,
    foldings: Sequence[Folding] = FOLDINGS,
) -> tuple[tuple[tuple[ClothNeed, ...], ...], tuple[Note, ...]]:
    """What `lay_sizes` gives, and what there is to say: of one size of many pieces with all that shortens its lay."""
    with solving(garment, cloths, effort, foldings) as solver:
        rows = lay_sizes(garment, cloths, _own(solver, garment, cloths, effort), progress, foldings)
        if solver is None:
            return rows, ()
        row, notes = by_solver(rows[0], solver)
        return (row,), notes


def _own(solver: nest.Solving | None, garment: Garment, cloths: Sequence[Cloth], effort: Effort) -> Effort:
    """How long our own search goes on: less while the solver is at work, more for one size alone without it."""
    if solver:
        return replace(effort, pieces=min(effort.pieces, BESIDE))
    alone = len(cloths) == len(sizes_of(garment)) == 1
    return replace(effort, chains=CHAINS) if alone and effort.looks > effort.first().looks else effort


def by_solver(row: Sequence[ClothNeed], solver: nest.Solving) -> tuple[tuple[ClothNeed, ...], tuple[Note, ...]]:
    """What one size needs, with the solver's lay where that is shorter."""
    (need,) = row
    found, notes = _shorter(need.lay, solver.lay())
    return (replace(need, lay=found, length=found.length),), notes


def _also_nested(
    found: Lay, cut_pieces: Sequence[CutPiece], cloth: Cloth, effort: Effort, shelf: Shelf
) -> tuple[Lay, tuple[Note, ...]]:
    if not nest.installed():
        words = "the general solver for many pieces is not installed, so only our own search was used"
        return found, (remark(words, None, f"install it with `{nest.INSTALL}` for a lay that may be a little shorter"),)
    return _shorter(found, nest.nested(cut_pieces, cloth, effort, shelf))


def _shorter(found: Lay, other: Lay | None) -> tuple[Lay, tuple[Note, ...]]:
    """The solver's lay with a remark, if it is the shorter one."""
    if other is None or other.length >= found.length:
        return found, ()
    words = "this lay comes from a search limited by time: a second run may differ by a hair"
    return other, (remark(words),)


def diagrams(garment: Garment, rows: Sequence[Sequence[ClothNeed]], wording: Wording = ENGLISH) -> tuple[Diagram, ...]:
    """The cutting layouts of every cloth, one for each range of sizes that is laid alike: for the booklet too."""
    return tuple(Diagram(group, group_picture(garment, group, wording)) for row in rows for group in groups(row))


def lay_files(garment: Garment, rows: Sequence[Sequence[ClothNeed]], wording: Wording = ENGLISH) -> dict[str, bytes]:
    """`tables/cloth.csv`, and an SVG in `cloth/` for each diagram."""
    files = {"tables/cloth.csv": cloth_csv(rows)}
    names = OutputNames()
    for diagram in diagrams(garment, rows, wording):
        first, last = diagram.group[0], diagram.group[-1]
        name = f"{_name(first.cloth)}-{first.size}" + (f"-{last.size}" if last is not first else "")
        files[f"cloth/{names.of(name, 'lay')}.svg"] = picture_file(diagram.picture, wording)
    return files


def picture_file(picture: LayPicture, wording: Wording = ENGLISH) -> bytes:
    """A diagram as SVG."""
    return svg(draw_lay(picture, wording)).encode("utf-8")


def _name(cloth: Cloth) -> str:
    inches = cloth.width / MM_PER_INCH
    width = f"{inches:.0f}in" if abs(inches - round(inches)) < 0.01 else f"{cloth.width / 10:g}cm"
    return f"{width}-one-way" if cloth.one_way else width
