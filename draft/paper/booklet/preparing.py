"""What is done to pieces while they lie flat, and what is put on them at the end, in words."""

from __future__ import annotations

import numpy as np

from draft.garment.garment import SidePart
from draft.garment.marks import places
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.hemming import edge_of
from draft.paper.booklet.order import SewingStep


def interfaced(step: SewingStep, facts: BookletFacts) -> list[str]:
    """Interfacing on its pieces."""
    return [facts.wording.say("sewing.interfacing", pieces=facts.pieces([piece.name for piece in step.pieces]))]


def stayed(step: SewingStep, facts: BookletFacts) -> list[str]:
    """Stay stitches along the edges that would stretch."""
    edges = [edge_of(SidePart(piece.name, edge.name), facts) for piece, edge in step.edges]
    return [facts.wording.say("sewing.stay", edges=facts.wording.listed(edges))]


def fastened(step: SewingStep, facts: BookletFacts) -> list[str]:
    """Buttonholes, then buttons and snaps."""
    say, piece = facts.wording.say, facts.piece(step.pieces[0])
    counts = dict.fromkeys(("buttonhole", "button", "snap"), 0)
    for mark in step.marks:
        counts[mark.fastening] += len(places(mark, facts.middle))
    text = []
    for mark in [mark for mark in step.marks if mark.fastening == "buttonhole" and mark.length is not None][:1]:
        assert mark.length is not None
        length = facts.wording.length(float(np.max(mark.length[list(facts.bodies)])))
        text.append(say("sewing.buttonholes", count=counts["buttonhole"], length=length, piece=piece))
    for sort in ("button", "snap"):
        if counts[sort]:
            text.append(say(f"sewing.{sort}s", count=counts[sort], piece=piece))
    return text


def fastened_title(step: SewingStep, facts: BookletFacts) -> str:
    """`Fastening, waistband`."""
    return facts.wording.say("sewing.title_fastenings", piece=facts.wording.title(step.pieces[0]))
