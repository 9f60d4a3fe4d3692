"""The commands about bodies: measures, sizes, fit. Thin like the rest of the command; it adds them to its group."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Unpack

import click

from draft.command.choices import Choices, OutOption, drafting_options, styles_of
from draft.command.console import write
from draft.command.drafted import drafted_for
from draft.command.group import commands

if TYPE_CHECKING:
    from draft.drafting.whom import Whom
    from draft.fit.choosing import Wear


@commands.command()
@click.argument("name", required=False)
@click.option("--out", "folder", type=click.Path(path_type=Path), metavar="DIR", help="Write a drawing of each there.")
def measures(name: str | None, folder: Path | None) -> None:
    """List the body measures, or say how NAME is taken."""
    from draft.answers.body_measures import measure_files, measure_report, measures_report

    click.echo(measure_report(name) if name else measures_report())
    if folder:
        write(folder, measure_files())


@commands.command()
@drafting_options
@click.option(
    "--wear",
    type=click.Choice(["closer", "as drafted", "looser"]),
    default="as drafted",
    help="How the wearer likes it.",
)
def size(pattern: str, wear: Wear, **choices: Unpack[Choices]) -> None:
    """Say which size fits one person: by each girth and over all, with the ease in it and its neighbours."""
    from draft.answers.reports import estimates_report
    from draft.answers.size import size_for, size_report

    sized = size_for(
        pattern, _person(choices), styles=styles_of(choices["styles"]), fabric=choices["fabric"], wear=wear
    )
    if sized.estimates:
        click.echo(estimates_report(sized.estimates) + "\n")
    click.echo(size_report(sized))


@commands.command()
@drafting_options
@click.option(
    "--out", "folder", type=click.Path(path_type=Path), metavar="DIR", help="Write a drawing of each body there."
)
def fit(pattern: str, folder: Path | None, **choices: Unpack[Choices]) -> None:
    """Report how the garment sits on each body: ease at every level, and the stretch that the cloth must have."""
    from draft.answers.fitting import fit_files, fit_report

    drafted = drafted_for(pattern, choices, refuse=True)
    click.echo(fit_report(drafted.garment))
    if folder:
        write(folder, fit_files(drafted.garment))


@commands.command()
@click.argument("pattern")
@click.argument("people", metavar="BODIES.csv", type=click.Path(path_type=Path))
@click.option("--chart", type=click.Path(path_type=Path), metavar="FILE", help="Another size chart than the pattern's.")
@click.option("--fabric", metavar="FILE", help="A TOML file, or stable, moderate, stretchy, very_stretchy, rib.")
@click.option("--style", "styles", multiple=True, metavar="NAME=VALUE", help="Choose a style; may be repeated.")
@OutOption
def study(
    pattern: str, people: Path, chart: Path | None, fabric: str | None, styles: tuple[str, ...], folder: Path
) -> None:
    """Draft for many bodies, a row each: drafted or why not, the best size, ease by level, the stretch that is needed.

    BODIES.csv has a column a measure, such as `bust_girth cm`, and a row a body.
    """
    from draft.answers.study import run_study

    chosen = styles_of(styles)
    with _bar(people) as progress:
        found = run_study(pattern, people, chart=chart, styles=chosen, fabric=fabric, progress=progress)
    click.echo(found.summary)
    write(folder, found.files)


@contextmanager
def _bar(file: Path) -> Iterator[Callable[[int], object]]:
    """A bar of how much of a file is read, on a terminal; nothing in a pipe."""
    if not sys.stderr.isatty() or not file.is_file():
        yield lambda read: None
        return
    with click.progressbar(length=max(file.stat().st_size, 1), file=sys.stderr, label="drafting") as bar:
        yield lambda read: bar.update(read - bar.pos)


def _person(choices: Choices) -> Whom:
    """The person asked for. Raises UsageError if there is none."""
    from draft.drafting.whom import Whom

    whom = Whom(choices["body"], choices["chart"], None, choices["like"], choices["answers"])
    if not whom.is_person or choices["sizes"] is not None:
        raise click.UsageError("say for whom: `--body FILE`, `--like` or `--measure NAME=VALUE`, without `--sizes`")
    return whom
