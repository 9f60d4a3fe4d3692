"""What is read of a garment on a form: level by level how tight or how roomy, how the hem lies, how far it rides up.

Everything is in mm and shares, with how far the same figure moves on eight forms of the same girths.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from draft.base.record import dataclass
from draft.toile.why_not import Why

Where = Literal["bust", "chest", "waist", "top hip", "hip", "hem", "upper arm"]


@dataclass(frozen=True)
class LevelRead:
    """One level of the form: the cloth's mean stretch there as a share, all round, in front and behind.

    `gives` is by how much the cloth stretches at most; `room` mm round the body where nothing is stretched, None where
    it is not known; `spread` how far the stretch is off on other forms of the same girths, one deviation.
    """

    name: Where
    height: float
    stretched: float
    front: float
    back: float
    gives: float
    room: float | None
    spread: float = 0.0
    pulled: bool = False
    """Whether the cloth is stretched though there is much room: it is pulled from elsewhere, and not tight there."""

    @property
    def tight(self) -> bool:
        """Whether the cloth is stretched by more than cloth is true, by what it goes round."""
        return not self.pulled and (self.stretched >= TIGHT or max(self.front, self.back) >= TIGHT_ON_ONE_SIDE)

    @property
    def most(self) -> float:
        """The greatest of its stretches: all round, in front or behind."""
        return max(self.stretched, self.front, self.back)

    @property
    def pulled_side(self) -> Literal["front", "back", ""]:
        """The side that alone is stretched, while the other hardly is or hangs slack."""
        if self.front - self.back >= UNEQUAL and self.back <= SLACK_THERE:
            return "front"
        return "back" if self.back - self.front >= UNEQUAL and self.front <= SLACK_THERE else ""

    @property
    def told_of(self) -> float:
        """The stretch that is told of it: the greatest where it is too tight, one side's, or all round."""
        if self.gives > 0 and self.too_tight:
            return self.most
        if self.gives <= 0 or not self.pulled_side:
            return self.stretched
        return self.front if self.pulled_side == "front" else self.back

    @property
    def too_tight(self) -> bool:
        """Whether nobody would wear it so for long; cloth that gives nothing is too small where it is tight at all."""
        return self.tight if self.gives <= 0 else self.most > MUCH * self.gives

    @property
    def beyond(self) -> bool:
        """Whether it would have to stretch by more than the cloth gives."""
        return self.too_tight and self.most >= self.gives

    @property
    def presses(self) -> bool:
        """Whether it is tight, and not only close as knits are."""
        return self.tight and self.most > CLOSE * self.gives


UNEQUAL = 0.03
"""By which share front and back must differ to be told apart."""
SLACK_THERE = 0.01
"""Up to which the other side is hardly stretched."""
TIGHT, TIGHT_ON_ONE_SIDE = 0.015, 0.025
"""Shares of stretch below which nothing is said: the pulled state is known to 0.004, and cloth is less true."""

CLOSE, MUCH = 0.15, 0.5
"""Of what the cloth gives: up to the first it is close and not tight, for knits are worn so; beyond the second it is
too tight to wear for long (common practice)."""


@dataclass(frozen=True)
class HemRead:
    """How much higher the hem lies in front and at the side than at the back, mm, and their spreads."""

    front: float
    side: float
    front_spread: float = 0.0
    side_spread: float = 0.0


@dataclass(frozen=True)
class Reading:
    """All that is read of one garment on one form."""

    levels: tuple[LevelRead, ...]
    hem: HemRead
    stays: float | None
    """mm by which the hem rises with friction once it is let go, and as much as it rises without any; None with raised
    arms, when nobody has pulled it down."""
    rides: float | None
    reaches: float | None = None
    """mm by which the hem lifts when the arms are raised; None where that was not tried."""
    hollow: tuple[str, float] | None = None
    """Where it stands off farthest, `back waist` and its like, and by how many mm."""
    doubtful: float = 0.0
    """The share of the cloth of which nothing is to be trusted."""
    estimated: tuple[str, ...] = ()
    """Measures that nobody took and on which what is said leans."""
    outside: Mapping[str, float] = field(default_factory=dict)
    """Girths that lie outside of what was surveyed, mm."""
    left_out: tuple[str, ...] = ()
    """Pieces that are not on the form."""
    cautions: tuple[Why, ...] = ()
    sides_apart: bool = False
    """Whether left and right differ: what is read is then of the tighter."""
    from_waist: bool = False
    """Whether it hangs from the waist, as skirts do, and not from the shoulders."""
    from_bust: float = 0.0
    """The share by which it is stretched where it pulls aslant from the bust to the side; nothing where it does not."""
    shaped: bool = False
    """Whether its front has darts, pleats or gathers."""
    not_tried: bool = False
    """Whether other forms of the same girths were not tried, so that doubts are usual ones and not this garment's."""
    over_elbow: float | None = None
    """The share by which a sleeve is stretched over an elbow that is bent; None where none is."""

    def level(self, name: str) -> LevelRead | None:
        """A level by its name."""
        return next((level for level in self.levels if level.name == name), None)


USUAL_DOUBT, USUAL_HEM_DOUBT = 0.01, 8.0
"""The share and the mm, one deviation, that few garments' stretch and hem exceed: what is said of those not tried."""
SURVEYED = {"bust_girth": (750.0, 1300.0), "hip_girth": (800.0, 1350.0)}
"""mm: from the slimmest to the fullest women of the survey that forms were judged on."""
SURVEYED_MEN = {"bust_girth": (875.0, 1275.0), "hip_girth": (860.0, 1220.0)}
"""mm: the first to the 99th percentile of the surveyed men whose breadths and depths forms have."""
