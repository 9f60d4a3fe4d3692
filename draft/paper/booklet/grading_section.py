"""Going from one size's line to another's, shown on the seam on which sizes differ most: a side, as a rule."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Edge, Piece
from draft.geometry.cubic import lines_through
from draft.geometry.ruler import Ruler, chord_length
from draft.paper.booklet.bands_section import has_bands
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.set_blocks import SIDE, Block, shown
from draft.paper.booklet.steps_set import SetStep, set_steps
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Path, Stroke
from draft.paper.flat.panels import front_and_back, panels
from draft.seams.allowance import sewing_line

_HEIGHT = 78.0
_THICK = Stroke(0.9)


def grading_section(book: Book, facts: BookletFacts) -> None:
    """The section; nothing for one size."""
    if len(facts.sizes) < 2:
        return
    say = facts.wording.say
    found = _shown(facts)
    book.section(say("grading.title"), _HEIGHT if found else 40.0)
    if found is None:
        book.topics([("", [say("grading.text"), *_besides(facts)])])
        return
    piece, edge, first, last = found
    names = {"piece": facts.piece(piece), "first": facts.garment.sizes[first], "last": facts.garment.sizes[last]}
    drawn = say("grading.drawn", **names)
    drawing = shown(_drawing(piece, edge, first, last, facts), drawn)
    set_steps(book, [SetStep("", drawing, [say("grading.text"), drawn, *_besides(facts)])])


def _besides(facts: BookletFacts) -> list[str]:
    """What else is changed with an edge, and what is not."""
    banded = [facts.wording.say("grading.room")] if has_bands(facts) else []
    return [facts.wording.say("grading.along"), *banded]


def _shown(facts: BookletFacts) -> tuple[Piece, Edge, int, int] | None:
    """A piece, the edge of it that people grade along, and two sizes that lie a little apart."""
    middle = facts.bodies.index(facts.middle)
    first = facts.bodies[max(0, middle - 1)]
    last = facts.bodies[min(len(facts.bodies) - 1, middle + 1)]
    found = _graded_seam(facts, first, last) or _panels_edge(facts)
    return (*found, first, last) if found else None


def _graded_seam(facts: BookletFacts, first: int, last: int) -> tuple[Piece, Edge] | None:
    """Of edges that are sewn to another piece the one that reaches far down, and farther across in the larger size."""

    def matters(one: tuple[Piece, Edge]) -> float:
        lines = one[1].segments[[first, last]]
        across = np.abs(np.diff(lines[..., 0], axis=0)).mean()
        return float(across * np.ptp(lines[0, ..., 1]))

    garment, found = facts.garment, list[tuple[Piece, Edge]]()
    for join in garment.joins:
        parts = [*join.first, *join.second]
        if len(parts) == 2 and len(join.pieces) == 2 and not (join.is_facing or join.is_lying):
            found += [(piece := garment.piece(part.piece), piece.edge(part.edge)) for part in parts]
    whole = [(piece, edge) for piece, edge in found if not edge.whole]
    return max(whole, key=matters, default=None)


def _panels_edge(facts: BookletFacts) -> tuple[Piece, Edge] | None:
    """The longest edge of a panel off the middle."""
    front, back = front_and_back(panels(facts.garment, facts.middle))
    panel = front or back
    if panel is None:
        return None
    edges = [edge for edge in panel.piece.edges if edge.name != panel.middle and not edge.on_fold]
    return panel.piece, max(edges, key=lambda e: chord_length(e.segments[facts.middle]))


def _drawing(piece: Piece, edge: Edge, first: int, last: int, facts: BookletFacts) -> Block:
    """Both outlines, and the line from the one to the other."""
    flip = np.array([1.0, -1.0])
    outlines = [sewing_line(piece, body) * flip for body in (first, last)]
    blended = lines_through(_blended(edge.segments[first] * flip, edge.segments[last] * flip))
    low = np.min([ring.reshape(-1, 2).min(axis=0) for ring in outlines], axis=0)
    high = np.max([ring.reshape(-1, 2).max(axis=0) for ring in outlines], axis=0)
    scale = min(SIDE / float(high[0] - low[0]), _HEIGHT / float(high[1] - low[1]))
    thin = [line_styles.cutting_stroke(facts.bodies.index(body)) for body in (first, last)]
    lines = [
        Path(((ring - low) * scale,), _fine(stroke), closed=True) for ring, stroke in zip(outlines, thin, strict=True)
    ]
    return Block((*lines, Path(((blended - low) * scale,), _THICK)), float(high[1] - low[1]) * scale)


def _fine(stroke: Stroke) -> Stroke:
    """A size's line made fine for a small drawing."""
    return Stroke(0.22, tuple(part * 0.4 if part > 0.1 else part for part in stroke.dash), cap=stroke.cap)


def _blended(first: Floats, last: Floats) -> Floats:
    """Points on the way along an edge, leaving the first size's line for the last one's about the middle."""
    shares = np.linspace(0.0, 1.0, 121)
    ends = [_places(line, shares) for line in (first, last)]
    down = shares if ends[0][-1, 1] > ends[0][0, 1] else 1 - shares
    t = np.clip((down - 0.42) / 0.33, 0.0, 1.0)
    share = (t * t * (3 - 2 * t))[:, None]
    return np.asarray(ends[0] * (1 - share) + ends[1] * share)


def _places(line: Floats, shares: Floats) -> Floats:
    ruler = Ruler(line)
    return ruler.places(shares * ruler.length)[0]
