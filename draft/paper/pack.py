"""The files of a garment, as names and bytes: nothing here touches the disk."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from draft.notes import Problems, error, nearest
from draft.paper import words
from draft.paper.piece_lines import Lines
from draft.paper.sheet import drafted, draw_set, on_pages, on_screen
from draft.paper.svg import svg
from draft.paper.tiles import paper
from draft.piece import Garment

Progress = Callable[[str], object]


def svg_files(garment: Garment, lines: Lines | None = None, progress: Progress | None = None) -> dict[str, bytes]:
    """`svg/XS.svg` and so on, and `svg/nest.svg` with all sizes in layers where there is more than one.

    `lines` asks for both lines or one of them; `progress` is called with each name as its file is done.
    """
    bodies, names = _bodies(garment, garment.sizes), _file_names(garment.sizes)
    sets = [(names[body], [body]) for body in bodies]
    files: dict[str, bytes] = {}
    for name, some in [*sets, *([("nest", bodies)] if len(bodies) > 1 else [])]:
        _done(files, f"svg/{name}.svg", svg(on_screen(draw_set(garment, some, lines))).encode(), progress)
    return files


def pdf_files(
    garment: Garment,
    sizes: Sequence[str] | None = None,
    pages: Sequence[str] = ("letter", "a4"),
    lines: Lines | None = None,
    progress: Progress | None = None,
) -> dict[str, bytes]:
    """`pattern-letter.pdf` and `pattern-a4.pdf`, with the sizes asked for (all of them unless told otherwise).

    Raises Problems if cairo is missing, or a page size is not known.
    """
    from draft.paper.pdf import tiled_pdf

    drawn = draw_set(garment, _bodies(garment, sizes or garment.sizes), lines)
    title = words.sheet_title(drawn.title, drawn.subtitle)
    files: dict[str, bytes] = {}
    for name in pages:
        sheet = on_pages(drawn, paper(name).live)
        _done(files, f"pattern-{name}.pdf", tiled_pdf(sheet, name, title), progress)
    return files


def _bodies(garment: Garment, sizes: Sequence[str]) -> list[int]:
    """The drafted bodies among these sizes. Raises Problems if one is not known, or none was drafted."""
    unknown = [size for size in sizes if size not in garment.sizes]
    if unknown:
        raise Problems(
            error(f"`{size}` is not a size of this pattern", None, *nearest(size, garment.sizes)) for size in unknown
        )
    if not garment.pieces:
        raise Problems([error("the pattern has no pieces, so there is nothing to draw")])
    known = drafted(garment)
    bodies = [body for body in (garment.sizes.index(size) for size in sizes) if body in known]
    if not bodies:
        raise Problems([error("none of these sizes was drafted, so there is nothing to draw")])
    return bodies


def _done(files: dict[str, bytes], name: str, data: bytes, progress: Progress | None) -> None:
    files[name] = data
    if progress:
        progress(name)


def _file_names(sizes: Sequence[str]) -> list[str]:
    """The sizes as names that every file system takes, told apart by a number where they fall together."""
    found: list[str] = []
    for size in sizes:
        name = "".join(c if c.isalnum() or c in "-_." else "-" for c in size).strip(".-") or "size"
        taken = {other.lower() for other in found} | {"nest"}
        found.append(name if name.lower() not in taken else f"{name}-{len(found) + 1}")
    return found
