"""The people whom a chart is judged by: bodies drawn from the figures of a survey, always the same ones.

The figures are means and covariances of bust, waist, hip and stature (cm) of the 996 women and 2,042 men with an odd
number in the US Army's anthropometric survey of 2012 (ANSUR II), their waists turned to the natural waist. They are of
17 to 58 years and mostly fit, so that large figures are rarer than in the street; girths are drawn with a long upper
tail, as they are there. Whoever has figures of her own customers gives those.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.bodies.bodies import Bodies
from draft.bodies.formula import GIVEN
from draft.bodies.measures import MEASURES

COUNT = 2_000
"""Enough for a share to be told to a percent."""
_SEED = 2012


@dataclass(frozen=True)
class Population:
    """Means, and the lower half of the covariances, of what the formulas lean on; cm. `told` says whose they are."""

    told: str
    means: tuple[float, ...]
    covariances: tuple[tuple[float, ...], ...]


POPULATIONS = {
    "women": Population(
        "women drawn from the figures of 996 (ANSUR II, 2012)",
        (94.6, 78.5, 102.2, 162.9),
        ((68.6,), (70.0, 100.3), (46.4, 60.5, 57.2), (12.6, 12.8, 17.1, 41.3)),
    ),
    "men": Population(
        "men drawn from the figures of 2,042 (ANSUR II, 2012)",
        (106.0, 91.1, 102.0, 175.7),
        ((77.3,), (87.5, 126.3), (57.2, 76.3, 59.2), (14.8, 16.2, 18.1, 46.9)),
    ),
}


def people_of(name: str, count: int = COUNT) -> Bodies:
    """So many bodies of `women` or `men`, mm. Raises KeyError for others, of whom no figures are known here."""
    means, covariances = moments(POPULATIONS[name])
    drawn = _long_tailed(means / 10, covariances / 100, count)
    limits = [(MEASURES[girth].low, MEASURES[girth].high) for girth in GIVEN]
    values = {girth: np.clip(column * 10, *limit) for girth, column, limit in zip(GIVEN, drawn.T, limits, strict=True)}
    return Bodies(tuple(f"{name} {k + 1}" for k in range(count)), values)


def moments(of: Population) -> tuple[Floats, Floats]:
    """Means `(k,)` in mm and covariances `(k, k)` in mm2, in the order of `GIVEN`."""
    size = len(of.means)
    half = np.array([[*row, *[0.0] * (size - len(row))] for row in of.covariances])
    return np.array(of.means) * 10, (half + np.tril(half, -1).T) * 100


def of_logarithms(means: Floats, covariances: Floats) -> tuple[Floats, Floats]:
    """Means `(k,)` and covariances `(k, k)` of the logarithms, where those of a lognormal are these."""
    spread = np.log1p(covariances / np.outer(means, means))
    return np.log(means) - np.diagonal(spread) / 2, spread


def _long_tailed(means: Floats, covariances: Floats, count: int) -> Floats:
    """Draws `(count, k)` of a lognormal with these means and covariances."""
    centre, spread = of_logarithms(means, covariances)
    normal = np.random.default_rng(_SEED).multivariate_normal(centre, spread, count, method="eigh")
    return np.asarray(np.exp(normal))
