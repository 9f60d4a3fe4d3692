"""A version released: what is in it, that it is made once and of inputs as they were, and what has changed since."""

from __future__ import annotations

import errno
import hashlib
import io
import json
import os
import subprocess
import sys
import zipfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from draft.base import output
from draft.base.alone import PREFIX
from draft.base.notes import Problems
from draft.drafting.checked import draft_and_check
from draft.drafting.request import Request
from draft.release.listing_pictures import as_png
from draft.release.release_record import in_order
from draft.release.releasing import Asked, Released, release
from tests.command.run import Runner
from tests.release.publishing_studio import FIRST, ROOMIER, SECOND, publishing_studio, write_version


def _files(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def _release(folder: Path, **asked: object) -> Released:
    return release(str(folder / "gorse.piece"), folder / "out", Asked(**asked))  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def studio(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with version 1.0 released, and then 1.1 with roomier sleeves."""
    folder = publishing_studio(tmp_path_factory.mktemp("withy"))
    assert _release(folder).made
    write_version(folder, "1.1", SECOND + FIRST, ROOMIER)
    found = _release(folder)
    assert found.made and found.since == folder / "out" / "gorse-1.0"
    return folder


@pytest.fixture(scope="module")
def first(studio: Path) -> Mapping[str, bytes]:
    return _files(studio / "out" / "gorse-1.0")


@pytest.fixture(scope="module")
def second(studio: Path) -> Mapping[str, bytes]:
    return _files(studio / "out" / "gorse-1.1")


def test_a_release_holds_packs_listing_archive_inputs_and_checksums(first: Mapping[str, bytes]) -> None:
    assert {"packs/en/pattern-a4.pdf", "packs/en/booklet.html", "changes/changes-en.md", "source/gorse.envelope"} < set(
        first
    )
    pictures = {
        f"listing/en/{name}.{kind}"
        for name in ("flat", "pieces", "sizes", "finished", "cloth")
        for kind in ("svg", "png")
    }
    assert pictures < set(first)
    listed = dict(line.split("  ")[::-1] for line in first["SHA256SUMS"].decode().splitlines())
    assert listed == {name: hashlib.sha256(data).hexdigest() for name, data in first.items() if name != "SHA256SUMS"}


def test_the_archive_is_a_plain_zip_of_what_is_sold(first: Mapping[str, bytes]) -> None:
    with zipfile.ZipFile(io.BytesIO(first["gorse-1.0-en.zip"])) as found:
        assert found.testzip() is None
        held = {name: found.read(name) for name in found.namelist()}
    sold = {name.removeprefix("packs/en/"): data for name, data in first.items() if name.startswith("packs/en/")}
    sold["changes-en.md"] = first["changes/changes-en.md"]
    assert held == {f"gorse-1.0-en/{name}": data for name, data in sold.items()}


def test_pictures_are_of_one_set_size(first: Mapping[str, bytes]) -> None:
    pixels = [Image.open(io.BytesIO(data)) for name, data in first.items() if name.endswith(".png")]
    assert {picture.size for picture in pixels} == {(2100, 2100)}
    for picture in pixels:  # something is drawn, and most of it is white
        grey = np.asarray(picture.convert("L"))
        assert 0.5 < (grey > 250).mean() < 0.999
    assert b"test-inch" not in first["listing/en/pieces.svg"]  # no square that somebody might measure


def test_the_listing_says_what_the_draft_is(studio: Path, first: Mapping[str, bytes]) -> None:
    text = first["listing/en/listing.md"].decode()
    assert text.startswith("# Gorse top\n\nBy Withy Bank Patterns · Version 1.0 · Sizes M – L\n")
    write_version(studio, "1.0", FIRST)
    garment = draft_and_check(Request(str(studio / "gorse.piece"))).garment
    for finished in garment.finished[:3]:
        name = f"| {finished.name.capitalize()}, around, cm |"
        row = next(line for line in text.splitlines() if line.startswith(name))
        shown = [float(cell) for cell in row.split("|")[2:-1]]
        assert shown == pytest.approx(list(np.asarray(finished.values) / 10), abs=0.05)
    for part in (
        "## Body measures",
        "## How much cloth",
        "## Notions",
        "## What you get",
        "## Terms of use",
        "![The pieces](pieces.png)",
    ):
        assert part in text


@pytest.mark.slow
def test_the_same_inputs_make_the_same_bytes_of_what_has_changed_too(
    second: Mapping[str, bytes], tmp_path: Path
) -> None:
    folder = publishing_studio(tmp_path / "elsewhere")
    _release(folder)
    write_version(folder, "1.1", SECOND + FIRST, ROOMIER)
    _release(folder)
    assert _files(folder / "out" / "gorse-1.1") == second


def test_a_release_is_made_once(studio: Path, first: Mapping[str, bytes]) -> None:
    write_version(studio, "1.0", FIRST)
    assert not _release(studio).made
    write_version(studio, "1.0", FIRST, ROOMIER)
    with pytest.raises(Problems, match=r"version 1\.0 of `gorse` is released already, of other files: `gorse\.piece`"):
        _release(studio)
    write_version(studio, "1.0", FIRST)
    with pytest.raises(Problems, match="is released already, in other languages or on other paper"):
        _release(studio, languages=("de",))
    assert _files(studio / "out" / "gorse-1.0") == first


def test_a_release_that_was_changed_is_told(studio: Path, first: Mapping[str, bytes]) -> None:
    write_version(studio, "1.0", FIRST)
    file = studio / "out" / "gorse-1.0" / "listing" / "en" / "listing.md"
    file.write_text("sold out", encoding="utf-8")
    try:
        with pytest.raises(Problems, match=r"is there, but not as it was made: `listing/en/listing\.md`"):
            _release(studio)
    finally:
        file.write_bytes(first["listing/en/listing.md"])


def test_what_has_changed_is_told_by_piece_size_and_page(studio: Path, second: Mapping[str, bytes]) -> None:
    text = second["changes/changes-en.md"].decode()
    assert "- Version 1.1, 2026-05-04: More room in the sleeves." in text
    assert "## Version 1.1, compared with 1.0" in text
    assert "Version 1.1, 2026-05-04" in second["packs/en/booklet.html"].decode()
    told = {line.split(":")[0]: line for line in text.splitlines() if "Print it again" in line}
    assert set(told) == {"- Front", "- Back", "- Sleeve band"}
    assert "- As they were: Neckband." in text and "- A4: " in text
    record = json.loads(second["release.json"])
    assert (record["since"], record["day"], record["version"]) == ("gorse-1.0", "2026-05-04", "1.1")
    assert {"changes/compare.csv", "changes/en/compare-M.svg", "changes/en/compare-L.svg"} < set(second)


@pytest.mark.parametrize(
    ("version", "notes", "fact"),
    [
        ("2.0", FIRST, "does not say what version 2.0 has changed since `gorse-1.1`"),
        ("../2", FIRST, "version `../2` cannot name a folder"),
        ("", FIRST, "does not say which version it is"),
    ],
)
def test_a_version_that_cannot_be_released_is_told(studio: Path, version: str, notes: str, fact: str) -> None:
    before = _files(studio / "out")
    write_version(studio, version, notes)
    with pytest.raises(Problems) as caught:
        _release(studio)
    assert fact in caught.value.notes[0].message and caught.value.notes[0].hints
    assert _files(studio / "out") == before


def test_the_same_inputs_make_the_same_bytes_also_where_they_are_edited_meanwhile(
    first: Mapping[str, bytes], tmp_path: Path
) -> None:
    folder = publishing_studio(tmp_path / "edited")

    def edit(_: str) -> None:
        (folder / "gorse.piece").write_text("pattern broken\n", encoding="utf-8")
        (folder / "withy.svg").write_text("<svg", encoding="utf-8")

    release(str(folder / "gorse.piece"), folder / "out", Asked(), edit)
    assert _files(folder / "out" / "gorse-1.0") == first


def test_a_full_disk_leaves_nothing_half_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The system says so while a file is brought to the disk, as it does of one that is full."""
    folder = publishing_studio(tmp_path / "full")
    (folder / "studio.toml").write_text('name = "Withy"\npack = ["tables"]\ncloth = "150 cm"\n', encoding="utf-8")
    count = 0

    def sync(number: int) -> None:
        nonlocal count
        count += 1
        if count == 5:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(output.os, "fsync", sync)
    with pytest.raises(Problems, match="no space left on device; nothing was changed"):
        _release(folder)
    assert count == 5 and not (folder / "out").exists()
    assert not [path for path in folder.iterdir() if path.name.startswith(PREFIX)]


def test_versions_are_ordered_by_their_numbers() -> None:
    said = ["1.0", "1.0.1", "1.2", "1.9", "1.10", "2", "10.0"]
    assert sorted(["10.0", "1.10", "1.9", "2", "1.0.1", "1.2", "1.0"], key=in_order) == said


@pytest.mark.slow
def test_a_release_that_is_killed_leaves_nothing_half_made(first: Mapping[str, bytes], tmp_path: Path) -> None:
    """Killed at five moments, then left alone: the folder is that of an undisturbed run, and nothing else is there."""
    folder = publishing_studio(tmp_path / "killed")
    words = [sys.executable, "-m", "draft", "release", "gorse.piece", "--out", "out"]
    for seconds in (1.0, 2.5, 4.0, 5.5, 7.0):
        with subprocess.Popen(words, cwd=folder, stdout=subprocess.DEVNULL) as process:
            with suppress(subprocess.TimeoutExpired):
                process.wait(seconds)
            process.kill()
        assert not (folder / "out").exists() or _files(folder / "out" / "gorse-1.0") == first
    subprocess.run(words, cwd=folder, check=True, stdout=subprocess.DEVNULL)
    assert _files(folder / "out" / "gorse-1.0") == first
    assert not [path for path in folder.iterdir() if path.name.startswith(PREFIX)]


def test_a_program_is_told_where_it_is(
    studio: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    write_version(studio, "1.0", FIRST)
    ran = Runner(monkeypatch, capsys)("release", studio / "gorse.piece", "--out", studio / "out", "--json")
    said = json.loads(ran.out)
    assert (said["exit_code"], said["made"], Path(said["folder"]).name) == (0, False, "gorse-1.0")


def test_every_chart_of_a_pattern_is_released(tmp_path: Path) -> None:
    """A second chart was added in the second version: the first has none of that name, which is told."""
    folder = publishing_studio(tmp_path / "charts")
    (folder / "studio.toml").write_text('name = "Withy"\npack = ["tables"]\ncloth = "150 cm"\n', encoding="utf-8")
    _release(folder)
    (folder / "three.csv").write_text((folder / "two.csv").read_text("utf-8"), encoding="utf-8")
    write_version(folder, "1.1", '    chart petite "three.csv" "for a short stature"\n' + SECOND + FIRST)
    found = _release(folder)
    assert {"packs/en/tables/finished.csv", "packs/en-petite/tables/finished.csv", "gorse-1.1-petite-en.zip"} < set(
        found.files
    )
    listing = (found.folder / "listing" / "en-petite" / "listing.md").read_text("utf-8")
    assert listing.startswith("# Gorse top, petite\n")
    assert [note.message for note in found.notes if "since `gorse-1.0` is not known" in note.message]


def test_without_the_drawing_library_pictures_are_svg_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "cairosvg", None)
    with pytest.raises(ImportError):
        import cairosvg  # noqa: F401
    assert as_png(b'<svg xmlns="http://www.w3.org/2000/svg"/>') == b""


def test_a_place_that_cannot_be_is_told(studio: Path) -> None:
    with pytest.raises(Problems, match="cannot be written: file name too long"):
        release(str(studio / "gorse.piece"), studio / ("n" * 300), Asked())
