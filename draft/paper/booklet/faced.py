"""What is done to a facing once it is sewn on: it is trimmed, understitched and turned after the last of its seams.

A facing may go on over several seams, as from one front edge round the neck to the other: none of them is turned alone.
"""

from __future__ import annotations

from collections.abc import Sequence

from draft.garment.garment import Garment, Join
from draft.paper.booklet.facts import BookletFacts, meets
from draft.paper.booklet.stages import Sentence, staged
from draft.seams.joins_in_order import joins_in_order


def faced(join: Join, facts: BookletFacts) -> list[Sentence]:
    """What a facing's seam says at its end."""
    run = facing_run(join, facts.garment)
    if join is run[-1]:
        return [staged("facing_turned", facts)]
    letters = facts.wording.listed([facts.letters[one.name] for one in run])
    return [staged("facing_later", facts, letters=letters)] if join is run[0] else []


def neatened_before(join: Join, facts: BookletFacts) -> list[Sentence]:
    """The edge of a facing that is sewn to nothing frays on the inside: it is neatened while it lies loose."""
    run = facing_run(join, facts.garment) if join.is_facing else []
    return _neatened(run, facts) if run and join is run[0] else []


def _neatened(run: Sequence[Join], facts: BookletFacts) -> list[Sentence]:
    pieces = [facts.garment.piece(name) for name in sorted({name for join in run for name in join.pieces})]
    loose = any(edge.unjoined and not edge.turned_up for piece in pieces for edge in piece.edges)
    return [staged("facing_neatened", facts)] if loose and not facts.knit else []


def facing_run(join: Join, garment: Garment) -> list[Join]:
    """A facing's seam and those that go on from it, on the facing as on the garment, in the order of sewing."""
    facings = [one for one in joins_in_order(garment) if one.is_facing]
    reached = [join]
    for one in reached:
        reached += [other for other in facings if other not in reached and _goes_on(garment, one, other)]
    return [one for one in facings if one in reached]


def _goes_on(garment: Garment, one: Join, other: Join) -> bool:
    """Whether a seam goes on in another on both of its sides."""
    parts = (*other.first, *other.second)
    return all(any(meets(garment, part, at) for at in parts) for part in (one.first[0], one.second[0]))
