"""Bodies of a few measures, in centimetres and degrees as a person would say them."""

from __future__ import annotations

import numpy as np

from draft.base.units import Kind
from draft.bodies.bodies import Bodies
from draft.bodies.measures import MEASURES
from draft.form.dress_form import Form, form_of


def body(wearer: str = "woman", **measures: float) -> Bodies:
    """One body, called Ines."""
    values = {
        name: np.array([np.radians(value) if MEASURES[name].kind is Kind.ANGLE else value * 10.0])
        for name, value in measures.items()
    }
    return Bodies(("Ines",), values, wearer=wearer)


def form(wearer: str = "woman", **measures: float) -> Form:
    """Her form; of a bust of 94, a waist of 77 and a hip of 101 where nothing else is said."""
    usual = {"bust_girth": 94.0, "waist_girth": 77.0, "hip_girth": 101.0, "stature": 164.0}
    found = form_of(body(wearer, **(usual | measures)))
    assert found is not None
    return found
