"""How a garment will sit: a sheet for each body, the figures as tables, and sentences for a terminal."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.notes import Problems, error
from draft.bodies.bodies import Bodies
from draft.bodies.wearers import WOMEN, Wearers
from draft.drafting.drafting import Drafted
from draft.form import form_of
from draft.form.field import field_of
from draft.form.landmarks import landmarks_of
from draft.paper.drawing.wording import Wording
from draft.paper.worn.form_sheet import FormSheet, form_sheet
from draft.paper.worn.worn_files import sheet_files
from draft.sitting.estimated_of import estimated_of, outside_of
from draft.sitting.worn_of import form_alone

_SHOWN = ("neck", "bust", "under_bust", "waist", "top_hip", "hip")


def as_measured(drafted: Drafted) -> Bodies:
    """The bodies without what was estimated and not described in words: a form tells what of it was measured."""
    values = dict(drafted.bodies.values)
    values |= {one.name: np.where(one.where, np.nan, values[one.name]) for one in drafted.estimates if not one.said}
    return replace(drafted.bodies, values=values)


def form_files(person: Bodies, arms: float, wording: Wording, wearers: Wearers = WOMEN) -> dict[str, bytes]:
    """A sheet of one person's form, arms held so far below level. Raises `Problems` where none can be made."""
    form = form_of(person, wearers)
    if form is None:
        fix = "give bust, waist or hip; of children no form is made"
        raise Problems([error("too little is known of this body to make a form of it", None, fix)])
    marks = landmarks_of(form, 0)
    worn = form_alone(field_of(form, 0, arms), field_of(form, 0, arms, armless=True), marks)
    girths = {name: float(form.girth(name)[0]) for name in _SHOWN if name != "under_bust" or form.measured.of.mounded}
    title = wording.say("sit.form_of", name=person.names[0])
    sheet = FormSheet(title, worn, girths, tuple(estimated_of(form)), tuple(outside_of(form)))
    return sheet_files("form", form_sheet(sheet, wording), wording.language)
