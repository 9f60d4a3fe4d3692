"""Titles in many scripts, where the machine has fonts for them: shaped, hollow where letters are, and read back.

On Debian they are in the packages fonts-noto-core and fonts-noto-cjk; `PLAINSEAM_FONTS` may name a folder of them.
"""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import numpy as np
import pypdfium2 as pdfium
import pytest

from draft.pack.files_on_pages import paged_sheets
from draft.pack.printed_files import Printing
from draft.paper.drawing import font, scripts, system_fonts
from draft.paper.drawing.document import About, Leaf, Shown, pdf_document
from draft.paper.drawing.drawing import Label
from draft.paper.drawing.ink import page_description
from draft.paper.pages.paged_sheet import paged_pdf
from tests.paper.made_up import make_garment

pytest.importorskip("uharfbuzz")

TITLES = {
    "devanagari": "क्षितिज कुर्ती",
    "arabic": "قميص الربيع",
    "hebrew": "חולצת האביב",
    "thai": "เสื้อยืดฤดูใบไม้ผลิ",
    "chinese": "春日上衣",
    "japanese": "春のカットソー",
    "korean": "봄 티셔츠",
}


def _title(script: str) -> str:
    """The title, if fonts for all of its letters are there."""
    title = TITLES[script]
    if not all(letter.isspace() or system_fonts.with_letter(letter) for letter in title):
        pytest.skip(f"no font for {script} on this machine")
    return title


@pytest.mark.parametrize("script", TITLES)
def test_a_title_is_read_back_from_the_pages(script: str, tmp_path: Path) -> None:
    if not shutil.which("pdftotext"):
        pytest.skip("no pdftotext on this machine")
    title = _title(script)
    (sheet,) = paged_sheets(replace(make_garment(1), title=title), Printing(("a4",)))
    place = tmp_path / "pages.pdf"
    place.write_bytes(paged_pdf(sheet))
    done = subprocess.run(["pdftotext", "-l", "1", str(place), "-"], capture_output=True, check=True, timeout=60)
    said = done.stdout.decode().translate({0x202A: None, 0x202B: None, 0x202C: None})  # which way a line is read
    assert title in said


@pytest.mark.parametrize("script", TITLES)
def test_a_title_is_found_by_the_reader_of_browsers(script: str) -> None:
    """Also without a font for it: what is drawn then is a box, and what it says is there."""
    title = TITLES[script]
    (sheet,) = paged_sheets(replace(make_garment(1), title=title), Printing(("a4",)))
    with pdfium.PdfDocument(paged_pdf(sheet)) as pdf:
        page = pdf[0].get_textpage()
        assert page.get_text_range().startswith(title)
        assert page.search(title, match_case=True).get_next() is not None


@pytest.mark.parametrize("script", TITLES)
def test_its_letters_are_shaped_as_one(script: str) -> None:
    title = _title(script)
    runs = scripts.visual_runs(title, font.letters())
    assert all(run.file != scripts.BOX for run in runs)
    whole = sum(scripts.drawn(run).width for run in runs if run.file)
    file = next(run.file for run in runs if run.file)
    alone = sum(scripts.drawn(scripts.Run(letter, file, runs[0].rightward)).width for letter in title if letter != " ")
    joins = script in ("devanagari", "arabic")
    assert whole > 0 and (abs(whole - alone) > 0.05 if joins else abs(whole - alone) < 0.4)


def test_what_is_hollow_in_a_letter_stays_white() -> None:
    if not system_fonts.with_letter("日"):
        pytest.skip("no Chinese font on this machine")
    page = page_description(40.0, 40.0, [Label("日", 5.0, 35.0, 30.0)])
    leaf = Leaf(40.0, 40.0, above=(Shown(0),))
    document = pdfium.PdfDocument(pdf_document([page], [leaf], About("t", "zh")))
    dots = np.asarray(document[0].render(scale=4, grayscale=True).to_numpy())
    dark = dots < 128
    rows, columns = np.nonzero(dark)
    inside = dark[rows.min() : rows.max(), columns.min() : columns.max()]
    assert 0.15 < inside.mean() < 0.6
