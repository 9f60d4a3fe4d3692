"""A sewn garment dressed on one of several forms."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache

from draft.base.arrays import Floats
from draft.form.dress_form import Form
from draft.form.field import Field, field_of
from draft.form.landmarks import landmarks_of
from draft.sitting.hand_stretch import of_cloth
from draft.toile.dressed import Dressed, Refused, State
from draft.toile.dressing import dress
from draft.toile.following_arms import Elbow
from draft.toile.sewn import Sewn

Told = Callable[[str, Floats], object]


def dress_on(
    sewn: Sewn,
    form: Form,
    body: int,
    stretch: tuple[float, float],
    arms: float,
    states: Sequence[State],
    told: Told = lambda what, x: None,
    elbow: float = 0.0,
) -> Dressed | Refused:
    """The garment on the form of one body, its arms so far below level and its elbows bent so far, in some states."""

    @cache
    def field_at(angle: float) -> Field:
        return field_of(form, body, angle)

    bent = (
        Elbow(elbow, field_at(arms).arm.middles[2], lambda bend: field_of(form, body, arms, elbow=bend))
        if elbow
        else None
    )
    return dress(sewn, field_at, landmarks_of(form, body), of_cloth(stretch), arms, states, told, bent)
