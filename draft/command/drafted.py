"""A request drafted for a verb, with what there is to say about it printed.

Verbs of a designer say all at once, each fault with its place. To a sewist, who measured somebody and has never seen
the file of a bundled pattern, it is said in words, and tables only if she asks.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from draft.command.console import print_notes, print_text, stop_on_errors
from draft.command.told_as_data import tell
from draft.drafting.request import Request

if TYPE_CHECKING:
    from draft.bodies.estimates import Estimate
    from draft.drafting.drafting import Drafted


def drafted_for(request: Request, refuse: bool, whole: bool = False) -> Drafted:
    """Draft and check, also for missing seams if `whole`; print the notes. `refuse` stops with 1 if one is an error."""
    from draft.answers.estimated import estimates_report
    from draft.answers.sides_said import sides_report
    from draft.answers.solved import solved_report
    from draft.drafting.checked import draft_and_check

    drafted = draft_and_check(request, whole)
    if drafted.told_estimates:
        print_text(estimates_report(drafted.told_estimates))
    print_notes(drafted.notes)
    if refuse:
        stop_on_errors(drafted.notes)
    _print_told(solved_report(drafted), sides_report(drafted))
    _tell_draft(drafted, solved=True)
    return drafted


def _tell_draft(drafted: Drafted, solved: bool) -> None:
    """The same as data."""
    from draft.answers.drafted_data import about_draft, estimates_data, solved_data

    tell(lambda: about_draft(drafted) | (solved_data(drafted) if solved else {}))
    if solved:
        tell(lambda: estimates_data(drafted.told_estimates))


def _print_told(*texts: str) -> None:
    for text in filter(None, texts):
        print_text(text)


def drafted_for_sewing(request: Request, details: bool, whole: bool = False) -> Drafted:
    """The same for who sews it: faults without their places in a bundled file, tables if `details` are asked for."""
    from draft.answers.in_her_words import in_her_words, without_places
    from draft.answers.sides_said import sides_report
    from draft.answers.solved import solved_report
    from draft.drafting.checked import draft_and_check

    with in_her_words(request):
        drafted = draft_and_check(request, whole)
    print_notes(without_places(request, drafted.notes))
    stop_on_errors(drafted.notes)
    print_estimates(drafted.told_estimates, details)
    solved = solved_report(drafted) if details else ""
    _print_told(solved, sides_report(drafted))
    _tell_draft(drafted, solved=details)
    return drafted


def _tell_estimates(shown: Sequence[Estimate], left_out: int) -> None:
    from draft.answers.drafted_data import estimates_data

    tell(lambda: estimates_data(shown, left_out))


def print_estimates(estimates: Sequence[Estimate], details: bool) -> None:
    """What was estimated: all of it, or what was said of the figure and how much more there is."""
    from draft.answers.estimated import estimates_report

    shown = [one for one in estimates if details or one.said]
    if shown:
        print_text(estimates_report(shown))
    count = len(estimates) - len(shown)
    _tell_estimates(shown, count)
    if count:
        said = f"{count} measures were" if count > 1 else "one measure was"
        which = "each" if count > 1 else "it"
        print_text(f"{said} not taken but estimated: `--details` tells how far off {which} may be")
