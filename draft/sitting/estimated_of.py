"""What of a form is estimated and matters to how a garment sits, and which of its girths nobody was surveyed with."""

from __future__ import annotations

from draft.form.dress_form import Form
from draft.sitting.main_girths import MAIN
from draft.sitting.reading import SURVEYED, SURVEYED_MEN

_LEANT_ON = ("bust_depth", "under_bust_girth", "back_waist_length", "shoulder_slope", "upper_arm_girth")
"""What a top on a form leans on most beside the three girths."""


def estimated_of(form: Form, body: int = 0) -> list[str]:
    """The measures that a garment's sitting leans on and nobody took, the main girths first."""
    return [name for name in (*MAIN, *_LEANT_ON) if not form.measured.was_taken(name)[body] and _matters(form, name)]


def _matters(form: Form, name: str) -> bool:
    return form.measured.of.mounded or name not in ("under_bust_girth", "bust_depth")


def outside_of(form: Form, body: int = 0) -> dict[str, float]:
    """Girths outside of those of the surveyed women and men that forms were judged on, mm."""
    limits = SURVEYED if form.measured.of.mounded else SURVEYED_MEN
    found = {name: float(form.measured[name][body]) for name in limits}
    return {name: value for name, value in found.items() if not limits[name][0] <= value <= limits[name][1]}
