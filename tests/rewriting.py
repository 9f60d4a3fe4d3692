"""Expected files written anew, each told of: one that says less than before may have lost what a test was for."""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from pathlib import Path


@dataclass
class Rewriting:
    """Writes expected files where that is asked for, and keeps how many lines each had before, None for a new one."""

    asked: bool
    before: dict[Path, int | None] = field(default_factory=dict)

    def __call__(self, path: Path, text: str) -> None:
        """Write a file, if it is asked for and the file does not say that already."""
        kept = path.read_text(encoding="utf-8") if path.exists() else None
        if self.asked and text != kept:
            path.write_text(text, encoding="utf-8", newline="\n")
            self.before.setdefault(path, None if kept is None else len(kept.splitlines()))

    def report(self, root: Path) -> list[tuple[str, bool]]:
        """A line for each file that was written, and whether it is to be loud; those that became shorter come last."""
        said = [(f"{os.path.relpath(path, root)}: {change}", loud) for path, (change, loud) in self._changes().items()]
        if any(loud for _, loud in said):
            said.append(("what a shorter file no longer says, no test expects any more: read what is gone", True))
        return sorted(said, key=lambda line: line[1]) or [("none has changed", False)]

    def _changes(self) -> dict[Path, tuple[str, bool]]:
        found = {}
        for path, before in sorted(self.before.items()):
            after = len(path.read_text(encoding="utf-8").splitlines())
            found[path] = ("new", False) if before is None else (_change(after - before), after < before)
        return found


def _change(more: int) -> str:
    lines = "1 line" if abs(more) == 1 else f"{abs(more)} lines"
    return f"SHORTER BY {lines.upper()}" if more < 0 else f"longer by {lines}" if more else "as long as before"
