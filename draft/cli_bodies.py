"""The commands about bodies: measures, sizes, fit. Thin like the rest of the command; it adds them to its group."""

from __future__ import annotations

from pathlib import Path

import click

from draft.cli import commands, write


@commands.command()
@click.argument("name", required=False)
@click.option("--out", "folder", type=click.Path(path_type=Path), metavar="DIR", help="Write a drawing of each there.")
def measures(name: str | None, folder: Path | None) -> None:
    """List the body measures, or say how NAME is taken."""
    from draft.measured import measure_files, measure_report, measures_report

    click.echo(measure_report(name) if name else measures_report())
    if folder:
        write(folder, measure_files())
