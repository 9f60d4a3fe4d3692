"""Bundled patterns dressed on forms of the chart's sizes, coarsely and once for all tests that look at them."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np

from draft.form.dress_form import form_of
from draft.form.field import Field, field_of
from draft.form.landmarks import landmarks_of
from draft.toile.dressed import Dressed, Refused, State
from draft.toile.dressing import dress
from draft.toile.sewing_up import sew
from tests.asking import bundled

COARSE = 30.0
ARMS = 50.0


def attempt(
    name: str,
    size: str = "M",
    *,
    on: str = "",
    edge_length: float = COARSE,
    arms: float = ARMS,
    states: tuple[State, ...] = ("down",),
    girths: tuple[tuple[str, float], ...] = (),
    step: float = 8.0,
    **styles: str,
) -> Dressed | Refused:
    """A size on the form of another, with some girths in cm in place of that one's."""
    drafted = bundled(name, size, **styles)
    bodies = bundled(name, on or size, **styles).bodies
    bodies = replace(bodies, values={**bodies.values, **{m: np.array([10.0 * cm]) for m, cm in girths}})
    form = form_of(bodies)
    assert form is not None
    cloth = drafted.garment.cloth
    stretch = cloth.get("stretch_across", 0.05), cloth.get("stretch_down", cloth.get("stretch_across", 0.05) / 2)

    @cache
    def field_at(below_level: float) -> Field:
        return field_of(form, 0, below_level, step)

    sewn = sew(drafted.garment, 0, edge_length)
    return dress(sewn, field_at, landmarks_of(form, 0), stretch, float(np.radians(arms)), states)


@cache
def worn(name: str, size: str = "M", **more: object) -> Dressed:
    """The same, which must not be refused."""
    found = attempt(name, size, **more)  # type: ignore[arg-type]
    assert isinstance(found, Dressed), found.reason
    return found
