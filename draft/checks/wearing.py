"""It can be put on and worn: the cloth stretches as far as the body and the bands ask, and comes back."""

from __future__ import annotations

import numpy as np

from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.base.units import in_centimetres
from draft.fabrics.properties import percent
from draft.fit.stretch import Need, needs
from draft.garment.garment import Garment

GAPES = 0.06
"""What stays stretched out of an opening, as a share of it, before it looks it: on a neckline of 60 cm it is 3.6 cm."""


def check(garment: Garment) -> list[Note]:
    """A note for each place where the cloth would have to stretch further than it does, or would stay stretched."""
    notes = []
    for need in needs(garment):
        if not need.met.all():
            notes.append(_short(garment, need))
        elif need.sort == "passing" and np.any(_left(garment, need) > GAPES):
            notes.append(_slack(garment, need))
    return notes


def _short(garment: Garment, need: Need) -> Note:
    short = np.where(need.met, -np.inf, need.share - need.limit)
    worst = int(np.argmax(short))
    way = "across" if need.across[worst] >= 0.5 else "along its length"
    asked, limit = percent(float(need.share[worst])), percent(float(need.limit[worst]))
    gives = f"the cloth gives {limit} {way}"
    if need.sort == "worn":
        given = percent(float(need.given[worst]))
        gives = f"cloth that stretches {given} {way} is worn stretched by {limit} at most"
    fact = f"{need.why}, must stretch too far, for {listed(garment.sizes, ~need.met)}"
    figures = f"at worst it must stretch by {asked}, and {gives} ({garment.sizes[worst]})"
    more = in_centimetres(float(need.missing[worst]) + 0.5)
    fix = f"make it {more} longer, or take cloth that stretches further {way}"
    return caution(fact, need.span, figures, fix)


def _left(garment: Garment, need: Need) -> np.ndarray:
    """What of a stretch does not come back, as a share of the opening."""
    return np.maximum(need.share, 0.0) * (1 - garment.cloth.get("recovery", 1.0))


def _slack(garment: Garment, need: Need) -> Note:
    left = _left(garment, need)
    worst = int(np.argmax(left))
    recovery = percent(garment.cloth.get("recovery", 1.0))
    fact = (
        f"{need.why}, must stretch further than this cloth comes back from, for {listed(garment.sizes, left > GAPES)}"
    )
    figures = f"of {percent(float(need.share[worst]))} it keeps {percent(float(left[worst]))} ({garment.sizes[worst]})"
    return caution(fact, need.span, figures, f"take cloth that recovers by more than {recovery}, or a wider opening")
