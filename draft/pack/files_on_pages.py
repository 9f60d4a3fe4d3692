"""The pieces on a printer's pages: sheets, their documents, and both made beside this process."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

from draft.base.progress import Progress
from draft.base.record import dataclass
from draft.garment.garment import Garment
from draft.pack.printed_files import HOME, Printing, bodies_of, pages_said, put_in
from draft.paper.drawing.papers import Paper, paper
from draft.paper.pages.sheet import draw_pattern, on_pages

if TYPE_CHECKING:  # what only some files need is imported where they are made
    from draft.paper.pages.paged_sheet import PagedSheet


def paged_sheets(garment: Garment, printing: Printing = HOME, sizes: Sequence[str] | None = None) -> list[PagedSheet]:
    """The pieces on each printed paper, with the sizes asked for. Raises Problems if a page size is not known."""
    on_paper = _laid_on_paper(garment, printing, sizes)
    return [on_paper(one) for one in _papers(printing)]


def _papers(printing: Printing) -> list[Paper]:
    """Each printed paper once."""
    return list({one.name: one for one in map(paper, printing.pages)}.values())


def _laid_on_paper(
    garment: Garment, printing: Printing, sizes: Sequence[str] | None = None
) -> Callable[[Paper], PagedSheet]:
    """What lays the pieces, which are drawn once, on a paper."""
    from draft.paper.pages.paged_sheet import paged_sheet

    drawn = draw_pattern(garment, bodies_of(garment, sizes or garment.sizes), printing.lines, printing.wording)
    title = printing.wording.sheet_title(drawn.title, drawn.sizes)

    def on_paper(one: Paper) -> PagedSheet:
        return paged_sheet(on_pages(drawn, one.live), one, title, printing.assembly, printing.wording, printing.imprint)

    return on_paper


@dataclass
class PagesBegun:
    """Sheets on pages and their documents, made beside this process: each paper by another one."""

    _begun: list[Iterator[PagedSheet | tuple[str, bytes, str]]]

    def sheets(self) -> list[PagedSheet]:
        """What there is to say of the sheets, without what is drawn on them: waits for it, and is asked for once."""
        from draft.paper.pages.paged_sheet import PagedSheet

        found = [next(each) for each in self._begun]
        return [one for one in found if isinstance(one, PagedSheet)]

    def documents(self) -> tuple[dict[str, bytes], list[str]]:
        """The documents as `paged_files` names them, and the line on each; asked for after `sheets`."""
        files, said = dict[str, bytes](), list[str]()
        for each in self._begun:
            for found in each:
                assert isinstance(found, tuple)
                name, files[name], line = found[0], found[1], found[2]
                said.append(line)
        return files, said


def pages_begun(garment: Garment, printing: Printing = HOME) -> PagesBegun:
    """Begin what `paged_sheets` and `paged_files` give beside this process."""
    from draft.base.aside import each_aside
    from draft.paper.pages.paged_sheet import without_drawing

    on_paper = _laid_on_paper(garment, printing)

    def made(one: Paper) -> Iterator[PagedSheet | tuple[str, bytes, str]]:
        sheet = on_paper(one)
        yield without_drawing(sheet)
        yield _document(sheet)

    return PagesBegun([each_aside(partial(made, one)) for one in _papers(printing)])


def paged_files(
    sheets: Sequence[PagedSheet], progress: Progress | None = None, tell: Progress | None = None
) -> dict[str, bytes]:
    """The documents of sheets on pages, such as `pattern-letter.pdf`.

    `tell` is called with a line on each: how many pages it has, and how few the area of the pieces would fill.
    """
    files: dict[str, bytes] = {}
    for sheet in sheets:
        name, data, line = _document(sheet)
        put_in(files, name, data, progress)
        if tell:
            tell(line)
    return files


def _document(sheet: PagedSheet) -> tuple[str, bytes, str]:
    """Its name, its bytes and the line on it."""
    from draft.paper.pages.page_grid import least_pages
    from draft.paper.pages.paged_sheet import paged_pdf

    name = f"pattern-{sheet.grid.paper.name}.pdf"
    least = least_pages(sheet.drawing, sheet.grid.paper)
    return (
        name,
        paged_pdf(sheet),
        f"{name}: {pages_said(sheet)} and a guide; the area of the pieces alone is that of {least}",
    )
