"""The verbs about bodies: measures, the size for one person, the fit, a study of many."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Unpack

import click

from draft.base.disk import is_file
from draft.command.console import print_text, write
from draft.command.drafted import drafted_for_sewing, print_estimates
from draft.command.group import commands
from draft.command.options import (
    DETAILS,
    FABRIC,
    OUT,
    PATTERN,
    PLACE,
    Given,
    chart,
    drafting_options,
    out,
    request_of,
    style,
    styles_of,
)
from draft.command.told_as_data import AS_JSON, tell
from draft.drafting.request import Request, Whom

if TYPE_CHECKING:
    from draft.fit.choosing import Wear


@commands.command()
@click.argument("name", required=False)
@out("Write a drawing of each there.")
@AS_JSON
def measures(name: str | None, folder: Path | None) -> None:
    """List the body measures, or say how NAME is taken."""
    from draft.answers.body_measures import measure_files, measure_report, measures_report
    from draft.answers.lists_data import measures_data

    print_text(measure_report(name) if name else measures_report())
    tell(lambda: measures_data(name))
    if folder:
        write(folder, measure_files())


@commands.command()
@out("Write a drawing of each there.")
@AS_JSON
def figures(folder: Path | None) -> None:
    """List what can be said of a figure, such as sloping shoulders, in place of measures that nobody took."""
    from draft.answers.figures_said import figure_files, figures_report
    from draft.answers.lists_data import figures_data

    print_text(figures_report())
    tell(figures_data)
    if folder:
        write(folder, figure_files())


@commands.command()
@drafting_options
@click.option(
    "--wear",
    type=click.Choice(["closer", "as drafted", "looser"]),
    default="as drafted",
    help="How the wearer likes it.",
)
@DETAILS
@AS_JSON
def size(wear: Wear, details: bool, **given: Unpack[Given]) -> None:
    """Say which size fits one person: by each girth and over all, with the ease in it and its neighbours.

    One girth is enough, such as `--measure bust=98cm`: then it is said what that leaves open.
    """
    from draft.answers.fit_data import size_data
    from draft.answers.in_her_words import in_her_words
    from draft.answers.size import size_for, size_report

    request = request_of(given, rule=_one_person)
    with in_her_words(request):
        sized = size_for(request, wear)
    print_text(size_report(sized) + ("\n" if sized.estimates else ""))
    tell(lambda: size_data(sized))
    print_estimates(sized.estimates, details)


def _one_person(whom: Whom) -> None:
    if not whom.is_person or whom.sizes is not None:
        raise click.UsageError("say for whom: `--body FILE`, `--like` or `--measure NAME=VALUE`, without `--sizes`")


@commands.command()
@drafting_options
@DETAILS
@out("Write a drawing of each body there.")
@AS_JSON
def fit(folder: Path | None, details: bool, **given: Unpack[Given]) -> None:
    """Report how the garment sits on each body: ease at every level, and the stretch that the cloth must have."""
    from draft.answers.fit import fit_files, fit_report
    from draft.answers.fit_data import fit_data
    from draft.answers.otherwise import otherwise_report
    from draft.answers.shape_followed import shape_report

    drafted = drafted_for_sewing(request_of(given), details)
    print_text(fit_report(drafted.garment, details))
    tell(lambda: fit_data(drafted.garment))
    said = "\n".join(filter(None, (shape_report(drafted), otherwise_report(drafted))))
    if said:
        print_text(f"\n{said}")
    if folder:
        write(folder, fit_files(drafted))


@commands.command()
@PATTERN
@click.argument("people", metavar="BODIES.csv", type=PLACE)
@chart("Another size chart than the pattern's.")
@FABRIC
@style()
@OUT
@AS_JSON
def study(
    pattern: str, people: Path, chart: Path | None, fabric: str | None, styles: tuple[str, ...], folder: Path
) -> None:
    """Draft for many bodies, a row each: drafted or why not, the best size, ease by level, the stretch that is needed.

    BODIES.csv has a column a measure, such as `bust_girth cm`, and a row a body.
    """
    from draft.answers.study import run_study
    from draft.answers.tried_data import study_data

    request = Request(pattern, Whom(chart=chart), styles_of(styles), fabric)
    with _bar(people) as progress:
        found = run_study(request, people, progress=progress)
    print_text(found.summary)
    tell(lambda: study_data(found.tally))
    print_text(f"\na chart for them: `plainseam chart --people {people} --propose XS,S,M,L,XL`")
    write(folder, found.files)


@contextmanager
def _bar(file: Path) -> Iterator[Callable[[int], object]]:
    """A bar of how much of a file is read, on a terminal; nothing in a pipe."""
    if not sys.stderr.isatty() or not is_file(file):
        yield lambda read: None
        return
    with click.progressbar(length=max(file.stat().st_size, 1), file=sys.stderr, label="drafting") as bar:
        yield lambda read: bar.update(read - bar.pos)
