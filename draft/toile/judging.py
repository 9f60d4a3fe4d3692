"""Whether a settled toile may be shown: nothing of the form stands through it, nothing is pinched, all is at rest."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from draft.base.arrays import Floats
from draft.toile.dressed import FormField, Settled, State
from draft.toile.newton import Rest
from draft.toile.sewn import Sewn
from draft.toile.sewn_cloth import SewnCloth
from draft.toile.why_not import Why, why

MOST_INSIDE = 3.0
"""mm that the form may stand through the cloth: a vertex that is caught goes in by centimetres."""
_PINCHED = 1.2
"""mm: cloth that is stretched over a form sinks in by tenths; more, and it is pressed from two sides."""
_AT_REST = 5.0  # mm that the last step may move a vertex
_CLOSE = float(np.radians(60.0))
_UPPER_ARM = 350.0
"""mm below the shoulder's joint in which an arm that hangs steeper than that lies against the trunk."""


def settled_of(sewn: Sewn, cloth: SewnCloth, field: FormField, rest: Rest) -> Settled:
    """What the cloth does where it rests."""
    x = rest.x
    values, _ = field.at(x)
    across, along, _ = cloth.membrane.strain(x)
    pull, tension = _greatest_pull(cloth, x)
    return Settled(
        positions=x,
        across=across,
        along=along,
        stands_off=values,
        penetration=max(float(-values.min()), 0.0),
        last_step=rest.last_step,
        pull=pull,
        tension=tension,
        settled=rest.last_step < _AT_REST,
        pinched=values < -_PINCHED,
    )


def _greatest_pull(cloth: SewnCloth, x: Floats) -> tuple[Floats, Floats]:
    """The way `(t, 3)` and size `(t,)` of the greatest tension of each triangle."""
    one, other, shear = cloth.membrane.tension(x)
    middle, half = (one + other) / 2, (one - other) / 2
    greatest = middle + np.hypot(half, shear)
    angle = np.arctan2(shear, half) / 2
    units = cloth.membrane.units(x)
    way = np.cos(angle)[:, None] * units[0] + np.sin(angle)[:, None] * units[1]
    return np.asarray(way / np.maximum(np.linalg.norm(way, axis=1), 1e-9)[:, None]), greatest


def refusal(found: Mapping[State, Settled], field: FormField, arms: float) -> Why | None:
    """Why nothing may be said of a toile; None where it may."""
    for state, one in found.items():
        if not np.isfinite(one.positions).all():
            return why("why_not_settled")
        if one.penetration > MOST_INSIDE:
            deepest = one.positions[int(np.argmin(one.stands_off))]
            return _stands_through(deepest, field, arms, one.penetration)
        if not one.settled and state != "held":
            return why("why_not_at_rest", mm_step=one.last_step)
    return None


def _stands_through(deepest: Floats, field: FormField, arms: float, by: float) -> Why:
    below = float(field.joint[2] - deepest[2])
    beside_trunk = abs(deepest[0]) > field.joint[0] / 2 and -50.0 < below < _UPPER_ARM
    if arms > _CLOSE and beside_trunk:
        return why("why_pinched_by_arm")
    return why("why_stands_through", mm_by=by)


def cautions_of(found: Mapping[State, Settled]) -> tuple[Why, ...]:
    """What is to be careful of in a toile that may be shown."""
    cautions = []
    if "held" in found and not found["held"].settled:
        cautions.append(why("slides_on"))
    if any(one.pinched.any() for one in found.values()):
        cautions.append(why("pinched"))
    return tuple(cautions)
