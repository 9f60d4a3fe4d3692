"""A garment's printed pages, from its drawing to the bytes, in one step."""

from __future__ import annotations

from collections.abc import Sequence

from draft.garment.garment import Garment
from draft.pack.files_on_pages import paged_files, paged_sheets
from draft.pack.printed_files import HOME, Printing, Progress


def pdf_files(
    garment: Garment,
    printing: Printing = HOME,
    sizes: Sequence[str] | None = None,
    progress: Progress | None = None,
    tell: Progress | None = None,
) -> dict[str, bytes]:
    return paged_files(paged_sheets(garment, printing, sizes), progress, tell)
