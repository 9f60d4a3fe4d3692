"""What DXF takes for codes is shown as it was written."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from ezdxf import recover
from ezdxf.lldxf.encoding import decode_dxf_unicode
from ezdxf.tools.text import plain_text

from draft.exchange.dxf import dxf_files
from draft.exchange.dxf_text import dxf_text
from tests.exchange.made_up import smock

WRITTEN = [
    "Smock", "50%%d", "%%", "%%%", "%%%%c", "100 %", "85%", "a^Jb", "^", "^ x", r"one\Ptwo", r"\U+0041", r"\u+0041",
    r"\\U+0041", r"{\fArial;x}", "%%u under %%o over", "%%065", "é Łódź", "<b>&amp;",
]  # fmt: skip


@pytest.mark.parametrize("text", WRITTEN)
def test_codes_are_shown_as_they_were_written(text: str) -> None:
    assert plain_text(decode_dxf_unicode(dxf_text(text))).rstrip(" ") == text


def test_a_code_of_two_signs_that_nothing_takes_back_is_parted_by_a_blank() -> None:
    assert dxf_text(r"a\M+12345") == r"a\ M+12345"


def test_letters_beyond_the_first_plane_are_two_halves_and_what_cannot_be_seen_is_a_blank() -> None:
    assert dxf_text("a😀\n\x1bb") == "a\\U+D83D\\U+DE00  b"


@pytest.mark.parametrize("text", WRITTEN)
def test_a_file_read_back_says_what_was_written(tmp_path: Path, text: str) -> None:
    garment = smock()
    (data, *_) = dxf_files(replace(garment, title=text, maker=text, sizes=(text, *garment.sizes[1:]))).values()
    (tmp_path / "M.dxf").write_bytes(data)
    document, _ = recover.readfile(tmp_path / "M.dxf")  # the reader that knows letters by their numbers
    spaces = [document.modelspace(), *document.blocks]
    said = {plain_text(one.dxf.text).rstrip(" ") for space in spaces for one in space.query("TEXT")}
    assert {f"Style Name: {text}", f"Author: {text}", f"Sample Size: {text}", f"Size: {text}"} <= said
