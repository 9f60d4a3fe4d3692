"""A pack: everything that a maker needs of a drafted garment, on the paper that is asked for."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import field
from functools import cached_property, partial

from draft.answers.tables import table_files
from draft.base.aside import aside
from draft.base.notes import Note, stop_if_errors
from draft.base.progress import Progress, Warn
from draft.base.record import dataclass
from draft.drafting.drafting import Drafted
from draft.pack.files_on_pages import PagesBegun, pages_begun
from draft.pack.letters import letters_missing
from draft.pack.paper_request import PaperRequest
from draft.pack.printed_files import (
    Printing,
    booklet_files,
    flat_files,
    large_files,
    nest_files,
    size_files,
    stop_unless_known,
)
from draft.pack.wording_of import wording_of
from draft.pack.worn_in_pack import worn_of_pack
from draft.paper.booklet import BookletFacts, ClothPlan, face_of, imprint_of
from draft.paper.pages.paged_sheet import PagedSheet
from draft.paper.pages.sheet import drafted_bodies
from draft.seams.allowance import cutting_line
from draft.studio.studio import Held


@dataclass
class PackFacts:
    """What a pack came to beside its files, filled in while it is made."""

    pages: dict[str, int] = field(default_factory=dict)
    """Pages of the pattern by the name of their paper; guide and booklet are not counted."""
    cloth: ClothPlan | None = None
    """How much cloth it takes, where that was asked for."""


def pack_files(
    drafted: Drafted,
    paper: PaperRequest,
    progress: Progress | None = None,
    tell: Progress | None = None,
    warn: Warn | None = None,
    facts: PackFacts | None = None,
) -> dict[str, bytes]:
    """The drawings, documents and tables of a pack, by their place in it.

    `progress` is called with each name as its file is done, `tell` with a line on each document of pages, `warn`
    with a note on what is left out; `facts` are filled in. Raises `Problems` for faults of the drawing, and for
    papers, words or cloth that cannot be had.
    """
    stop_if_errors(drafted.notes)
    printing, notes = printing_for(drafted, paper)
    stop_unless_known(printing.pages, paper.large)
    for piece in drafted.to_cut.pieces:
        cutting_line(piece, 0)  # of all bodies: found once, before the work is shared out
    held = frozenset(paper.holds)
    has_booklet = bool({"booklet", "html", "epub"} & held)
    cloth = aside(lambda: _cloth(drafted, paper, printing)) if has_booklet else lambda: None
    if "pages" in held or has_booklet:
        import pikepdf  # noqa: F401  # read once for all that write documents
    pages = pages_begun(drafted.to_cut, printing) if "pages" in held else PagesBegun([])
    large = aside(lambda: _large(drafted, paper, printing), last=True) if paper.large else lambda: ({}, [])
    beside = _Beside(pages, cloth)
    files = nest_files(drafted.to_cut, printing, progress) if "svg" in held else {}
    sizes = _sizes(drafted, printing, progress) if "svg" in held else dict[str, bytes]
    files |= flat_files(drafted.garment, printing) if "flat" in held else {}
    worn, unworn = worn_of_pack(drafted, printing.wording) if paper.sit and has_booklet else (None, ())
    of_booklet: list[Note] = []
    if has_booklet:
        made = booklet_files(
            drafted, printing, progress=progress, warn=of_booklet.append, worn=worn, later=lambda: beside.made
        )
        files |= _booklets(made, held)
    found, plan = beside.made
    if facts:
        facts.pages.update((sheet.grid.paper.name, len(sheet.grid.pages)) for sheet in found)
        facts.cloth = plan
    for note in (*notes, *unworn, *letters_missing(drafted, printing.wording), *_too_wide(plan), *of_booklet):
        if warn:
            warn(note)
    files = sizes() | files | beside.printed(progress, tell)
    more, said = large()
    if tell:
        for line in said:
            tell(line)
    return files | more | (table_files(drafted.garment) if "tables" in held else {})


@dataclass
class _Beside:
    """What is made beside the booklet: sheets on pages, and how much cloth it takes."""

    pages: PagesBegun
    cloth: Callable[[], ClothPlan | None]

    @cached_property
    def made(self) -> tuple[Sequence[PagedSheet], ClothPlan | None]:
        """The sheets and the cloth."""
        return self.pages.sheets(), self.cloth()

    def printed(self, progress: Progress | None, tell: Progress | None) -> dict[str, bytes]:
        """The documents, each told of."""
        files, said = self.pages.documents()
        for name in files if progress else ():
            assert progress
            progress(name)
        for line in said if tell else ():
            assert tell
            tell(line)
        return files


def _booklets(files: Mapping[str, bytes], held: Collection[Held]) -> dict[str, bytes]:
    """Those that a pack holds of the booklet's files: the pages of both are laid in one go."""
    kinds: dict[str, Held] = {".html": "html", ".pdf": "booklet", ".epub": "epub"}
    return {name: data for name, data in files.items() if kinds[name[name.rindex(".") :]] in held}


def _sizes(drafted: Drafted, printing: Printing, progress: Progress | None) -> Callable[[], dict[str, bytes]]:
    """Each size's own drawing, made beside the rest where there are several; one alone is what is printed too."""
    garment = drafted.to_cut
    if len(drafted_bodies(garment)) < 2:
        return partial(dict, size_files(garment, printing, progress))
    made = aside(partial(size_files, garment, printing), last=True)

    def fetch() -> dict[str, bytes]:
        files = made()
        for name in files if progress else ():
            assert progress
            progress(name)
        return files

    return fetch


def printing_for(drafted: Drafted, paper: PaperRequest) -> tuple[Printing, tuple[Note, ...]]:
    """How it is printed, in the words of the pattern's designer where there are any in that language; and notes."""
    wording = wording_of(drafted.planned, paper.language, paper.units)
    face, notes = face_of(drafted.planned.studio if drafted.planned else None, wording)
    facts = BookletFacts(drafted, tuple(drafted_bodies(drafted.to_cut)), wording, face=face)
    imprint = imprint_of(facts)
    return Printing(
        paper.pages,
        paper.assembly,
        wording,
        imprint=imprint,
        large_print=paper.large_print,
        epub="epub" in paper.holds,
        large=tuple(paper.large),
    ), notes


def _large(drafted: Drafted, paper: PaperRequest, printing: Printing) -> tuple[dict[str, bytes], list[str]]:
    """The files of large papers, and a line on each."""
    said: list[str] = []
    return large_files(drafted.to_cut, paper.large, printing, tell=said.append), said


def _cloth(drafted: Drafted, paper: PaperRequest, printing: Printing) -> ClothPlan | None:
    """How much cloth is needed: what finds it is read by the process that looks for it."""
    from draft.pack.how_much_cloth import cloth_for

    return cloth_for(drafted, paper, printing.wording)


def _too_wide(plan: ClothPlan | None) -> list[Note]:
    if plan is None or not plan.too_wide:
        return []
    from draft.pack.how_much_cloth import told_too_wide

    return list(map(told_too_wide, plan.too_wide))
