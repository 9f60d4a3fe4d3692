"""Which levels of a garment hang on what nobody took, and what is honest to say of them."""

from __future__ import annotations

import numpy as np

from draft.base.naming import and_list, plain
from draft.base.record import dataclass
from draft.base.units import in_centimetres
from draft.bodies.estimates import Estimate
from draft.fit.choosing import LEAST_LOSS, SizeFit
from draft.fit.levels import levels, over
from draft.garment.garment import Garment


@dataclass(frozen=True)
class Unsure:
    """The levels `(L,)` that may be narrower or wider by more than cloth is true, and the guesses that they hang on."""

    levels: np.ndarray
    guesses: tuple[Estimate, ...]

    @property
    def sure(self) -> list[int]:
        """The levels that a size can be chosen by."""
        return [int(level) for level in np.flatnonzero(~self.levels)]


def unsure_of(person: Garment, guesses: tuple[Estimate, ...]) -> Unsure:
    """Of a garment drafted for one person and for either end of each guess, as `tried_both_ways` has them."""
    body = np.stack([over(level) for level in levels(person)], axis=-1)
    off = np.abs(body[1:] - body[0]).reshape(len(guesses), 2, body.shape[1]).max(axis=1, initial=0.0) > LEAST_LOSS
    return Unsure(off.any(axis=0), tuple(one for one, matters in zip(guesses, off.any(axis=1), strict=True) if matters))


def doubt_sentences(unsure: Unsure, fit: SizeFit, sizes: tuple[str, ...]) -> list[str]:
    """What was not taken, between what it may lie, and which sizes that leaves open."""
    if not unsure.guesses:
        return []
    names = and_list([plain(one.name).removesuffix(" girth") for one in unsure.guesses])
    was = "were" if len(unsure.guesses) > 1 else "was"
    ways = and_list([f"a {plain(one.name).removesuffix(' girth')} of {_from_to(one)}" for one in unsure.guesses])
    left = [int(level) for level in np.flatnonzero(unsure.levels)]
    open_to = and_list([f"{sizes_between(fit, sizes, k)} at the {fit.names[k]}" for k in left])
    told = unsure.guesses[0].source.split(", of whom ")[-1].removesuffix(" was taken").removesuffix(" were taken")
    them = "them" if len(unsure.guesses) > 1 else "it"
    return [
        f"{names} {was} not measured: of people with {told} nineteen of twenty have {ways}",
        f"that leaves open {open_to}: measure {them} before you cut",
    ]


def sizes_between(fit: SizeFit, sizes: tuple[str, ...], level: int) -> str:
    """`M to XL`: the sizes by one level, over all that a body may be."""
    first, last = int(fit.nearest[:, level].min()), int(fit.nearest[:, level].max())
    return sizes[first] if first == last else f"{sizes[first]} to {sizes[last]}"


def _from_to(guess: Estimate) -> str:
    spread = float(guess.spread[0]) if guess.spread is not None else 0.0
    low, high = (in_centimetres(round(float(guess.values[0]) + way * spread, -1)) for way in (-1, 1))
    return f"{low.removesuffix(' cm')} to {high}"
