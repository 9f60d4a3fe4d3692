"""The booklet as an EPUB 3 book: what the HTML says, a file a chapter, with a table of contents (W3C, EPUB 3.3).

The same input gives the same bytes: its number is made of its contents, and no clock is asked.
"""

from __future__ import annotations

import hashlib
import io
import re
import uuid
import zipfile
from collections.abc import Sequence
from html import escape

from draft.base.record import dataclass
from draft.paper.booklet.booklet import Laid
from draft.paper.booklet.booklet_html import elements, style_of
from draft.paper.booklet.facts import BookletFacts
from draft.paper.drawing.ink import clean

_TYPE = "application/epub+zip"
_NO_DATE = "2000-01-01T00:00:00Z"
"""A book must say when it was last changed; a pattern's files are the same whenever they are made."""
_CONTAINER = """<?xml version="1.0" encoding="utf-8"?>
<container version="1.0" xmlns="urn:oasis:names:tc:opendocument:xmlns:container">
<rootfiles><rootfile full-path="book/book.opf" media-type="application/oebps-package+xml"/></rootfiles>
</container>
"""
_SVG = '<svg xmlns="http://www.w3.org/2000/svg" '
_HEADING = re.compile(r"<(h[12])( dir=\"rtl\")?>(.*?)</\1>", re.DOTALL)


@dataclass(frozen=True)
class _Chapter:
    """A file of the book, and its headings as level, mark and words."""

    name: str
    body: str
    headings: tuple[tuple[int, str, str], ...]

    @property
    def has_drawings(self) -> bool:
        return "<svg" in self.body


def booklet_epub(facts: BookletFacts, laid: Laid | None = None) -> bytes:
    """The book, of pages that are `laid` already or of new ones.

    Raises Problems if a designer's picture cannot be drawn.
    """
    chapters = _chapters([text.replace("<svg ", _SVG) for text in elements(facts, laid)])
    title = escape(clean(facts.wording.say("book.title", title=facts.title)))
    language = facts.wording.language
    files = {f"book/{one.name}": _page(one.body, title, language) for one in chapters}
    files["book/look.css"] = style_of(facts)
    files["book/contents.xhtml"] = _page(_contents(chapters, title), title, language)
    digest = hashlib.sha256("\0".join(f"{name}\0{text}" for name, text in sorted(files.items())).encode()).hexdigest()
    number = uuid.uuid5(uuid.NAMESPACE_OID, digest)
    files["book/book.opf"] = _package(chapters, title, language, escape(clean(facts.garment.maker)), number)
    return _zipped({"mimetype": _TYPE, "META-INF/container.xml": _CONTAINER, **files})


def _chapters(found: Sequence[str]) -> list[_Chapter]:
    """A file for each heading of the first level and what stands below it."""
    groups: list[list[str]] = [[]]
    for text in found:
        if text.startswith("<h1") and groups[-1]:
            groups.append([])
        groups[-1].append(text)
    return [_chapter(number, group) for number, group in enumerate(groups, 1)]


def _chapter(number: int, group: Sequence[str]) -> _Chapter:
    headings: list[tuple[int, str, str]] = []

    def marked(found: re.Match[str]) -> str:
        tag, way, words = found.groups()
        headings.append((int(tag[1]), f"h{len(headings) + 1}", words))
        return f'<{tag}{way or ""} id="{headings[-1][1]}">{words}</{tag}>'

    body = "\n".join(_HEADING.sub(marked, text) for text in group)
    return _Chapter(f"chapter-{number:02}.xhtml", body, tuple(headings))


def _page(body: str, title: str, language: str) -> str:
    return (
        '<?xml version="1.0" encoding="utf-8"?>\n<!DOCTYPE html>\n'
        '<html xmlns="http://www.w3.org/1999/xhtml" xmlns:epub="http://www.idpf.org/2007/ops" '
        f'lang="{language}" xml:lang="{language}">\n<head>\n<title>{title}</title>\n'
        f'<link rel="stylesheet" type="text/css" href="look.css"/>\n</head>\n<body>\n{body}\n</body>\n</html>\n'
    )


def _contents(chapters: Sequence[_Chapter], title: str) -> str:
    """The headings of all chapters, those of the second level within those of the first."""
    rows = []
    for one in chapters:
        first = next((words for level, _, words in one.headings if level == 1), title)
        below = [f'<li><a href="{one.name}#{at}">{words}</a></li>' for level, at, words in one.headings if level == 2]
        inner = f"<ol>{''.join(below)}</ol>" if below else ""
        rows.append(f'<li><a href="{one.name}">{first}</a>{inner}</li>')
    return f'<nav epub:type="toc" id="toc"><h1>{title}</h1><ol>{"".join(rows)}</ol></nav>'


def _package(chapters: Sequence[_Chapter], title: str, language: str, maker: str, number: uuid.UUID) -> str:
    """What the book holds, and in which order it is read."""
    creator = f"<dc:creator>{maker}</dc:creator>" if maker else ""
    items = [
        f'<item id="c{k}" href="{one.name}" media-type="application/xhtml+xml"'
        + (' properties="svg"/>' if one.has_drawings else "/>")
        for k, one in enumerate(chapters)
    ]
    read = "".join(f'<itemref idref="c{k}"/>' for k in range(len(chapters)))
    return (
        '<?xml version="1.0" encoding="utf-8"?>\n<package xmlns="http://www.idpf.org/2007/opf" version="3.0" '
        f'unique-identifier="number" xml:lang="{language}">\n'
        '<metadata xmlns:dc="http://purl.org/dc/elements/1.1/">\n'
        f'<dc:identifier id="number">{number.urn}</dc:identifier><dc:title>{title}</dc:title>'
        f"<dc:language>{language}</dc:language>{creator}\n"
        f'<meta property="dcterms:modified">{_NO_DATE}</meta>\n'
        '<meta property="schema:accessMode">textual</meta><meta property="schema:accessMode">visual</meta>'
        '<meta property="schema:accessibilityFeature">alternativeText</meta>'
        '<meta property="schema:accessibilityFeature">tableOfContents</meta>'
        '<meta property="schema:accessibilityHazard">none</meta>\n</metadata>\n<manifest>\n'
        '<item id="look" href="look.css" media-type="text/css"/>\n'
        '<item id="contents" href="contents.xhtml" media-type="application/xhtml+xml" properties="nav"/>\n'
        f"{chr(10).join(items)}\n</manifest>\n<spine>{read}</spine>\n</package>\n"
    )


def _zipped(files: dict[str, str]) -> bytes:
    """The files in one, the first as it is, so that a reader knows the book by its first bytes."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as book:
        for name, text in files.items():
            entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            entry.compress_type = zipfile.ZIP_STORED if name == "mimetype" else zipfile.ZIP_DEFLATED
            book.writestr(entry, text.encode())
    return held.getvalue()
