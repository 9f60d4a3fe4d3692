"""What somebody takes home: how many pages it is, and the files, just those that she needs."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping

from draft.base.output_names import safe_name
from draft.drafting.drafting import Drafted
from draft.pack.files_on_pages import paged_sheets
from draft.pack.pack import pack_files
from draft.pack.printed_files import Printing
from draft.page.bench import Asked, Bench, Gave
from draft.page.request_asked import list_of, paper_asked
from draft.page.sewing.garment_at_hand import drafted_asked, words_asked

BOOKLET = ("booklet.pdf", "booklet.html", "booklet-large-print.pdf")
_FIRST = (1980, 1, 1, 0, 0, 0)
"""The date of files in an archive: the same pattern gives the same bytes."""


def count_pages(asked: Asked, bench: Bench) -> Gave:
    """How many `pages` each paper takes besides its guide, by its name."""
    drafted, paper = drafted_asked(asked, bench), paper_asked(asked)
    if not paper.pages:
        return {"pages": {}}
    printing = Printing(paper.pages, paper.assembly, words_asked(asked, drafted.planned, bench))
    sheets = paged_sheets(drafted.to_cut, printing)
    return {"pages": {sheet.grid.paper.name: len(sheet.grid.pages) for sheet in sheets}}


def take(asked: Asked, bench: Bench) -> Gave:
    """Make the files and hand them over: the pattern on each paper, the booklet where it is wanted, `all` as one."""
    drafted, paper = drafted_asked(asked, bench), paper_asked(asked)
    said: list[str] = []
    parts = set(list_of(asked, "wanted"))

    def step(name: str) -> None:
        """Tell of what she is to have; what is made besides is no news."""
        if _wanted({name: b""}, parts):
            bench.step(name)

    files = pack_files(drafted, paper, step, said.append)
    wanted = _wanted(files, parts)
    title = _title(drafted, bench, asked)
    for name, data in wanted.items():
        bench.hand_over(f"{title} {name.replace('/', ' ')}", data)
    if len(wanted) > 1:
        bench.hand_over(f"{title}.zip", _archive(wanted))
    return {"said": said}


def _wanted(files: Mapping[str, bytes], parts: set[str]) -> dict[str, bytes]:
    """The pattern's pages and sheets, and of the rest what was asked for; everything where nothing is named."""
    if not parts:
        return dict(files)
    names = [name for name in files if name.startswith(("pattern-", "large/")) or name == "projector.pdf"]
    names += [name for name in BOOKLET if "booklet" in parts and name in files]
    names += [name for name in files if "drawings" in parts and name.startswith("svg/")]
    names += [name for name in files if "tables" in parts and name.startswith("tables/")]
    return {name: files[name] for name in names}


def _title(drafted: Drafted, bench: Bench, asked: Asked) -> str:
    """What the files are called: the garment, and for whom."""
    wording = words_asked(asked, drafted.planned, bench)
    sizes = drafted.garment.sizes
    whom = sizes[0] if len(sizes) == 1 else f"{sizes[0]}-{sizes[-1]}"
    return safe_name(f"{wording.titled(drafted.garment)} {whom}")


def _archive(files: Mapping[str, bytes]) -> bytes:
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files.items():
            archive.writestr(zipfile.ZipInfo(name, _FIRST), data, zipfile.ZIP_DEFLATED)
    return whole.getvalue()
