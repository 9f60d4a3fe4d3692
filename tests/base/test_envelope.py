"""An envelope is exactly what would be written, or is refused with a word; an archiver that is not ours reads it."""

from __future__ import annotations

import hashlib
import io
import struct
import tomllib
import zipfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.disk import files_in, is_beside, is_file, is_there
from draft.base.envelope import LARGEST_FILE, Envelope, envelope_bytes, envelope_of, opened, within
from draft.base.envelope_rules import CONTENTS, alike, wrong_name
from draft.base.notes import Problems
from draft.base.output import replace_file
from draft.base.textfile import read_data, read_source
from draft.base.zipped import MOST_FILES, ZipError, unzipped, zip_bytes

HELD = {"a.piece": b"pattern a\n", "b\u00fcste.csv": b"measure,unit,M\n", "c.svg": bytes(range(256))}
MADE = envelope_bytes(Envelope("a.piece", HELD))


def test_the_standard_librarys_archiver_reads_it_and_finds_it_whole() -> None:
    """The zip module of Python is the outside check: names, contents, checksums, nothing packed."""
    archive = zipfile.ZipFile(io.BytesIO(MADE))
    assert archive.testzip() is None
    assert archive.namelist() == [CONTENTS, *sorted(HELD)]
    assert {name: archive.read(name) for name in HELD} == HELD
    assert {entry.compress_type for entry in archive.infolist()} == {zipfile.ZIP_STORED}
    listed = tomllib.loads(archive.read(CONTENTS).decode())
    assert listed["opens"] == "a.piece"
    assert listed["sha256"] == {name: hashlib.sha256(data).hexdigest() for name, data in HELD.items()}


def test_the_same_files_give_the_same_bytes_in_any_order() -> None:
    assert envelope_bytes(Envelope("a.piece", dict(reversed(HELD.items())))) == MADE
    assert envelope_of(MADE) == Envelope("a.piece", HELD)


def repacked(change: str) -> bytes:
    """The same files as somebody else's program packs them, or packed so as to do harm."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED if change == "deflated" else zipfile.ZIP_STORED) as archive:
        archive.writestr(CONTENTS, zipfile.ZipFile(io.BytesIO(MADE)).read(CONTENTS))
        for name, data in HELD.items():
            archive.writestr(name, data)
        if change == "twice":
            with pytest.warns(UserWarning, match="Duplicate"):
                archive.writestr("a.piece", b"other")
        if change == "bomb":
            archive.writestr("d.svg", b"\0" * 5_000_000, zipfile.ZIP_DEFLATED)
        if change == "link":
            entry = zipfile.ZipInfo("d.svg")
            entry.external_attr = 0o120777 << 16
            archive.writestr(entry, "/etc/passwd")
    return out.getvalue()


@pytest.mark.parametrize("change", ["same", "deflated", "twice", "bomb", "link"])
def test_what_another_program_packed_is_refused(change: str) -> None:
    with pytest.raises(ZipError, match=r"another program|no zip"):
        envelope_of(repacked(change))


def with_entry(name: str, data: bytes = b"x") -> bytes:
    """An envelope with one more file that nobody would put in, its list as if it belonged there."""
    files = dict(sorted({**HELD, name: data}.items()))
    lines = "".join(f'"{n}" = "{hashlib.sha256(d).hexdigest()}"\n' for n, d in files.items())
    return zip_bytes({CONTENTS: f'envelope = 1\nopens = "a.piece"\n\n[sha256]\n{lines}'.encode(), **files})


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("../out.piece", "leads to another folder"),
        ("/etc/x.csv", "leads to another folder"),
        ("sub/x.csv", "leads to another folder"),
        ("sub\\x.csv", "leads to another folder"),
        ("C:x.csv", "cannot stand on every system"),
        ("con.csv", "cannot stand on every system"),
        ("COM1.piece", "cannot stand on every system"),
        (".hidden.csv", "cannot stand on every system"),
        ("x.csv ", "cannot stand on every system"),
        ("x\n.csv", "letters that cannot be seen"),
        ("x\u202egvs.csv", "letters that cannot be seen"),
        ("u\u0308.csv", "not written in the usual form"),
        ("x.exe", "is none of"),
        ("x.envelope", "is none of"),
        ("y" * 300 + ".csv", "is longer than"),
        ("A.piece", "side by side"),
        ("\uff41.piece", "side by side"),
        ("CONTENTS.toml", "side by side"),
    ],
)
def test_a_name_that_could_do_harm_is_refused(name: str, why: str) -> None:
    with pytest.raises(ZipError, match=why):
        envelope_of(with_entry(name))
    with pytest.raises(ZipError, match=why):
        envelope_bytes(Envelope("a.piece", {**HELD, name: b"x"}))


def test_what_is_too_much_is_refused() -> None:
    with pytest.raises(ZipError, match="over 1 MB"):
        envelope_bytes(Envelope("a.piece", {**HELD, "d.svg": bytes(LARGEST_FILE + 1)}))
    with pytest.raises(ZipError, match="more than"):
        envelope_of(zip_bytes({f"{k}.csv": b"" for k in range(MOST_FILES + 1)}))
    with pytest.raises(ZipError, match="over 20 MB"):
        envelope_bytes(Envelope("a.piece", {**HELD, **{f"{k}.svg": bytes(LARGEST_FILE) for k in range(20)}}))


def test_a_changed_file_or_list_is_noticed() -> None:
    files = dict(unzipped(MADE))
    for changed in (
        {**files, "a.piece": b"pattern b\n"},
        {name: data for name, data in files.items() if name != "c.svg"},
        {CONTENTS: files[CONTENTS].replace(b"envelope = 1", b"envelope = 2"), **HELD},
        {CONTENTS: files[CONTENTS] + b'note = "more"\n', **HELD},
        {CONTENTS: b"\xff", **HELD},
        {CONTENTS: files[CONTENTS].replace(b'opens = "a.piece"', b'opens = "c.svg"'), **HELD, "d.csv": b""},
        dict(HELD),
    ):
        with pytest.raises(ZipError):
            envelope_of(zip_bytes(changed))


def test_locked_overlapping_and_torn_zips_are_refused() -> None:
    locked = bytearray(MADE)
    struct.pack_into("<H", locked, 6, 0x0801)
    with pytest.raises(ZipError, match="password"):
        envelope_of(bytes(locked))
    second = MADE.index(b"PK\x01\x02", MADE.index(b"PK\x01\x02") + 1)
    overlapping = bytearray(MADE)
    struct.pack_into("<I", overlapping, second + 42, 0)
    for data in (
        bytes(overlapping),
        MADE + b"more",
        b"more" + MADE,
        MADE + MADE,
        MADE[:-1],
        MADE[: len(MADE) // 2],
        b"",
    ):
        with pytest.raises(ZipError):
            envelope_of(data)


@settings(max_examples=400, deadline=None)
@given(st.data())
def test_mutated_bytes_are_the_same_envelope_or_refused(data: st.DataObject) -> None:
    """Nothing but a `ZipError` ever comes of bytes, and no change of any byte is let through."""
    found = bytearray(MADE)
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(found) - 1))
        how = data.draw(st.sampled_from(["set", "cut", "add", "copy"]))
        if how == "set":
            found[at] = data.draw(st.integers(0, 255))
        elif how == "cut":
            del found[at : at + data.draw(st.integers(1, 40))]
        elif how == "add":
            found[at:at] = data.draw(st.binary(max_size=40))
        else:
            found[at:at] = MADE[: data.draw(st.integers(1, len(MADE)))]
        found = found or bytearray(b"P")
    try:
        assert envelope_of(bytes(found)) == Envelope("a.piece", HELD) and bytes(found) == MADE
    except ZipError:
        assert bytes(found) != MADE


@settings(max_examples=200, deadline=None)
@given(st.dictionaries(st.text(max_size=12), st.binary(max_size=60), max_size=5))
def test_whatever_is_put_in_comes_out_or_is_refused(files: dict[str, bytes]) -> None:
    wrong = any(wrong_name(name) for name in files) or alike((CONTENTS, *files)) or not files
    try:
        made = envelope_bytes(Envelope(next(iter(files), ""), files))
    except ZipError:
        assert wrong
    else:
        assert not wrong and envelope_of(made).files == files


def test_paths_lead_into_it_as_into_a_folder(tmp_path: Path) -> None:
    place = tmp_path / "a.envelope"
    place.write_bytes(MADE)
    assert within(place / "a.piece") == place and within(place) is None
    assert is_file(place / "a.piece") and is_there(place / "c.svg") and is_beside(place / "a.piece", place)
    assert not is_file(place / "no.piece") and not is_there(place / "no.piece")
    assert [file.name for file in files_in(place, ".csv")] == ["b\u00fcste.csv"]
    source = read_source(place / "a.piece", "pattern")
    assert (source.name, source.place_name) == ("a.piece", "a.envelope/a.piece")
    with pytest.raises(Problems, match=r"there is no pattern `.*no.piece`"):
        read_data(place / "no.piece", "pattern")
    with pytest.raises(Problems, match="is an envelope and no pattern"):
        read_data(place, "pattern")
    with pytest.raises(Problems, match="read and never changed"):
        replace_file(place / "a.piece", b"")
    assert list(tmp_path.iterdir()) == [place]


def test_a_folder_may_be_called_so_too(tmp_path: Path) -> None:
    (tmp_path / "a.envelope").mkdir()
    (tmp_path / "a.envelope" / "a.piece").write_text("pattern a\n")
    assert is_file(tmp_path / "a.envelope" / "a.piece") and within(tmp_path / "a.envelope" / "a.piece") is None


def test_one_that_is_written_anew_is_read_anew(tmp_path: Path) -> None:
    place = tmp_path / "a.envelope"
    place.write_bytes(MADE)
    assert opened(place).files == HELD
    place.unlink()
    place.write_bytes(envelope_bytes(Envelope("b.piece", {"b.piece": b""})))
    assert opened(place).opens == "b.piece"
    place.write_bytes(b"PK")
    with pytest.raises(Problems, match="is not opened: it is no zip"):
        opened(place)
