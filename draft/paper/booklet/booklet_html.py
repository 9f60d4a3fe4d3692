"""The booklet as one HTML file: what its pages say, in their order, to be read on a phone or heard.

It is made from the passages of the booklet's own pages, so that both say the same. Drawings are SVG within it, each
with the words in its stead; a designer's picture is shown as a picture, in which no script runs and nothing is fetched.
"""

from __future__ import annotations

import base64
import re
from collections.abc import Mapping, Sequence
from dataclasses import field, replace
from html import escape

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry import cubic
from draft.paper.booklet.booklet import Laid, book_of
from draft.paper.booklet.facts import BookletFacts
from draft.paper.drawing.direction import from_left
from draft.paper.drawing.document import Link
from draft.paper.drawing.drawing import Item, Label, Path
from draft.paper.drawing.face import NO_FACE
from draft.paper.drawing.ink import clean
from draft.paper.drawing.passage import Headings, Passage
from draft.paper.drawing.picture_page import PicturePage
from draft.paper.drawing.room import label_spot
from draft.paper.drawing.svg import items_svg

_STYLE = """
:root{color-scheme:light dark}
body{margin:0 auto;padding:1rem;max-width:42rem;font:1.06rem/1.55 system-ui,sans-serif;color:#111;background:#fff}
h1{font-size:1.7rem;line-height:1.2;margin:2.4rem 0 1rem;padding-bottom:.35rem;border-bottom:3px solid}
h1{position:relative}
h1::after{content:"";position:absolute;left:0;right:0;bottom:-9px;border-bottom:2px dashed}
h2{font-size:1.3rem;line-height:1.25;margin:1.8rem 0 .6rem}
h3{font-size:1.06rem;margin:1.4rem 0 .3rem}
p{margin:.4rem 0}
ul{margin:.4rem 0;padding-left:1.2rem}
a{color:inherit;overflow-wrap:anywhere}
figure{margin:1rem 0;padding:.5rem;background:#fff;border-radius:.3rem}
svg,img{display:block;max-width:100%;height:auto}
.wide{overflow-x:auto}
table{border-collapse:collapse;font-variant-numeric:tabular-nums;margin:.6rem 0}
th,td{padding:.25rem .55rem;text-align:right;vertical-align:top;border-top:1px solid #9996;white-space:nowrap}
th[scope=row],td:first-child{text-align:left}
th[scope=row],.said{white-space:normal;text-align:left}
@media (prefers-color-scheme:dark){body{color:#eee;background:#161616}}
"""
_HEAD = (
    '<meta charset="utf-8">\n<meta name="viewport" content="width=device-width, initial-scale=1">\n'
    '<meta name="generator" content="plainseam">'
)
_TAGS = {"H1": "h1", "H2": "h2", "H3": "h3", "P": "p", "L": "ul", "LI": "li", "TR": "tr", "TD": "td", "TH": "th"}


@dataclass(frozen=True)
class _Read:
    """What is read, in order: of each passage its parts, its drawing, its address and its picture."""

    parts: Mapping[Passage | None, Sequence[Passage]]
    items: Mapping[Passage, Sequence[Item]]
    addresses: Mapping[Passage, str]
    pictures: Mapping[Passage, PicturePage]
    mark: PicturePage | None
    """The studio's, among the pictures."""
    headings: Headings = field(default_factory=Headings)


def booklet_html(facts: BookletFacts, laid: Laid | None = None) -> bytes:
    """The file, of pages that are `laid` already or of new ones; the same input gives the same bytes.

    Raises Problems if a designer's picture cannot be drawn.
    """
    body = "\n".join(elements(facts, laid))
    title = escape(clean(facts.wording.say("book.title", title=facts.title)))
    head = f"{_HEAD}\n<title>{title}</title>"
    made = escape(clean(facts.garment.maker))
    head += f'\n<meta name="author" content="{made}">' if made else ""
    style = style_of(facts)
    page = f'<!DOCTYPE html>\n<html lang="{facts.wording.language}">\n<head>\n{head}\n<style>{style}</style>\n</head>\n'
    return f"{page}<body>\n<main>\n{body}\n</main>\n</body>\n</html>\n".encode()


def elements(facts: BookletFacts, laid: Laid | None = None) -> list[str]:
    """What is read, in order, each as an element of HTML that is well-formed XML too.

    Raises Problems if a designer's picture cannot be drawn.
    """
    book, shown = laid or book_of(facts)
    read = _read(book.pages, book.links, {
        one.passage: shown[one.picture] for placed in book.pictures.values() for one in placed
    }, facts.face.mark)  # fmt: skip
    return [_element(passage, read) for passage in read.parts[None]]


def style_of(facts: BookletFacts) -> str:
    """How it looks, in the studio's colours if there is one."""
    return _STYLE + _in_colours(facts)


def _in_colours(facts: BookletFacts) -> str:
    """What a studio adds to the style: its colours on white paper, where they are readable, and a small mark."""
    face = facts.face
    if face == NO_FACE:
        return ""
    lines = f"border-color:{face.lines}"
    return (
        f"@media (prefers-color-scheme:light){{h1{{color:{face.headings};{lines}}}h1::after{{{lines}}}}}\n"
        ".mark{display:inline-block}.mark img{max-height:5rem;max-width:14rem;width:auto}\n"
    )


def _read(
    pages: Mapping[int, Sequence[Item]],
    links: Mapping[int, Sequence[Link]],
    pictures: Mapping[Passage, PicturePage],
    mark: PicturePage | None,
) -> _Read:
    parts: dict[Passage | None, list[Passage]] = {None: []}
    items: dict[Passage, list[Item]] = {}
    for _, page in sorted(pages.items()):
        for item in page:
            if item.passage:
                _place(item.passage, parts)
                items.setdefault(item.passage, []).append(item)
    addresses = {link.passage: link.address for each in links.values() for link in each if link.passage}
    return _Read(parts, items, addresses, pictures, mark)


def _place(passage: Passage, parts: dict[Passage | None, list[Passage]]) -> None:
    """A passage behind what was read before it, within what it is part of."""
    for one in passage.chain:
        if one not in parts:
            parts[one] = []
            parts[one.within].append(one)


def _element(passage: Passage, read: _Read) -> str:
    inside = "".join(_element(part, read) for part in read.parts[passage]) or escape(clean(passage.text))
    match passage.role:
        case "Figure":
            return _figure(passage, read)
        case "Lbl":
            return ""
        case "LBody":
            return inside
        case "Link":
            return f'<a href="{escape(_address(passage, read))}">{inside}</a>'
        case "Table":
            return f'<div class="wide" tabindex="0"><table>{inside}</table></div>'
        case "TH":
            scope = "row" if passage.of_row else "col"
            rows = f' rowspan="{passage.rows}"' if passage.rows > 1 else ""
            return f'<th scope="{scope}"{rows}>{inside}</th>'
    tag = _TAGS[read.headings.role(passage)]
    way = "" if from_left(passage.text) else ' dir="rtl"'
    way += ' class="said"' if passage.role == "TD" and len(passage.text) > _FIGURES else ""
    return f"<{tag}{way}>{inside}</{tag}>"


def _address(passage: Passage, read: _Read) -> str:
    """Where a link leads; only to the web, whatever a pattern says."""
    address = read.addresses.get(passage, "")
    return address if re.match(r"https?://", address) else "#"


def _figure(passage: Passage, read: _Read) -> str:
    told = escape(clean(passage.text))
    if passage in read.pictures:
        picture = read.pictures[passage]
        data = base64.b64encode(picture.svg).decode("ascii")
        kind = ' class="mark"' if picture is read.mark else ""
        return f'<figure{kind}><img alt="{told}" src="data:image/svg+xml;base64,{data}"/></figure>'
    items = read.items[passage]
    left, top, right, bottom = _bounds(items)
    view = f"{left:.2f} {top:.2f} {right - left:.2f} {bottom - top:.2f}"
    size = f'width="{(right - left) * _LARGER:.0f}" height="{(bottom - top) * _LARGER:.0f}"'
    drawn = "".join(items_svg(replace(item, id="") if item.id else item for item in items))  # names are of one drawing
    said = f'role="img" aria-label="{told}" font-family="system-ui,sans-serif"'
    return f'<figure><svg {said} viewBox="{view}" {size}>{drawn}</svg></figure>'


_FIGURES = 16
"""A cell of more letters holds words, which may be broken on a phone."""
_AIR = 0.6
_LARGER = 4.6
"""Pixels of a page to the mm of a booklet's drawing: a step's fills most of a phone."""


def _bounds(items: Sequence[Item]) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of what is drawn, with a little air."""
    words = np.array([label_spot(item).box for item in items if isinstance(item, Label)]).reshape(-1, 4)
    boxes = np.concatenate([words, *_boxes([item for item in items if isinstance(item, Path) and item.runs])])
    (left, top), (right, bottom) = boxes[:, :2].min(axis=0) - _AIR, boxes[:, 2:].max(axis=0) + _AIR
    return float(left), float(top), float(right), float(bottom)


def _boxes(paths: Sequence[Path]) -> list[Floats]:
    """The box of every segment `(n, 4)` of some paths, the width of the stroke included: all found in one go."""
    runs = [(run, path.stroke.width / 2 if path.stroke else 0.0) for path in paths for run in path.runs]
    if not runs:
        return []
    found = cubic.bounds(np.concatenate([run for run, _ in runs])[:, None])
    half = np.repeat([width for _, width in runs], [len(run) for run, _ in runs])[:, None]
    return [np.concatenate([found[:, 0] - half, found[:, 1] + half], axis=1)]
