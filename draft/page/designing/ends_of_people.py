"""People of a survey who are farthest from the middle, each in her own way: whom a draft should fit as well."""

from __future__ import annotations

from functools import cache

import numpy as np

from draft.base.arrays import Floats
from draft.bodies.formula import GIVEN
from draft.bodies.population import POPULATIONS, people_of
from draft.page.bench import Asked, Bench, Gave

_SHARE = 0.01
"""The outermost so much of the people are left out: of them any figure may be a slip of the survey's."""
WAYS: dict[str, tuple[float, float, float, float]] = {
    "small": (-1, -1, -1, 0),
    "large": (1, 1, 1, 0),
    "short": (0, 0, 0, -1),
    "tall": (0, 0, 0, 1),
    "full_bust": (1, 0, -1, 0),
    "full_hip": (-1, 0, 1, 0),
    "full_waist": (-0.5, 1, -0.5, 0),
    "slim_waist": (0.5, -1, 0.5, 0),
}
"""Each as weights of bust, waist, hip and stature."""


def ends_of_people(asked: Asked, _bench: Bench) -> Gave:
    """The `people`, by name, with their `measures` as they are typed, of the survey of `women` or `men`."""
    name = asked.get("of") if asked.get("of") in POPULATIONS else "women"
    return {"of": name, "people": _people(str(name))}


@cache
def _people(name: str) -> list[dict[str, object]]:
    bodies = people_of(name)
    columns = np.stack([bodies.values[measure] for measure in GIVEN], axis=1)
    return [{"name": way, "measures": _measures(columns[_farthest(columns, way)])} for way in WAYS]


def _farthest(columns: Floats, way: str) -> int:
    score = (columns - columns.mean(axis=0)) @ np.array(WAYS[way])
    order = np.argsort(score, kind="stable")
    return int(order[-1 - round(_SHARE * len(order))])


def _measures(row: Floats) -> dict[str, str]:
    return {measure: f"{value / 10:.1f} cm" for measure, value in zip(GIVEN, row.tolist(), strict=True)}
