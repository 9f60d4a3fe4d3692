"""Whose bodies a pattern is drafted for: what is not measured is estimated as it is in women, in men, or not at all."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from draft.base.record import dataclass
from draft.bodies import of_men, of_women
from draft.bodies.formula import Formula


@dataclass(frozen=True)
class Wearers:
    """People of one kind: the formulas for what was not measured of them, and on which bodies those were learned."""

    name: str
    one: str
    formulas: Mapping[str, Formula] = field(default_factory=dict)
    learned: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    """mm, from and to, by measure."""


WOMEN = Wearers("women", "woman", of_women.OF_WOMEN, of_women.LEARNED)
MEN = Wearers("men", "man", of_men.OF_MEN, of_men.LEARNED)
CHILDREN = Wearers("children", "child")
"""No formula is known here that holds for growing bodies: everything is measured."""

WEARERS = {wearers.name: wearers for wearers in (WOMEN, MEN, CHILDREN)}


def wearers_called(word: str) -> Wearers | None:
    """`women` or `woman`, and so on; None for other words."""
    return next((wearers for wearers in WEARERS.values() if word in (wearers.name, wearers.one)), None)
