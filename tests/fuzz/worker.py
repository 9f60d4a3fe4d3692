"""The process that runs cases: it calls the command within itself, and may take so much time and memory and no more.

It is started by `pool`, reads cases on its standard input and answers each with what is wrong with it. Where a command
takes more time than it may, the system ends the process; which one is then in its file `now`, where it stood in `err`.
"""

from __future__ import annotations

import faulthandler
import os
import pickle
import random
import resource
import shutil
import signal
import sys
import tempfile
import time
import warnings
from collections.abc import Callable
from functools import partial
from pathlib import Path

from draft.command.main import main
from draft.sitting import sitting_of
from draft.sitting.sitting_of import Asked as Looked
from tests.fuzz.asking_editor import ask_editor
from tests.fuzz.cases import EDITOR, Case, case_of
from tests.fuzz.disturbing import DAMAGED, KILLED, disturb
from tests.fuzz.ends_cases import COARSE, EDGE
from tests.fuzz.judging import Fault, Ran, faults_of
from tests.fuzz.kept import ANEW, Kept
from tests.fuzz.page_asks import ASKS, answer_asks

MEMORY = 1_000_000_000
"""Bytes, of each process."""
SECONDS = 10.0
"""Of the processor, for each command; those of processes that it starts are counted too."""
LONGER = {"pictures": 2.0, "sits": 8.0, COARSE: 4.0}
"""A foreign picture is drawn in a process that may take as long alone; a garment is dressed in half a minute."""
CHANGES = ("tidy", "new", "envelope")
"""They may write a file that a later command reads."""

Answer = tuple[list[Fault], list[tuple[str, int]], float]
"""What is wrong, each command's verb with its exit code, and the longest time that one took, s."""


def serve(place: Path, seconds: float, memory: int) -> None:
    """Answer cases, given whole or by kind and number, until there are no more."""
    asked, answers = os.fdopen(os.dup(0), "rb"), os.fdopen(os.dup(1), "wb")
    _streams(place)
    warnings.simplefilter("error", RuntimeWarning)
    tempfile.tempdir = str(place / "temporary")
    Path(tempfile.tempdir).mkdir()
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
    faulthandler.register(signal.SIGXCPU, all_threads=True, chain=True)
    kept = Kept()
    while True:
        try:
            given = pickle.load(asked)
        except EOFError:
            return
        case = given if isinstance(given, Case) else case_of(*given)
        pickle.dump(_answer(case, place, seconds, kept), answers)
        answers.flush()


def _streams(place: Path) -> None:
    """Standard input is empty; what is said goes into two files."""
    null = os.open(os.devnull, os.O_RDONLY)
    os.dup2(null, 0)
    _said_into(place)
    sys.stdout = open(1, "w", encoding="utf-8", closefd=False)  # noqa: SIM115 - as long as the process
    sys.stderr = open(2, "w", encoding="utf-8", closefd=False)  # noqa: SIM115


def _said_into(place: Path) -> None:
    """Empty both files, and open them anew: a command that met an end of its memory has sent what it says nowhere."""
    for number, name in ((1, "out"), (2, "err")):
        file = os.open(place / name, os.O_RDWR | os.O_CREAT | os.O_APPEND | os.O_TRUNC)
        os.dup2(file, number)
        os.close(file)


def _coarsely(is_coarse: bool) -> None:
    """Have `sit` make a toile of large triangles, or of its own."""
    sitting_of.Asked = partial(Looked, edge=EDGE) if is_coarse else Looked  # type: ignore[assignment,misc]


def _answer(case: Case, place: Path, seconds: float, kept: Kept) -> Answer:
    folder = place / "case"
    keeps = random.Random(case.number).random() >= ANEW
    kept.forget(keeps)
    _coarsely(case.kind == COARSE)
    allowed = seconds * LONGER.get(case.kind, 1)
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    for name, data in case.files.items():
        (folder / name).write_bytes(data)
    os.chdir(folder)
    faults: list[Fault] = []
    codes: list[tuple[str, int]] = []
    longest = 0.0
    for k, command in enumerate(case.commands):
        shutil.rmtree(folder / "out", ignore_errors=True)
        (place / "now").write_text(str(k))
        before = _spent()
        ran = _run(command, place, case.number, allowed)
        spent = _spent() - before
        longest = max(longest, spent)
        codes.append((command[0], ran.code))
        if command[0] in CHANGES:
            kept.forget(keeps)
        found = [*faults_of(command, ran, folder), *_slow(command, spent, allowed)]
        faults += [Fault(fault.key, fault.words, k) for fault in found]
    os.chdir(place)
    return faults, codes, longest


def _slow(command: tuple[str, ...], spent: float, allowed: float) -> list[Fault]:
    return [Fault(f"{command[0]} takes too long", f"{spent:.1f} s")] if spent > allowed else []


def _spent() -> float:
    """Seconds of the processor: of this process, and of those that it started and that have ended."""
    use = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(one.ru_utime + one.ru_stime for one in use)


def _run(command: tuple[str, ...], place: Path, number: int, seconds: float) -> Ran:
    """One command within its limits."""
    _said_into(place)
    _, hard = resource.getrlimit(resource.RLIMIT_CPU)
    resource.setrlimit(resource.RLIMIT_CPU, (int(time.process_time() + seconds) + 1, hard))
    if command[0] == EDITOR:
        code, raised = _called(lambda: ask_editor(command[1], random.Random(number)))
    elif command[0] == ASKS:
        code, raised = _called(lambda: answer_asks(*command[1:]))
    elif command[0] in (DAMAGED, KILLED):
        code, raised = _called(lambda: disturb(command, random.Random(number)))
    else:
        sys.argv = ["plainseam", *command]
        code, raised = _called(main)
    sys.stdout.flush()
    sys.stderr.flush()
    out, err = ((place / name).read_bytes().decode("utf-8", "surrogateescape") for name in ("out", "err"))
    return Ran(code, out, err, raised)


def _called(function: Callable[[], int]) -> tuple[int, BaseException | None]:
    try:
        return function(), None
    except SystemExit as stop:
        return int(stop.code or 0), None
    except BaseException as reason:
        return -1, reason


if __name__ == "__main__":
    serve(Path(sys.argv[1]), float(sys.argv[2]), int(sys.argv[3]))
