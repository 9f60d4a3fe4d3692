"""A designer's own pictures: SVG files beside the pattern, made into pages that a document can show.

A pattern may come from anyone. A picture is read as shapes and words alone: nothing that it refers to is fetched, and
elements that could make a small file endless to draw are refused. What is endless all the same, such as outlines that
clip one another, comes to its end in a process of its own, and the booklet goes without it. All pictures of a booklet
share so much time, and it goes without those that are left over then.
"""

from __future__ import annotations

import io
from collections.abc import Sequence

from draft.base.bounded import MEMORY, SECONDS, TOGETHER, Failed, run_each
from draft.base.notes import Note, Problems, Source, Span, caution, error
from draft.base.record import dataclass
from draft.base.textfile import read_source
from draft.paper.drawing.drawing import PT
from draft.paper.drawing.picture_page import PicturePage
from draft.plan.advice import Picture

_DRAWN = {"svg", "g", "a", "path", "line", "polyline", "polygon", "rect", "circle", "ellipse", "text", "tspan"}
_SILENT = {"title", "desc", "metadata", "style", "defs", "linearGradient", "radialGradient", "stop", "clipPath"}
_MOST = 20_000
"""Elements: a page of the finest lace has fewer."""
_NAMED = 3
"""Of the pictures that are left out together so many are named."""
_DRAWER = "draft.paper.drawing.foreign_svg:drawn"
_SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True)
class _Given:
    """A picture's text, where it is named, and what it is left out of where it cannot be shown."""

    source: Source
    span: Span
    shown_in: str

    @property
    def name(self) -> str:
        """Its file's."""
        return self.source.name


def picture_pages(pictures: Sequence[Picture]) -> tuple[list[PicturePage | None], list[Note]]:
    """The pictures as pages, with None and a caution for one that does not come to an end, or comes too late.

    Raises Problems if one is no picture, or holds what is not drawn.
    """
    return pages_of([(read_source(picture.file, "picture"), picture.span) for picture in pictures], "the booklet")


def pages_of(given: Sequence[tuple[Source, Span]], shown_in: str) -> tuple[list[PicturePage | None], list[Note]]:
    """The same for texts of pictures, each with the place that names it; `shown_in` is what they are left out of."""
    pictures = [_Given(source, span, shown_in) for source, span in given]
    for picture in pictures:
        _stop_unless_plain(picture)
    some = list(dict.fromkeys(picture.source.text for picture in pictures))  # what several steps show is drawn once
    answers = dict(zip(some, run_each(_DRAWER, [text.encode() for text in some]), strict=True))
    pages: list[PicturePage | None] = []
    notes: list[Note] = []
    late: list[_Given] = []
    for picture in pictures:
        answer = answers[picture.source.text]
        endless = isinstance(answer, Failed) and not answer.reason
        if isinstance(answer, Failed) and answer.late:
            late.append(picture)
        elif endless:
            notes.append(_endless(picture))
        pages.append(None if endless else _page(picture, answer))
    return pages, [*notes, *_late(late)]


def _page(picture: _Given, answer: bytes | Failed) -> PicturePage:
    if isinstance(answer, Failed):
        raise Problems([_damaged(picture, f"{answer.reason} while drawing it")])
    if not answer:
        fact = f"`{picture.name}` is drawn by the cairo library, which this machine lacks"
        install = "install it: `apt install libcairo2` (Debian, Ubuntu) or `brew install cairo` (macOS)"
        raise Problems([error(fact, picture.span, install)])
    width, height = _size(answer)
    if not (0 < width < 10_000 and 0 < height < 10_000):
        raise Problems([_damaged(picture, "it says neither a size that can be drawn nor its `viewBox`")])
    return PicturePage(answer, width, height, picture.source.text.encode())


def _endless(picture: _Given) -> Note:
    limits = f"{SECONDS:.0f} seconds or {MEMORY // 10**9} GB of memory"
    fact = f"`{picture.name}` is left out of {picture.shown_in}: drawing it takes more than {limits}"
    return caution(fact, picture.span, "save it as plain SVG, with objects converted to paths and nothing clipped")


def _late(pictures: Sequence[_Given]) -> list[Note]:
    """One caution for all pictures that came too late."""
    if not pictures:
        return []
    names = list(dict.fromkeys(f"`{picture.name}`" for picture in pictures))
    listed = ", ".join(names[:_NAMED]) + (f" and {len(names) - _NAMED} more" if len(names) > _NAMED else "")
    verb = "is" if len(names) == 1 else "are"
    fact = f"{listed} {verb} left out of {pictures[0].shown_in}"
    fact += f": drawing all its pictures takes more than {TOGETHER:.0f} seconds"
    return [caution(fact, pictures[0].span, "show fewer pictures, or save them as plain SVG with fewer shapes")]


def _stop_unless_plain(picture: _Given) -> None:
    from defusedxml import DefusedXmlException, ElementTree

    try:
        root = ElementTree.fromstring(picture.source.text)
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
            raise Problems([_not_drawn(picture.span, f"`{picture.name}` holds `{name}`, which is not drawn", fix)])
    if count > _MOST:
        fact = f"`{picture.name}` holds {count} elements, too many for a small picture"
        raise Problems([_not_drawn(picture.span, fact, "simplify it")])


def _not_drawn(span: Span, fact: str, fix: str) -> Note:
    return error(fact, span, fix)


def _damaged(picture: _Given, why: str) -> Note:
    return error(f"`{picture.name}` cannot be read as SVG: {why}", picture.span, "save it again as plain SVG")


def _size(data: bytes) -> tuple[float, float]:
    import pikepdf

    with pikepdf.open(io.BytesIO(data)) as pdf:
        if not len(pdf.pages):  # a size so large that nothing was drawn
            return 0.0, 0.0
        left, low, right, high = (float(value) for value in pdf.pages[0].MediaBox)
    return (right - left) * PT, (high - low) * PT
