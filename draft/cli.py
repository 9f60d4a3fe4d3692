"""The command `plainseam`: read the arguments, call, print, and say with the exit code how it went.

0: done. 1: the pattern, the chart or the body has problems, all of them shown. 2: the command was used wrongly.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict, Unpack

import click

from draft import __version__
from draft.cli_printing import Asked, PrintChoices, printed, printing_options
from draft.notes import Note, Problems, Severity, show

if TYPE_CHECKING:
    from draft.drafting import Drafted

Command = Callable[..., None]


class Choices(TypedDict):
    """For whom a pattern is drafted, as the command line gives it."""

    sizes: str | None
    body: Path | None
    chart: Path | None
    like: str | None
    answers: tuple[str, ...]
    fabric: str | None
    unwashed: bool
    styles: tuple[str, ...]


_FILE = click.Path(path_type=Path)
_OPTIONS = (
    click.argument("pattern"),
    click.option("--sizes", metavar="M,L", help="Only these sizes of the chart."),
    click.option("--body", type=_FILE, metavar="FILE", help="One person's measures in TOML: made to measure."),
    click.option("--chart", type=_FILE, metavar="FILE", help="Another size chart than the pattern's own."),
    click.option("--like", metavar='"bust M, hip XL"', help="One person between the sizes of the chart."),
    click.option("--measure", "answers", multiple=True, metavar="NAME=VALUE", help="One person's measure; repeat it."),
    click.option("--fabric", metavar="FILE", help="A TOML file, or stable, moderate, stretchy, very_stretchy, rib."),
    click.option("--unwashed", is_flag=True, help="Draft what washing takes from the fabric into the pieces."),
    click.option("--style", "styles", multiple=True, metavar="NAME=VALUE", help="Choose a style; may be repeated."),
)
OutOption = click.option(
    "--out", "folder", required=True, type=click.Path(path_type=Path), metavar="DIR", help="The folder to write into."
)


def drafting_options(function: Command) -> Command:
    """The pattern, and for whom it is drafted."""
    for option in reversed(_OPTIONS):
        function = option(function)
    return function


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, package_name="plainseam")
def commands() -> None:
    """Draft sewing patterns from one plain text, for every size of a chart or for one person.

    PATTERN is the name of a bundled pattern, such as marlpit, or the path of a .piece file.
    """


class PackChoices(Choices, PrintChoices):
    """For whom a pattern is drafted, and how it is printed."""


@commands.command()
@drafting_options
@printing_options
@OutOption
def pack(pattern: str, folder: Path, **choices: Unpack[PackChoices]) -> None:
    """Make everything a maker needs: a booklet, tiled PDF for Letter and A4, SVG, tables."""
    from draft.tables import table_files

    drafted = _draft(pattern, choices, refuse=True, whole=True)
    said: list[str] = []
    say = _progress()
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
    from draft.paper.pack import svg_files

    drafted = _draft(pattern, choices, refuse=False)
    say = _progress()
    files = svg_files(drafted.to_cut, progress=say, combs=combs)
    say("")
    write(folder, files)
    _stop_on_errors(drafted.notes)


@commands.command()
@drafting_options
@click.option("--sections", is_flag=True, help="Walk from notch to notch: show where ease or stretch comes to lie.")
def walk(pattern: str, sections: bool, **choices: Unpack[Choices]) -> None:
    """Lay the two sides of every seam along one another; exit with 1 if any does not fit."""
    from draft.report import seam_report, sections_report

    drafted = _draft(pattern, choices, refuse=False, whole=True)
    click.echo((sections_report if sections else seam_report)(drafted.garment))
    _stop_on_errors(drafted.notes)


@commands.command()
@_OPTIONS[0]
@_OPTIONS[-1]
def about(pattern: str, styles: tuple[str, ...]) -> None:
    """List what a pattern needs and offers: its measures and styles; or what a file of templates has."""
    from draft.plan.library import find, read_texts
    from draft.plan.make import plan_texts
    from draft.report import about_report, templates_report

    texts = read_texts(find(pattern))
    of_templates = texts.main.templates and not texts.main.patterns
    click.echo(templates_report(texts.main) if of_templates else about_report(plan_texts(texts, styles_of(styles))))


# ---- shared steps ---------------------------------------------------------------------------------------------------


def _draft(pattern: str, choices: Choices, refuse: bool, whole: bool = False) -> Drafted:
    """Draft and check, also for missing seams if `whole`; print the notes. `refuse` stops with 1 if one is an error."""
    from draft.checked import draft_and_check
    from draft.report import chosen_report, estimates_report

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
    _print(drafted.notes)
    if refuse:
        _stop_on_errors(drafted.notes)
    chosen = chosen_report(drafted)
    if chosen:
        click.echo(chosen)
    return drafted


def styles_of(given: tuple[str, ...]) -> dict[str, str]:
    """Styles from texts such as `sleeve_length=30cm`. Raises UsageError for any other."""
    styles = {}
    for choice in given:
        name, equals, value = choice.partition("=")
        if not equals or not name.strip() or not value.strip():
            raise click.UsageError(f"`--style {choice}` is not NAME=VALUE, as in `--style sleeve_length=30cm`")
        if name.strip() in styles:
            raise click.UsageError(f"`--style {name.strip()}=...` is given twice: take one of the two out")
        styles[name.strip()] = value.strip()
    return styles


def _print(notes: Sequence[Note]) -> None:
    if notes:
        click.echo(show(notes), err=True)


def _stop_on_errors(notes: Sequence[Note]) -> None:
    if any(note.severity is Severity.ERROR for note in notes):
        raise SystemExit(1)


def write(folder: Path, files: dict[str, bytes]) -> None:
    """Write files into a folder, all or none, and say so."""
    from draft.output import leftovers, write_folder

    write_folder(folder, files)
    click.echo(f"wrote {len(files)} files to {folder}")
    old = leftovers(folder, files)
    if old:
        click.echo(f"caution: files of an earlier run are still there: {', '.join(old)}", err=True)


def _progress() -> Callable[[str], None]:
    """Says on one line of a terminal what is being done, and takes the line away for no words; silent in a pipe."""
    if not sys.stderr.isatty():
        return lambda words: None
    return lambda words: click.echo(f"\r\033[K{words} ..." if words else "\r\033[K", err=True, nl=False)


def main() -> int:
    """Run the command; a user's mistake becomes one clear message and an exit code, never a traceback."""
    try:
        commands(standalone_mode=False)
    except Problems as problems:
        _print(problems.notes)
        return 1
    except click.ClickException as mistake:
        mistake.show()
        return mistake.exit_code
    except (click.Abort, KeyboardInterrupt):
        click.echo("stopped; nothing was written", err=True)
        return 1
    except BrokenPipeError:
        return 1
    return 0


from draft import cli_bodies as cli_bodies  # noqa: E402 - its commands join the group above
from draft import cli_cloth as cli_cloth  # noqa: E402
from draft import cli_lines as cli_lines  # noqa: E402
from draft import cli_texts as cli_texts  # noqa: E402
