"""The files of a garment, as names and bytes: nothing here touches the disk."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import field, replace
from typing import TYPE_CHECKING

from draft.base.notes import Problems, error, nearest
from draft.base.output_names import file_names
from draft.base.progress import Progress, Warn
from draft.base.record import dataclass
from draft.drafting.drafting import Drafted
from draft.garment.garment import Garment
from draft.paper.drawing.imprint import NO_IMPRINT, Imprint
from draft.paper.drawing.papers import paper
from draft.paper.drawing.svg import svg
from draft.paper.drawing.wording import ENGLISH, Wording
from draft.paper.pages.sheet import drafted_bodies, draw_pattern, on_screen

if TYPE_CHECKING:  # what only some files need is imported where they are made
    from draft.paper.booklet import ClothPlan
    from draft.paper.pages.page_grid import Assembly
    from draft.paper.pages.paged_sheet import PagedSheet
    from draft.paper.piece.piece_lines import ShownLines
    from draft.paper.worn.worn_sheet import WornSheet


@dataclass(frozen=True)
class Printing:
    """How a pattern is printed: on which pages, put together how, said in which words, showing which lines."""

    pages: tuple[str, ...] = ("letter", "a4")
    assembly: Assembly = "overlap"
    wording: Wording = field(default=ENGLISH)
    lines: ShownLines | None = None
    """Both lines, or one of them; None for both on one size and cutting lines on a nest."""
    imprint: Imprint = NO_IMPRINT
    large_print: bool = False
    """Whether the booklet is there in letters twice as large too."""
    epub: bool = False
    """Whether it is there as a book for readers of EPUB too."""
    large: tuple[str, ...] = ()
    """The large papers and the projector that there are pages for too."""


HOME = Printing()
PROJECTOR = "projector"


def stop_unless_known(pages: Sequence[str], papers: Sequence[str]) -> None:
    """Raises Problems if a paper for the printer or a large one is not known, before anything is drawn."""
    from draft.paper.large.large import large_paper

    for page in pages:
        paper(page)
    for name in papers:
        if name != PROJECTOR:
            large_paper(name)


def svg_files(
    garment: Garment, printing: Printing = HOME, progress: Progress | None = None, combs: bool = False
) -> dict[str, bytes]:
    """`svg/XS.svg` and so on, and `svg/nest.svg` with all sizes in layers where there is more than one.

    `progress` is called with each name as its file is done; with `combs` every curved edge carries its curvature comb.
    """
    return size_files(garment, printing, progress, combs) | nest_files(garment, printing, progress, combs)


def size_files(
    garment: Garment, printing: Printing = HOME, progress: Progress | None = None, combs: bool = False
) -> dict[str, bytes]:
    """A drawing for each size that was drafted, as `svg_files` has it."""
    names = file_names(garment.sizes)
    return _drawings([(names[body], [body]) for body in _all(garment)], garment, printing, progress, combs)


def nest_files(
    garment: Garment, printing: Printing = HOME, progress: Progress | None = None, combs: bool = False
) -> dict[str, bytes]:
    """The drawing with all sizes in layers, as `svg_files` has it: nothing where there is only one."""
    bodies = _all(garment)
    return _drawings([("nest", bodies)] if len(bodies) > 1 else [], garment, printing, progress, combs)


def _drawings(
    sets: Sequence[tuple[str, Sequence[int]]],
    garment: Garment,
    printing: Printing,
    progress: Progress | None,
    combs: bool,
) -> dict[str, bytes]:
    files: dict[str, bytes] = {}
    for name, some in sets:
        drawn = draw_pattern(garment, some, printing.lines, printing.wording)
        if combs:
            from draft.paper.pages.combs import combed

            drawn = combed(drawn)
        put_in(files, f"svg/{name}.svg", svg(on_screen(drawn)).encode(), progress)
    return files


def flat_files(garment: Garment, printing: Printing = HOME) -> dict[str, bytes]:
    """`flat.svg`: the finished garment, front and back; nothing where no piece is a front or a back."""
    from draft.paper.flat import flat_drawing

    bodies = _all(garment)
    drawing = flat_drawing(garment, bodies[len(bodies) // 2], wording=printing.wording)
    return {"flat.svg": svg(drawing).encode()} if drawing else {}


def booklet_files(
    drafted: Drafted,
    printing: Printing = HOME,
    sheets: Sequence[PagedSheet] = (),
    cloth: ClothPlan | None = None,
    progress: Progress | None = None,
    warn: Warn | None = None,
    worn: WornSheet | None = None,
    later: Callable[[], tuple[Sequence[PagedSheet], ClothPlan | None]] | None = None,
) -> dict[str, bytes]:
    """`booklet.pdf` and `booklet.html`, with a map of each sheet, and what is known of the cloth; others if asked for.

    `worn` is the garment on a form, where that was asked for; `later` is asked for sheets and cloth once these are
    needed, where they are still being made.

    `warn` is called with a note on each designer's picture that is left out. Raises Problems if one cannot be drawn.
    """
    from draft.base.aside import aside
    from draft.paper.booklet import LARGE, BookletFacts, book_of, booklet_html, booklet_pdf

    bodies = tuple(_all(drafted.garment))
    files: dict[str, bytes] = {}
    facts = BookletFacts(drafted, bodies, printing.wording, tuple(sheets), cloth, printing.imprint.face, worn)
    facts = replace(facts, large=tuple(printing.large))

    def whole() -> BookletFacts:
        made, plan = later() if later else (sheets, cloth)
        return replace(facts, sheets=tuple(made), cloth=plan)

    laid = book_of(facts, warn, whole=whole)
    html = aside(lambda: booklet_html(facts, laid))
    pdf = booklet_pdf(facts, laid=laid)
    put_in(files, "booklet.html", html(), progress)
    put_in(files, "booklet.pdf", pdf, progress)
    if printing.epub:
        from draft.paper.booklet.booklet_epub import booklet_epub

        put_in(files, "booklet.epub", booklet_epub(facts, laid), progress)
    if printing.large_print:
        put_in(files, "booklet-large-print.pdf", booklet_pdf(whole(), page=LARGE), progress)
    return files


def large_files(
    garment: Garment,
    papers: Sequence[str],
    printing: Printing = HOME,
    sizes: Sequence[str] | None = None,
    progress: Progress | None = None,
    tell: Progress | None = None,
) -> dict[str, bytes]:
    """`large/a0.pdf`, `large/roll-36in.pdf` and so on, and `projector.pdf`, for each paper that is asked for.

    Raises Problems if a paper is not known, or a piece is wider than a roll.
    """
    from draft.paper.large.large import large_paper, on_large
    from draft.paper.large.projector import projected, projector_pdf
    from draft.paper.pages.paged_sheet import paged_pdf

    large = {name: large_paper(name) for name in dict.fromkeys(papers) if name != PROJECTOR}
    drawn = draw_pattern(garment, bodies_of(garment, sizes or garment.sizes), printing.lines, printing.wording)
    title = printing.wording.sheet_title(drawn.title, drawn.sizes)
    files: dict[str, bytes] = {}
    for one in large.values():
        sheet, name = on_large(drawn, one, title, printing.imprint), f"large/{one.paper.name}.pdf"
        put_in(files, name, paged_pdf(sheet), progress)
        if tell:
            size = sheet.grid.paper
            tell(f"{name}: {pages_said(sheet)} of {size.width / 10:.0f} x {size.height / 10:.0f} cm")
    if PROJECTOR in papers:
        put_in(
            files, "projector.pdf", projector_pdf(projected(drawn), title, printing.wording, printing.imprint), progress
        )
    return files


def pages_said(sheet: PagedSheet) -> str:
    """`1 page` or `15 pages`."""
    count = len(sheet.grid.pages)
    return "1 page" if count == 1 else f"{count} pages"


def _all(garment: Garment) -> list[int]:
    """The drafted bodies. Raises Problems if there are none."""
    return bodies_of(garment, garment.sizes)


def bodies_of(garment: Garment, sizes: Sequence[str]) -> list[int]:
    """The drafted bodies among these sizes. Raises Problems if one is not known, or none was drafted."""
    unknown = [size for size in sizes if size not in garment.sizes]
    if unknown:
        raise Problems(
            error(f"`{size}` is not a size of this pattern", None, *nearest(size, garment.sizes)) for size in unknown
        )
    known = drafted_bodies(garment)
    bodies = [body for body in (garment.sizes.index(size) for size in sizes) if body in known]
    if not bodies:
        raise Problems([error("none of these sizes was drafted, so there is nothing to draw")])
    return bodies


def put_in(files: dict[str, bytes], name: str, data: bytes, progress: Progress | None) -> None:
    """Put a file among the others, and say that it is done."""
    files[name] = data
    if progress:
        progress(name)
