"""What is done to pieces while they lie flat, and what is put on them at the end, in words."""

from __future__ import annotations

import numpy as np

from draft.garment.garment import Piece, SidePart
from draft.garment.marks import places
from draft.paper.booklet.edges_marked import marked_on
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.order import SewingStep
from draft.paper.booklet.stages import Sentence, staged


def interfaced(step: SewingStep, facts: BookletFacts) -> list[Sentence]:
    """Interfacing on its pieces."""
    text = [staged("interfacing", facts, pieces=facts.pieces([piece.name for piece in step.pieces]))]
    doubled = any(cut.layer == "inside" for piece in step.pieces for cut in piece.cuts)
    return [*text, *([staged("interfacing_outside", facts)] if doubled else [])]


def stayed(step: SewingStep, facts: BookletFacts) -> list[Sentence]:
    """Stay stitches along the edges that would stretch."""
    edges = marked_on([SidePart(piece.name, edge.name) for piece, edge in step.edges], facts)
    darted = any(takeup.edge == edge.name for piece, edge in step.edges for takeup in piece.takeups)
    said = [staged("stay", facts, edges=edges)]
    return [*said, staged("stay_darts", facts)] if darted else said


def fastened(step: SewingStep, facts: BookletFacts) -> list[Sentence]:
    """Buttonholes, then buttons and snaps."""
    counts = dict.fromkeys(("buttonhole", "button", "snap"), 0)
    for mark in step.marks:
        counts[mark.fastening] += len(places(mark, facts.middle))
    lengths = [mark.length for mark in step.marks if mark.fastening == "buttonhole" and mark.length is not None]
    counts["buttonhole"] *= bool(lengths)
    length = facts.wording.length(float(np.max(lengths[0][list(facts.bodies)]))) if lengths else ""
    trial = [staged("trial_hole", facts)] if counts["buttonhole"] else []
    return [*trial, *(_fastened(sort, count, length, step.pieces[0], facts) for sort, count in counts.items() if count)]


def _fastened(sort: str, count: int, length: str, piece: Piece, facts: BookletFacts) -> Sentence:
    """One of each copy of a piece, or several."""
    key = f"{sort}s" if count > 1 else f"{sort}_one" if piece.cut == 1 else f"{sort}_each"
    return staged(key, facts, count=count, length=length, piece=facts.piece(piece))


def fastened_title(step: SewingStep, facts: BookletFacts) -> str:
    """`Fastening, waistband`."""
    return facts.wording.say("sewing.title_fastenings", piece=facts.wording.named(step.pieces[0].title))
