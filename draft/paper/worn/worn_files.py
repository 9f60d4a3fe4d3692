"""A sheet as files: SVG, PDF, and PNG where the drawing library is there."""

from __future__ import annotations

from draft.paper.drawing import font
from draft.paper.drawing.document import About, Leaf, pdf_document
from draft.paper.drawing.drawing import Drawing
from draft.paper.drawing.ink import page_description
from draft.paper.drawing.svg import svg

_DOTS = 200
"""Dots to the inch of a PNG: a sheet is then 1,500 wide, sharp on a screen and small enough to send."""


def sheet_files(place: str, drawing: Drawing, language: str) -> dict[str, bytes]:
    """The sheet as `place.svg`, `place.pdf` and `place.png`; without the last where nothing here can draw it."""
    text = svg(drawing).encode()
    found = {f"{place}.svg": text, f"{place}.pdf": _pdf(drawing, language)}
    picture = _png(text, drawing.width)
    return found | ({f"{place}.png": picture} if picture else {})


def _pdf(drawing: Drawing, language: str) -> bytes:
    page = page_description(drawing.width, drawing.height, drawing.items(), marked=True)
    leaf = Leaf(drawing.width, drawing.height, marked=0)
    return pdf_document([page], [leaf], About(drawing.title, language))


def _png(text: bytes, wide: float) -> bytes:
    try:
        import cairosvg
    except OSError:  # the system's cairo is not there
        return b""
    font.register()
    data: bytes = cairosvg.svg2png(bytestring=text, output_width=round(wide / 25.4 * _DOTS))
    return data
