"""One formula for a measure that was not taken: a sum of what was, and how far women or men lie from it."""

from __future__ import annotations

from dataclasses import replace

from draft.base.record import dataclass

GIVEN = ("bust_girth", "waist_girth", "hip_girth", "stature")
"""What the formulas lean on, in the order of their factors."""

Factors = tuple[float, float, float, float]


@dataclass(frozen=True)
class Formula:
    """`start` plus `factors` times bust, waist, hip and stature, in cm (or degrees).

    `sd` is what people miss it by, as far as was tried: on those it was found from, on others of the survey and of a
    second study, and with what is not known of where the tape lay.
    """

    start: float
    factors: Factors
    sd: float
    source: str
    held_beyond: bool = False
    """Whether it goes on beyond those that it was learned on as at their last: a slope there is but a guess."""

    @property
    def leans_on(self) -> tuple[str, ...]:
        """The measures that it leans on."""
        return tuple(name for name, factor in zip(GIVEN, self.factors, strict=True) if factor)

    def scaled(self, share: float) -> Formula:
        """A measure that is a share of another."""
        bust, waist, hip, stature = (factor * share for factor in self.factors)
        return replace(self, start=self.start * share, factors=(bust, waist, hip, stature))

    def give_or_take(self, sd: float, source: str | None = None) -> Formula:
        """The same with another spread, and where that is from if it is not from the survey alone."""
        return replace(self, sd=sd, source=source or self.source)
