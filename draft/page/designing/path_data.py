"""Lines as a browser draws them: the data of paths in millimetres, y down, to a hundredth."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry import cubic

DOWN = np.tile([1.0, -1.0], 4)


def path_data(run: Floats) -> str:
    """Segments end to end `(n, 4, 2)`, y up, as one stroke of a path; an empty text where anything is not finite."""
    if not len(run) or not np.isfinite(run).all():
        return ""
    straight = cubic.is_straight(run).tolist()
    rows = np.round(run.reshape(-1, 8) * DOWN, 2).tolist()
    words = [f"M{rows[0][0]} {rows[0][1]}"]
    for row, is_line in zip(rows, straight, strict=True):
        words.append(f"L{row[6]} {row[7]}" if is_line else "C" + " ".join(map(str, row[2:])))
    return "".join(words)


def each_path(runs: Floats) -> list[str]:
    """The same line of every body `(bodies, n, 4, 2)`."""
    return [path_data(run) for run in runs]


def through(points: Floats) -> str:
    """Straight from point to point `(n, 2)`, y up."""
    if len(points) < 2 or not np.isfinite(points).all():
        return ""
    rows = np.round(points * [1.0, -1.0], 2).tolist()
    return "M" + "L".join(f"{x} {y}" for x, y in rows)


def shown(values: Floats, places: int = 2) -> list[float | None]:
    """Figures `(n,)` as they are seen; None where there is none."""
    return [round(value, places) if np.isfinite(value) else None for value in np.asarray(values, float).tolist()]
