"""The fuzzer itself: the same number gives the same case, what may not be is noticed, and limits are kept."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.command.main import REPORT
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


def test_a_command_that_takes_too_long_or_too_much_is_ended_and_the_next_is_answered() -> None:
    long = Case("texts", 0, {}, (("lay", "marlpit", "--effort", "long"),), "")
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
