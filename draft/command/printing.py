"""The options of `pack` that say how a pattern is printed, and the files that they ask for."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypedDict

import click

from draft.base.aside import aside
from draft.base.notes import Problems

if TYPE_CHECKING:
    from draft.drafting.drafting import Drafted
    from draft.garment.garment import Garment
    from draft.pack.printed_files import Printing
    from draft.paper.booklet import ClothPlan
    from draft.paper.drawing.wording import Wording

Command = Callable[..., None]
Tell = Callable[[str], object]
_USUAL = "58 in"


class PrintChoices(TypedDict):
    """How a pattern is printed, as the command line gives it."""

    pages: str
    papers: str
    assemble: Literal["overlap", "butt"]
    units: Literal["both", "in", "cm"]
    language: str
    cloth: str | None


_OPTIONS = (
    click.option("--page", "pages", default="letter,a4", show_default=True, metavar="SIZES",
                 help="Paper of your printer: letter, legal, tabloid, a5, a4, a3, 210x297mm, or none."),
    click.option("--paper", "papers", default="", metavar="SIZES",
                 help="Large paper as well: a0, 36x48in, roll-24in, roll-36in, roll-42in, projector."),
    click.option("--assemble", type=click.Choice(["overlap", "butt"]), default="overlap", show_default=True,
                 help="Put pages together overlapping, two edges of each cut, or edge to edge, all cut."),
    click.option("--units", type=click.Choice(["both", "in", "cm"]), default="both", show_default=True,
                 help="Lengths in inches, centimetres or both."),
    click.option("--language", default="en", show_default=True, metavar="CODE", help="Language of printed words."),
    click.option("--cloth", metavar="WIDTHS",
                 help="Widths of cloth that the booklet gives lengths for: 58in, or the fabric's; none to save time."),
)  # fmt: skip


def printing_options(function: Command) -> Command:
    """On which paper, put together how, in which language and units."""
    for option in reversed(_OPTIONS):
        function = option(function)
    return function


@dataclass(frozen=True)
class Asked:
    """What a pack is made of: the pattern as it was named, what was drafted, and the fabric if one was named."""

    pattern: str
    drafted: Drafted
    fabric: str | None
    unwashed: bool


def printed(asked: Asked, choices: PrintChoices, progress: Tell, tell: Tell) -> dict[str, bytes]:
    """The drawings and documents of a pack, by their place in it; `tell` is given a line on each."""
    from draft.pack import printed_files
    from draft.paper.drawing.wording import Wording, own_words
    from draft.plan.library import find

    language = choices["language"]
    wording = Wording(language, choices["units"], own_words(find(asked.pattern), language))
    printing = printed_files.Printing(_listed(choices["pages"]), choices["assemble"], wording)
    printed_files.stop_unless_known(printing.pages, papers := _listed(choices["papers"]))
    garment = asked.drafted.to_cut
    cloth = aside(lambda: _cloth(asked, choices["cloth"], wording))
    large = aside(lambda: _large(garment, papers, printing), last=True) if papers else lambda: ({}, [])
    files = printed_files.svg_files(garment, printing, progress=progress) | printed_files.flat_files(
        asked.drafted.garment, printing
    )
    sheets = printed_files.tiled_sheets(garment, printing)
    files |= printed_files.tiled_files(sheets, progress=progress, tell=tell)
    files |= printed_files.booklet_files(asked.drafted, printing, sheets, cloth(), progress)
    more, said = large()
    for line in said:
        tell(line)
    return files | more


def _large(garment: Garment, papers: Sequence[str], printing: Printing) -> tuple[dict[str, bytes], list[str]]:
    """The files of large papers, and a line on each."""
    from draft.pack.printed_files import large_files

    said: list[str] = []
    return large_files(garment, papers, printing, tell=said.append), said


def _cloth(asked: Asked, given: str | None, wording: Wording) -> ClothPlan | None:
    """How much cloth is needed, of the widths that were given, or else of the usual one if the pieces fit on it."""
    from draft.laying.asked import fabric_of, read_length
    from draft.laying.in_booklet import cloth_plan

    known = fabric_of(asked.fabric)
    widths = [read_length(width, "--cloth", "58in") for width in _listed(given or "")]
    if given and not widths:
        return None
    usual = known.get("width", read_length(_USUAL, "--cloth", _USUAL))
    try:
        washing = {} if asked.unwashed else known
        return cloth_plan(asked.drafted.to_cut, widths or [usual], washing, wording)
    except Problems:
        if widths:
            raise
        return None  # too narrow for a piece: the booklet then says how to find out


def _listed(text: str) -> tuple[str, ...]:
    names = (name.strip().lower() for name in text.split(","))
    return tuple(name for name in dict.fromkeys(names) if name and name != "none")
