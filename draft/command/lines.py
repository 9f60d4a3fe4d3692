"""The commands about lines: trueing them, comparing two drafts, handing them to other machines."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict, Unpack

import click

from draft.base.units import Kind, QuantityError, read_quantity
from draft.command.choices import Choices, OutOption, drafting_options, styles_of
from draft.command.console import progress, write
from draft.command.drafted import drafted_for
from draft.command.group import commands

if TYPE_CHECKING:
    from draft.answers.compare import Draft

Command = Callable[..., None]


class Two(TypedDict):
    """What is compared with what, as the command line gives it."""

    old: str
    new: str | None
    sizes: str | None
    between: str | None
    old_body: Path | None
    new_body: Path | None
    styles: tuple[str, ...]
    new_styles: tuple[str, ...]


_FILE = click.Path(path_type=Path)
_COMPARED = (
    click.argument("old"),
    click.argument("new", required=False),
    click.option("--sizes", metavar="M,L", help="Compare two versions in these sizes only."),
    click.option("--between", metavar="M,L", help="Compare these two sizes."),
    click.option("--old-body", type=_FILE, metavar="FILE", help="Whom the old one is drafted for, in TOML."),
    click.option("--new-body", type=_FILE, metavar="FILE", help="Whom the new one is drafted for."),
    click.option("--style", "styles", multiple=True, metavar="NAME=VALUE", help="A style of both; may be repeated."),
    click.option("--new-style", "new_styles", multiple=True, metavar="NAME=VALUE", help="A style of the new one only."),
)


def compare_options(function: Command) -> Command:
    """What is compared with what."""
    for option in reversed(_COMPARED):
        function = option(function)
    return function


@commands.command("true")
@drafting_options
@click.option("--over", default="4 cm", metavar="LENGTH", help="How far from the seam the lines are blended: 4 cm.")
def true_lines(pattern: str, over: str, **choices: Unpack[Choices]) -> None:
    """List where outlines do not run on across a seam, what trueing them would move, and the words for it."""
    from draft.answers.reports import true_report

    drafted = drafted_for(pattern, choices, refuse=False)
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


@commands.command()
@compare_options
@click.option("--out", "folder", type=_FILE, metavar="DIR", help="Write the table and drawings there as well.")
def compare(folder: Path | None, **choices: Unpack[Two]) -> None:
    """Compare two versions of a pattern, OLD and NEW, edge by edge: which have moved, and how far.

    With one pattern, two sizes are compared with `--between M,L`, two people with `--old-body` and `--new-body`, two
    styles with `--new-style neckline=boat`.
    """
    from draft.answers.compare import compare as compare_drafts
    from draft.answers.compare import compare_files, compare_report

    found = compare_drafts(*_two(choices))
    click.echo(compare_report(found))
    if folder:
        write(folder, compare_files(found))


@commands.command()
@drafting_options
@click.option(
    "--to",
    "machine",
    type=click.Choice(["dxf", "cutter"]),
    required=True,
    help="dxf: drafting programs and industrial cutters; cutter: plotters and laser cutters, as bare SVG.",
)
@click.option("--width", metavar="LENGTH", help="With cutter: lay the pieces no wider than the machine takes.")
@OutOption
def export(pattern: str, machine: str, width: str | None, folder: Path, **choices: Unpack[Choices]) -> None:
    """Write the pieces for another machine: DXF after ASTM D6673, or bare cutting lines."""
    if width and machine != "cutter":
        raise click.UsageError("`--width` goes with `--to cutter`: DXF holds pieces, not a layout")
    garment, say = drafted_for(pattern, choices, refuse=True).to_cut, progress()
    if machine == "dxf":
        from draft.exchange.dxf import dxf_files

        files = dxf_files(garment, say)
    else:
        from draft.exchange.cutter import cutter_files

        files = cutter_files(garment, _length(width, "--width") if width else None, say)
    say("")
    write(folder, files)


def _two(choices: Two) -> tuple[Draft, Draft]:
    from draft.answers.compare import Draft

    old_body, new_body, between = choices["old_body"], choices["new_body"], _list(choices["between"])
    if not (choices["new"] or between or new_body or choices["new_styles"]):
        fix = "another pattern, `--between M,L`, `--new-body FILE` or `--new-style NAME=VALUE`"
        raise click.UsageError(f"there is nothing to compare with: give {fix}")
    if between is not None and (len(between) != 2 or choices["sizes"] or old_body or new_body):
        raise click.UsageError("`--between` takes two sizes, and neither other sizes nor bodies beside them")
    if bool(old_body) != bool(new_body) or (old_body and choices["sizes"]):
        raise click.UsageError("`--old-body` and `--new-body` go together, without sizes")
    old_sizes, new_sizes = ([size] for size in between) if between else [_list(choices["sizes"])] * 2
    old_styles = styles_of(choices["styles"])
    return (
        Draft(choices["old"], old_sizes, old_body, old_styles),
        Draft(choices["new"] or choices["old"], new_sizes, new_body, old_styles | styles_of(choices["new_styles"])),
    )


def _list(text: str | None) -> list[str] | None:
    return [size.strip() for size in text.split(",") if size.strip()] if text is not None else None
