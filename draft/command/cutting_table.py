"""The verb about cloth: how much of it, and how the pieces are laid to be cut."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict, Unpack

import click

from draft.command.console import print_notes, print_text, progress, write
from draft.command.drafted import drafted_for
from draft.command.group import commands
from draft.command.options import Given, all_of, drafting_options, out, request_of

if TYPE_CHECKING:
    from draft.base.notes import Note
    from draft.cloth.bolt import Cloth
    from draft.cloth.effort import Effort, EffortName
    from draft.drafting.drafting import Drafted


class OnTheTable(TypedDict):
    """The cloth and the search, as they were typed."""

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


class LayGiven(Given, OnTheTable):
    """For whom a pattern is drafted, on which cloth it is laid, and how long a lay is searched."""


lay_options = all_of(
    click.option("--width", "widths", multiple=True, metavar="WIDTH",
                 help="Of the cloth: else the fabric's, or 58 in."),
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
    out("Write the layouts as SVG and the table as CSV there."),
)  # fmt: skip


@commands.command()
@drafting_options
@lay_options
def lay(**given: Unpack[LayGiven]) -> None:
    """Lay the pieces on cloth: how much to buy, and how to cut it.

    An open lay, one fold and two folds are all tried. Press Ctrl-C once to stop with the best found so far.
    """
    from draft.cloth.cut_pieces import stretch_notes
    from draft.cloth.effort import effort, stoppable

    if given["unwashed"] and (given["shrink_across"] or given["shrink_down"]):
        raise click.UsageError("with `--unwashed` the pieces hold what washing takes, so give it in the fabric's file")
    drafted = drafted_for(request_of(given), refuse=True)
    print_notes(stretch_notes(drafted.to_cut))
    spent = effort(given["effort"])
    with stoppable(spent):
        if given["have"]:
            _stash(drafted, given, spent)
        elif given["together"] or given["copies"] > 1:
            _together(drafted, given, spent)
        else:
            _sizes(drafted, given, spent)


def _sizes(drafted: Drafted, given: LayGiven, spent: Effort) -> None:
    from draft.cloth.lays import FOLDINGS
    from draft.laying.lay_report import needs_report, table_report
    from draft.laying.lay_sizes import by_folding, by_solver, lay_files, lay_sizes, solving, width_notes

    garment, cloths, say = drafted.to_cut, _cloths(drafted, given), progress()
    kinds = [kind for kind in FOLDINGS if given["kind"] in (None, kind.replace(" ", "-"))]
    notes: Sequence[Note] = ()
    with solving(garment, cloths, spent, kinds) as solver:
        rows = lay_sizes(garment, cloths, spent, say, kinds)
        if solver:
            row, notes = by_solver(rows[0], solver)
            rows = (row,)
    if len(rows) > 1:
        report = table_report(rows)
    else:
        (row,) = rows
        notes = (*width_notes(garment, row, spent, kinds), *notes)
        report = needs_report(row, by_folding(garment, row, spent) if len(kinds) == len(FOLDINGS) else None)
    say("")
    print_text(report)
    print_notes(notes)
    if given["folder"]:
        write(given["folder"], lay_files(garment, rows))


def _together(drafted: Drafted, given: LayGiven, spent: Effort) -> None:
    from draft.laying.lay_report import needs_report
    from draft.laying.lay_sizes import lay_together, picture_file
    from draft.laying.picture import together_picture

    garment, say = drafted.to_cut, progress()
    cloths = _cloths(drafted, given)
    if len(cloths) > 1:
        raise click.UsageError("one lay is on one cloth: give one `--width`, and no `--table`")
    need, notes = lay_together(garment, cloths[0], given["copies"], spent, say)
    say("")
    print_text(needs_report([need]))
    print_notes(notes)
    if given["folder"]:
        write(given["folder"], {"cloth/together.svg": picture_file(together_picture(garment, need))})


def _stash(drafted: Drafted, given: LayGiven, spent: Effort) -> None:
    from draft.laying.lay_sizes import as_one
    from draft.laying.stash import stash

    if given["widths"] or given["table"]:
        raise click.UsageError(
            "the cloth of `--have` has its own width, so it goes with neither `--width` nor `--table`"
        )
    garment, several = drafted.to_cut, given["together"] or given["copies"] > 1
    whole = as_one(garment, given["copies"]) if several else None
    answers, files = stash(garment, given["have"], _cloths(drafted, given)[0], spent, whole)
    print_text("\n".join(answers))
    if given["folder"] and files:
        write(given["folder"], files)


def _cloths(drafted: Drafted, given: LayGiven) -> list[Cloth]:
    from draft.cloth.table import COMMON_WIDTHS, common_cloths
    from draft.laying.asked import read_length, read_share, usual_width, washing

    washed = washing(drafted)
    asked = [read_length(width, "--width", "58in") for width in given["widths"]]
    common = COMMON_WIDTHS if given["table"] else (usual_width(drafted),)
    across = read_share(given["shrink_across"], "--shrink-across", washed.get("shrinkage_across", 0.0))
    down = read_share(given["shrink_down"], "--shrink-down", washed.get("shrinkage_down", 0.0))
    ends = read_length(given["ends"], "--ends", "1in")
    both_ways = given["table"] and not given["one_way"]
    return list(common_cloths(asked or common, across, down, None if both_ways else given["one_way"], ends))
