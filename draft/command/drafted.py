"""Drafting for the command: what is wrong with the options, the notes, and what was estimated and solved."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from draft.command.choices import Choices, styles_of
from draft.command.console import print_notes, stop_on_errors

if TYPE_CHECKING:
    from draft.drafting.drafting import Drafted


def drafted_for(pattern: str, choices: Choices, refuse: bool, whole: bool = False) -> Drafted:
    """Draft and check, also for missing seams if `whole`; print the notes. `refuse` stops with 1 if one is an error."""
    from draft.answers.reports import chosen_report, estimates_report
    from draft.drafting.checked import draft_and_check

    sizes, body, chart = choices["sizes"], choices["body"], choices["chart"]
    person = [word for word in ("body", "like") if choices[word]] + (["measure"] if choices["answers"] else [])
    if person and sizes is not None:
        raise click.UsageError(f"`--{person[0]}` drafts one person, so it does not go with `--sizes`")
    if body and (chart or choices["like"]):
        raise click.UsageError("`--body` drafts one person, so it goes with neither `--chart` nor `--like`")
    names = [s.strip() for s in sizes.split(",") if s.strip()] if sizes is not None else None
    styles = styles_of(choices["styles"])
    drafted = draft_and_check(
        pattern,
        body=body,
        chart=chart,
        sizes=names,
        like=choices["like"],
        answers=choices["answers"],
        styles=styles,
        fabric=choices["fabric"],
        unwashed=choices["unwashed"],
        whole=whole,
    )
    if drafted.estimates:
        click.echo(estimates_report(drafted.estimates))
    print_notes(drafted.notes)
    if refuse:
        stop_on_errors(drafted.notes)
    chosen = chosen_report(drafted)
    if chosen:
        click.echo(chosen)
    return drafted
