"""The bundled patterns in every shape that they can have: as they are, and with each other option of each choice."""

from __future__ import annotations

from functools import cache

from draft.plan.library import find
from draft.plan.plan import Plan
from tests.pieces.bundled import PATTERNS
from tests.written import make_plan


@cache
def plan_of(name: str, style: str = "", option: str = "") -> Plan:
    """The plan of a bundled pattern, with one choice made otherwise."""
    return make_plan(find(name), {style: option} if style else {})


SHAPES = tuple(
    shape
    for name in PATTERNS
    for shape in (
        (name, "", ""),
        *(
            (name, style.name, option)
            for style in plan_of(name).styles
            if style.is_choice
            for option in style.ends
            if option != style.set_to
        ),
    )
)
