"""How many pages patterns need and how long printing takes: `pytest tests/benchmarks -m slow -s` prints it.

Pages stand beside the least that the pieces' area would fill. Composing is measured beside a floor: the same lines,
words and frames in the same layers, their page descriptions written by hand, without a drawing library. The aim is four
times the floor, both in a process that does it for the first time. Nothing is asserted of the times.
"""

from __future__ import annotations

import io
import multiprocessing
import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from itertools import product

import numpy as np
import pytest

from draft.drafting.checked import draft_and_check
from draft.geometry import cubic
from draft.pack.files_on_pages import paged_files, paged_sheets
from draft.pack.printed_files import Printing, booklet_files, flat_files, large_files, svg_files
from draft.paper.drawing.drawing import PT, Item, Label, Path
from draft.paper.drawing.papers import paper
from draft.paper.pages.furniture import Said, furniture
from draft.paper.pages.packing_grid import PackingGrid, Place
from draft.paper.pages.packing_rules import Rules
from draft.paper.pages.page_grid import least_pages, pieces_by_page
from draft.paper.pages.paged_sheet import PagedSheet, paged_pdf
from draft.paper.pages.sheet import draw_pattern
from tests.asking import asked

pytestmark = pytest.mark.slow

PATTERNS = ("marlpit", "tidemill", "ropewalk")
LARGE = ("a0", "36x48in", "roll-24in", "roll-36in", "roll-42in", "projector")


def timed(work: Callable[[], object], times: int = 5) -> float:
    """Milliseconds, the best of some."""
    found = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return 1000 * min(found)


def test_pages_beside_their_lower_bound() -> None:
    print("\npages (and the least by area)      " + "".join(f"{name:>12}" for name in ("letter", "a4", "a3")))
    for pattern in PATTERNS:
        garment = draft_and_check(asked(pattern)).garment
        for sizes in (None, *([size] for size in garment.sizes)):
            sheets = paged_sheets(garment, Printing(("letter", "a4", "a3")), sizes)
            counts = [f"{len(t.grid.pages)} ({least_pages(t.drawing, t.grid.paper)})" for t in sheets]
            name = f"{pattern}, {sizes[0] if sizes else 'all sizes'}"
            print(f"  {name:32} " + "".join(f"{count:>12}" for count in counts))


def test_a_bound_nearer_than_the_area() -> None:
    """For the largest sizes: the two largest pieces at every cell in every quarter turn, then room for the rest."""
    garment = draft_and_check(asked("marlpit")).garment
    for size, name in product(garment.sizes[-2:], ("letter", "a4")):
        pieces = [piece.footprint.rings for piece in draw_pattern(garment, [garment.sizes.index(size)]).pieces]
        pieces.sort(key=lambda rings: -float(np.ptp(rings[0], axis=0).prod()))
        (sheet,) = paged_sheets(garment, Printing((name,)), [size])
        count = len(sheet.grid.pages)
        two, all_of_them = _least(pieces, paper(name).live, count)
        print(f"\n{size} on {name}: {count} pages; its two largest pieces alone need {two}, all at least {all_of_them}")


def _least(pieces: Sequence[Sequence[np.ndarray]], page: tuple[float, float], found: int) -> tuple[int, int]:
    """The fewest pages of the first two pieces, and a number that all of them need, no more than was `found`.

    Of the rest each is given the paper that the first two leave as if it were alone on it.
    """
    sheet = PackingGrid(pieces, page, Rules(), spare=6)
    pairs = [(pages, places) for pages, places in _pairs(sheet, found - 1)]
    bound = found
    for pages, places in pairs:
        if pages < bound:
            used = sheet._used(places)
            more = [min(_new(sheet, k, way, places, used).min() for way in range(len(sheet.turned[k]))) for k in (2, 3)]
            bound = min(bound, pages + max(map(int, more)))
    return min((pages for pages, _ in pairs), default=found), bound


def _pairs(sheet: PackingGrid, most: int) -> Iterator[tuple[int, dict[int, Place]]]:
    """The first two pieces on no more than so many pages: every way to do it, the sheet turned upside down left out."""
    for way in range(len(sheet.turned[0]) // 2):
        for row, column in np.ndindex(sheet.tall, sheet.wide):
            first = {0: Place(way, 3 * sheet.tall + row, 3 * sheet.wide + column)}
            used = sheet._used(first)
            for other in range(len(sheet.turned[1])):
                pages = int(used.sum()) + _new(sheet, 1, other, first, used)
                for at in np.argwhere(pages <= most).tolist():
                    yield int(pages[*at]), {**first, 1: Place(other, *at)}


def _new(sheet: PackingGrid, piece: int, way: int, places: dict[int, Place], used: np.ndarray) -> np.ndarray:
    """How many more pages a piece needs at each place; very many where another one lies."""
    new = sheet._new_pages(piece, way, used)
    for other, place in places.items():
        part, meets = sheet._pair(piece, way, other, place.way).on(new, place.row, place.column)
        part[meets] = 99
    return new


def test_composing_tiles_beside_a_floor_written_by_hand() -> None:
    import pikepdf

    sheet = _letter()
    with pikepdf.open(io.BytesIO(by_hand(sheet))) as pdf:
        assert pdf.check_pdf_syntax() == [] and len(pdf.pages) == len(sheet.grid.pages)
    sizes = [len(work) / 1000 for work in (paged_pdf(sheet), by_hand(sheet))]
    print(f"\ncomposing {len(sheet.grid.pages)} pages of {len(sheet.drawing.layers)} layers, and the floor")
    warm = timed(lambda: paged_pdf(sheet)), timed(lambda: by_hand(sheet))
    cold = [min(_fresh(name) for _ in range(3)) for name in ("paged_pdf", "by_hand")]
    for label, (ours, floor) in (("cold", cold), ("warm", warm)):
        print(f"  {label}: {ours:.0f} ms and {floor:.0f} ms, {ours / floor:.1f} times")
    print(f"  size: {sizes[0]:.0f} kB and {sizes[1]:.0f} kB")


def _letter() -> PagedSheet:
    (sheet,) = paged_sheets(draft_and_check(asked("marlpit")).garment, Printing(("letter",)))
    return sheet


def _fresh(name: str) -> float:
    """Milliseconds of the first time in a new process, the imports that it needs included."""
    with multiprocessing.get_context("spawn").Pool(1) as pool:
        return float(pool.apply(_first, (name,)))


def _first(name: str) -> float:
    sheet, work = _letter(), {"paged_pdf": paged_pdf, "by_hand": by_hand}[name]
    start = time.perf_counter()
    work(sheet)
    return 1000 * (time.perf_counter() - start)


def test_the_whole_pack() -> None:
    with tempfile.TemporaryDirectory() as folder:
        for label, more in (("default", []), ("all papers", ["--page", "letter,a4,a3", "--paper", ",".join(LARGE)])):
            command = [sys.executable, "-m", "draft", "pack", "marlpit", "--out", folder, *more]
            before = os.times()
            best = timed(lambda: subprocess.run(command, check=True, capture_output=True), 3)  # noqa: B023
            spent = sum(os.times()[2:4]) - sum(before[2:4])
            print(f"\n{label}, cold: {best / 1000:.2f} s, on average {spent / 3:.2f} s of both cores together")
    print(f"largest process: {resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1000:.0f} MB")
    for label, papers in (("default", ()), ("all papers", LARGE)):
        anew = min(_packed_in(draft_and_check(asked("marlpit")), papers) for _ in range(3))
        drafted = draft_and_check(asked("marlpit"))
        again = min(_packed_in(drafted, papers) for _ in range(3))
        print(f"{label}, warm, without drafting and cloth: drafted anew {anew:.2f} s, the same again {again:.2f} s")


def _packed_in(drafted: object, papers: Sequence[str]) -> float:
    start = time.perf_counter()
    pack(drafted, papers)
    return time.perf_counter() - start


def pack(drafted: object, papers: Sequence[str]) -> None:
    """Everything that is drawn, by a process that has drawn it before."""
    garment = drafted.garment  # type: ignore[attr-defined]
    sheets = paged_sheets(garment, Printing(("letter", "a4", "a3") if papers else ("letter", "a4")))
    svg_files(garment)
    flat_files(garment)
    paged_files(sheets)
    booklet_files(drafted, sheets=sheets)  # type: ignore[arg-type]
    if papers:
        large_files(garment, papers)


# ---- the floor ------------------------------------------------------------------------------------------------------


def by_hand(sheet: PagedSheet) -> bytes:
    """The sheet's layers on its pages, one form for each layer, and the frames; one of the viewers' own fonts."""
    import pikepdf

    drawing, grid = sheet.drawing, sheet.grid
    paper, about = grid.paper, Said(sheet.title, grid.pages[-1].number, sheet.wording)
    with pikepdf.new() as pdf:
        font = pikepdf.Dictionary(Type=pikepdf.Name.Font, Subtype=pikepdf.Name.Type1, BaseFont=pikepdf.Name.Helvetica)
        box = [0, 0, drawing.width / PT, drawing.height / PT]
        forms = pikepdf.Dictionary()
        for index, layer in enumerate(drawing.layers):
            form = pdf.make_stream(_described(layer.items, drawing.height).encode("latin-1", "replace"))
            form.Type, form.Subtype, form.BBox = pikepdf.Name.XObject, pikepdf.Name.Form, box
            form.Resources = pikepdf.Dictionary(Font=pikepdf.Dictionary(F=font))
            forms[f"/L{index}"] = form
        for page in grid.pages:
            x, y = grid.corner(page)
            shift = paper.margin - x, paper.height - paper.margin + y - drawing.height
            clip = " ".join(f"{v / PT:.2f}" for v in (paper.margin, paper.margin, *paper.live))
            draws = "\n".join(f"/L{index} Do" for index in range(len(drawing.layers)))
            text = f"q {clip} re W n q 1 0 0 1 {shift[0] / PT:.3f} {shift[1] / PT:.3f} cm {draws} Q Q"
            text += _described(furniture(grid, page, about, pieces_by_page(drawing, grid)[page]), paper.height)
            leaf = pikepdf.Dictionary(
                Type=pikepdf.Name.Page, MediaBox=[0, 0, paper.width / PT, paper.height / PT],
                Resources=pikepdf.Dictionary(XObject=forms, Font=pikepdf.Dictionary(F=font)),
                Contents=pdf.make_stream(text.encode("latin-1", "replace")),
            )  # fmt: skip
            pdf.pages.append(pikepdf.Page(pdf.make_indirect(leaf)))
        out = io.BytesIO()
        pdf.save(out, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return out.getvalue()


def _described(items: Sequence[Item], height: float) -> str:
    scale = 1 / PT
    lines = [f" {scale:.6f} 0 0 {-scale:.6f} 0 {height * scale:.3f} cm"]
    for item in items:
        if isinstance(item, Label):
            c, s = np.cos(np.radians(item.angle)), np.sin(np.radians(item.angle))
            turn = f"{c:.4f} {s:.4f} {s:.4f} {-c:.4f} {item.x:.3f} {item.y:.3f}"
            text = item.text.replace("\\", "\\\\").replace("(", "\\(").replace(")", "\\)")
            lines.append(f"BT /F {item.size:.3f} Tf {turn} Tm ({text}) Tj ET")
        else:
            lines.append(_path(item))
    return "\n".join(lines)


def _path(path: Path) -> str:
    words = []
    if path.stroke:
        words.append(f"{path.stroke.width:.3f} w [{' '.join(f'{d:.3f}' for d in path.stroke.dash)}] 0 d")
    for run in path.runs:
        words.append(f"{run[0, 0, 0]:.3f} {run[0, 0, 1]:.3f} m")
        for segment, straight in zip(run, cubic.is_straight(run), strict=True):
            shown = segment[3:] if straight else segment[1:]
            words.append(" ".join(f"{x:.3f} {y:.3f}" for x, y in shown) + (" l" if straight else " c"))
    return " ".join([*words, "f" if path.fill else "S"])
