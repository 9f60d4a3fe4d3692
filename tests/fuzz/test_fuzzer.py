"""The fuzzer itself: the same number gives the same case, what may not be is noticed, and limits are kept."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import pytest

from draft.command.main import REPORT
from tests.fuzz import corpus
from tests.fuzz.cases import KINDS, Case, case_of
from tests.fuzz.hunting import hunt
from tests.fuzz.judging import Ran, faults_of
from tests.fuzz.pool import Worker
from tests.fuzz.shrinking import shrunk

PACK = ("pack", "a.piece", "--out", "out")


@pytest.mark.parametrize("kind", KINDS)
def test_a_case_is_made_again_from_its_number(kind: str) -> None:
    assert case_of(kind, 7) == case_of(kind, 7)
    assert len({str(case_of(kind, number)) for number in range(8)}) > 4


def test_what_is_allowed_is_no_fault(tmp_path: Path) -> None:
    for ran in (Ran(0, "a\tb\n", ""), Ran(1, "", "error: no\n"), Ran(2, "", "Usage: plainseam\n")):
        assert list(faults_of(PACK, ran, tmp_path)) == []


@pytest.mark.parametrize(
    ("ran", "key"),
    [
        (Ran(-1, "", "", ZeroDivisionError()), "raised ZeroDivisionError"),
        (Ran(1, "", ""), "says nothing"),
        (Ran(2, "", "error: no"), "without usage"),
        (Ran(3, "", ""), "exit code 3"),
        (Ran(1, "", f"error: no\n  {REPORT}"), "says `"),
        (Ran(0, "", "Traceback (most recent call last):"), "says `Traceback"),
        (Ran(0, "", "a.py:3: RuntimeWarning: overflow"), "RuntimeWarning"),
        (Ran(0, "a\x1b[2J", ""), "echoes controls"),
        (Ran(1, "", "there is no `\u202e`"), "echoes controls"),
        (Ran(0, "\udc9b", ""), "echoes controls"),
    ],
)
def test_what_is_said_and_may_not_be_is_noticed(ran: Ran, key: str, tmp_path: Path) -> None:
    (fault,) = faults_of(PACK, ran, tmp_path)
    assert key in fault.key


@pytest.mark.parametrize(
    ("name", "data", "code", "key"),
    [
        (".plainseam-x", b"a", 0, "half done"),
        ("out/a.csv", b"a", 1, "fails and writes"),
        ("out/a.csv", b"", 0, "empty"),
        ("out/a.csv", b"\xff", 0, "UnicodeDecodeError"),
        ("out/a.svg", b"<svg>", 0, "ParseError"),
        ("out/a.svg", b'<svg><path d="M 1,nan L 2,3"/></svg>', 0, "not a number"),
        ("out/a.pdf", b"%PDF-1.7", 0, "PdfError"),
        ("out/a\u202e.csv", b"a", 0, "its name"),
    ],
)
def test_what_is_left_and_may_not_be_is_noticed(name: str, data: bytes, code: int, key: str, tmp_path: Path) -> None:
    place = tmp_path / name
    place.parent.mkdir(exist_ok=True)
    place.write_bytes(data)
    keys = [fault.key for fault in faults_of(PACK, Ran(code, "", "error: no"), tmp_path)]
    assert len(keys) == 1 and key in keys[0]


TELLS = ("walk", "--json", "a.piece")


def _document(code: int, **more: object) -> str:
    return json.dumps({"verb": "walk", "exit_code": code, "notes": [], **more})


def test_one_sound_document_is_no_fault(tmp_path: Path) -> None:
    for ran in (
        Ran(0, _document(0), ""),
        Ran(1, _document(1, notes=[{"message": "no"}]), ""),
        Ran(2, _document(2, mistake="no"), ""),
    ):
        assert list(faults_of(TELLS, ran, tmp_path)) == []


@pytest.mark.parametrize(
    "ran",
    [
        Ran(0, "walked\n" + _document(0), ""),
        Ran(0, _document(0) * 2, ""),
        Ran(0, "", ""),
        Ran(0, _document(1), ""),
        Ran(1, _document(1), "error: no"),
        Ran(2, _document(2, notes=[{"message": "no"}]), "Usage:"),
        Ran(0, _document(0, ease_mm=float("nan")), ""),
        Ran(0, "[]", ""),
    ],
)
def test_what_a_program_cannot_read_is_noticed(ran: Ran, tmp_path: Path) -> None:
    (fault,) = faults_of(TELLS, ran, tmp_path)
    assert "walk tells a program" in fault.key


def test_a_pack_that_is_not_as_a_batch_says_is_noticed(tmp_path: Path) -> None:
    packs = tmp_path / "packs"
    packs.mkdir()
    (packs / "orders.json").write_text("{}")
    (packs / "a.pdf").write_bytes(b"a")
    (packs / "SHA256SUMS").write_text(f"{hashlib.sha256(b'a').hexdigest()}  a.pdf\n")
    orders = ("orders", "a.csv", "--out", "packs")
    assert list(faults_of(orders, Ran(0, "made", ""), tmp_path)) == []
    (packs / "a.pdf").write_bytes(b"b")
    assert list(faults_of(orders, Ran(0, "no more as they were made: a", ""), tmp_path)) == []
    (fault,) = faults_of(orders, Ran(0, "made", ""), tmp_path)
    assert (fault.key, fault.words) == ("orders leaves a file that is not as it says", "a.pdf")


def test_what_befalls_a_start_is_done(tmp_path: Path) -> None:
    damage = Case("orders", 0, {"a.csv": b"a,b\n1,2\n"}, (("damaged", "a.csv"), ("damaged", "b.csv")), "")
    kill = Case("orders", 0, {}, (("killed", "0.2", "shelf"), ("words", "notch")), "")
    with Worker() as worker:
        assert worker.ask(damage)[:2] == ([], [("damaged", 0)] * 2)
        assert worker.ask(kill)[:2] == ([], [("killed", 0), ("words", 0)])


def test_a_draft_is_kept_within_a_case_and_no_longer() -> None:
    piece = next(text for text in corpus.good() if "chart" in text.text)
    files = {**dict(piece.beside), piece.name: piece.text.encode()}
    twice = Case("outputs", 1, files, (("walk", piece.name), ("walk", piece.name)), piece.name)
    with Worker() as worker:
        assert worker.ask(twice)[0] == []
        (_, codes, _) = worker.ask(twice.with_odd(b"piece\n"))
        assert [code for _, code in codes] == [1, 1]


def test_a_command_that_takes_too_long_or_too_much_is_ended_and_the_next_is_answered() -> None:
    long = Case("texts", 0, {}, (("lay", "lockside", "--effort", "long"),), "")
    with Worker(seconds=0.5) as worker:
        ((fault,), _, _) = worker.ask(long)
        assert (fault.key, fault.command) == ("lay: ended by SIGXCPU", 0)
        assert worker.ask(Case("texts", 1, {}, (("words", "notch"),), ""))[:2] == ([], [("words", 0)])
    with Worker(memory=1_000_000) as worker:
        faults, _, _ = worker.ask(Case("texts", 0, {}, (("walk", "marlpit"),), ""))
        assert faults


def test_a_few_cases_are_counted() -> None:
    found = hunt("charts", 0, 4, workers=2)
    assert (found.cases, found.found) == (4, {})
    assert found.codes.total() >= 4 and "4 cases" in str(found)


def test_only_the_lines_that_matter_stay() -> None:
    data = b"\n".join(str(k).encode() for k in range(100))
    assert shrunk(data, lambda tried: {b"17", b"63"} <= set(tried.split(b"\n"))) == b"17\n63"
    assert shrunk(data, lambda tried: tried == data) == data
