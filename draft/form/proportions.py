"""How broad and how deep bodies of given girths are: what a tape does not tell, from a survey's calipers.

Regressions on half of the US Army's anthropometric survey of 2012 (ANSUR II): 996 women and 2,042 men with odd numbers.
The women's spreads are those on the 990 women of the other half, but for the nape's, which is the fit's own; the men's
are those on men whom the formula had not seen, when it was found from each second one. Figures that are from no survey
stand below with what they are from.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.bodies.formula import GIVEN, Formula
from draft.bodies.of_women import NAVEL

MEN_NAVEL = 3.1
"""cm from a man's natural waist's girth to his navel's, as `draft.bodies.of_men` takes it."""

_WOMEN = "regression on 996 women (ANSUR II, 2012)"
_MEN = "regression on 2,042 men (ANSUR II, 2012)"


@dataclass(frozen=True)
class Proportions:
    """Breadths, depths and heights in cm for people of one kind, each from bust, waist, hip and stature.

    `waist_breadth` and `waist_depth` are those of a level that has the waist's girth: the survey's at the navel, taken
    for whatever level is as large. `chest_depth` is over the bust. `means` and `covariances` are those of the four.
    """

    chest_depth: Formula
    waist_breadth: Formula
    waist_depth: Formula
    hip_breadth: Formula
    hip_depth: Formula
    shoulder_breadth: Formula
    """Over both arms, hanging, at their widest."""
    nape_height: Formula
    means: tuple[float, ...]
    covariances: tuple[tuple[float, ...], ...]
    mounded: bool
    """Whether the bust stands before the ribs, or the chest is one round."""

    def in_mm(self, formula: Formula, values: dict[str, Floats]) -> Floats:
        """What a formula says of bodies, mm `(bodies,)`."""
        leant_on = [factor * values[name] for name, factor in zip(GIVEN, formula.factors, strict=True)]
        return np.asarray(10.0 * formula.start + np.sum(leant_on, axis=0))


def _woman(start: float, bust: float, waist: float, hip: float, stature: float, sd: float) -> Formula:
    return Formula(start, (bust, waist, hip, stature), sd, _WOMEN)


def _man(start: float, chest: float, waist: float, hip: float, stature: float, sd: float) -> Formula:
    return Formula(start, (chest, waist, hip, stature), sd, _MEN)


WOMEN = Proportions(
    chest_depth=_woman(-4.041 + 0.003 * NAVEL, 0.3012, 0.0026, 0.0135, -0.0083, 0.91),
    waist_breadth=_woman(-1.130, 0.0072, 0.2839, 0.0333, 0.0160, 0.95),
    waist_depth=_woman(-0.262, -0.0074, 0.3010, 0.0053, -0.0257, 1.17),
    hip_breadth=_woman(-0.693 - 0.009 * NAVEL, -0.0141, -0.0093, 0.3469, 0.0172, 0.88),
    hip_depth=_woman(0.165 + 0.061 * NAVEL, 0.0153, 0.0606, 0.2092, -0.0302, 1.11),
    shoulder_breadth=_woman(8.831 + 0.050 * NAVEL, 0.1477, 0.0499, 0.1093, 0.0413, 1.48),
    nape_height=_woman(-9.372 + 0.024 * NAVEL, -0.0134, 0.0237, -0.0142, 0.9185, 1.03),
    means=(94.6, 78.5, 102.2, 162.9),
    covariances=(
        (68.6, 70.0, 46.4, 12.6),
        (70.0, 100.3, 60.5, 12.8),
        (46.4, 60.5, 57.2, 17.1),
        (12.6, 12.8, 17.1, 41.3),
    ),
    mounded=True,
)

MEN = Proportions(
    chest_depth=_man(-1.682 + 0.032 * MEN_NAVEL, 0.2352, 0.0315, 0.0062, -0.0080, 0.99),
    waist_breadth=_man(-0.760, 0.0125, 0.2569, 0.0499, 0.0161, 0.96),
    waist_depth=_man(0.498, -0.0072, 0.3267, -0.0377, -0.0160, 0.99),
    hip_breadth=_man(1.872 + 0.028 * MEN_NAVEL, -0.0389, 0.0279, 0.2866, 0.0282, 0.85),
    hip_depth=_man(-1.115 + 0.065 * MEN_NAVEL, 0.0166, 0.0654, 0.2186, -0.0255, 1.02),
    shoulder_breadth=_man(7.136 - 0.042 * MEN_NAVEL, 0.2806, -0.0417, 0.1231, 0.0316, 1.40),
    nape_height=_man(-9.349 + 0.024 * MEN_NAVEL, 0.0234, 0.0238, -0.0110, 0.8968, 1.10),
    means=(106.0, 91.1, 102.0, 175.7),
    covariances=(
        (77.3, 87.5, 57.2, 14.8), (87.5, 126.3, 76.3, 16.2), (57.2, 76.3, 59.2, 18.1), (14.8, 16.2, 18.1, 46.9)
    ),
    mounded=False,
)  # fmt: skip

PROPORTIONS = {"women": WOMEN, "men": MEN}

RIBS_OF_BUST, RIBS_OF_WAIST, RIBS_SD = 0.72, 0.17, 4.5
"""The under-bust girth where nobody took it, from bust and waist: 13 cm less than a bust of 94 (from memory)."""
RIBS_OF_HIGH_BUST = 0.915
"""The same where the high bust is known, which tells the ribs from the bust (from memory)."""
CHEST_TO_WAIST = 0.3
"""How far a round chest has come to the waist's girth where a bust would end: as far as it has come in height."""
TOP_HIP = 0.66
"""How far the top hip has come from waist to hip, halfway down between them (from memory: 0.6 to 0.7 in charts)."""
HOLLOW = 32.0
"""mm by which the back lies in at the waist, of seat and shoulder blades on a plumb line (from memory)."""
POINTS = 0.098
"""Half of the distance between the bust points, of the bust, where nobody took it (from memory)."""
