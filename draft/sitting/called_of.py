"""What levels and places of a form are called: a man has a chest where a woman has a bust."""

from __future__ import annotations

from collections.abc import Mapping

from draft.form.dress_form import Form

_OF_MEN = {"bust": "chest", "front waist": "front below the chest"}


def called_of(form: Form, name: str) -> str:
    """The name of a level or a place on this form."""
    return name if form.measured.of.mounded else _OF_MEN.get(name, name)


def levels_called(form: Form, levels: Mapping[str, float]) -> dict[str, float]:
    """Figures of levels by what these are called on this form; the row high up that is its chest's has no name."""
    return {called_of(form, name): figure for name, figure in levels.items() if name != "chest"}
