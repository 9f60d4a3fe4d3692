"""The verb that begins a pattern: from another, from blocks, templates or outlines."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, TypedDict, Unpack

import click

from draft.base.visible import visible
from draft.command.console import print_notes, print_text
from draft.command.group import commands
from draft.command.options import PLACE, all_of, length_in
from draft.command.told_as_data import AS_JSON, tell, tell_written

if TYPE_CHECKING:
    from draft.beginning.begun import Begun
    from draft.beginning.from_pattern import New


class Beginning(TypedDict):
    """What a pattern begins from, as it was typed."""

    base: str | None
    copy: str | None
    block: str | None
    template: str | None
    drawing: Path | None
    title: str | None
    allowance: str
    folder: Path


class OfOutline(TypedDict):
    """What is asked of a drawing, as it was typed."""

    unit: str | None
    layers: tuple[str, ...]
    join: str
    close: bool
    fold: bool
    included: str | None


class NewGiven(Beginning, OfOutline):
    """What a pattern begins from, and what is asked of a drawing."""


_FROM = {"base": "--from", "copy": "--copy", "block": "--block", "template": "--template", "drawing": "--from-outline"}
_OF_OUTLINE = {"unit": "--unit", "layers": "--layer", "close": "--close", "fold": "--fold",
               "included": "--allowance-included"}  # fmt: skip

new_options = all_of(
    click.argument("name"),
    click.option("--from", "base", metavar="PATTERN", help="Vary this one: its lines, but for those written anew."),
    click.option("--copy", metavar="PATTERN", help="Begin with a copy of its text."),
    click.option("--block", metavar="PATTERN[:BLOCK]",
                 help="Trace pieces from its blocks, or from some: lockside:bodice_front,bodice_back."),
    click.option("--template", metavar="FILE[:TEMPLATE]",
                 help="Make pieces after its templates, or after some: bands:folded_band."),
    click.option("--from-outline", "drawing", type=PLACE, metavar="FILE", help="Pieces by their outlines: SVG or DXF."),
    click.option("--unit", type=click.Choice(["mm", "cm", "in", "pt", "px"]),
                 help="With outlines: what one unit of the drawing is, where it does not say."),
    click.option("--layer", "layers", multiple=True, metavar="NAME",
                 help="With outlines: only those of this layer or group; repeat it."),
    click.option("--join", default="0.5mm", show_default=True, metavar="LENGTH",
                 help="With outlines: ends of lines so near one another are one."),
    click.option("--close", is_flag=True, help="With outlines: close an open one straight."),
    click.option("--fold", is_flag=True, help="With outlines: draft half of each on the fold."),
    click.option("--allowance-included", "included", metavar="WIDTH",
                 help="With outlines: they are cutting lines, so far outside of the seams."),
    click.option("--title", metavar="WORDS", help="What the garment is called; else as the name."),
    click.option("--allowance", default="1/2 in", show_default=True, metavar="WIDTH", help="Outside of every seam."),
    click.option("--out", "folder", type=PLACE, default=Path(), metavar="DIR", help="Where it is written; else here."),
)  # fmt: skip


@commands.command()
@new_options
@AS_JSON
def new(name: str, **given: Unpack[NewGiven]) -> None:
    """Begin a pattern NAME: from another, from blocks, templates or outlines, or from the least that drafts.

    Lines that are drawn come out as edges through as few named points as keep within 0.1 mm of them.
    """
    from draft.base.output_names import is_device
    from draft.base.visible import visible
    from draft.beginning.from_pattern import New
    from draft.beginning.piece_written import plain_name

    _agree(given)
    called = plain_name(name, "pattern")
    called = f"{called}_pattern" if is_device(called) else called
    title = given["title"] or name.replace("_", " ").strip().capitalize()
    begins = New(called, visible(title.replace('"', "'")), given["folder"], given["allowance"])
    begun = None
    if given["drawing"]:
        begun = _from_drawing(begins, given)
        files = {begins.file: begun.text.encode()}
    else:
        files = _files(begins, given)
    _write(begins, files)
    if begun:
        from draft.beginning.begun_told import begun_data, begun_report

        told = begun
        print_text(begun_report(told))
        tell(lambda: begun_data(told))
        print_notes(begun.notes)
    print_text(f"look at it with `plainseam draft {begins.folder / begins.file} --out look`")


def _agree(given: NewGiven) -> None:
    """Raises UsageError for what does not go together."""
    known: dict[str, object] = {**given}
    chosen = [option for key, option in _FROM.items() if known[key]]
    if len(chosen) > 1:
        raise click.UsageError(f"a pattern begins from one thing: `{chosen[0]}` goes with no `{chosen[1]}`")
    asked = [option for key, option in _OF_OUTLINE.items() if known[key]]
    if asked and not given["drawing"]:
        raise click.UsageError(f"`{asked[0]}` goes with `--from-outline`")
    title = given["title"] or ""
    if visible(title) != title:
        raise click.UsageError(f"`--title {visible(title)}` holds letters that cannot be printed: type it anew")
    length_in(given["allowance"], "--allowance")


def _files(begins: New, given: NewGiven) -> dict[str, bytes]:
    from draft.beginning.from_pattern import bare, by_template, copied, traced, varied

    if given["base"]:
        return varied(begins, given["base"])
    if given["copy"]:
        return copied(begins, given["copy"])
    if given["block"]:
        pattern, names = _named(given["block"])
        return traced(begins, pattern, names)
    if given["template"]:
        file, names = _named(given["template"])
        return by_template(begins, file, names)
    return bare(begins)


def _named(text: str) -> tuple[str, tuple[str, ...]]:
    """A pattern and the names behind a colon; a colon may stand in a path too."""
    pattern, colon, names = text.rpartition(":")
    if not colon or "/" in names or "\\" in names:
        return text, ()
    return pattern, tuple(name.strip() for name in names.split(",") if name.strip())


def _from_drawing(begins: New, given: NewGiven) -> Begun:
    from draft.beginning.begun import Outlines, begin
    from draft.studio.studio_file import studio_beside

    assert given["drawing"]
    studio = studio_beside(given["folder"])
    included = length_in(given["included"], "--allowance-included") if given["included"] else None
    allowance = given["included"] or given["allowance"]
    asked = Outlines(
        begins.name,
        begins.title,
        given["unit"],
        given["layers"],
        length_in(given["join"], "--join"),
        given["close"],
        given["fold"],
        included,
        allowance,
        bool(studio and studio.units == "in"),
    )
    return begin(given["drawing"], asked)


def _write(begins: New, files: dict[str, bytes]) -> None:
    """Write what is new beside what is there. Raises `Problems` where anything there would be changed."""
    from draft.base.disk import is_file, is_there
    from draft.base.notes import Problems, error
    from draft.base.output import write_folder
    from draft.base.textfile import read_data

    for name, data in files.items():
        place = begins.folder / name
        if is_there(place) and not (name != begins.file and is_file(place) and read_data(place, "file") == data):
            fix = "choose another name, or another folder with `--out`"
            raise Problems([error(f"`{place}` is there already; nothing was changed", None, fix)])
    write_folder(begins.folder, files)
    for name in files:
        print_text(f"wrote {begins.folder / name}")
    tell_written(begins.folder, files)
