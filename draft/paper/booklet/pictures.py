"""A designer's own pictures: SVG files beside the pattern, made into pages that a document can show.

A pattern may come from anyone. A picture is read as shapes and words alone: nothing that it refers to is fetched, and
elements that could make a small file endless to draw are refused.
"""

from __future__ import annotations

import importlib
import io
from dataclasses import dataclass
from typing import Any

from draft.base.notes import Problems, Span, error
from draft.base.textfile import read_source
from draft.paper.drawing import font
from draft.paper.drawing.drawing import PT
from draft.plan.advice import Picture

_DRAWN = {"svg", "g", "a", "path", "line", "polyline", "polygon", "rect", "circle", "ellipse", "text", "tspan"}
_SILENT = {"title", "desc", "metadata", "style", "defs", "linearGradient", "radialGradient", "stop", "clipPath"}
_MOST = 20_000
"""Elements: a page of the finest lace has fewer."""
_SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True)
class PicturePage:
    """A picture as a document of one page, and that page's width and height in mm."""

    data: bytes
    width: float
    height: float


def picture_page(picture: Picture) -> PicturePage:
    """The picture as a page. Raises Problems if it is no picture, or holds what is not drawn."""
    text = read_source(picture.file, "picture").text
    _stop_unless_plain(text, picture)
    cairosvg = _drawer(picture)
    font.register()
    try:
        data = cairosvg.svg2pdf(bytestring=text.encode(), unsafe=False)
    except Exception as reason:
        raise Problems([_damaged(picture, f"{type(reason).__name__} while drawing it")]) from None
    width, height = _size(data)
    if not (0 < width < 10_000 and 0 < height < 10_000):
        raise Problems([_damaged(picture, "it says neither its size nor its `viewBox`")])
    return PicturePage(data, width, height)


def _drawer(picture: Picture) -> Any:
    """The library that draws pictures. Raises Problems with the command that installs it where it is missing."""
    try:
        return importlib.import_module("cairosvg")
    except OSError:
        fact = f"`{picture.file.name}` is drawn by the cairo library, which this machine lacks"
        install = "install it: `apt install libcairo2` (Debian, Ubuntu) or `brew install cairo` (macOS)"
        raise Problems([_not_drawn(picture.span, fact, install)]) from None


def _stop_unless_plain(text: str, picture: Picture) -> None:
    from defusedxml import DefusedXmlException, ElementTree

    try:
        root = ElementTree.fromstring(text)
    except (ElementTree.ParseError, DefusedXmlException, ValueError) as reason:
        raise Problems([_damaged(picture, str(reason) or "it is not well formed")]) from None
    if root.tag not in (f"{_SVG}svg", "svg"):
        raise Problems([_damaged(picture, "it does not begin with `svg`")])
    count = 0
    for element in root.iter():
        count += 1
        name = element.tag.removeprefix(_SVG) if isinstance(element.tag, str) else "title"
        if "}" in name:
            continue  # an editor's own notes, which nobody draws
        if name not in _DRAWN | _SILENT:
            fix = "save it as plain SVG, with objects converted to paths"
            raise Problems([_not_drawn(picture.span, f"`{picture.file.name}` holds `{name}`, which is not drawn", fix)])
    if count > _MOST:
        fact = f"`{picture.file.name}` holds {count} elements, too many for a small picture"
        raise Problems([_not_drawn(picture.span, fact, "simplify it")])


def _not_drawn(span: Span, fact: str, fix: str) -> Any:
    return error(fact, span, fix)


def _damaged(picture: Picture, why: str) -> Any:
    return error(f"`{picture.file.name}` cannot be read as SVG: {why}", picture.span, "save it again as plain SVG")


def _size(data: bytes) -> tuple[float, float]:
    import pikepdf

    with pikepdf.open(io.BytesIO(data)) as pdf:
        left, low, right, high = (float(value) for value in pdf.pages[0].MediaBox)
    return (right - left) * PT, (high - low) * PT
