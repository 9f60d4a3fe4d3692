"""Odd asks of a sewist's: bodies that nobody has, styles at their ends, cloth that does not suit; by a seed."""

from __future__ import annotations

import random
from typing import Any

from draft.bodies.measures import MEASURES
from draft.page.bench import Bench
from draft.page.page_verbs import VERBS


class OddAsks:
    """Asks about one garment after another, the same for the same seed."""

    def __init__(self, seed: int, bench: Bench, language: str = "de") -> None:
        self._chance, self._bench, self._language = random.Random(seed), bench, language
        self._choices: dict[str, dict[str, Any]] = {}

    def about(self, garment: str) -> dict[str, Any]:
        """One ask about a garment."""
        asked = {"garment": garment, "units": "cm", "language": self._language, "pieces": False}
        if garment not in self._choices:
            self._choices[garment] = dict(VERBS["choices"](asked, self._bench))
        choices, chance = self._choices[garment], self._chance
        if chance.random() < 0.75:
            asked["measures"] = self._measures([one["name"] for one in choices["measures"]])
        else:
            asked["sizes"] = chance.sample(choices["sizes"], min(len(choices["sizes"]), chance.choice([1, 2, 3])))
        asked["styles"] = {one["name"]: self._style(one) for one in choices["styles"] if chance.random() < 0.4}
        if chance.random() < 0.5:
            asked["cloth"] = self._cloth()
            asked["unwashed"] = chance.random() < 0.5
        return asked

    def _measures(self, names: list[str]) -> dict[str, str]:
        chance = self._chance
        bust = chance.uniform(60, 180) if chance.random() < 0.4 else chance.uniform(78, 130)
        shares = {"waist_girth": (0.55, 1.4), "hip_girth": (0.7, 1.4)}
        found = {name: bust * chance.uniform(*ends) for name, ends in shares.items()}
        measures = {"bust_girth": bust, "stature": chance.uniform(115, 225), **found}
        said = {name: f"{value:.1f} cm" for name, value in measures.items()}
        for name in chance.sample(names, min(len(names), chance.choice([0, 1, 2, 5]))):
            known = MEASURES.get(name)
            if known:
                value = chance.uniform(known.low, known.high) / known.unit
                said[name] = f"{value:.1f} {'deg' if name == 'shoulder_slope' else 'cm'}"
        if chance.random() < 0.1:
            said.pop(chance.choice(list(said)))
        return said

    def _style(self, one: dict[str, Any]) -> str:
        if "options" in one:
            return str(self._chance.choice(one["options"])["value"])
        return f"{self._chance.choice([one['low'], one['high'], one['value'], 1e4])} {one['unit']}".strip()

    def _cloth(self) -> dict[str, str]:
        shares = {
            "stretch_across": [0, 5, 15, 45, 400],
            "stretch_down": [0, 5, 90],
            "recovery": [50, 95],
            "shrinkage_across": [3, 12, 40],
            "shrinkage_down": [5, 20],
        }
        return {name: f"{self._chance.choice(ends)} %" for name, ends in shares.items() if self._chance.random() < 0.6}
