"""The commands about lines: trueing them, comparing two drafts, handing them to other machines."""

from __future__ import annotations

from typing import Unpack

import click

from draft.cli import Choices, _draft, commands, drafting_options
from draft.units import Kind, QuantityError, read_quantity


@commands.command("true")
@drafting_options
@click.option("--over", default="4 cm", metavar="LENGTH", help="How far from the seam the lines are blended: 4 cm.")
def true_lines(pattern: str, over: str, **choices: Unpack[Choices]) -> None:
    """List where outlines do not run on across a seam, what trueing them would move, and the words for it."""
    from draft.report import true_report

    drafted = _draft(pattern, choices, refuse=False)
    click.echo(true_report(drafted.garment, _length(over, "--over")))


def _length(text: str, option: str) -> float:
    """A length in mm from the command line."""
    try:
        found = read_quantity(text)
    except QuantityError as reason:
        raise click.UsageError(f"`{option}`: {reason}") from None
    if found.kind is not Kind.LENGTH or not found.value > 0:
        raise click.UsageError(f"`{option} {text}` is not a length, as in `{option} 4cm`")
    return found.value
