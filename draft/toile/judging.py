"""Whether a settled toile may be shown: nothing of the form stands through it, nothing is pinched, all is at rest."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from draft.base.arrays import Floats
from draft.toile.dressed import FormField, Settled, State
from draft.toile.newton import Rest
from draft.toile.sewn import Sewn
from draft.toile.sewn_cloth import SewnCloth

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


def refusal(found: Mapping[State, Settled], field: FormField, arms: float) -> str:
    """Why nothing may be said of a toile; empty where it may."""
    for state, one in found.items():
        if not np.isfinite(one.positions).all():
            return "the cloth could not be settled on this form"
        if one.penetration > MOST_INSIDE:
            deepest = one.positions[int(np.argmin(one.stands_off))]
            return _stands_through(deepest, field, arms, one.penetration)
        if not one.settled and state != "held":
            return f"the cloth does not come to rest: its last step is {one.last_step / 10:.1f} cm"
    return ""


def _stands_through(deepest: Floats, field: FormField, arms: float, by: float) -> str:
    below = float(field.joint[2] - deepest[2])
    beside_trunk = abs(deepest[0]) > field.joint[0] / 2 and -50.0 < below < _UPPER_ARM
    if arms > _CLOSE and beside_trunk:
        return "the cloth is pinched between arm and body: look at it with the arms held farther out"
    return f"the form stands {by / 10:.1f} cm through the cloth in one place: this garment does not go over this body"


def cautions_of(found: Mapping[State, Settled]) -> tuple[str, ...]:
    """What is to be careful of in a toile that may be shown."""
    cautions = []
    if "held" in found and not found["held"].settled:
        cautions.append("with friction the cloth does not come to rest: how far it stays down is known less well")
    if any(one.pinched.any() for one in found.values()):
        cautions.append("in places the cloth is pinched: nothing is to be trusted there")
    return tuple(cautions)
