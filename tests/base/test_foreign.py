"""A file of somebody else's that bears the name of one of ours is not written over."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.base.notes import Problems
from draft.base.output import write_folder

_PDF, _TABLE = b"%PDF-1.7 (plainseam)", b"measurement,unit,S\nbust,cm,92\n"

_PAGE = (
    b"<!DOCTYPE html>\n<style>:root{color-scheme:light dark}\n"
    b"body{margin:0 auto;padding:1rem;max-width:42rem;font:1.06rem/1.55 system-ui,sans-serif;color:#111}</style>"
)
"""How the first booklets for the screen began."""


@pytest.mark.parametrize(
    ("name", "theirs", "ours"),
    [
        ("booklet.pdf", b"%PDF-1.4 my own book", _PDF),
        ("tables/ease.csv", b"date,sum\n1,2\n", _TABLE),
        ("booklet.pdf", b"\n", _PDF),
        ("booklet.html", b"<!DOCTYPE html>\n<style>body{}</style>", b"<!DOCTYPE html> plainseam"),
    ],
)
def test_it_is_told_and_nothing_is_changed(tmp_path: Path, name: str, theirs: bytes, ours: bytes) -> None:
    (tmp_path / name).parent.mkdir(exist_ok=True)
    (tmp_path / name).write_bytes(theirs)
    with pytest.raises(Problems) as caught:
        write_folder(tmp_path, {"other.svg": b"<svg>plainseam</svg>", name: ours})
    (note,) = caught.value.notes
    assert f"{name}` is there and was not made by plainseam" in note.message and "--out" in note.hints[0]
    assert (tmp_path / name).read_bytes() == theirs and not (tmp_path / "other.svg").exists()


@pytest.mark.parametrize(
    ("name", "before", "now"),
    [
        ("booklet.pdf", _PDF + b" of yesterday", _PDF),
        ("ease.csv", _TABLE + b"waist,cm,74\n", _TABLE),
        ("cut.svg", b"", b"<svg>plainseam</svg>"),
        ("cut.svg", b"<svg/>", b"<svg/>"),
        ("booklet.html", _PAGE, _PAGE.replace(b"<style>", b"<meta name=generator content=plainseam><style>")),
    ],
)
def test_what_an_earlier_run_wrote_is_written_anew(tmp_path: Path, name: str, before: bytes, now: bytes) -> None:
    (tmp_path / name).write_bytes(before)
    write_folder(tmp_path, {name: now})
    assert (tmp_path / name).read_bytes() == now
