"""The garment on a form for the booklet of a pack: of the one person, or of the size in the middle."""

from __future__ import annotations

from typing import TYPE_CHECKING

from draft.base.notes import Note, caution
from draft.drafting.drafting import Drafted
from draft.paper.drawing.wording import Wording

if TYPE_CHECKING:
    from draft.paper.worn.worn_sheet import WornSheet


def worn_of_pack(drafted: Drafted, wording: Wording) -> tuple[WornSheet | None, tuple[Note, ...]]:
    """What the booklet shows of it, or None with a caution where it cannot be dressed."""
    from draft.answers.sit_cases import own_cases, posed
    from draft.paper.worn.worn_sheet import WornSheet
    from draft.paper.worn.worn_words import not_dressed
    from draft.sitting.sitting_of import ARMS, Asked, Sitting, sitting_of

    cases = own_cases(drafted, wording)
    case = cases[len(cases) // 2]
    found = sitting_of(case.subject, Asked())
    if isinstance(found, Sitting):
        under = posed(case, ARMS, wording, from_waist=found.reading.from_waist)
        return WornSheet(case.title, under, found.worn, found.told, case.whose), ()
    reason = not_dressed(found.reason, Wording("en", wording.units))  # as all notes are
    return None, (caution(f"the booklet does not show how it will sit: {reason}"),)
