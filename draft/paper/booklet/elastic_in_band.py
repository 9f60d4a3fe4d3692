"""Elastic in the fold of a band, in words and drawn: closed to a ring and laid in before the band is sewn on.

The drawing shows a stretch of the band, its fold above. At the right its front layer is cut away, so that the elastic
is seen between the two; at the left broken lines show where it runs, and the stitches that tack the raw edges.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.cubic import lines_through
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.folded_drawing import GROUND, WRONG
from draft.paper.booklet.notions_words import by_size
from draft.paper.booklet.order import SewingStep, sewing_order
from draft.paper.booklet.set_blocks import Block
from draft.paper.booklet.stages import Sentence, staged
from draft.paper.drawing.drawing import Item, Path, Stroke

LAP = 20.0  # mm: the ends of the elastic lie on one another (common practice)
_WIDE, _TALL = 38.0, 14.0
_ELASTIC = (1.4, 10.4)
"""From the fold to the elastic's upper edge and to its lower one, mm on the page."""
_CUT = (22.0, 25.0)
"""Where the front layer ends at the fold and at the raw edge, mm from the left."""
_FOLD = Stroke(0.55, cap="round")
_HIDDEN = Stroke(0.22, (0.5, 0.6))
_TACKED = Stroke(0.3, (1.6, 1.2))
_TACKS = 12.6  # mm below the fold


def elastic_laid_in(step: SewingStep, facts: BookletFacts) -> list[Sentence]:
    """The sentences of the elastic of one band."""
    piece, edge = step.edges[0]
    assert edge.elastic is not None
    lengths = [facts.wording.length(float(length) + LAP) for length in edge.elastic[list(facts.bodies)]]
    fields = {"lengths": by_size(lengths, facts), "lap": facts.wording.length(LAP), "piece": facts.piece(piece)}
    return [staged(f"elastic_{part}", facts, **fields) for part in ("ring", "laid")]


def is_laid_in(piece: Piece, edge: Edge, garment: Garment) -> bool:
    """Whether the elastic of an edge lies as a ring in the fold of its band, and so is cut longer by what it laps."""
    steps = [step for step in sewing_order(garment) if step.sort == "elastic"]
    return any((own.name, laid.name) == (piece.name, edge.name) for step in steps for own, laid in step.edges)


def elastic_title(step: SewingStep, facts: BookletFacts) -> str:
    """`Elastic: waistband`."""
    return facts.wording.say("sewing.title_elastic", piece=facts.wording.named(step.pieces[0].title))


def elastic_drawn(line: Stroke) -> Block:
    """A stretch of the band with its elastic."""
    top, low = _ELASTIC
    behind = _ring([(0, 0), (_WIDE, 0), (_WIDE, _TALL), (0, _TALL)])
    front = _ring([(0, 0), (_CUT[0], 0), (_CUT[1], _TALL), (0, _TALL)])
    at = [_CUT[0] + (_CUT[1] - _CUT[0]) * y / _TALL for y in _ELASTIC]
    seen = _ring([(at[0], top), (_WIDE, top), (_WIDE, low), (at[1], low)])
    ribs = tuple(_line([(x, top), (x, low)]) for x in np.arange(at[1] + 1.5, _WIDE, 1.5))
    hidden = tuple(_line([(0, y), (x, y)]) for x, y in zip(at, _ELASTIC, strict=True))
    items: list[Item] = [
        Path((behind,), line, WRONG, closed=True),
        Path((seen,), line, "#ffffff", closed=True),
        Path(ribs, _HIDDEN),
        Path((front,), line, GROUND, closed=True),
        Path(hidden, _HIDDEN),
        Path((_line([(0, _TACKS), (_WIDE, _TACKS)]),), _TACKED),
        Path((_line([(0, 0), (_WIDE, 0)]),), _FOLD),
    ]
    return Block(tuple(items), _TALL)


def _ring(points: list[tuple[float, float]]) -> Floats:
    return lines_through(np.array(points, dtype=float), closed=True)


def _line(points: list[tuple[float, float]]) -> Floats:
    return lines_through(np.array(points, dtype=float))
