"""Closing a bracket about the place where a margin changes its sign, for all bodies side by side.

T. R. Chandrupatla, "A new hybrid quadratic/bisection algorithm for finding the zero of a nonlinear function without
using derivatives", Advances in Engineering Software 28 (1997): inverse quadratic steps where they are safe, halving
where they are not, so that both ends close in within few steps.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from draft.base.arrays import Floats, Ints

End = tuple[Floats, Floats]
"""Values of the unknown and the margins there, `(B,)` each."""
Ends = Sequence[End]

CLOSE = 2.0**-40  # of the range: far below a thousandth of a millimetre
STEPS = 60  # halving alone takes 40; mostly it is ten


def close_in(margin: Callable[[Floats, Ints], Floats], one: End, other: End, width: Floats) -> Floats:
    """The value `(B,)` on the side where the margin is not negative, within `CLOSE` of the range of where it changes.

    `margin` is asked for the values `(N,)` of the bodies `(N,)` that have not arrived yet. A body that has stays, so
    that it comes out the same whatever its neighbours still need.
    """
    a, fa, b, fb = one[0], one[1], other[0], other[1]
    t = np.full(a.shape, 0.5)
    open_ = np.sign(fa) * np.sign(fb) < 0  # a bracket without a change of sign has nothing to close in upon
    for _ in range(STEPS):
        rows = np.flatnonzero(open_)
        if not rows.size:
            break
        new, f = np.where(open_, a + t * (b - a), a), fa.copy()
        f[rows] = margin(new[rows], rows)
        same = (f >= 0) == (fa >= 0)
        c, fc = np.where(same, a, b), np.where(same, fa, fb)
        b, fb = np.where(open_ & ~same, a, b), np.where(open_ & ~same, fa, fb)
        a, fa = np.where(open_, new, a), np.where(open_, f, fa)
        least = CLOSE * width / np.maximum(np.abs(b - a), 1e-300)
        open_ = open_ & (least < 0.5) & (fa != 0)
        t = np.clip(_step(a, fa, b, fb, c, fc), np.minimum(least, 0.5), np.maximum(1 - least, 0.5))
    return np.where(fa >= 0, a, b)


def _step(a: Floats, fa: Floats, b: Floats, fb: Floats, c: Floats, fc: Floats) -> Floats:
    """How far to go from `a` to `b`: by an inverse parabola through three places where that is safe, else half."""
    along = (a - b) / np.where(c == b, 1.0, c - b)
    up = (fa - fb) / np.where(fc == fb, 1.0, fc - fb)
    safe = (c != b) & (fc != fb) & (fa != fb) & (fa != fc) & (up**2 < along) & ((1 - up) ** 2 < 1 - along)
    with np.errstate(all="ignore"):
        t = fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
    return np.asarray(np.where(safe & np.isfinite(t), t, 0.5))
