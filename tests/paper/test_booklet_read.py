"""The booklet heard or read on a phone: its structure as a tagged document, its description, large print and HTML.

No validator of PDF/UA was at hand: what is held here is read from the document itself.
"""

from __future__ import annotations

import io
import re
from html.parser import HTMLParser
from typing import Any

import pikepdf
import pytest

from draft.base.notes import Span
from draft.drafting.drafting import Drafted
from draft.pack.pack import pack_files
from draft.pack.paper_request import PaperRequest
from draft.paper.booklet import LARGE, booklet_html, booklet_pdf
from draft.paper.booklet.booklet import book_of
from draft.paper.booklet.booklet_page import Book
from draft.paper.drawing.drawing import PT, Label
from draft.paper.drawing.wording import Wording
from draft.plan.advice import Advice, Booklet, Picture
from tests.asking import bundled
from tests.paper.made_up import SOURCE
from tests.paper.reading import page_count, text_of
from tests.paper.test_paper_booklet import SVG, facts_of, with_booklet

_LINK = "https://example.org/marlpit?a=1&b=2"


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Drafted:
    """The Marlpit top with all that a designer may add."""
    file = tmp_path_factory.mktemp("own") / "own.svg"
    file.write_text(SVG.format('<rect width="60" height="30" fill="#eee" onload="alert(1)"/>'), encoding="utf-8")
    span = Span(SOURCE, 0, 4)
    picture = Picture(span, file)
    advice = Advice(span, "neck", "Try the <band> on.", picture, link=_LINK)
    return with_booklet(bundled("marlpit"), Booklet(("A top.",), (), "CC BY 4.0", _LINK, (advice,)))


@pytest.fixture(scope="module")
def document(own: Drafted) -> bytes:
    return booklet_pdf(facts_of(own))


@pytest.fixture(scope="module")
def elements(document: bytes) -> list[Any]:
    """Every element of the structure, in the order in which it is read: its role, its element, its document."""
    pdf = pikepdf.open(io.BytesIO(document))
    found: list[Any] = []

    def walk(element: Any) -> None:
        found.append((str(element.S), element, pdf))
        for kid in element.K:
            if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
                assert kid.P.objgen == element.objgen
                walk(kid)

    walk(pdf.Root.StructTreeRoot.K[0])
    return found


def test_a_document_says_that_it_is_tagged_and_in_which_language(own: Drafted) -> None:
    with pikepdf.open(io.BytesIO(booklet_pdf(facts_of(own, Wording("de"))))) as pdf:
        root = pdf.Root
        assert bool(root.MarkInfo.Marked) and str(root.Lang) == "de" and bool(root.ViewerPreferences.DisplayDocTitle)
        assert all(str(page.obj.Tabs) == "/S" and "/StructParents" in page.obj for page in pdf.pages)


def test_all_that_is_drawn_is_read_or_ornament(document: bytes) -> None:
    """Each mark of a page leads to an element, each element's mark is on its page, and nothing stands outside."""
    with pikepdf.open(io.BytesIO(document)) as pdf:
        parents = pdf.Root.StructTreeRoot.ParentTree.Nums
        tree = {int(parents[k]): parents[k + 1] for k in range(0, len(parents), 2)}
        for page in pdf.pages:
            depth, marks = 0, []
            for operands, operator in pikepdf.parse_content_stream(page):
                name = str(operator)
                if name in ("BDC", "BMC"):
                    depth += 1
                    marks += [int(operands[1].MCID)] if name == "BDC" else []
                depth -= name == "EMC"
                assert 0 <= depth <= 1
                assert depth or name not in ("S", "f", "B", "Tj", "Do"), name
            here = tree[int(page.obj.StructParents)]
            assert sorted(marks) == list(range(len(here)))
            for number, element in enumerate(here):
                own_marks = [kid for kid in element.K if "/MCID" in kid and kid.Pg.objgen == page.obj.objgen]
                assert number in [int(kid.MCID) for kid in own_marks]


def test_headings_follow_one_another_and_figures_are_told(elements: list[Any]) -> None:
    levels = [int(role[2:]) for role, _, _ in elements if re.fullmatch("/H[1-6]", role)]
    assert levels[0] == 1 and levels.count(1) > 5 and len(levels) > 40
    figures = [str(element.Alt) for role, element, _ in elements if role == "/Figure"]
    assert len(figures) > 20 and all(figures) and "Drawing: Overarm – seam A" in figures
    assert "Try the <band> on." in figures  # the designer's picture is told in her words


def test_tables_have_rows_of_one_length_with_heads(elements: list[Any]) -> None:
    tables = [element for role, element, _ in elements if role == "/Table"]
    assert len(tables) >= 5
    for table in tables:
        spanned, lengths = 0, set()
        for row in table.K:
            cells = [cell for cell in row.K if "/S" in cell]
            assert all(str(cell.S) in ("/TH", "/TD") for cell in cells)
            lengths.add(len(cells) + (1 if spanned else 0))
            spanned = max(0, spanned - 1) or max(int(c.A.RowSpan) - 1 if "/A" in c else 0 for c in cells)
        assert len(lengths) == 1


def test_a_link_is_read_where_it_is_clicked(elements: list[Any]) -> None:
    links = [element for role, element, _ in elements if role == "/Link"]
    assert len(links) == 2
    for link in links:
        (objects,) = [kid for kid in link.K if str(kid.get("/Type")) == "/OBJR"]
        assert str(objects.Obj.A.URI) == _LINK and str(objects.Obj.Contents) == _LINK


def test_every_document_of_a_pack_says_whose_it_is(own: Drafted) -> None:
    drafted = bundled("marlpit", "M")
    drafted = with_booklet(drafted, own.plan.booklet)
    files = pack_files(drafted, PaperRequest(("a4",), ("a0", "projector"), cloth=(), large_print=True))
    documents = [name for name in files if name.endswith(".pdf")]
    booklets = {"booklet.pdf", "booklet-large-print.pdf"}
    assert set(documents) == {*booklets, "pattern-a4.pdf", "large/a0.pdf", "projector.pdf"}
    for name in documents:
        with pikepdf.open(io.BytesIO(files[name])) as pdf:
            info, xmp = pdf.docinfo, pdf.open_metadata()
            assert str(info["/Author"]) == "Saltern Lane Studio" and list(xmp["dc:creator"]) == ["Saltern Lane Studio"]
            assert "Knit cloth" in str(info["/Subject"]) and str(info["/Subject"]) == xmp["dc:description"]
            assert "Room round the bust" in str(info["/Keywords"]) and xmp["pdf:Keywords"] == str(info["/Keywords"])
            assert xmp["dc:title"] == str(info["/Title"]) and xmp["dc:rights"] == "CC BY 4.0"
            assert not {"/CreationDate", "/ModDate"} & set(info.keys()) and "xmp:CreateDate" not in xmp
            if "/OCProperties" in pdf.Root:
                assert str(pdf.Root.PageMode) == "/UseOC"  # so that the sizes are seen to be there
        if not name.startswith(("booklet", "projector")):
            for page in range(page_count(files[name])):
                assert "By Saltern Lane Studio · CC BY 4.0" in text_of(files[name], page), (name, page)
    assert "Room round the bust" in text_of(files["large/a0.pdf"], 0)
    assert "Page " not in text_of(files["large/a0.pdf"], 0)  # one sheet is put together with nothing


def test_large_print_says_the_same_in_letters_of_18_points_and_more(own: Drafted) -> None:
    facts = facts_of(own)
    book, _ = book_of(facts, page=LARGE)
    small, _ = book_of(facts)
    assert _texts(book) == _texts(small)
    for number, items in book.footed().items():
        for label in (item for item in items if isinstance(item, Label)):
            read_as_words = label.passage is None or label.passage.role != "Figure"
            assert not read_as_words or label.size * LARGE.enlarged >= 18 * PT - 1e-9, (number, label.text)
            assert label.y <= LARGE.height - 2, (number, label.text)


def _texts(book: Book) -> set[str]:
    passages = {item.passage for page in book.pages.values() for item in page if item.passage}
    return {passage.text for passage in passages}


class _Html(HTMLParser):
    """Tags that are opened, and whether all are closed again in order."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, dict(attrs)))
        if tag not in ("meta", "img"):
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


@pytest.mark.parametrize("language", ["en", "de"])
def test_the_page_for_a_phone_says_what_the_document_says(own: Drafted, language: str) -> None:
    facts = facts_of(own, Wording(language))
    data = booklet_html(facts)
    page, reader = data.decode(), _Html()
    reader.feed(page)
    assert not reader.open and data == booklet_html(facts)
    tags = [tag for tag, _ in reader.seen]
    assert "script" not in tags and tags.count("style") == 1 and tags.count("h1") > 5
    assert not [attrs for _, attrs in reader.seen if any(name.startswith("on") for name in attrs)]
    assert dict(reader.seen)["html"] == {"lang": language}
    told = [attrs for tag, attrs in reader.seen if tag == "svg"]
    assert len(told) > 20 and all(attrs["role"] == "img" and attrs["aria-label"] for attrs in told)
    (picture,) = [attrs for tag, attrs in reader.seen if tag == "img"]
    assert str(picture["src"]).startswith("data:image/svg+xml;base64,") and picture["alt"]
    assert {attrs["href"] for tag, attrs in reader.seen if tag == "a"} == {_LINK}
    assert "Try the &lt;band&gt; on." in page and "http" not in page.replace(_LINK.replace("&", "&amp;"), "")
    book, _ = book_of(facts)
    for text in {i.passage.text for items in book.pages.values() for i in items if i.passage and i.passage.role == "P"}:
        assert text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").split("“")[0] in page


def test_a_link_that_leads_elsewhere_is_not_followed_from_the_page(own: Drafted) -> None:
    page = booklet_html(facts_of(with_booklet(own, Booklet(link="javascript:alert(1)")))).decode()
    assert 'href="javascript' not in page and 'href="#"' in page
