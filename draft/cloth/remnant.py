"""What is in the stash: one length of cloth, several, or an odd shape; and whether the pieces fit on it.

A single length is tried with all three lays. Several, or an outline, are laid open: beside one another on one wide
strip, whatever is missing of that strip standing there as an obstacle.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import MANY, Note, Problems, Span, error
from draft.base.record import dataclass
from draft.base.textfile import read_source
from draft.base.units import Kind, QuantityError, read_quantity
from draft.cloth.batches import Shape, Shelf, open_batches
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import CutPiece, made
from draft.cloth.effort import Effort
from draft.cloth.lay import Lay, Strip
from draft.cloth.lays import best_lay, lay_of
from draft.cloth.search import BETTER, StripLay, lay_what_fits, shortest_in_strip
from draft.cloth.verify import stop_if_faulty

GAP = 5.0
"""Between pieces of cloth laid beside one another on the search's strip, mm: only there to part them."""
LONGEST = 100_000.0
"""A hundred metres: no stash holds such a piece, so it is a slip of the unit."""
SMALLEST = 10.0
_BETWEEN = re.compile(r"\s*(?:x|×|by)\s*", re.I)


@dataclass(frozen=True)
class StashFit:
    """Whether the pieces fit: a lay if they do; else the shortest lay of a single length, or the pieces left over."""

    fits: bool
    lay: Lay | None
    missing: float = 0.0
    """The length in mm, as bought, that a single length of cloth lacks."""
    left_over: tuple[CutPiece, ...] = ()


@dataclass(frozen=True)
class Remnant:
    """Pieces of cloth as outlines `(n, 2)` in mm, grain along y, beside one another on the table."""

    outlines: tuple[Floats, ...]

    @property
    def shape(self) -> Any:
        """All of it, as a shapely geometry."""
        import shapely

        return shapely.union_all([shapely.Polygon(ring) for ring in self.outlines])

    @property
    def size(self) -> tuple[float, float]:
        """The width and length of the table that it takes, mm."""
        points = np.concatenate(self.outlines)
        return float(points[:, 0].max()), float(points[:, 1].max())


def read_rectangle(text: str) -> tuple[float, float]:
    """`1.4 m x 148 cm` as length along the grain and width, mm. Raises Problems."""
    hint = 'give the length along the selvedge, then the width, as in `--have "1.4 m x 148 cm"`'
    sides = _BETWEEN.split(text.strip())
    try:
        found = [read_quantity(side) for side in sides]
    except (QuantityError, ValueError) as reason:
        raise Problems([error(f"`{text}` is not a piece of cloth: {reason}", None, hint)]) from None
    if len(found) != 2 or any(side.kind is not Kind.LENGTH for side in found):
        raise Problems([error(f"`{text}` is not a piece of cloth", None, hint)])
    if not all(SMALLEST <= side.value <= LONGEST for side in found):
        raise Problems([error(f"no piece of cloth is `{text}`", None, hint)])
    return found[0].value, found[1].value


def read_outline(path: Path) -> Floats:
    """A remnant's outline `(n, 2)` in mm from a text file: a corner a line, such as `0 cm, 42 cm`.

    Across the grain comes first, then along it. Raises Problems with every line that is no corner.
    """
    source = read_source(path, "remnant's outline")
    notes: list[Note] = []
    corners: list[list[float]] = []
    at = 0
    for line in source.text.split("\n"):
        span, at = Span(source, at, at + len(line)), at + len(line) + 1
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        if len(notes) >= MANY:
            break
        corner = _corner(line)
        if corner is None:
            fact = "this is not a corner of a piece of cloth"
            notes.append(error(fact, span, "write across and along the grain, as in `0 cm, 42 cm`"))
        else:
            corners.append(corner)
    if not notes:
        notes += _outline_notes(np.array(corners), path)
    if notes:
        raise Problems(notes)
    return np.array(corners)


def side_by_side(outlines: Sequence[Floats]) -> Remnant:
    """Pieces of cloth, outlines `(n, 2)` in mm, laid beside one another, their lower ends level."""
    placed, x = [], 0.0
    for ring in outlines:
        low = ring.min(axis=0)
        placed.append(ring - low + np.array([x, 0.0]))
        x = float(placed[-1][:, 0].max()) + GAP
    return Remnant(tuple(placed))


def length_outline(length: float, width: float) -> Floats:
    """The outline `(4, 2)` of a rectangle, mm."""
    return np.array([(0.0, 0.0), (width, 0.0), (width, length), (0.0, length)])


def fits_length(cut_pieces: Sequence[CutPiece], cloth: Cloth, length: float, effort: Effort) -> StashFit:
    """Whether the pieces fit on one length of cloth, as bought, with its ends and what washing takes allowed for."""
    shelf, room = Shelf(), cloth.left(length)
    found = best_lay(cut_pieces, cloth, effort, shelf, room + 2 * BETTER) if room > 0 else None
    if found and found.length <= room + BETTER:
        return StashFit(True, found)
    shortest = best_lay(cut_pieces, cloth, effort, shelf)
    return StashFit(False, shortest, cloth.bought(shortest.length) - length if shortest else 0.0)


def fits_remnant(cut_pieces: Sequence[CutPiece], remnant: Remnant, one_way: bool, effort: Effort) -> StashFit:
    """Whether the cut pieces fit on a remnant, laid open."""
    shelf = Shelf()
    width, length = remnant.size
    taken = _missing(remnant, width, length, shelf)
    found: StripLay | None = None
    for way in (True,) if one_way else (True, False):
        batches = open_batches(cut_pieces, shelf, way)
        found = found or shortest_in_strip(batches, width, shelf, effort, length + 2 * BETTER, taken)
    if found:
        lay = lay_of("open", width, [(Strip(0.0, width), StripLay(length, found.puts))], effort)
        return StashFit(True, stop_if_faulty(lay, cut_pieces, remnant.shape))
    batches = open_batches(cut_pieces, shelf, one_way)
    left = lay_what_fits(batches, width, shelf, length, taken)
    return StashFit(
        False, None, left_over=tuple(batches[k].shapes[0].cut_piece for k, count in enumerate(left) if count)
    )


def _missing(remnant: Remnant, width: float, length: float, shelf: Shelf) -> list[Shape]:
    """What the strip lacks, as shapes that stand in it."""
    import shapely

    lacking = shapely.box(0.0, 0.0, width, length).difference(remnant.shape)
    found = []
    for gap in shapely.get_parts(lacking):
        if gap.geom_type == "Polygon" and gap.area > 1e-6:
            ring = shapely.get_coordinates(gap.exterior)[:-1]
            shape = shelf.exact(made(0, "gap", "", 1, ring), ring)
            found.append(shape)
    return found


def _corner(line: str) -> list[float] | None:
    try:
        found = [read_quantity(cell) for cell in line.split(",")]
    except (QuantityError, ValueError):
        return None
    if len(found) != 2:
        return None
    return [each.value for each in found] if all(_is_length(each.value, each.kind) for each in found) else None


def _is_length(value: float, kind: Kind) -> bool:
    return abs(value) <= LONGEST and (kind is Kind.LENGTH or value == 0)


def _outline_notes(corners: Floats, path: Path) -> list[Note]:
    import shapely

    if len(corners) < 3:
        return [error(f"`{path.name}` has {len(corners)} corners, and a piece of cloth at least three")]
    shape = shapely.Polygon(corners)
    if not shape.is_valid:
        return [error(f"the outline in `{path.name}` crosses itself", None, "list the corners in order around it")]
    if shape.area < SMALLEST**2:
        return [error(f"the outline in `{path.name}` has no area")]
    return []
