"""Where a size fails at the ends of whom it claims to serve: a line for each body, the worst of it in words."""

from __future__ import annotations

from collections.abc import Sequence

from draft.answers.sit_cases import Case
from draft.paper.drawing.wording import Wording
from draft.paper.worn.worn_words import not_dressed
from draft.sitting.reading import LevelRead, Reading
from draft.sitting.sitting_of import Sitting
from draft.toile.dressed import Refused

_ROOMY = 200.0
"""mm of room at its closest from which on a garment hangs on a body (as `smaller` is advised)."""


def ends_told(found: Sequence[tuple[Case, Sitting | Refused]], wording: Wording) -> list[str]:
    """For each body at an end what is wrong with the size there, or that nothing is; nothing for other cases."""
    return [_line(case, sitting, wording) for case, sitting in found if case.trait]


def _line(case: Case, found: Sitting | Refused, wording: Wording) -> str:
    trait = wording.say(f"sit.{case.trait}")
    if isinstance(found, Refused):
        said = wording.say("sit.refused", reason=not_dressed(found.reason, wording))
        return wording.say("sit.end", size=case.size, trait=trait, verdict=said)
    return wording.say("sit.end", size=case.size, trait=trait, verdict=_verdict(found.reading, wording))


def _verdict(reading: Reading, wording: Wording) -> str:
    for key, some in (
        ("end_too_tight", [level for level in reading.levels if level.too_tight]),
        ("end_tight", [level for level in reading.levels if level.presses]),
    ):
        if some:
            return wording.say(f"sit.{key}", levels=_listed(some, wording))
    rooms = [level.room for level in reading.levels if level.room is not None]
    return wording.say("sit.end_roomy" if rooms and min(rooms) > _ROOMY else "sit.end_fits")


def _listed(levels: Sequence[LevelRead], wording: Wording) -> str:
    shares = (
        wording.say(
            "sit.end_level",
            level=wording.say(f"sit.level_{level.name.replace(' ', '_')}"),
            stretched=wording.percent(level.most),
        )
        for level in levels
    )
    return wording.listed(list(shares))
