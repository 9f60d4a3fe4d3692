"""Whether what came of a command is allowed: done, told notes, or told to be used wrongly, and nothing half done."""

from __future__ import annotations

import hashlib
import json
import re
import traceback
import unicodedata
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from xml.etree import ElementTree

from draft.command.main import REPORT
from draft.command.told_as_data import HELP, OPTION
from tests.fuzz.disturbing import KILLED

DRAFT = "draft"
BOTH = ("draft", "walk", "tidy", "true", "try", "orders", "cut", KILLED)
"""They may write or say all that there is and exit with 1."""
NO_NUMBER = re.compile(rb'\b(?:d|points|x|y|x1|y1|x2|y2|cx|cy|r|transform|viewBox|width|height)="[^"]*\b(?:nan|inf)\b')


@dataclass(frozen=True)
class Ran:
    """What a command gave: its exit code, or the exception that it let through, and what it said."""

    code: int
    out: str
    err: str
    raised: BaseException | None = None


@dataclass(frozen=True)
class Fault:
    """Something that may not be: `key` is the same for what has the same cause, `words` tell more."""

    key: str
    words: str
    command: int = 0


def faults_of(command: tuple[str, ...], ran: Ran, folder: Path) -> Iterator[Fault]:
    """What is wrong with a run, and with the files that it left in its folder."""
    if ran.raised is not None:
        words = "".join(traceback.format_exception(ran.raised))
        yield Fault(f"raised {type(ran.raised).__name__} in {_place(ran.raised)}", words[-6000:])
        return
    yield from _said(command, ran)
    yield from _left(command, ran, folder)


def _said(command: tuple[str, ...], ran: Ran) -> Iterator[Fault]:
    said = ran.out + ran.err
    if ran.code not in (0, 1, 2):
        yield Fault(f"exit code {ran.code}", said)
    if OPTION in command and not any(map(HELP.fullmatch, command)):
        yield from _told(command, ran)
        said = ran.err
    else:
        if ran.code == 2 and "Usage:" not in ran.err:
            yield Fault("exit code 2 without usage", said)
        if (
            ran.code == 1
            and not (ran.err.strip() or (command[0] in ("orders", "sit") and ran.out))
            and command[0] != "tidy"
        ):
            yield Fault(f"{command[0]} exits with 1 and says nothing", said)
    for words in (REPORT, "Traceback (most recent", "stopped; nothing was written"):
        if words in said:
            yield Fault(f"says `{words[:30]}`", said[-3000:])
    if found := re.search(r"\b[A-Z]\w*Warning: ", said):
        yield Fault(f"says `{found[0]}`", said[-3000:])
    odd = {c for c in set(said) if c not in "\n\t" and unicodedata.category(c) in ("Cc", "Cf", "Cs", "Zl", "Zp")}
    if odd:
        yield Fault(f"{command[0]} echoes controls", f"{sorted(odd)!r}\n{said[:3000]!r}")


def _told(command: tuple[str, ...], ran: Ran) -> Iterator[Fault]:
    """What is wrong with the one document that a program is told."""
    try:
        told = json.loads(ran.out, parse_constant=_no_number)
        assert told["exit_code"] == ran.code, "another exit code"
        assert ran.code != 2 or told["mistake"], "no mistake"
        says = {"notes", "mistake", "causes", "rows", "refused", "joins", "garments"}
        assert ran.code != 1 or any(told.get(key) for key in says), "nothing is told"
    except (ValueError, KeyError, TypeError, AssertionError) as reason:
        yield Fault(
            f"{command[0]} tells a program {type(reason).__name__}", f"{reason}\n{ran.out[:3000]}\n{ran.err[:3000]}"
        )


def _no_number(word: str) -> float:
    raise ValueError(f"{word} is no number")


def _left(command: tuple[str, ...], ran: Ran, folder: Path) -> Iterator[Fault]:
    if command[0] == KILLED:
        return  # the next start has to put in order what this one left
    if left := [str(path) for path in folder.rglob(".plainseam-*")]:
        yield Fault("left something half done", "\n".join(left))
    out = folder / "out"
    if ran.code and out.exists() and command[0] not in BOTH:
        yield Fault(f"{command[0]} fails and writes", ran.err)
    if command[0] == "orders" and "no more as they were made" not in ran.out:
        yield from _packs(folder / "packs")
    if command[0] == "envelope":
        return  # what it takes out is as somebody put it in
    for path in sorted(out.rglob("*")):
        if path.is_file() and path.name != "SHA256SUMS" and (why := _unsound(path)):
            yield Fault(f"{command[0]} writes an unsound {path.suffix}: {why[:50]}", f"{path.name}: {why}")


def _packs(folder: Path) -> Iterator[Fault]:
    """What a batch says that it made is there, to the byte, unless it says itself that somebody has changed it."""
    table, sums = folder / "orders.json", folder / "SHA256SUMS"
    if not (table.exists() and sums.exists()):
        return
    told = "orders.json" if _unsound(table) else ""
    lines = sums.read_text("utf-8", "replace").splitlines()
    for digest, _, name in (line.partition("  ") for line in lines):
        place = folder / name
        if not place.is_file() or hashlib.sha256(place.read_bytes()).hexdigest() != digest:
            told = name
    if told:
        yield Fault("orders leaves a file that is not as it says", told)


def _unsound(path: Path) -> str:
    """Why nobody could use a file that was written; nothing where it is sound."""
    data = path.read_bytes()
    if not data:
        return "empty"
    if any(unicodedata.category(c) in ("Cc", "Cf", "Cs") for c in path.name):
        return f"its name is {path.name!r}"
    try:
        _read(path, data)
    except Exception as reason:
        return f"{type(reason).__name__}: {reason}"
    return "not a number" if path.suffix == ".svg" and NO_NUMBER.search(data) else ""


def _read(path: Path, data: bytes) -> None:
    if path.suffix == ".svg":
        ElementTree.fromstring(data)
    elif path.suffix == ".csv":
        data.decode()
    elif path.suffix == ".json":
        json.loads(data, parse_constant=_no_number)
    elif path.suffix in (".zip", ".epub"):
        with zipfile.ZipFile(path) as held:
            assert held.testzip() is None
    elif path.suffix == ".pdf":
        import pikepdf

        with pikepdf.open(path) as document:
            assert len(document.pages), "it has no pages"
    elif path.suffix == ".dxf":
        import ezdxf

        ezdxf.readfile(path)


def _place(raised: BaseException) -> str:
    """The last function of ours that it came through."""
    frames = traceback.extract_tb(raised.__traceback__)
    ours = [frame for frame in frames if f"/{DRAFT}/" in frame.filename.replace("\\", "/")] or list(frames)
    return f"{Path(ours[-1].filename).name}:{ours[-1].name}" if ours else "nowhere"
