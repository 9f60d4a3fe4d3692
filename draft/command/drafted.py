"""A request drafted for a verb, with what there is to say about it printed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from draft.command.console import print_notes, print_text, stop_on_errors
from draft.drafting.request import Request

if TYPE_CHECKING:
    from draft.drafting.drafting import Drafted


def drafted_for(request: Request, refuse: bool, whole: bool = False) -> Drafted:
    """Draft and check, also for missing seams if `whole`; print the notes. `refuse` stops with 1 if one is an error."""
    from draft.answers.estimated import estimates_report
    from draft.answers.solved import solved_report
    from draft.drafting.checked import draft_and_check

    drafted = draft_and_check(request, whole)
    if drafted.told_estimates:
        print_text(estimates_report(drafted.told_estimates))
    print_notes(drafted.notes)
    if refuse:
        stop_on_errors(drafted.notes)
    solved = solved_report(drafted)
    if solved:
        print_text(solved)
    return drafted
