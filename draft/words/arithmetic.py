"""Sums, shares and comparisons of quantities. A length times a length is refused: no line of a draft is an area."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from draft.base.arrays import Floats
from draft.base.units import Kind
from draft.words.word import QUANTITIES, Given, Kinds, Word, one


def _same(before: tuple[Kind, ...]) -> Kinds:
    return one(before[0])


def _factor(before: tuple[Kind, ...]) -> Kinds:
    return QUANTITIES if before[0] is Kind.NUMBER else one(Kind.NUMBER)


def _divisor(before: tuple[Kind, ...]) -> Kinds:
    return frozenset({Kind.NUMBER, before[0]})


def _first(given: tuple[Kind, ...]) -> Kind:
    return given[0]


def _product(given: tuple[Kind, ...]) -> Kind:
    return given[1] if given[0] is Kind.NUMBER else given[0]


def _quotient(given: tuple[Kind, ...]) -> Kind:
    return given[0] if given[1] is Kind.NUMBER else Kind.NUMBER


def _over(a: Floats, b: Floats) -> Given:
    fits = np.abs(b) > 1e-12
    return a / np.where(fits, b, 1.0), fits


def _nearest(steps: Floats) -> Floats:
    """The nearest whole numbers; halves go up, also where the last digit falls short, and never by odd and even."""
    return np.asarray(np.floor(steps + 0.5 + 1e-9))


def _rounded(whole: Callable[[Floats], Floats]) -> Callable[[Floats, Floats], Given]:
    def run(value: Floats, step: Floats) -> Given:
        fits = step > 1e-12
        # A whisker keeps 3/8 in, a whole number of eighths but for its last digit, from being rounded a step away.
        steps = value / np.where(fits, step, 1.0)
        near = np.round(steps)
        return np.where(np.abs(steps - near) < 1e-9, near, whole(steps)) * step, fits

    return run


def _parted(parts: int) -> Callable[[Floats], Floats]:
    return lambda value: value / parts


def _round_of(radius: Floats) -> Floats:
    return 2 * np.pi * radius


def _radius_of(length: Floats) -> Floats:
    return length / (2 * np.pi)


_NO_STEP = "there is no rounding to steps of nothing"

WORDS = (
    Word("plus", "A + B", "The sum of two values of one kind.", (QUANTITIES, _same), _first, np.add,
         example="width = 22 cm + ease"),
    Word("minus", "A - B", "One value less another of its kind.", (QUANTITIES, _same), _first, np.subtract,
         example="width = 22 cm - ease"),
    Word("times", "A * B", "A value taken so many times; one of the two is a number.", (QUANTITIES, _factor), _product,
         np.multiply, example="room = 2 * ease"),
    Word("over", "A / B", "A share of a value, or how often one length goes into another.", (QUANTITIES, _divisor),
         _quotient, _over, fails="this divides by nothing", example="room = ease / 2"),
    Word("negative", "-A", "The value turned about.", (QUANTITIES,), _first, np.negative,
         example="moved = -ease"),
    Word("larger_of", "larger of A and B", "Whichever is larger.", (QUANTITIES, _same), _first, np.maximum,
         example="depth = larger of ease and 4 cm"),
    Word("smaller_of", "smaller of A and B", "Whichever is smaller.", (QUANTITIES, _same), _first, np.minimum,
         example="depth = smaller of ease and 4 cm"),
    Word("rounded_to", "A rounded to B", "The nearest whole number of steps: `A rounded to 1/8 in`.",
         (QUANTITIES, _same), _first, _rounded(_nearest), fails=_NO_STEP, example="width = ease rounded to 1/8 in"),
    Word("rounded_up_to", "A rounded up to B", "The next whole number of steps that is no smaller.",
         (QUANTITIES, _same), _first, _rounded(np.ceil), fails=_NO_STEP, example="width = ease rounded up to 2 cm"),
    Word("rounded_down_to", "A rounded down to B", "The last whole number of steps that is no larger.",
         (QUANTITIES, _same), _first, _rounded(np.floor), fails=_NO_STEP, example="width = ease rounded down to 2 cm"),
    Word("sine_of", "sine of A", "The sine of an angle.", (one(Kind.ANGLE),), Kind.NUMBER, np.sin,
         example="drop = 12 cm * sine of slope"),
    Word("cosine_of", "cosine of A", "The cosine of an angle.", (one(Kind.ANGLE),), Kind.NUMBER, np.cos,
         example="reach = 12 cm * cosine of slope"),
    Word("tangent_of", "tangent of A", "The tangent of an angle.", (one(Kind.ANGLE),), Kind.NUMBER, np.tan,
         example="lift = 10 cm * tangent of slope"),
    Word("half_of", "half of A", "A value halved.", (QUANTITIES,), _first, _parted(2),
         example="room = half of (ease + 1 cm)"),
    Word("third_of", "third of A", "A third of a value.", (QUANTITIES,), _first, _parted(3),
         example="room = third of ease"),
    Word("quarter_of", "quarter of A", "A quarter of a value.", (QUANTITIES,), _first, _parted(4),
         example="width = quarter of 92 cm"),
    Word("round_of", "round of LENGTH", "How long a circle is all the way round, by its radius.",
         (one(Kind.LENGTH),), Kind.LENGTH, _round_of, example="flare = round of 30 cm"),
    Word("radius_of", "radius of LENGTH", "The radius of a circle that is so long all the way round.",
         (one(Kind.LENGTH),), Kind.LENGTH, _radius_of, example="opening = radius of 72 cm"),
)  # fmt: skip
