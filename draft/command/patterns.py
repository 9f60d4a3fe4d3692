"""The verbs about a pattern as a whole: what it needs and offers, drawing it, packing it, handing it to a machine."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Literal, TypedDict, Unpack

import click

from draft.command.console import print_notes, print_text, progress, stop_on_errors, write
from draft.command.drafted import drafted_for, drafted_for_sewing
from draft.command.group import commands
from draft.command.options import (
    DETAILS,
    OUT,
    PATTERN,
    Given,
    all_of,
    drafting_options,
    length_in,
    out,
    request_of,
    style,
    styles_of,
)
from draft.command.told_as_data import AS_JSON, tell
from draft.drafting.request import Request
from draft.pack.paper_request import PaperRequest, names_in

if TYPE_CHECKING:
    from draft.base.notes import Note
    from draft.exchange.bare_pieces import Notched
    from draft.paper.drawing.spoken_languages import Units
    from draft.paper.pages.page_grid import Assembly
    from draft.studio.studio import Studio


class PaperGiven(TypedDict):
    """What `paper_options` hand to a verb, as it was typed."""

    pages: str | None
    papers: str | None
    assemble: Assembly | None
    units: Units | None
    language: str | None
    cloth: str | None
    one_way: bool
    selvedge: str | None
    repeat: str | None
    large_print: bool
    sit: bool
    epub: bool


class CutterGiven(TypedDict):
    """What a cutter is to get, as it was typed."""

    width: str | None
    turn: bool
    notches: Literal["slit", "vee"] | None
    inner: bool
    copies: bool
    hpgl: bool


class Exported(Given, CutterGiven):
    """For whom a pattern is drafted, and what a cutter is to get."""


_OF_CUTTER: tuple[Literal["width", "turn", "notches", "inner", "copies", "hpgl"], ...] = (
    "width", "turn", "notches", "inner", "copies", "hpgl",
)  # fmt: skip


class PackGiven(Given, PaperGiven):
    """For whom a pattern is drafted, and on what paper."""


paper_options = all_of(
    click.option("--page", "pages", metavar="SIZES",
                 help="Paper of your printer: letter, legal, tabloid, a5, a4, a3, 210x297mm, or none.  "
                 "[default: letter,a4]"),
    click.option("--paper", "papers", metavar="SIZES",
                 help="Large paper as well: a0, 36x48in, roll-24in, roll-36in, roll-42in, projector."),
    click.option("--assemble", type=click.Choice(["overlap", "butt"]),
                 help="Put pages together overlapping, two edges of each cut, or edge to edge, all cut.  "
                 "[default: overlap]"),
    click.option("--units", type=click.Choice(["both", "in", "cm"]),
                 help="Lengths in inches, centimetres or both; else as is usual in the language."),
    click.option("--language", metavar="CODE", help="Language of printed words.  [default: en]"),
    click.option("--cloth", metavar="WIDTHS",
                 help="Widths of cloth that the booklet gives lengths for: 58in, or the fabric's; none to save time."),
    click.option("--one-way", is_flag=True, help="The first cloth has a nap or a print with an upper end."),
    click.option("--selvedge", metavar="LENGTH", help="Kept free along each selvedge: 2cm; else nothing."),
    click.option("--repeat", metavar="LENGTH",
                 help="The first cloth's stripes, 4cm apart, or checks, 3cmx4cm: matched at the seams that are named."),
    click.option("--large-print", is_flag=True, help="The booklet in letters of 20 points too."),
    click.option("--sit", is_flag=True, help="The booklet shows how it will sit, on a form: half a minute more."),
    click.option("--epub", is_flag=True, help="The booklet as an EPUB too, for e-readers."),
)  # fmt: skip


def paper_request(given: PaperGiven, studio: Studio | None = None) -> PaperRequest:
    """What the options ask for, and the studio for what nobody typed.

    Raises `Problems` for a language that there are no words in, and for paper of the studio's that there is none of.
    """
    from draft.laying.asked import read_repeat
    from draft.pack.studio_paper import studio_paper

    usual = studio_paper(studio, given["language"])
    return replace(
        usual,
        pages=usual.pages if given["pages"] is None else names_in(given["pages"]),
        large=usual.large if given["papers"] is None else names_in(given["papers"]),
        assembly=given["assemble"] or usual.assembly,
        units=given["units"] or usual.units,
        cloth=names_in(given["cloth"]) if given["cloth"] else usual.cloth,
        one_way=given["one_way"],
        selvedge=length_in(given["selvedge"], "--selvedge") if given["selvedge"] else 0.0,
        repeat=read_repeat(given["repeat"]),
        large_print=given["large_print"] or usual.large_print,
        sit=given["sit"],
        holds=(*usual.holds, "epub") if given["epub"] and "epub" not in usual.holds else usual.holds,
    )


@commands.command()
@out("Draw the garments there, on one page as SVG and PDF.")
@AS_JSON
def shelf(folder: Path | None) -> None:
    """Show the bundled patterns: what each is, its sizes and cloth, and what it asks of who sews it."""
    from draft.answers.lists_data import shelf_data
    from draft.answers.on_the_shelf import on_the_shelf, shelf_files, shelf_report

    patterns = on_the_shelf()
    print_text(shelf_report(patterns))
    tell(lambda: shelf_data(patterns))
    if folder:
        write(folder, shelf_files(patterns))


@commands.command()
@PATTERN
@style()
@AS_JSON
def about(pattern: str, styles: tuple[str, ...]) -> None:
    """List what a pattern needs and offers: its measures and styles; or what a file of templates has."""
    from draft.answers.about import about_report, templates_report
    from draft.answers.lists_data import about_data, templates_data
    from draft.drafting.planned import plan_for, texts_for

    texts = texts_for(pattern)
    if texts.main.templates and not texts.main.patterns:
        print_text(templates_report(texts.main))
        tell(lambda: templates_data(texts.main))
    else:
        plan = plan_for(Request(pattern, styles=styles_of(styles)), texts).plan
        print_text(about_report(plan))
        tell(lambda: about_data(plan))


@commands.command()
@drafting_options
@OUT
@click.option("--combs", is_flag=True, help="Set a curvature comb on every curved edge, to judge its fairness by eye.")
@click.option(
    "--working",
    is_flag=True,
    help="Also draw each block and piece with its points, lines, darts and their names, and a table of all values.",
)
@AS_JSON
def draft(folder: Path, combs: bool, working: bool, **given: Unpack[Given]) -> None:
    """Draw the pieces as SVG, also while the pattern still has faults, to look at them."""
    from draft.pack.printed_files import svg_files

    drafted = drafted_for(request_of(given), refuse=False)
    say = progress()
    only_blocks = working and not drafted.garment.pieces
    files = {} if only_blocks else svg_files(drafted.to_cut, progress=say, combs=combs)
    if working:
        from draft.answers.as_drafted import as_drafted_files

        files |= as_drafted_files(drafted)
    say("")
    write(folder, files)
    stop_on_errors(drafted.notes)


@commands.command()
@drafting_options
@paper_options
@DETAILS
@OUT
@AS_JSON
def pack(folder: Path, details: bool, **given: Unpack[PackGiven]) -> None:
    """Make everything a maker needs: a booklet, tiled PDF for Letter and A4, SVG, tables."""
    from draft.answers.otherwise import otherwise_report
    from draft.pack.pack import PackFacts, pack_files

    drafted = drafted_for_sewing(request_of(given), details, whole=True)
    said: list[str] = []
    left_out: list[Note] = []
    say = progress()
    paper = paper_request(given, drafted.planned.studio if drafted.planned else None)
    facts = PackFacts()
    files = pack_files(drafted, paper, say, said.append, left_out.append, facts)
    say("")
    tell(lambda: {"pages": facts.pages})
    print_notes(left_out)
    write(folder, files)
    print_text("\n".join([*said, *filter(None, [otherwise_report(drafted)])]))


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
@click.option("--turn", is_flag=True, help="With cutter: turn a piece that fits into that width only so.")
@click.option("--notches", type=click.Choice(["slit", "vee"]), help="With cutter: notches too, as slits or as Vs.")
@click.option("--inner", is_flag=True, help="With cutter: darts and marks too, on a layer of their own.")
@click.option("--copies", is_flag=True, help="With cutter: every copy that is cut, and its mirror image.")
@click.option("--hpgl", is_flag=True, help="With cutter: the same for plotters that read HPGL/2, as PLT.")
@OUT
@AS_JSON
def export(machine: str, folder: Path, **given: Unpack[Exported]) -> None:
    """Write the pieces for another machine: DXF after ASTM D6673, or bare cutting lines."""
    asked = [name for name in _OF_CUTTER if given[name]]
    if asked and machine != "cutter":
        raise click.UsageError(f"`--{asked[0]}` goes with `--to cutter`: DXF holds pieces with all that is on them")
    drafted, say = drafted_for(request_of(given), refuse=True), progress()
    garment = drafted.to_cut
    if machine == "dxf":
        from draft.exchange.dxf import dxf_files

        files = dxf_files(garment, say, drafted.plan.day)
    else:
        from draft.exchange.cutter import Machine, cutter_files

        wide = length_in(given["width"], "--width") if given["width"] else None
        notches: Notched = given["notches"] or "none"
        more = given["inner"], given["copies"], given["turn"], given["hpgl"]
        files = cutter_files(garment, Machine(wide, notches, *more), say)
    say("")
    write(folder, files)
