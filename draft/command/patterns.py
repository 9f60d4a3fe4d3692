"""The verbs about a pattern as a whole: packing it, drawing it, walking its seams, telling what it needs."""

from __future__ import annotations

from pathlib import Path
from typing import Unpack

import click

from draft.command.choices import ARGUMENT, STYLE, Choices, OutOption, drafting_options, styles_of
from draft.command.console import progress, stop_on_errors, write
from draft.command.drafted import drafted_for
from draft.command.group import commands
from draft.command.printing import Asked, PrintChoices, printed, printing_options


class PackChoices(Choices, PrintChoices):
    """For whom a pattern is drafted, and how it is printed."""


@commands.command()
@drafting_options
@printing_options
@OutOption
def pack(pattern: str, folder: Path, **choices: Unpack[PackChoices]) -> None:
    """Make everything a maker needs: a booklet, tiled PDF for Letter and A4, SVG, tables."""
    from draft.answers.tables import table_files

    drafted = drafted_for(pattern, choices, refuse=True, whole=True)
    said: list[str] = []
    say = progress()
    asked = Asked(pattern, drafted, choices["fabric"], choices["unwashed"])
    files = printed(asked, choices, say, said.append) | table_files(drafted.garment)
    say("")
    write(folder, files)
    click.echo("\n".join(said))


@commands.command()
@drafting_options
@OutOption
@click.option("--combs", is_flag=True, help="Set a curvature comb on every curved edge, to judge its fairness by eye.")
def draft(pattern: str, folder: Path, combs: bool, **choices: Unpack[Choices]) -> None:
    """Draw the pieces as SVG, also while the pattern still has faults, to look at them."""
    from draft.pack.printed_files import svg_files

    drafted = drafted_for(pattern, choices, refuse=False)
    say = progress()
    files = svg_files(drafted.to_cut, progress=say, combs=combs)
    say("")
    write(folder, files)
    stop_on_errors(drafted.notes)


@commands.command()
@drafting_options
@click.option("--sections", is_flag=True, help="Walk from notch to notch: show where ease or stretch comes to lie.")
def walk(pattern: str, sections: bool, **choices: Unpack[Choices]) -> None:
    """Lay the two sides of every seam along one another; exit with 1 if any does not fit."""
    from draft.answers.reports import seam_report, sections_report

    drafted = drafted_for(pattern, choices, refuse=False, whole=True)
    click.echo((sections_report if sections else seam_report)(drafted.garment))
    stop_on_errors(drafted.notes)


@commands.command()
@ARGUMENT
@STYLE
def about(pattern: str, styles: tuple[str, ...]) -> None:
    """List what a pattern needs and offers: its measures and styles; or what a file of templates has."""
    from draft.answers.reports import about_report, templates_report
    from draft.plan.library import find, read_texts
    from draft.plan.make import plan_texts

    texts = read_texts(find(pattern))
    of_templates = texts.main.templates and not texts.main.patterns
    click.echo(templates_report(texts.main) if of_templates else about_report(plan_texts(texts, styles_of(styles))))
