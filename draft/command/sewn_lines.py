"""The verbs about lines that are sewn together: walking them, and trueing where they run across a seam."""

from __future__ import annotations

from typing import Unpack

import click

from draft.command.console import print_text, stop_on_errors
from draft.command.drafted import drafted_for
from draft.command.group import commands
from draft.command.options import Given, drafting_options, length_in, request_of
from draft.command.told_as_data import AS_JSON, tell


@commands.command()
@drafting_options
@click.option("--sections", is_flag=True, help="Walk from notch to notch: show where ease or stretch comes to lie.")
@AS_JSON
def walk(sections: bool, **given: Unpack[Given]) -> None:
    """Lay the two sides of every seam along one another; exit with 1 if any does not fit."""
    from draft.answers.seam_walk import seam_report, sections_report
    from draft.answers.seams_data import sections_data, walk_data

    drafted = drafted_for(request_of(given), refuse=False, whole=True)
    print_text((sections_report if sections else seam_report)(drafted.seamed))
    tell(lambda: (sections_data if sections else walk_data)(drafted.seamed))
    stop_on_errors(drafted.notes)


@commands.command("true")
@drafting_options
@click.option("--over", default="4 cm", metavar="LENGTH", help="How far from the seam the lines are blended: 4 cm.")
@AS_JSON
def true_lines(over: str, **given: Unpack[Given]) -> None:
    """List where outlines do not run on across a seam, what trueing them would move, and the words for it."""
    from draft.answers.seams_data import true_data
    from draft.answers.true_lines import true_report

    drafted = drafted_for(request_of(given), refuse=False)
    blended = length_in(over, "--over")
    print_text(true_report(drafted.garment, blended))
    tell(lambda: true_data(drafted.garment, blended))
