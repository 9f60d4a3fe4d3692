"""Customers as a shop has them: women of a public survey, each a little off; patterns and styles by chance."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np

from tests.outside.women import real_women

PATTERNS = ("marlpit", "tidemill", "lockside", "breakwater")
_NECKLINES = ("crew", "scoop", "boat", "vee", "")
_HEAD = ("order", "pattern", "size", "bust cm", "waist cm", "hip cm", "stature cm", "upper_arm_girth cm", "styles",
         "language")  # fmt: skip


def customers(count: int, path: Path, seed: int, patterns: tuple[str, ...] = PATTERNS) -> Path:
    """A table of so many orders: one in ten is a size, one in fifty asks for what cannot be made."""
    women, rng = real_women(), np.random.default_rng(seed)
    girths = ("bust_girth", "waist_girth", "hip_girth", "stature", "upper_arm_girth")
    with path.open("w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow(_HEAD)
        for k in range(count):
            who = int(rng.integers(len(women)))
            body = [f"{women.values[name][who] * (1 + rng.normal(0, 0.02)) / 10:.1f}" for name in girths]
            pattern, language = str(rng.choice(patterns)), str(rng.choice(["en", "de"]))
            neckline = str(rng.choice(_NECKLINES)) if pattern == "marlpit" else ""
            styles = f"neckline={neckline}" if neckline else ""
            odd = rng.random()
            if odd < 0.02:
                body[0] = f"{float(body[0]) * 10:.0f}"
            of_size = 0.02 <= odd < 0.12
            measures = [""] * 5 if of_size else body
            rows.writerow([f"A-{k:04d}", pattern, "M" if of_size else "", *measures, styles, language])
    return path
