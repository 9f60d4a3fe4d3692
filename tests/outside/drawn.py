"""Bodies drawn at random from means and covariances, always the same ones."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from draft.bodies.bodies import Bodies
from draft.bodies.measures import MEASURES


def drawn(means: Mapping[str, float], covariances: Sequence[Sequence[float]], count: int, seed: int) -> Bodies:
    """So many bodies in mm from figures in cm; `covariances` is the lower half, in the order of the means."""
    size = len(means)
    half = np.array([[*row, *[0.0] * (size - len(row))] for row in covariances])
    whole = half + np.tril(half, -1).T
    rng = np.random.default_rng(seed)
    taken = rng.multivariate_normal(list(means.values()), whole, count, method="eigh")
    limits = {name: (MEASURES[name].low, MEASURES[name].high) for name in means}
    values = {name: np.clip(column * 10, *limits[name]) for name, column in zip(means, taken.T, strict=True)}
    return Bodies(tuple(f"drawn {k + 1}" for k in range(count)), values)
