"""Someone else's SVG drawn as a page: called in a process of its own, as a few lines can take for ever."""

from __future__ import annotations

from draft.paper.drawing import font


def drawn(text: bytes) -> bytes:
    """The text as a PDF of one page; nothing where this machine lacks the drawing library. Nothing else is read."""
    try:
        import cairosvg
    except OSError:
        return b""
    font.register()
    data: bytes = cairosvg.svg2pdf(bytestring=text, unsafe=False)
    return data
