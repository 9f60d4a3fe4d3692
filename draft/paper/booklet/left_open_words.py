"""What is left open of a seam, in words: a slit, a zip, a hole to turn the garment through."""

from __future__ import annotations

import numpy as np

from draft.garment.garment import Join
from draft.paper.booklet.facts import BookletFacts
from draft.seams.openings import Gap, gaps

_ALIKE = 0.5  # mm: sizes that differ by less are left open alike


def left_open(join: Join, facts: BookletFacts) -> list[str]:
    """A sentence for each opening of a join."""
    return [_said(gap, facts) for gap in gaps(facts.garment, join)]


def _said(gap: Gap, facts: BookletFacts) -> str:
    say, lengths = facts.wording.say, gap.opening.length[list(facts.bodies)]
    place = facts.wording.named(gap.opening.place)
    how = say("sewing.open_to_notch")
    if float(np.ptp(lengths)) < _ALIKE:
        how = say("sewing.open_for", length=facts.wording.length(float(lengths[0])))
    from_end = gap.at_start or gap.at_end
    text = say("sewing.left_open" if from_end else "sewing.left_open_within", place=place, how=how)
    side = gap.opening.on_side
    return f"{text} {say(f'sewing.open_{side}')}" if side else text
