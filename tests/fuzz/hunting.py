"""Many cases at once, what was found in them told and kept, each as small as it becomes."""

from __future__ import annotations

import shlex
import threading
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path

from tests.fuzz.cases import Case, case_of
from tests.fuzz.judging import Fault
from tests.fuzz.pool import Worker
from tests.fuzz.shrinking import shrunk
from tests.project.checkout import ROOT

KEPT = ROOT / ".fuzz"
"""Where what was found is kept."""

SAID = 500
"""After so many cases it is said how many there were: who stops a hunt wants to know."""


@dataclass
class Hunt:
    """What came of many cases of a kind."""

    kind: str
    cases: int = 0
    codes: Counter[tuple[str, int]] = field(default_factory=Counter)
    """How often a verb ended with an exit code."""
    longest: float = 0.0
    found: dict[str, tuple[int, Fault]] = field(default_factory=dict)
    """By its key: the first number that has it."""
    times: Counter[str] = field(default_factory=Counter)
    seconds: float = 0.0

    def add(self, number: int, faults: list[Fault], codes: list[tuple[str, int]], longest: float) -> None:
        """What came of one case."""
        self.cases += 1
        self.codes.update(codes)
        self.longest = max(self.longest, longest)
        if self.cases % SAID == 0:
            print(f"{self.kind}: {self.cases} cases so far", flush=True)
        for fault in faults:
            self.times[fault.key] += 1
            if fault.key not in self.found:
                self.found[fault.key] = (number, fault)
                print(f"{self.kind} {number}: {fault.key}", flush=True)

    def __str__(self) -> str:
        lines = [
            f"{self.kind}: {self.cases} cases, {self.codes.total()} commands, longest {self.longest:.1f} s of the "
            f"processor, {len(self.found)} kinds of fault, {self.seconds:.0f} s by the clock"
        ]
        for verb in sorted({verb for verb, _ in self.codes}):
            done, notes, misused = (self.codes[verb, code] for code in (0, 1, 2))
            lines.append(f"    {verb:9}{done:7} done{notes:7} told notes{misused:6} told to be used wrongly")
        return "\n".join(lines)


def hunt(kind: str, first: int, count: int, workers: int = 2) -> Hunt:
    """Run so many cases of a kind from a number on."""
    found, lock, numbers = Hunt(kind), threading.Lock(), iter(range(first, first + count))
    start = time.monotonic()

    def work() -> None:
        with Worker() as worker:
            for number in _each(numbers, lock):
                answer = worker.ask((kind, number))
                with lock:
                    found.add(number, *answer)

    with ThreadPoolExecutor(workers) as pool:
        for done in [pool.submit(work) for _ in range(workers)]:
            done.result()
    found.seconds = time.monotonic() - start
    return found


def _each(numbers: Iterator[int], lock: threading.Lock) -> Iterator[int]:
    while True:
        with lock:
            number = next(numbers, None)
        if number is None:
            return
        yield number


def told(found: Hunt) -> str:
    """The hunt in words, and each fault as small as it becomes, which is also kept in a folder of its own."""
    parts = [str(found)]
    for key, (number, fault) in sorted(found.found.items()):
        case, again = _small(case_of(found.kind, number), fault)
        folder = KEPT / f"{found.kind}-{number}"
        _keep(case, again or fault, folder)
        sure = "" if again else " (not when it is run again alone)"
        parts.append(f"{found.times[key]} x {key}{sure}: python -m tests.fuzz {found.kind} {number}\n{_shown(case)}")
    return "\n\n".join(parts)


def _small(case: Case, fault: Fault) -> tuple[Case, Fault | None]:
    """The case with the one command and few lines, and its fault where it comes again."""
    with Worker() as worker:

        def same(tried: Case) -> Fault | None:
            return next((f for f in worker.ask(tried)[0] if f.key == fault.key), None)

        alone = [case.only(fault.command)] if fault.command >= 0 else [case.only(k) for k in range(len(case.commands))]
        case = next((one for one in alone if same(one)), case)
        again = same(case)
        if again and case.odd:
            tries = 20 if "ended" in fault.key or "too long" in fault.key else 150
            case = case.with_odd(shrunk(case.files[case.odd], lambda data: bool(same(case.with_odd(data))), tries))
        return case, again


def _shown(case: Case) -> str:
    commands = "\n".join("    plainseam " + shlex.join(command) for command in case.commands)
    data = case.files.get(case.odd, b"")
    text = "".join(f"    | {line!r}\n" for line in data[:2500].decode("utf-8", "backslashreplace").split("\n"))
    return f"{commands}\n{text}"


def _keep(case: Case, fault: Fault, folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    for name, data in case.files.items():
        (folder / name).write_bytes(data)
    words = f"{case.kind} {case.number}\n{fault.key}\n\n{_shown(case)}\n{fault.words}\n"
    (folder / "FAULT").write_text(words, encoding="utf-8", errors="backslashreplace")
