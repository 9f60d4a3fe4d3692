"""The verb about cloth: how much of it, and how the pieces are laid to be cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict, Unpack

import click

from draft.base.record import dataclass
from draft.command.console import print_notes, print_text, progress, write
from draft.command.drafted import drafted_for_sewing
from draft.command.group import commands
from draft.command.options import DETAILS, Given, all_of, drafting_options, out, request_of
from draft.command.told_as_data import AS_JSON, tell, telling

if TYPE_CHECKING:
    from draft.base.as_data import Data
    from draft.cloth.bolt import Cloth
    from draft.cloth.effort import Effort, EffortName
    from draft.drafting.drafting import Drafted
    from draft.garment.garment import Garment


class OnTheTable(TypedDict):
    """The cloth and the search, as they were typed."""

    widths: tuple[str, ...]
    of: str | None
    one_way: bool
    shrink_across: str | None
    shrink_down: str | None
    washed: bool
    ends: str
    selvedge: str
    repeat: str | None
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
                 help="Of the cloth, or of one of several (lining=140cm): else as known, or 58 in."),
    click.option("--of", "of", metavar="CLOTH", help="Only this one of several cloths."),
    click.option("--one-way", is_flag=True, help="The cloth has a nap or a print with an upper end."),
    click.option("--shrink-across", metavar="5%", help="What washing takes from its width: wash and dry 50 cm."),
    click.option("--shrink-down", metavar="5%", help="What washing takes from its length, measured so too."),
    click.option("--washed", is_flag=True, help="Widths and lengths were measured after washing: no more is taken."),
    click.option("--ends", default="1 in", metavar="LENGTH", help="Kept free at each cut end: 1 in."),
    click.option("--selvedge", default="0 cm", metavar="LENGTH", help="Kept free along each selvedge: 2cm."),
    click.option("--repeat", metavar="LENGTH",
                 help="How far apart its stripes are, 4cm, or checks across and along, 3cmx4cm: seams are matched."),
    click.option("--table", is_flag=True, help="All common widths, with and without a one-way design."),
    click.option("--together", is_flag=True, help="Lay all these sizes as one, from one length."),
    click.option("--copies", type=click.IntRange(1), default=1, metavar="N", help="So many garments as one lay."),
    click.option("--have", multiple=True, metavar="LENGTHxWIDTH",
                 help="Will it fit? A length as bought, or --washed, or a file with a remnant's corners; repeat it."),
    click.option("--kind", type=click.Choice(["open", "one-fold", "two-folds"]), help="Only this kind of lay."),
    click.option("--effort", type=click.Choice(["quick", "usual", "long"]), default="usual",
                 help="More time for less cloth: 600, 8,000 or 80,000 tries."),
    out("Write the layouts as SVG and the table as CSV there."),
)  # fmt: skip


@commands.command()
@drafting_options
@lay_options
@DETAILS
@AS_JSON
def lay(details: bool, **given: Unpack[LayGiven]) -> None:
    """Lay the pieces on cloth: how much to buy, and how to cut it.

    An open lay, one fold and two folds are all tried. Press Ctrl-C once to stop with the best found so far.

    A search is bounded by a count of tries to place a piece, never by a clock, so that the same question has the same
    answer. So many as `--effort` says are made for each size, width and kind of lay, three times as many for two folds,
    and twice as many of cloth without a direction. Some 4,000 take a second; finer outlines and more copies add few.
    """
    from draft.cloth.cut_pieces import stretch_notes
    from draft.cloth.effort import effort, stoppable

    _agree(given)
    drafted = drafted_for_sewing(request_of(given), details)
    print_notes(stretch_notes(drafted.to_cut))
    spent = effort(given["effort"])
    files: dict[str, bytes] = {}
    with stoppable(spent):
        for number, table in enumerate(_tables(drafted, given, files)):
            if table.heading:
                print_text(f"\n{table.heading}" if number else table.heading)
            if given["have"]:
                _stash(table, given, spent)
            elif given["together"] or given["copies"] > 1:
                _together(table, given, spent)
            else:
                _sizes(table, given, spent)
    washing = _washing(drafted, given)
    print_text(washing)
    tell(lambda: {"washing": washing})
    if given["folder"] and files:
        write(given["folder"], files)


def _agree(given: LayGiven) -> None:
    """Raises UsageError for what is said of washing and cannot be so at once."""
    shrinks = bool(given["shrink_across"] or given["shrink_down"])
    if given["unwashed"] and shrinks:
        raise click.UsageError("with `--unwashed` the pieces hold what washing takes, so give it in the fabric's file")
    if given["unwashed"] and given["washed"]:
        raise click.UsageError("`--unwashed` pieces are cut before washing, `--washed` cloth after: leave one out")
    if given["washed"] and shrinks:
        raise click.UsageError("`--washed` cloth has shrunk already, so it goes with no `--shrink-across` or `-down`")


def _washing(drafted: Drafted, given: LayGiven) -> str:
    from draft.laying.asked import still_to_shrink
    from draft.laying.washed import washing_words

    shares = still_to_shrink(drafted, given["shrink_across"], given["shrink_down"], given["washed"])
    return washing_words(drafted.unwashed is not None, given["washed"], *shares)


@dataclass(frozen=True)
class _Table:
    """One of the garment's cloths: the pieces that are cut of it, its widths, and where its files go."""

    garment: Garment
    cloths: list[Cloth]
    files: dict[str, bytes]
    """Those of all cloths, which are written as one."""
    heading: str = ""
    folder: str = ""
    name: str = ""

    def tell(self, facts: Data) -> None:
        """Say what was found of this cloth as data."""
        now = telling()
        if now:
            now.facts.setdefault("cloths", []).append({"name": self.name or None, **facts})

    def keep(self, files: Mapping[str, bytes]) -> None:
        """Puts files among those of all cloths, in the place of its own cloth."""
        for name, data in files.items():
            folder, _, rest = name.partition("/")
            self.files["/".join(filter(None, (folder, self.folder, rest)))] = data


def _tables(drafted: Drafted, given: LayGiven, files: dict[str, bytes]) -> Iterator[_Table]:
    """A table for each cloth that is asked for; a stash is of one cloth, the first where none is named."""
    from draft.base.output_names import file_names
    from draft.cloth.of_one import of_each_cloth
    from draft.laying.asked import widths_asked

    parts = of_each_cloth(drafted.to_cut)
    names = [_known_cloth(given["of"], list(parts))] if given["of"] else list(parts)
    widths = widths_asked(given["widths"], list(parts) if not given["of"] else names, "--width")
    folders = file_names(list(parts))
    for name in names[:1] if given["have"] else names:
        garment, first = parts[name], name == next(iter(parts))
        cloths = _cloths(drafted, garment, given, widths.get(name, []), first)
        if len(parts) == 1:
            yield _Table(garment, cloths, files)
        else:
            words = garment.cloths[0].words
            heading = f"{name}: {words}" if words else name
            yield _Table(garment, cloths, files, heading, folders[list(parts).index(name)], name)


def _known_cloth(name: str, names: Sequence[str]) -> str:
    from draft.base.notes import Problems, error, nearest

    if name in names:
        return name
    named = [known for known in names if known]
    fact = f"this pattern has no cloth called `{name[:60]}`" if named else "this pattern has one cloth, without a name"
    hint = (nearest(name, named) or (f"choose from {', '.join(named)}",)) if named else ("leave `--of` out",)
    raise Problems([error(fact, None, *hint)])


def _sizes(table: _Table, given: LayGiven, spent: Effort) -> None:
    from draft.cloth.lays import FOLDINGS
    from draft.laying.lay_data import needs_data
    from draft.laying.lay_report import needs_report, table_report
    from draft.laying.lay_sizes import by_folding, lay_at_best, lay_files, width_notes
    from draft.laying.matched import matching_notes, matching_report

    garment, say = table.garment, progress()
    kinds = [kind for kind in FOLDINGS if given["kind"] in (None, kind.replace(" ", "-"))]
    rows, notes = lay_at_best(garment, table.cloths, spent, say, kinds)
    if len(rows) > 1:
        report, tried = table_report(rows), None
    else:
        (row,) = rows
        notes = (*width_notes(garment, row, spent, kinds), *notes)
        tried = by_folding(garment, row, spent) if len(kinds) == len(FOLDINGS) else None
        report = needs_report(row, tried)
    matched = matching_report(garment, rows, spent, kinds)
    table.tell({"laid": needs_data(rows, tried), "matched": list(matched)})
    say("")
    print_text("\n".join([report, *matched]))
    print_notes((*notes, *matching_notes(garment, table.cloths)))
    if given["folder"]:
        table.keep(lay_files(garment, rows))


def _together(table: _Table, given: LayGiven, spent: Effort) -> None:
    from draft.laying.lay_data import needs_data
    from draft.laying.lay_report import needs_report
    from draft.laying.lay_sizes import lay_together, picture_file
    from draft.laying.matched import matching_notes
    from draft.laying.picture import together_picture

    garment, say = table.garment, progress()
    if len(table.cloths) > 1:
        raise click.UsageError("one lay is on one cloth: give one `--width`, and no `--table`")
    need, notes = lay_together(garment, table.cloths[0], given["copies"], spent, say)
    say("")
    print_text(needs_report([need]))
    table.tell({"together": needs_data([[need]]), "copies": given["copies"]})
    print_notes((*notes, *matching_notes(garment, table.cloths)))
    if given["folder"]:
        table.keep({"cloth/together.svg": picture_file(together_picture(garment, need))})


def _stash(table: _Table, given: LayGiven, spent: Effort) -> None:
    from draft.laying.lay_data import stash_data
    from draft.laying.lay_sizes import as_one
    from draft.laying.matched import matching_notes
    from draft.laying.stash import stash

    if given["widths"] or given["table"]:
        raise click.UsageError(
            "the cloth of `--have` has its own width, so it goes with neither `--width` nor `--table`"
        )
    garment, several = table.garment, given["together"] or given["copies"] > 1
    whole = as_one(garment, given["copies"]) if several else None
    found, answers, files = stash(garment, given["have"], table.cloths[0], spent, whole)
    print_text("\n".join(answers))
    table.tell({"have": list(given["have"]), "sizes": [stash_data(size, one) for size, one in found.items()]})
    print_notes(matching_notes(garment, table.cloths))
    table.keep(files)


def _cloths(drafted: Drafted, garment: Garment, given: LayGiven, widths: Sequence[float], first: bool) -> list[Cloth]:
    """One cloth in the widths asked for; what the reader says of washing is said of the `first` of several."""
    from draft.cloth.table import COMMON_WIDTHS, common_cloths
    from draft.laying.asked import read_length, read_repeat, still_to_shrink, usual_width

    common = COMMON_WIDTHS if given["table"] else (usual_width(garment.cloth),)
    asked = (given["shrink_across"], given["shrink_down"])
    across, down = still_to_shrink(drafted, *asked, given["washed"]) if first else (0.0, 0.0)
    ends = read_length(given["ends"], "--ends", "1in")
    selvedge = read_length(given["selvedge"], "--selvedge", "2cm")
    way = None if given["table"] and not given["one_way"] else given["one_way"]
    repeat = read_repeat(given["repeat"]) if first else (0.0, 0.0)
    return list(common_cloths(widths or common, across, down, way, ends, selvedge, repeat))
