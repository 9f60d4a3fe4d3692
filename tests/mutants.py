"""Mutation testing: one small fault at a time in a room of the package, and whether the room's own tests notice.

Run by hand: `python -m tests.mutants --room geometry --count 60 --seed 1`. The faults are made in a copy of the
checkout, and only the tests in `tests/ROOM` are run on each. They are drawn evenly from every place that offers one, by
a hash of the seed, the function and the line: what is edited elsewhere, or moved to another file, leaves the draw as it
is. Words, annotations, decorators and what is raised stay whole, and so do numbers up to a millionth, which only keep
clear of zero. A mutant whose tests take five times as long as without it counts as killed.
"""

from __future__ import annotations

import argparse
import ast
import hashlib
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace
from itertools import islice, pairwise
from pathlib import Path

PACKAGE = "draft"
ROOMS = "geometry,seams,solve,words,fit"
LEFT_OUT = shutil.ignore_patterns(".git", ".venv", "__pycache__", ".hypothesis", ".*_cache")
PATIENCE = 5.0  # times as long as the tests take without a fault
TINY = 1e-6

OPERATORS: dict[type[ast.AST], str] = {
    ast.Add: "+ -", ast.Sub: "- +", ast.Mult: "* /", ast.Div: "/ *", ast.And: "and or", ast.Or: "or and",
    ast.Lt: "< <=", ast.LtE: "<= <", ast.Gt: "> >=", ast.GtE: ">= >", ast.Eq: "== !=", ast.NotEq: "!= ==",
    ast.In: "in not_in", ast.NotIn: "not_in in", ast.Is: "is is_not", ast.IsNot: "is_not is",
}  # fmt: skip
EXTREMES = {"min": "max", "minimum": "maximum", "argmin": "argmax"}
EXTREMES |= {largest: least for least, largest in EXTREMES.items()}
OPTIONAL = {"axis", "default", "initial", "key", "reverse"}  # that others' functions can do without
WHOLE = ("annotation", "returns", "decorator_list", "msg")  # parts of a node that stay as they are

Edit = tuple[str, int, int, str]  # the kind of fault, and what to write between two bytes


@dataclass(frozen=True)
class Mutant:
    """A fault, and once its tests have run what came of it and the first that failed."""

    room: str
    file: str
    line: int
    function: str
    kind: str
    before: str
    after: str
    start: int
    end: int
    text: str
    outcome: str = ""
    by: str = ""
    seconds: float = 0.0

    def harmed(self, source: bytes) -> bytes:
        """The source of its file with the fault in it."""
        return source[: self.start] + self.text.encode() + source[self.end :]

    def __str__(self) -> str:
        head = f"{self.outcome} {self.file}:{self.line} {self.function} ({self.kind}) {self.by}".strip()
        return f"{head}\n    - {self.before}\n    + {self.after}"


def nodes(node: ast.AST, function: str = "") -> Iterator[tuple[ast.AST, str]]:
    """All nodes that may be changed, each with the function that it stands in."""
    yield node, function
    if isinstance(node, ast.FunctionDef | ast.ClassDef):
        function = f"{function}.{node.name}".lstrip(".")
    for name, value in ast.iter_fields(node):
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST) and name not in WHOLE and not isinstance(child, ast.Raise | ast.JoinedStr):
                yield from nodes(child, function)


class Faults:
    """What could be changed in the text of a module."""

    def __init__(self, text: bytes, optional: set[str]) -> None:
        self.text, self.optional = text, optional
        lines = text.split(b"\n")
        self._starts = [sum(len(line) + 1 for line in lines[:k]) for k in range(len(lines))]

    def _span(self, node: ast.expr | ast.stmt | ast.keyword) -> tuple[int, int]:
        last, column = node.end_lineno or node.lineno, node.end_col_offset or node.col_offset
        return self._starts[node.lineno - 1] + node.col_offset, self._starts[last - 1] + column

    def _between(self, left: ast.expr, op: ast.AST, right: ast.expr) -> Iterator[Edit]:
        old, new = (operator.replace("_", " ") for operator in OPERATORS.get(type(op), "? ?").split())
        at = self.text.find(old.encode(), self._span(left)[1], self._span(right)[0])
        if at >= 0 and not any(isinstance(side, ast.JoinedStr) for side in (left, right)):
            yield f"{old} to {new}", at, at + len(old), new

    def at(self, node: ast.AST) -> Iterator[Edit]:  # noqa: C901, PLR0912 - one branch for each kind of place
        """Every fault that begins at a node."""
        match node:
            case ast.BinOp(left, op, right):
                yield from self._between(left, op, right)
            case ast.AugAssign(left, op, right) as statement:
                yield from self._between(left, op, right)
                yield "statement removed", *self._span(statement), "pass"
            case ast.Expr(ast.Call()) as statement:
                yield "statement removed", *self._span(statement), "pass"
            case ast.Compare(first, ops, others):
                for (left, right), compared in zip(pairwise([first, *others]), ops, strict=True):
                    yield from self._between(left, compared, right)
            case ast.BoolOp(joined, values):
                for left, right in pairwise(values):
                    yield from self._between(left, joined, right)
            case ast.UnaryOp(ast.Not()) as negated:
                yield "not removed", self._span(negated)[0], self._span(negated)[0] + len("not"), ""
            case ast.Return(ast.Compare() | ast.BoolOp() | ast.Call(ast.Name("bool" | "any" | "all")) as value):
                start, end = self._span(value)
                yield "return negated", start, end, f"not ({self.text[start:end].decode()})"
            case (ast.Name(name) | ast.Attribute(_, name)) as called if name in EXTREMES:
                end = self._span(called)[1]
                yield f"{name} to {EXTREMES[name]}", end - len(name), end, EXTREMES[name]
            case ast.Constant(bool(truth)):
                yield "truth", *self._span(node), str(not truth)
            case ast.Constant(int(number)):
                yield "number", *self._span(node), str(number + 1)
            case ast.Constant(float(number)) if not 0 < number <= TINY:
                yield "number", *self._span(node), repr(number * 1.5 or 1.0)
            case ast.Subscript(_, index):
                for part in index.elts if isinstance(index, ast.Tuple) else [index]:
                    for place in [part.lower, part.upper] if isinstance(part, ast.Slice) else [part]:
                        if place and ast.unparse(place) in ("0", "-1"):
                            yield "first to last", *self._span(place), "-1" if ast.unparse(place) == "0" else "0"
            case ast.Call(_, args, keywords):
                spans = sorted([*map(self._span, args), *map(self._span, keywords)])
                dropped = {self._span(k) for k in keywords if k.arg in self.optional and not _is_text(k.value)}
                for before, own in zip([None, *spans], spans, strict=False):
                    if own in dropped:
                        yield "argument dropped", before[1] if before else own[0], own[1], ""


def _is_text(node: ast.expr) -> bool:
    return isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Constant) and isinstance(node.value, str))


def optional_arguments(package: Path) -> set[str]:
    """The names of all arguments and fields that have a default."""
    found = set(OPTIONAL)
    for node in (node for path in package.rglob("*.py") for node in ast.walk(ast.parse(path.read_bytes()))):
        if isinstance(node, ast.arguments):
            placed = [*node.posonlyargs, *node.args][::-1]
            found |= {arg.arg for arg, _ in zip(placed, node.defaults, strict=False)}
            found |= {arg.arg for arg, default in zip(node.kwonlyargs, node.kw_defaults, strict=True) if default}
        elif isinstance(node, ast.AnnAssign) and node.value and isinstance(node.target, ast.Name):
            found.add(node.target.id)
    return found


def mutants(checkout: Path, room: str, seed: int) -> Iterator[Mutant]:
    """All mutants of a room that read unlike it and each other, in the order of the draw."""
    optional, seen = optional_arguments(checkout / PACKAGE), Counter[str]()
    drawn: list[tuple[str, Mutant]] = []
    for path in sorted((checkout / PACKAGE / room).rglob("*.py")):
        file, text = path.relative_to(checkout).as_posix(), path.read_bytes()
        faults = Faults(text, optional)
        for node, function in nodes(ast.parse(text)):
            for kind, start, end, new in faults.at(node):
                line = text.count(b"\n", 0, start)
                mutant = Mutant(room, file, line + 1, function, kind, "", "", start, end, new)
                before, after = (t.split(b"\n")[line].decode().strip() for t in (text, mutant.harmed(text)))
                name = f"{seed} {room} {function} {before} to {after}"
                seen[name] += 1
                place = hashlib.sha256(f"{name} {seen[name]}".encode()).hexdigest()
                drawn.append((place, replace(mutant, before=before, after=after)))
    known: set[tuple[str, str]] = set()
    for _, mutant in sorted(drawn, key=lambda each: each[0]):
        text = (checkout / mutant.file).read_bytes()
        try:
            was, now = (ast.dump(ast.parse(t)) for t in (text, mutant.harmed(text)))
        except SyntaxError:
            continue
        if now != was and (mutant.file, now) not in known:
            known.add((mutant.file, now))
            yield mutant


class Scratch:
    """A copy of a checkout whose package is what its tests import."""

    def __init__(self, checkout: Path, folder: Path) -> None:
        self.root = (folder / "checkout").resolve()
        shutil.copytree(checkout, self.root, ignore=LEFT_OUT)
        # Compiled within the same second, a module would hide its fault; under CI hypothesis draws the same each time.
        self.env = {**os.environ, "PYTHONPATH": str(self.root), "PYTHONDONTWRITEBYTECODE": "1", "CI": "1"}
        command = [sys.executable, "-c", f"import {PACKAGE}; print({PACKAGE}.__file__)"]
        found = subprocess.run(command, cwd=self.root, env=self.env, check=True, capture_output=True, text=True).stdout
        if not Path(found.strip()).resolve().is_relative_to(self.root):
            raise SystemExit(f"the tests would import {found.strip()}, not the copy")

    def test(self, room: str, stem: str = "", seconds: float | None = None) -> tuple[str, str, float]:
        """What came of a room's tests, those of a module first; the first that failed; and the seconds it took."""
        files = sorted((self.root / "tests" / room).rglob("test_*.py"), key=lambda path: _distance(path, stem))
        command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", "--tb=no", "-rfE"]
        begun = time.monotonic()
        run = subprocess.Popen(
            [*command, *map(str, files)], cwd=self.root, env=self.env, text=True, start_new_session=True,
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
        )  # fmt: skip
        try:
            said, outcome = run.communicate(timeout=seconds)[0], "killed" if run.returncode else "survived"
        except subprocess.TimeoutExpired:
            os.killpg(run.pid, signal.SIGKILL)
            said, outcome = run.communicate()[0], "timed out"
        failed = re.search(r"^(?:FAILED|ERROR) (.+?)(?: - |$)", said, re.MULTILINE)
        return outcome, failed[1] if failed else "", round(time.monotonic() - begun, 1)

    def tried(self, mutant: Mutant, seconds: float) -> Mutant:
        """A mutant once its tests have run."""
        path = self.root / mutant.file
        text = path.read_bytes()
        path.write_bytes(mutant.harmed(text))
        outcome, by, took = self.test(mutant.room, path.stem, seconds)
        path.write_bytes(text)
        return replace(mutant, outcome=outcome, by=by, seconds=took)


def _distance(path: Path, stem: str) -> tuple[bool, bool, str]:
    """Tests named after a module come first, then those that speak of it."""
    return stem not in path.stem, re.search(rf"\b{stem}\b", path.read_text(encoding="utf-8")) is None, path.name


def summary(tried: list[Mutant]) -> str:
    """A line for each room, and one for all."""
    lines = []
    for room in [*dict.fromkeys(mutant.room for mutant in tried), ""]:
        count = Counter(mutant.outcome for mutant in tried if room in ("", mutant.room))
        killed, total = count.total() - count["survived"], count.total()
        share = f"{killed:3} of {total:3} killed, {killed / max(total, 1):4.0%}"
        lines.append(f"{room or 'all':9} {share} ({count['timed out']} out of time)")
    return "\n".join(lines)


def main() -> None:
    """Try the mutants that were asked for, and say what came of each."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--checkout", type=Path, default=Path(__file__).resolve().parents[1], help="what to try")
    parser.add_argument("--rooms", "--room", default=ROOMS, help=f"by default {ROOMS}")
    parser.add_argument("--count", type=int, default=60, help="mutants a room (60)")
    parser.add_argument("--seed", type=int, default=1, help="of the draw (1)")
    parser.add_argument("--json", type=Path, help="a file for all results")
    options = parser.parse_args()
    tried: list[Mutant] = []
    with tempfile.TemporaryDirectory() as folder:
        scratch = Scratch(options.checkout, Path(folder))
        for room in options.rooms.split(","):
            outcome, by, clean = scratch.test(room)
            if outcome != "survived":
                raise SystemExit(f"the tests of {room} fail without a fault: {by}")
            print(f"{room}: its tests take {clean} s", flush=True)
            for mutant in islice(mutants(options.checkout, room, options.seed), options.count):
                tried.append(scratch.tried(mutant, PATIENCE * clean))
                print(tried[-1], flush=True)
                if options.json:
                    found = {"seed": options.seed, "mutants": [asdict(each) for each in tried]}
                    options.json.write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8")
    print(summary(tried))


if __name__ == "__main__":
    main()
