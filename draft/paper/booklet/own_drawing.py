"""The drawing of a step of the designer's own: what her words name, on the pieces or on the garment so far.

She writes no drawing. A line that she names is shown on its piece, a seam or the seam that her step stands by on the
garment, else the pieces that she names; where she names nothing, the garment stands there as it is then.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from draft.base.arrays import Floats
from draft.garment.garment import Mark, Piece
from draft.geometry.cubic import lines_through
from draft.paper.booklet.afterwards import beside
from draft.paper.booklet.close_up import close_up
from draft.paper.booklet.folded_drawing import GROUND
from draft.paper.booklet.order import SewingStep
from draft.paper.booklet.set_blocks import NOTHING, Block
from draft.paper.booklet.step_drawing import FINE_SEAM, Drawer

_SHORT = 4
"""Names of fewer letters stand in too many other words."""


def own_drawn(step: SewingStep, drawer: Drawer) -> Block:
    """The drawing of a step that sews nothing which the pattern names; of no height where there is nothing to show."""
    assert step.own
    garment, words = drawer.garment, f"{step.name.replace('_', ' ')}. {step.own.text}"
    so_far = drawer.garment_as_it_is() if drawer.done.joins else NOTHING
    if step.name == "try_on":  # nothing is sewn then, whatever the words look at
        return so_far
    if step.name in {piece.name for piece in garment.pieces}:
        return drawer.by_itself(garment.piece(step.name))
    if lines := _lines_named(words, drawer):
        return beside(close_up(drawer.on_pieces(lines, FINE_SEAM, GROUND), (FINE_SEAM,)), so_far)
    if drawer.done.joins:
        return drawer.on_garment(_edges_named(words, step.own.beside, drawer)) or so_far
    pieces = {piece.name: list[Floats]() for piece in _pieces_named(words, drawer)}
    return drawer.on_pieces(pieces, fill=GROUND) if pieces else NOTHING


def _says(words: str, name: str) -> bool:
    """Whether a text has a name of the pattern as a word of its own, or as several."""
    plain = name.replace("_", " ")
    return len(plain) >= _SHORT and bool(re.search(rf"\b{re.escape(plain)}s?\b", words, re.IGNORECASE))


def _lines_named(words: str, drawer: Drawer) -> dict[str, list[Floats]]:
    """The lines `(n, 4, 2)`, y up, that are marked on pieces and named, by their pieces: no levels."""
    found: dict[str, list[Floats]] = {}
    for piece in drawer.garment.pieces:
        runs = [lines_through(mark.points[drawer.body]) for mark in piece.marks if _is_named(mark, words)]
        if runs:
            found[piece.name] = runs
    return found


def _is_named(mark: Mark, words: str) -> bool:
    drawn = mark.line in ("", "fold") and not (mark.drill or mark.fastening) and mark.points.shape[1] > 1
    return drawn and any(_says(words, name) for name in (mark.name, mark.words))


def _edges_named(words: str, by: str, drawer: Drawer) -> list[tuple[str, str]]:
    """The edges of the seams that are named as seams, else of the seam that the step stands by."""
    joins = drawer.garment.joins
    named = [join for join in joins if _says(words, f"{join.name.removesuffix('_seam')} seam")]
    chosen = named or [join for join in joins if join.name == by]
    return [(part.piece, part.edge) for join in chosen for part in (*join.first, *join.second)]


def _pieces_named(words: str, drawer: Drawer) -> list[Piece]:
    """The pieces that are named in full, else by the last word of their names: a right and a left front as fronts."""
    pieces = drawer.garment.pieces
    return list(_in_full(words, pieces)) or [one for one in pieces if _says(words, one.title.split()[-1])]


def _in_full(words: str, pieces: Sequence[Piece]) -> Iterator[Piece]:
    """Those of long names are first taken out of the text."""
    for piece in sorted(pieces, key=lambda piece: -len(piece.title)):
        if _says(words, piece.title):
            words = re.sub(rf"\b{re.escape(piece.title.replace('_', ' '))}s?\b", "", words, flags=re.IGNORECASE)
            yield piece
