"""Body measures that a pattern declares itself, beside those that the engine knows, and what they are then called.

What is read of bodies is read with the measures that are `known`: ours alone, or those of a pattern with them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.bodies.bodies import Bodies
from draft.bodies.measures import MEASURES, BodyMeasure


@dataclass(frozen=True)
class OwnMeasure(BodyMeasure):
    """A measure of a pattern's own; `estimate` gives what it is `about` `(bodies,)` for bodies that lack it.

    It leans on the measures that `leans_on` names.
    """

    estimate: Callable[[Bodies], Floats] | None = None
    leans_on: tuple[str, ...] = ()
    words: str = ""
    """The estimate as it was written."""


Known = Mapping[str, BodyMeasure]
"""Measures by name."""


def known_with(own: Iterable[OwnMeasure]) -> Known:
    """All measures that the engine knows, and those of a pattern."""
    return MappingProxyType(MEASURES | {measure.name: measure for measure in own})
