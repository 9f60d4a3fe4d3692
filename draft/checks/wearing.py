"""It can be put on and worn: the cloth stretches as far as the body and the bands ask, and comes back."""

from __future__ import annotations

import numpy as np

from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.base.plainly import Measures, Parts, Sentence, mm, of_sizes, share
from draft.base.units import in_centimetres
from draft.base.worst import worst_of
from draft.fabrics.properties import PROPERTIES, TO_MEASURE, percent
from draft.fit.stretch import NeededStretch, needed_stretches
from draft.garment.garment import Garment

GAPES = 0.06
"""What stays stretched out of an opening, as a share of it, before it looks it: on a neckline of 60 cm it is 3.6 cm."""


def check(garment: Garment) -> list[Note]:
    """A note for each place where the cloth would have to stretch further than it does, or would stay stretched."""
    notes = []
    for needed in needed_stretches(garment):
        if not needed.met.all():
            notes.append(_short(garment, needed))
        elif needed.reason == "passing" and np.any(_left(garment, needed) > GAPES):
            notes.append(_slack(garment, needed))
    return notes


def _short(garment: Garment, needed: NeededStretch) -> Note:
    short = np.where(needed.met, -np.inf, needed.share - needed.limit)
    worst = worst_of(short)
    way = "across" if needed.across[worst] >= 0.5 else "along its length"
    asked, limit = percent(float(needed.share[worst])), percent(float(needed.limit[worst]))
    gives = f"the cloth gives {limit} {way}"
    if needed.reason == "worn":
        given = percent(float(needed.given[worst]))
        gives = f"cloth that stretches {given} {way} is worn stretched by {limit} at most, to leave room to move"
    fact = f"{needed.why}, must stretch too far, for {listed(garment.sizes, ~needed.met)}"
    figures = f"at worst it must stretch by {asked}, and {gives} ({garment.sizes[worst]})"
    more = in_centimetres(float(needed.missing[worst]) + 0.5)
    fix = f"make it {more} longer, or take cloth that stretches further {way}"
    plainly = _short_plainly(garment, needed, worst)
    return caution(fact, needed.span, figures, fix, TO_MEASURE, off=np.maximum(short, 0.0), plainly=plainly)


def _short_plainly(garment: Garment, needed: NeededStretch, worst: int) -> Sentence:
    figures = {"asked": needed.share, "limit": needed.limit, "given": needed.given}
    return of_sizes(
        f"stretch_{needed.reason}",
        garment.sizes,
        ~needed.met,
        f"more_stretch_{'across' if needed.across[worst] >= 0.5 else 'down'}",
        level=needed.where,
        body=Measures((needed.body,)),
        more=mm(needed.missing[worst] + 0.5),
        **{name: share(values[worst]) for name, values in figures.items()},
    )


def _left(garment: Garment, needed: NeededStretch) -> np.ndarray:
    """What of a stretch does not come back, as a share of the opening."""
    return np.maximum(needed.share, 0.0) * (1 - garment.cloth.get("recovery", 1.0))


def _slack(garment: Garment, needed: NeededStretch) -> Note:
    left = _left(garment, needed)
    worst = worst_of(left)
    recovery = percent(garment.cloth.get("recovery", 1.0))
    fact = (
        f"{needed.why}, must stretch further than this cloth comes back from, for {listed(garment.sizes, left > GAPES)}"
    )
    figures = (
        f"of {percent(float(needed.share[worst]))} it keeps {percent(float(left[worst]))} ({garment.sizes[worst]})"
    )
    fix = f"take cloth that recovers by more than {recovery}, or a wider opening"
    how = f"how that is measured: {PROPERTIES['recovery'].how}"
    figure: Parts = {"asked": share(needed.share[worst]), "left": share(left[worst])}
    more = {"level": needed.where, "recovery": share(garment.cloth.get("recovery", 1.0)), **figure}
    plainly = of_sizes("stretch_stays", garment.sizes, left > GAPES, "more_recovery", **more)
    return caution(fact, needed.span, figures, fix, how, off=np.where(left > GAPES, left, 0.0), plainly=plainly)
