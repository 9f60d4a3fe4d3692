"""The command about cloth: how much, and how it is cut. Thin like the rest; it adds itself to the command's group."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict, Unpack

import click

from draft.command.choices import Choices, drafting_options
from draft.command.console import print_notes, progress, write
from draft.command.drafted import drafted_for
from draft.command.group import commands

if TYPE_CHECKING:
    from draft.base.notes import Note
    from draft.cloth.bolt import Cloth
    from draft.cloth.effort import Effort, EffortName
    from draft.garment.garment import Garment

Command = Callable[..., None]
_WIDTH = "58 in"


class LayChoices(TypedDict):
    """The cloth and the search, as the command line gives them."""

    widths: tuple[str, ...]
    one_way: bool
    shrink_across: str | None
    shrink_down: str | None
    ends: str
    table: bool
    together: bool
    copies: int
    have: tuple[str, ...]
    kind: str | None
    effort: EffortName
    folder: Path | None


class AllChoices(Choices, LayChoices):
    """Everything that `lay` takes beside the pattern."""


_OPTIONS = (
    click.option("--width", "widths", multiple=True, metavar="WIDTH",
                 help=f"Of the cloth: else the fabric's, or {_WIDTH}."),
    click.option("--one-way", is_flag=True, help="The cloth has a nap or a print with an upper end."),
    click.option("--shrink-across", metavar="5%", help="What washing takes from its width."),
    click.option("--shrink-down", metavar="5%", help="What washing takes from its length."),
    click.option("--ends", default="1 in", metavar="LENGTH", help="Kept free at each cut end: 1 in."),
    click.option("--table", is_flag=True, help="All common widths, with and without a one-way design."),
    click.option("--together", is_flag=True, help="Lay all these sizes as one, from one length."),
    click.option("--copies", type=click.IntRange(1), default=1, metavar="N", help="So many garments as one lay."),
    click.option("--have", multiple=True, metavar="LENGTHxWIDTH",
                 help="Will it fit? A length of cloth, or a file with a remnant's corners; repeat for several."),
    click.option("--kind", type=click.Choice(["open", "one-fold", "two-folds"]), help="Only this kind of lay."),
    click.option("--effort", type=click.Choice(["quick", "usual", "long"]), default="usual",
                 help="More time for less cloth."),
    click.option("--out", "folder", type=click.Path(path_type=Path), metavar="DIR",
                 help="Write the layouts as SVG and the table as CSV there."),
)  # fmt: skip


def lay_options(function: Command) -> Command:
    """The cloth and the search."""
    for option in reversed(_OPTIONS):
        function = option(function)
    return function


@commands.command()
@drafting_options
@lay_options
def lay(pattern: str, **choices: Unpack[AllChoices]) -> None:
    """Lay the pieces on cloth: how much to buy, and how to cut it.

    An open lay, one fold and two folds are all tried. Press Ctrl-C once to stop with the best found so far.
    """
    from draft.cloth.cut_pieces import stretch_notes
    from draft.cloth.effort import effort, stoppable

    if choices["unwashed"] and (choices["shrink_across"] or choices["shrink_down"]):
        raise click.UsageError("with `--unwashed` the pieces hold what washing takes, so give it in the fabric's file")
    garment = drafted_for(pattern, choices, refuse=True).to_cut
    print_notes(stretch_notes(garment))
    spent = effort(choices["effort"])
    with stoppable(spent):
        if choices["have"]:
            _stash(garment, choices, spent)
        elif choices["together"] or choices["copies"] > 1:
            _together(garment, choices, spent)
        else:
            _sizes(garment, choices, spent)


def _sizes(garment: Garment, choices: AllChoices, spent: Effort) -> None:
    from draft.cloth.lays import FOLDINGS
    from draft.laying.lay_report import needs_report, table_report
    from draft.laying.sizes import by_folding, lay_files, lay_sizes, width_notes

    cloths, say = _cloths(choices), progress()
    kinds = [kind for kind in FOLDINGS if choices["kind"] in (None, kind.replace(" ", "-"))]
    rows = lay_sizes(garment, cloths, spent, say, kinds)
    notes: Sequence[Note] = ()
    if len(rows) > 1:
        report = table_report(rows)
    else:
        lengths = by_folding(garment, rows[0], spent) if len(kinds) == len(FOLDINGS) else None
        report, notes = needs_report(rows[0], lengths), width_notes(garment, rows[0], spent, kinds)
    say("")
    click.echo(report)
    print_notes(notes)
    if choices["folder"]:
        write(choices["folder"], lay_files(garment, rows))


def _together(garment: Garment, choices: AllChoices, spent: Effort) -> None:
    from draft.laying.lay_report import needs_report
    from draft.laying.picture import together_picture
    from draft.laying.sizes import lay_together, picture_file

    say = progress()
    cloths = _cloths(choices)
    if len(cloths) > 1:
        raise click.UsageError("one lay is on one cloth: give one `--width`, and no `--table`")
    need, notes = lay_together(garment, cloths[0], choices["copies"], spent, say)
    say("")
    click.echo(needs_report([need]))
    print_notes(notes)
    if choices["folder"]:
        write(choices["folder"], {"cloth/together.svg": picture_file(together_picture(garment, need))})


def _stash(garment: Garment, choices: AllChoices, spent: Effort) -> None:
    from draft.laying.sizes import as_one
    from draft.laying.stash import stash

    if choices["widths"] or choices["table"]:
        raise click.UsageError(
            "the cloth of `--have` has its own width, so it goes with neither `--width` nor `--table`"
        )
    several = choices["together"] or choices["copies"] > 1
    whole = as_one(garment, choices["copies"]) if several else None
    answers, files = stash(garment, choices["have"], _cloths(choices)[0], spent, whole)
    click.echo("\n".join(answers))
    if choices["folder"] and files:
        write(choices["folder"], files)


def _cloths(choices: AllChoices) -> list[Cloth]:
    from draft.cloth.table import COMMON_WIDTHS, common_cloths
    from draft.laying.asked import fabric_of, read_length, read_share

    known = fabric_of(choices["fabric"])
    washed = {} if choices["unwashed"] else known
    given = [read_length(width, "--width", "58in") for width in choices["widths"]]
    common = COMMON_WIDTHS if choices["table"] else (known.get("width", read_length(_WIDTH, "--width", "58in")),)
    widths = given or common
    across = read_share(choices["shrink_across"], "--shrink-across", washed.get("shrinkage_across", 0.0))
    down = read_share(choices["shrink_down"], "--shrink-down", washed.get("shrinkage_down", 0.0))
    ends = read_length(choices["ends"], "--ends", "1in")
    both_ways = choices["table"] and not choices["one_way"]
    return list(common_cloths(widths, across, down, None if both_ways else choices["one_way"], ends))
